"""What the reader makes of notices as they are written: contractions, times, areas, and what it does not know."""

from lpv.plan.notices import effect_words, reading
from lpv.plan.schema import NoticeText
from lpv_site.pages.notice_pages import name_words
from lpv_site.pages.plan_sheet import example_case
from lpv_site.text.shown import Shown
from lpv_site.text.table import stacked
from lpv_site.text.text import escape, verbatim

# Of the example's airport, procedure and day; all of them invented.
TEXTS = (
    "!FDC 6/4321 {airport} IAP {name}. {title}, AMDT 1... LPV DA NA ALL CATS. {day}1200-PERM",
    "!FDC 6/4321 {airport} IAP {name}. {title}, AMDT 1... LNAV MDA 560/HAT 536 ALL CATS. {day}1200-PERM",
    "!GPS 12/011 ZAN NAV GPS MAY NOT BE AVBL WI A 50NM RADIUS OF 0000N00000E SFC-UNL DLY 0200-0800 {day}0000-{day}2359",
    "!GPS 12/012 GPS NAV PRN 25 U/S {day}0000-{day}2359",
    "A1234/26 NOTAMN A) ZZXX B) {day}0000 C) {day}2359 EST E) EGNOS UNREL",
    "!FDC FDC NAV WAAS LPV MINIMA MAY NOT BE",
    "!FDC FDC NAV SBAS REDUCED WHEN NOBODY LOOKS",
    "!{airport} 12/014 {airport} TWY A CLSD {day}0000-{day}2359",
)


def show() -> Shown:
    """One block a notice: what kind it is, and what it does to the lines of the example."""
    case = example_case()
    who, eta = case.approach.identity, case.scenario.flight.eta
    values = {"airport": who.airport, "name": who.airport_name.upper(), "title": who.title, "day": f"{eta:%y%m%d}"}
    entries = []
    for text in TEXTS:
        notice = NoticeText(text=text.format(**values))
        effect = reading(case, notice, "destination")
        words = f"not understood: {', '.join(effect.unread)}" if effect.in_doubt and effect.unread else ""
        pairs = [("kind", name_words(effect.notice.kind)), ("effect", effect_words(effect)), ("words", words)]
        kept = [(name, escape(text)) for name, text in pairs if text]
        entries.append((f"<code>{verbatim(notice.text)}</code>", kept))
    return Shown(stacked(entries))
