"""The items of the set-up check by hand: what each is compared with, and what the check says when it differs."""

from lpv.core import airac
from lpv.core.findings import worst
from lpv.drill.case import but
from lpv.modes.rules import usual_rules
from lpv.setup.checks import check
from lpv.setup.radio import localizer_channels
from lpv.setup.records import Line, Setup, Side, Wanted
from lpv_site.text.findings import MARKS
from lpv_site.text.table import table

CYCLE = "2612"
LPV, LOWER, LNAV = Line("LPV", "DA", 250.0), Line("LNAV/VNAV", "DA", 400.0), Line("LNAV", "MDA", 520.0)
wanted = Wanted("RNAV", 99999, "W09A", 90.0, CYCLE, "LPV", [LPV, LOWER, LNAV], 3000.0, 50.0)
left, right = (
    Side(name, wanted.title, 99999, "W09A", "SBAS", [], 90.0, 1013.0, "LPV", LPV.kind, LPV.altitude_ft, 3000.0)
    for name in ("left", "right")
)
good = Setup("left", left, right, airac.effective_ordinal(CYCLE), CYCLE, "hPa", 1013.0, None, True, 1.0, 60.0)


def side(**changes: object) -> dict[str, object]:
    return {"left": but(left, **changes)}


ITEMS = (
    ("data cycle", "today; the chart", {"day": airac.expiry_ordinal(CYCLE)}),
    ("procedure", "the chart's title", side(title="another")),
    ("channel", "the chart", side(channel=99998)),
    ("identifier", "the chart", side(path_id="W09B")),
    ("source", "SBAS", side(source="FMS lateral navigation")),
    ("frequencies", "no localizer", side(tuned_mhz=[localizer_channels()[0]])),
    ("course", "the chart", side(course_deg=180.0)),
    ("altimeter", "the report", side(altimeter=1014.0)),
    ("level lower", "the best line", side(level=LOWER.name, minimum_ft=LOWER.altitude_ft)),
    ("level none", "the best line", side(level="none")),
    ("MDA for a DA", "the line's kind", side(minimum_kind="MDA")),
    ("DA for an MDA", "the line's kind", side(level=LNAV.name, minimum_ft=LNAV.altitude_ft)),
    ("minimum too low", "line, floor, cold", side(minimum_ft=LPV.altitude_ft - 1.0)),
    ("minimum higher", "line, floor, cold", side(minimum_ft=LPV.altitude_ft + 1.0)),
    ("missed approach altitude", "the chart, cold", side(missed_altitude_ft=2000.0)),
    ("arming", "close, toward it", {"across_nm": 10.0}),
    ("left and right", "each other", None),
)
KEPT = usual_rules(selector_after_power="stays")
assert worst(check(good, wanted)) == "ok"
rows = []
for item, compared, changes in ITEMS:
    found = check(but(good, **(changes or side(channel=99998))), wanted)
    grade = worst([row for row in found if (row.key == "set-sides") == (changes is None)])
    rows.append((item, compared, f"{MARKS[grade]}\u00a0{grade}"))
grade = worst(check(good, wanted, KEPT))
rows.append(("selector without power", "the flight manual", f"{MARKS[grade]}\u00a0{grade}"))
print(table(["item", "compare with", "if it differs"], rows, left=3))
