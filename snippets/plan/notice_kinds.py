"""Every kind of notice: the published form, what it means, what to plan, whether the controller tells it."""

from lpv.plan.notices import KINDS, read_notice
from lpv_site.checks.checks import results
from lpv_site.pages.plan_sheet import notice_words
from lpv_site.pages.reference_pages import source_text
from lpv_site.text.text import escape

published = [result.case for result in results() if result.case.function == "lpv.plan.notices.kind_name"]
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
