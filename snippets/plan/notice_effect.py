"""What each published form of notice leaves of the first scenario's approach on a day of fine weather."""

from lpv.plan.case import in_fine_weather
from lpv.plan.lines import SURE, usable
from lpv_site.pages.notice_pages import name_words, published_forms
from lpv_site.pages.plan_sheet import example_case
from lpv_site.text.shown import Shown
from lpv_site.text.table import table
from lpv_site.text.text import escape

NOT_UNDERSTOOD = "WAAS MAY"


def show() -> Shown:
    """A table: the notice, the best line to plan on, and the lines that are left if they are announced."""
    rows = [_row("no notice", []), *(_row(name_words(kind), [text]) for kind, text in published_forms().items())]
    rows += [_row("chart marked: no site notices", [], True), _row("not understood", [NOT_UNDERSTOOD])]
    who, aircraft = example_case().approach.identity, example_case().aircraft.type
    head = f"{escape(who.airport)} {escape(who.title)}, {escape(aircraft.name)}, fine weather:"
    return Shown(f"{head}\n\n{table(['notice', 'plan on', 'only if annunciated'], rows)}")


def _row(name: str, texts: list[str], marked: bool = False) -> tuple[str, str, str]:
    lines = usable(in_fine_weather(example_case(), texts, marked))
    sure = next((line.line for line in lines if line.key in SURE), "none")
    doubtful = dict.fromkeys(line.line for line in lines if line.key == "line-uncertain")
    return name, f"**{sure}**", "<br>".join(doubtful)
