"""Every kind of notice: the published form, what it means, what to plan, whether the controller tells it."""

from lpv.notices import KINDS, read_notice
from render.checks import results
from render.plan_sheet import notice_words
from render.reference_pages import source_text
from render.table import stacked
from render.text import escape

published = [result.case for result in results() if result.case.function == "lpv.notices.kind_name"]
forms = {read_notice(case.arguments["text"]).kind.name: case for case in published}
entries = []
for kind in KINDS:
    case = forms.get(kind.name)
    entries.append(
        (
            escape(notice_words(kind)),
            [
                ("form", f"<code>{escape(case.arguments['text'])}</code>" if case else ""),
                ("means", escape(kind.means)),
                ("<b>plan</b>", f"<b>{escape(kind.plan)}</b>"),
                ("told", escape(kind.told)),
                ("source", escape(f"{source_text(case.source)}, {kind.place}") if case else escape(kind.place)),
            ],
        )
    )
print(stacked(entries))
