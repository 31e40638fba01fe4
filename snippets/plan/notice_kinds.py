"""Every kind of notice: the published form, what it means, what to plan, whether the controller tells it."""

from lpv.notices import KINDS, read_notice
from render.checks import results
from render.plan_sheet import notice_words
from render.reference_pages import source_text
from render.text import escape

published = [result.case for result in results() if result.case.function == "lpv.notices.kind_name"]
forms = {read_notice(case.arguments["text"]).kind.name: case for case in published}
for kind in KINDS:
    case = forms.get(kind.name)
    words = notice_words(kind)
    print(f"**{escape(words[:1].upper() + words[1:])}**\n")
    if case is not None:
        print(f"<code>{escape(case.arguments['text'])}</code>\n")
    print(f"{escape(kind.means)} **{escape(kind.plan)}** {escape(kind.told)}\n")
    if kind.place:
        source = source_text(case.source if case is not None else published[0].source)
        print(f"{escape(source)}, {escape(kind.place)}.\n")
