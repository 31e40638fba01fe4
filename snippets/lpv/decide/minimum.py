"""The minimum to set for a line, and what made it: printed, additions of the day, operator's floors, cold.

One function answers for plan, briefing, card, form, set-up check, drill, simulation and recording: `minimum`.
`approach` and `operator` are records, or the same from their JSON form (`lpv.core.record`).
"""

from lpv.core.errors import DomainError, in_range
from lpv.core.text import quantity
from lpv.core.units import FT_PER_SM
from lpv.decide.cold import Cold, altitude_addition_ft, cold, missed_addition_ft
from lpv.decide.lines import row_for
from lpv.decide.visibility import printed_visibility, visibility_for_rvr_sm
from lpv.facts import value

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lpv.aircraft.schema import Operator
    from lpv.approach.record import Approach
    from lpv.approach.schema import Minima


class Day:
    """What the day adds to a printed minimum.

    temperature_c:         reported at the airport, None where it is not stated
    cold_segments:         segments that the FAA's list of cold temperature airports marks, () for all
    remote_addition_ft:    printed for a remote altimeter setting, 0 to 2000
    visibility_addition_sm: asked by a note, 0 to 10
    zone_not_clear:        whether the precision obstacle free zone is not clear
    """

    def __init__(
        self, temperature_c: "float | None" = None, cold_segments: "tuple[str, ...]" = (),
        remote_addition_ft: float = 0.0, visibility_addition_sm: float = 0.0, zone_not_clear: bool = False,
    ) -> None:
        self.temperature_c, self.cold_segments = temperature_c, tuple(cold_segments)
        self.remote_addition_ft = in_range("remote altimeter addition", remote_addition_ft, 0.0, 2000.0, "ft")
        self.visibility_addition_sm = in_range("visibility addition", visibility_addition_sm, 0.0, 10.0, "SM")
        self.zone_not_clear = zone_not_clear


class Minimum:
    """The minimum of one line for one category.

    row:         the chart's row that binds;  line, kind: LPV, DA
    altitude_ft: to set;  cold_ft: the part of it that cold adds
    height_ft:   above touchdown (circling: above the airport), truly: without the part that cold adds
    open_ft:     what cold would add where nobody has decided (see `Cold`), else 0
    reason:      what made it, in words;  grade: ok, or that of the question that is open;  cold: the decision
    """

    def __init__(
        self, row: "Minima", altitude_ft: float, height_ft: float, reason: str, decision: Cold, cold_ft: float,
        open_ft: float,
    ) -> None:
        self.row, self.line, self.kind = row, row.line, row.kind
        self.altitude_ft, self.height_ft, self.reason = altitude_ft, height_ft, reason
        self.cold, self.cold_ft, self.open_ft = decision, cold_ft, open_ft
        self.grade = "ok" if decision.grade == "note" else decision.grade


def minimum(
    approach: "Approach", line: str, category: "str | None" = None, operator: "Operator | None" = None,
    day: "Day | None" = None,
) -> "Minimum | None":
    """The minimum of a line for a category; without a category that of the highest row.  None without such a row."""
    row = row_for(approach, line, category)
    return None if row is None else minimum_of_row(approach, row, operator, day)


def minimum_of_row(
    approach: "Approach", row: "Minima", operator: "Operator | None" = None, day: "Day | None" = None,
) -> Minimum:
    """The minimum of one row of the chart.

    The highest of: printed, with the addition printed for a remote altimeter setting; the operator's lowest DA above
    touchdown; 250 ft above touchdown while the precision obstacle free zone is not clear (DA only, AIM 5-4-20.b.2).
    On top, since all of these are read on the altimeter: the cold correction of that altitude.  On top of an MDA: what
    the operator adds, so that a go-around does not go below it.
    DomainError for a minimum below its touchdown zone or more than 5000 ft above it, or values outside the tables.
    """
    day = day or Day()
    base_ft = base_of_heights_ft(approach, row)
    in_range("minimum", row.altitude_ft, base_ft, base_ft + 5000.0, "ft")
    altitude_ft, reason = _before_cold(row, base_ft, operator, day)
    decision = cold(approach, day.temperature_c, operator, day.cold_segments)
    amount_ft = 0.0
    if day.temperature_c is not None and (decision.corrects("final") or decision.questions("final")):
        amount_ft = altitude_addition_ft(approach, altitude_ft, day.temperature_c)
    cold_ft = amount_ft if decision.corrects("final") else 0.0
    reason += ", plus cold correction" if cold_ft else ""
    above_ft = operator.above_mda_ft if operator and row.kind == "MDA" else 0.0
    reason += f", plus the operator's {quantity(above_ft, 'ft')} above an MDA" if above_ft else ""
    return Minimum(row, altitude_ft + cold_ft + above_ft, altitude_ft + above_ft - base_ft, reason, decision, cold_ft,
                   amount_ft - cold_ft)


def _before_cold(row: "Minima", base_ft: float, operator: "Operator | None", day: Day) -> "tuple[float, str]":
    """The highest of the altitudes that bind, and which it is; of equal ones the first."""
    remote = " with the remote altimeter setting" if day.remote_addition_ft else ""
    altitude_ft, reason = row.altitude_ft + day.remote_addition_ft, "printed minimum" + remote
    if row.kind == "DA":
        floors = [(operator.lowest_da_above_tdze_ft, "operator's lowest height above touchdown")] if operator else []
        if day.zone_not_clear:
            floors.append((value("pofz_lowest_hat_ft"), "precision obstacle free zone not clear"))
        for height_ft, why in floors:
            if base_ft + height_ft > altitude_ft:
                altitude_ft, reason = base_ft + height_ft, why
    return altitude_ft, reason


def base_of_heights_ft(approach: "Approach", row: "Minima") -> float:
    """What heights of a row count from: the airport for circling, else the touchdown zone, or the threshold."""
    chart = approach.chart
    return chart.airport_elevation_ft if row.line == "circling" else chart.touchdown_zone_ft


class MissedAltitude:
    """The altitude to set for the missed approach: charted, to set, what cold adds or would add, the decision."""

    def __init__(self, charted_ft: float, cold_ft: float, open_ft: float, decision: Cold) -> None:
        self.charted_ft, self.altitude_ft, self.cold_ft = charted_ft, charted_ft + cold_ft, cold_ft
        self.open_ft, self.cold = open_ft, decision
        self.grade = "ok" if decision.grade == "note" else decision.grade


def missed_altitude(
    approach: "Approach", operator: "Operator | None" = None, day: "Day | None" = None,
) -> "MissedAltitude | None":
    """The altitude to set for the missed approach; None where the file holds no missed approach."""
    missed, day = approach.chart.missed, day or Day()
    if missed is None:
        return None
    decision = cold(approach, day.temperature_c, operator, day.cold_segments)
    amount_ft = 0.0
    if day.temperature_c is not None and (decision.corrects("missed") or decision.questions("missed")):
        amount_ft = missed_addition_ft(approach, missed.altitude_ft, day.temperature_c)
    cold_ft = amount_ft if decision.corrects("missed") else 0.0
    return MissedAltitude(missed.altitude_ft, cold_ft, amount_ft - cold_ft, decision)


class Visibility:
    """The visibility that is asked, in statute miles, and what made it."""

    def __init__(self, visibility_sm: float, reason: str) -> None:
        self.visibility_sm, self.reason = visibility_sm, reason


def visibility(
    row: "Minima", operator: "Operator | None" = None, day: "Day | None" = None, rule: str = "FAA",
) -> Visibility:
    """The visibility that a row asks; `rule` says whose chart it is, since tables of one State read no other's RVR.

    The highest of: printed, with what a note adds; the operator's lowest; 3/4 SM while the precision obstacle free
    zone is not clear (DA only, AIM 5-4-20.b.2).  A cold correction leaves it alone (AIM 7-3-5.d).
    DomainError where the chart prints none, or outside the tables.
    """
    day = day or Day()
    addition = " with its addition" if day.visibility_addition_sm else ""
    miles, reason = printed_visibility_sm(row, rule) + day.visibility_addition_sm, _printed(row, rule) + addition
    floors = [(operator.lowest_visibility_sm, "operator's lowest visibility")] if operator else []
    if day.zone_not_clear and row.kind == "DA":
        floors.append((value("pofz_lowest_visibility_sm"), "precision obstacle free zone not clear"))
    for lowest_sm, why in floors:
        if lowest_sm > miles:
            miles, reason = lowest_sm, why
    return Visibility(miles, reason)


def _printed(row: "Minima", rule: str) -> str:
    printed = printed_visibility(row)
    if printed is not None and not printed.is_rvr:
        return "printed visibility"
    return "printed RVR by the table of 14 CFR 91.175(h)" if rule == "FAA" else "printed RVR, as a visibility"


def printed_visibility_sm(row: "Minima", rule: str = "FAA") -> float:
    """The printed visibility in SM, 0 to 10.  DomainError outside, and where none is printed.

    RVR on a chart of the FAA by the table of 14 CFR 91.175(h); on any other chart the same length as a visibility.
    """
    printed = printed_visibility(row)
    if printed is None:
        raise DomainError(f"line {row.line}: found no visibility; allowed: one of visibility and RVR.")
    if printed.is_rvr and rule == "FAA":
        return visibility_for_rvr_sm(printed.length_ft)
    if printed.unit == "SM":
        return in_range("visibility", printed.size, 0.0, 10.0, "SM")
    return printed.length_ft / FT_PER_SM
