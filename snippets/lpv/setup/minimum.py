"""The minimum and the missed approach altitude of the set-up check, cold corrections included."""

from lpv.air.altimetry import minimum_addition_ft, segment_addition_ft
from lpv.core.findings import Finding
from lpv.crosscheck.statements import ft
from lpv.modes.rules import Rules
from lpv.setup.records import Line, Setup, Side, Wanted
from lpv.setup.statements import agrees, differs

# Altitudes are set in whole feet.
NEAR_FT = 0.5


def is_cold(setup: Setup, wanted: Wanted) -> bool:
    """Whether altitudes are corrected for cold: reported temperature at or under the chart's (AIM 7-3-5.b, FAA)."""
    return wanted.cold_c is not None and setup.temperature_c is not None and setup.temperature_c <= wanted.cold_c


def cold_minimum_addition_ft(line: Line, setup: Setup, wanted: Wanted) -> float:
    """What cold adds to a minimum, ft; 0 where nothing is corrected (AIM 7-3-5.e, FAA)."""
    if setup.temperature_c is None or not is_cold(setup, wanted):
        return 0.0
    return minimum_addition_ft(line.altitude_ft - wanted.airport_elevation_ft, setup.temperature_c)


def needed_minimum_ft(line: Line, setup: Setup, wanted: Wanted) -> float:
    """The minimum to set for a line, ft: the chart's with the operator's floor or addition and the cold correction.

    The floor is for a DA; to an MDA the operator adds what a go-around takes.
    """
    altitude_ft = line.altitude_ft
    if line.kind == "MDA":
        altitude_ft += wanted.above_mda_ft
    elif wanted.lowest_da_ft is not None:
        altitude_ft = max(altitude_ft, wanted.lowest_da_ft)
    return altitude_ft + cold_minimum_addition_ft(line, setup, wanted)


def kind_of_minimum(side: Side, setup: Setup, wanted: Wanted, rules: Rules) -> "list[Finding]":
    """The minimum is set as the kind that the line has: DA or MDA."""
    line = wanted.line(side.level)
    if line is None:
        return []
    what = "minimum set as " + side.minimum_kind
    chart = line.kind + " on the line " + line.name
    if side.minimum_kind == line.kind:
        return [agrees("set-minimum-kind", what, chart, side.name)]
    if line.kind == "MDA":
        return [differs("set-minimum-kind", "stop", what, chart, "A descent below an MDA is not covered by its design.",
                        "Set it as an MDA; do not go below it.", side.name)]
    return [differs("set-minimum-kind", "resolve", what, chart,
                    "Calls and habits of an MDA lead to levelling off instead of deciding.",
                    "Set it as a DA.", side.name)]


def minimum(side: Side, setup: Setup, wanted: Wanted, rules: Rules) -> "list[Finding]":
    """The minimum is that of the line of the level announced, and high enough for cold and operator."""
    line = wanted.line(side.level)
    what = f"minimum {ft(side.minimum_ft)}"
    if line is None:
        return [differs("set-minimum-level", "stop", what, "no line " + side.level,
                        "The level announced has no line of minima.", "Do not begin the approach.", side.name)]
    needed_ft = needed_minimum_ft(line, setup, wanted)
    chart = f"{line.name} {line.kind} {ft(line.altitude_ft)}"
    computed = "" if needed_ft == line.altitude_ft else f"at least {ft(needed_ft)}"
    if abs(side.minimum_ft - needed_ft) < NEAR_FT:
        return [agrees("set-minimum", what, chart, side.name, computed)]
    if side.minimum_ft > needed_ft:
        return [differs("set-minimum-high", "note", what, chart, "Higher than it needs to be.",
                        "Check that it is meant.", side.name, computed)]
    key, why = _too_low(side, line, setup, wanted)
    return [differs(key, "stop", what, chart, why, f"Set {ft(needed_ft)}.", side.name, computed)]


def _too_low(side: Side, line: Line, setup: Setup, wanted: Wanted) -> "tuple[str, str]":
    """The key and the reason of a minimum that is too low."""
    if abs(side.minimum_ft - line.altitude_ft) < NEAR_FT:
        if is_cold(setup, wanted):
            return "set-minimum-cold", "In this cold the altimeter shows more than there is; the correction is missing."
        if line.kind == "MDA":
            return "set-minimum-floor", "The operator adds to an MDA, so that the go-around begins above it."
        return "set-minimum-floor", "The operator's lowest DA is higher than the chart's."
    for other in wanted.lines:
        if other.name != line.name and abs(side.minimum_ft - needed_minimum_ft(other, setup, wanted)) < NEAR_FT:
            return "set-minimum-level", f"It is the minimum of {other.name}, but {line.name} is announced."
    return "set-minimum-low", "Lower than the minimum of the level announced."


def needed_missed_ft(setup: Setup, wanted: Wanted) -> float:
    """The altitude of the missed approach to set, ft: the chart's (0 if it prints none), corrected for cold."""
    charted_ft = wanted.missed_altitude_ft or 0.0
    if setup.temperature_c is None or not is_cold(setup, wanted):
        return charted_ft
    return charted_ft + segment_addition_ft(charted_ft - wanted.airport_elevation_ft, setup.temperature_c)


def missed_altitude(side: Side, setup: Setup, wanted: Wanted, rules: Rules) -> "list[Finding]":
    """The missed approach altitude is the chart's, in cold the corrected one, and never below the minimum."""
    charted_ft = wanted.missed_altitude_ft
    if charted_ft is None:
        return []
    what, chart = "missed approach altitude " + ft(side.missed_altitude_ft), ft(charted_ft)
    lowest_ft = min([line.altitude_ft for line in wanted.lines] or [charted_ft])
    needed_ft = needed_missed_ft(setup, wanted)
    computed = "" if needed_ft == charted_ft else f"for cold {ft(needed_ft)}"
    if side.missed_altitude_ft <= max(lowest_ft, side.minimum_ft):
        return [differs("set-missed-below-minimum", "stop", what, chart, "It is not above the minimum that is set.",
                        "Set the altitude of the missed approach.", side.name, computed)]
    if abs(side.missed_altitude_ft - needed_ft) < NEAR_FT:
        return [agrees("set-missed", what, chart, side.name, computed)]
    if abs(side.missed_altitude_ft - charted_ft) < NEAR_FT:
        return [differs("set-missed-cold", "resolve", what, chart, "In this cold it is corrected too.",
                        "Ask ATC for the corrected altitude, then set it.", side.name, computed)]
    return [differs("set-missed", "resolve", what, chart, "The climb ends where it is set.",
                    "Set the altitude of the missed approach.", side.name, computed)]
