"""The items of the set-up check by hand: what each is compared with, and what the check says when it differs."""

from functools import partial

from lpv.core import airac
from lpv.core.findings import Finding, worst
from lpv.drill.base import base_case
from lpv.drill.case import Case, Pick, with_setup, with_sides
from lpv.modes.rules import USUAL_SOURCES, Rules, Source, usual_rules
from lpv.setup.checks import check
from lpv.setup.expected import Expected
from lpv.setup.radio import localizer_channels
from lpv.setup.sources import kept_selected
from lpv_site.department.data import example, example_aircraft
from lpv_site.text.findings import MARKS
from lpv_site.text.shown import Shown
from lpv_site.text.table import ALL_LEFT, table

ON_ONE_SIDE, WRONG_CHANNEL = ("left",), 40000


def differing(case: Case) -> dict[str, tuple[str, Case]]:
    """Item of the check -> (what it is compared with, the good set-up with this item otherwise)."""
    left, lnav = case.setup.left, case.expected.minimum("LNAV", case.setup)
    lower_ft = lnav.altitude_ft if lnav else None
    side = partial(with_sides, case, ON_ONE_SIDE)
    return {
        "data cycle": ("today; the chart", with_setup(case, day=airac.expiry_ordinal(str(case.setup.cycle)))),
        "procedure": ("the chart's title", side(title="another")),
        "channel": ("the chart", side(channel=WRONG_CHANNEL)),
        "identifier": ("the chart", side(path_id="W99Z")),
        "source": ("SBAS", side(source="FMS lateral navigation")),
        "frequencies": ("no localizer", side(tuned_mhz=[min(localizer_channels())])),
        "course": ("the chart", side(course_deg=case.setup.previous_course_deg)),
        "altimeter, a tenth off": ("the report", side(altimeter=_tenth_off(case))),
        "level lower": ("the best line", side(level="LNAV", minimum_kind="MDA", minimum_ft=lower_ft)),
        "level none": ("the best line", side(level="none")),
        "MDA for a DA": ("the line's kind", side(minimum_kind="MDA")),
        "minimum too low": ("line, floor, cold", side(minimum_ft=required(left.minimum_ft) - 100.0)),
        "minimum higher": ("line, floor, cold", side(minimum_ft=required(left.minimum_ft) + 1.0)),
        "missed approach": ("the chart, cold", side(missed_altitude_ft=required(left.missed_altitude_ft) - 400.0)),
        "arming": ("close, toward it", with_setup(case, across_nm=10.0)),
    }


def required(value: float | None) -> float:
    """A value that the good set-up has."""
    return float("nan") if value is None else value


def _tenth_off(case: Case) -> float:
    return required(case.setup.reported) + (0.1 if case.setup.altimeter_unit == "inHg" else 3.0)


def grade(findings: list[Finding]) -> str:
    """The most serious grade with its mark."""
    name = worst(findings)
    return f"{MARKS[name]}\u00a0{name}"


def show() -> Shown:
    """A row for each item."""
    good = base_case(example(), example_aircraft(), Pick("by hand"))
    if worst(check(good.setup, good.expected)) not in ("ok", "note"):
        raise ValueError("the set-up that every row differs from has findings of its own")
    rows = []
    for item, (compared, case) in differing(good).items():
        findings = [row for row in check(case.setup, case.expected) if row.key != "set-sides"]
        rows.append((item, compared, grade(findings)))
    split = check(with_sides(good, ON_ONE_SIDE, channel=WRONG_CHANNEL).setup, good.expected)
    rows.append(("left and right", "each other", grade([row for row in split if row.key == "set-sides"])))
    kept = kept_selected(good.setup, _Staying(good.approach))
    rows.append(("selector without power", "the flight manual", grade(kept)))
    return Shown(table(["item", "compare with", "if it differs"], rows, left=ALL_LEFT))


class _Staying(Expected):
    """A type whose selector survives the removal of power."""

    @property
    def rules(self) -> Rules:
        """The usual ones, but for that."""
        return usual_rules(sources=(Source("SBAS", selected_by=("its control",)), *USUAL_SOURCES[1:]))
