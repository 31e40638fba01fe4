"""What the reader makes of notices that are written another way, cut, taken back or unheard of."""

from lpv.plan.notices import NOT_KNOWN, read_notice
from lpv_site.pages.plan_sheet import notice_words
from lpv_site.text.table import table
from lpv_site.text.text import escape

TEXTS = (
    "!fdc fdc nav waas not avbl",
    "!FDC 6/1234 FDC NAV WAAS NOT AVAILABLE",
    "!FDC FDC NAV WAAS LPV MINIMA MAY NOT BE",
    "!FDC FDC NAV WAAS NOT AVBL CNL",
    "!FDC FDC NAV SBAS REDUCED",
)
rows = []
for text in TEXTS:
    kind = read_notice(text).kind
    words = notice_words(kind)
    rows.append((f"<code>{escape(text)}</code>", f"**{words}**" if kind is NOT_KNOWN else words))
print(table(["notice", "read as"], rows))
