"""The minimum and the missed approach altitude of the set-up check, cold corrections included."""

from lpv.core.consequence import grade_of
from lpv.core.findings import Finding, not_compared
from lpv.core.text import quantity
from lpv.decide.minimum import Minimum, MissedAltitude
from lpv.setup.expected import Expected
from lpv.setup.records import Setup, Side
from lpv.setup.statements import agrees, differs, not_stated

# Altitudes are set in whole feet.
NEAR_FT = 0.5
LOWEST_FT = -1500.0
COLD_WHY = "Nobody has decided whether to correct altitudes in this cold."
COLD_ACTION = "Ask: the State's or the operator's rule decides. Then set the altitude that follows."


def ft(altitude_ft: float) -> str:
    """An altitude in whole feet."""
    return quantity(altitude_ft, "ft")


def kind_of_minimum(side: Side, setup: Setup, expected: Expected) -> "list[Finding]":
    """The minimum is set as the kind that the line has: DA or MDA."""
    needed = expected.minimum(side.level, setup) if expected.has_line(side.level) and side.level else None
    if needed is None or side.minimum_kind is None:
        return [not_stated("set-minimum-kind", "kind of minimum", side.name)]
    what, chart = "minimum set as " + side.minimum_kind, f"{needed.kind} on the line {needed.line}"
    if side.minimum_kind == needed.kind:
        return [agrees("set-minimum-kind", what, chart, side.name)]
    if needed.kind == "MDA":
        return [differs("set-minimum-kind", "stop", what, chart, "An MDA allows for no height loss in the go-around.",
                        "Set it as an MDA. Do not descend below it.", side.name)]
    return [differs("set-minimum-kind", "resolve", what, chart,
                    "With an MDA's calls you would level off instead of deciding.",
                    "Set it as a DA.", side.name)]


def minimum(side: Side, setup: Setup, expected: Expected) -> "list[Finding]":
    """The minimum is that of the line of the level announced, and high enough for cold and operator."""
    if side.level is None or side.minimum_ft is None:
        return [not_stated("set-minimum", "minimum", side.name)]
    what = "minimum " + ft(side.minimum_ft)
    if not expected.lines():
        return [not_compared("set-minimum", what, "missing in the chart part", about=side.name)]
    needed = expected.minimum(side.level, setup) if expected.has_line(side.level) else None
    if needed is None:
        return [differs("set-minimum-level", "stop", what, "no line " + side.level,
                        "The level annunciated has no line of minima.", "Do not begin the approach.", side.name)]
    return _against(side, side.minimum_ft, needed, setup, expected)


def _against(side: Side, set_ft: float, needed: Minimum, setup: Setup, expected: Expected) -> "list[Finding]":
    """The minimum that is set against the one needed."""
    what, chart = "minimum " + ft(set_ft), f"{needed.line} {needed.kind} {ft(needed.row.altitude_ft)}"
    computed = _computed(needed.altitude_ft, needed.row.altitude_ft, needed.open_ft)
    low_ft = needed.altitude_ft - set_ft
    if abs(set_ft - needed.altitude_ft - needed.open_ft) < NEAR_FT and needed.cold.grade != "not compared":
        return [_as_needed("set-minimum", what, chart, computed, needed, side.name)]
    if abs(low_ft) < NEAR_FT:
        return [_in_doubt("set-minimum", what, chart, computed, needed, side.name)]
    if low_ft < 0.0:
        return [differs("set-minimum-high", "note", what, chart, "Higher than it needs to be.",
                        "Check that it is meant.", side.name, computed)]
    key, why = _too_low(side, set_ft, needed, setup, expected)
    return [differs(key, grade_of("minimum", low_ft), what, chart, why, f"Set {ft(needed.altitude_ft)}.", side.name,
                    computed)]


def _computed(needed_ft: float, charted_ft: float, open_ft: float) -> str:
    """What the day makes of a charted altitude, "" where it stays."""
    if open_ft:
        return f"with a cold correction {ft(needed_ft + open_ft)}"
    return "" if needed_ft == charted_ft else "at least " + ft(needed_ft)


def _as_needed(
    key: str, what: str, chart: str, computed: str, needed: "Minimum | MissedAltitude", about: str,
) -> Finding:
    """An altitude that suffices; a correction that nobody has decided about is on the safe side, and to be known."""
    if not needed.open_ft:
        return agrees(key, what, chart, about, computed)
    return differs(key + "-cold-open", "note", what, chart, f"{COLD_WHY} It is corrected, and so on the safe side.",
                   "Tell the controller what is corrected; find out who decides.", about, computed)


def _in_doubt(
    key: str, what: str, chart: str, computed: str, needed: "Minimum | MissedAltitude", about: str,
) -> Finding:
    """An altitude set as charted, while cold is an open question or could not be compared."""
    if needed.cold.grade == "not compared":
        return not_compared(key, what, "not stated", chart, why=needed.cold.reason, about=about,
                            action="State the temperature reported, and read from the chart when it asks for more.")
    return differs(key + "-cold-open", grade_of("minimum" if key == "set-minimum" else "cold", needed.open_ft),
                   what, chart, f"{needed.cold.reason} {COLD_WHY}", COLD_ACTION, about, computed)


def _too_low(side: Side, set_ft: float, needed: Minimum, setup: Setup, expected: Expected) -> "tuple[str, str]":
    """The key and the reason of a minimum that is too low."""
    if abs(set_ft - needed.row.altitude_ft) < NEAR_FT:
        if needed.cold_ft:
            return "set-minimum-cold", "In this cold you are lower than the altimeter shows; the correction is missing."
        if setup.remote_addition_ft or setup.zone_not_clear:
            return "set-minimum-floor", f"The printed minimum is not enough today: {needed.reason}."
        if needed.kind == "MDA":
            return "set-minimum-floor", "The operator adds to an MDA, so that the go-around begins above it."
        return "set-minimum-floor", "The operator's lowest DA is higher than the chart's."
    for line in expected.lines():
        other = expected.minimum(line, setup)
        if line != needed.line and other is not None and abs(set_ft - other.altitude_ft) < NEAR_FT:
            return "set-minimum-level", f"It is the minimum of {line}, but {needed.line} is annunciated."
    return "set-minimum-low", "Lower than the minimum of the level annunciated."


def missed_altitude(side: Side, setup: Setup, expected: Expected) -> "list[Finding]":
    """The missed approach altitude is the chart's, in cold the corrected one, and never below the minimum."""
    needed, set_ft = expected.missed_altitude(setup), side.missed_altitude_ft
    if needed is None:
        return [not_compared("set-missed", "missed approach altitude", "missing in the chart part", about=side.name)]
    if set_ft is None:
        return [not_stated("set-missed", "missed approach altitude", side.name, ft(needed.charted_ft))]
    what, chart = "missed approach altitude " + ft(set_ft), ft(needed.charted_ft)
    computed = "" if not needed.cold_ft and not needed.open_ft else (
        f"for cold {ft(needed.altitude_ft + needed.open_ft)}")
    if set_ft <= _lowest_minimum_ft(side, setup, expected):
        return [differs("set-missed-below-minimum", "stop", what, chart, "It is not above the minimum set.",
                        "Set the missed approach altitude.", side.name, computed)]
    if abs(set_ft - needed.altitude_ft - needed.open_ft) < NEAR_FT and needed.cold.grade != "not compared":
        return [_as_needed("set-missed", what, chart, computed, needed, side.name)]
    if abs(set_ft - needed.altitude_ft) < NEAR_FT:
        return [_in_doubt("set-missed", what, chart, computed, needed, side.name)]
    off_ft = set_ft - needed.altitude_ft
    if needed.cold_ft and abs(set_ft - needed.charted_ft) < NEAR_FT:
        return [differs("set-missed-cold", grade_of("altitude", off_ft), what, chart,
                        "In this cold, correct it too.", "Ask ATC for the corrected altitude, then set it.",
                        side.name, computed)]
    return [differs("set-missed", grade_of("altitude", off_ft), what, chart, "The climb ends where it is set.",
                    "Set the missed approach altitude.", side.name, computed)]


def _lowest_minimum_ft(side: Side, setup: Setup, expected: Expected) -> float:
    """What an altitude of a missed approach lies above: the minimum set, and the lowest that could be."""
    altitudes = [] if side.minimum_ft is None else [side.minimum_ft]
    needed = [expected.minimum(line, setup) for line in expected.lines()]
    charted = [minimum_row.row.altitude_ft for minimum_row in needed if minimum_row is not None]
    return max(altitudes + ([min(charted)] if charted else []) or [LOWEST_FT])
