"""Which line of minima may be used today; `lpv.decide.minimum` says with which altitude and visibility.

Rules are those of the United States unless a function says otherwise.  The chart's notes, the
flight manual and the operator's specifications bind beyond what is known here.
"""

from lpv.core.errors import DomainError, in_range, shown
from lpv.core.text import quantity
from lpv.decide.lines import LEVELS, LINES
from lpv.facts import value

APPROVALS = ("LPV", "LP", "LNAV/VNAV", "baro-VNAV", "LNAV", "circling")


class Situation:
    """What decides which line may be used.

    announced:            level of service that the avionics announce, one of LEVELS
    approvals:            what flight manual and operator's approval allow, a list out of APPROVALS:
                          "LNAV/VNAV" by SBAS, "baro-VNAV" by barometric path
    published:            lines that the chart prints, a list out of LINES
    temperature_c:        reported temperature at the aerodrome, -80 to 60
    vnav_lowest_c:        the chart's limits for uncompensated baro-VNAV, None where it prints none
    vnav_highest_c:
    temperature_compensated:  whether the barometric path is corrected for temperature
    baro_vnav_barred:     whether a note takes baro-VNAV away today (remote altimeter setting)
    """

    def __init__(
        self, announced: str, approvals: "list[str]", published: "list[str]", temperature_c: float = 15.0,
        vnav_lowest_c: "float | None" = None, vnav_highest_c: "float | None" = None,
        temperature_compensated: bool = False, baro_vnav_barred: bool = False,
    ) -> None:
        _known("level of service", [announced], LEVELS)
        _known("approval", approvals, APPROVALS)
        _known("line", published, LINES)
        in_range("temperature", temperature_c, -80.0, 60.0, "C")
        self.announced = announced
        self.approvals = list(approvals)
        self.published = list(published)
        self.temperature_c = temperature_c
        self.vnav_lowest_c = vnav_lowest_c
        self.vnav_highest_c = vnav_highest_c
        self.temperature_compensated = temperature_compensated
        self.baro_vnav_barred = baro_vnav_barred


class Verdict:
    """Whether a line may be used (`allowed`); `reasons` say what stands against it, `guidance` what drives it."""

    def __init__(self, line: str, guidance: str, reasons: "list[str]") -> None:
        self.line = line
        self.guidance = guidance
        self.reasons = reasons
        self.allowed = not reasons


def _known(name: str, words: "list[str]", allowed: "tuple[str, ...]") -> None:
    unknown = [word for word in words if word not in allowed]
    if unknown:
        raise DomainError(f"{name}: found {shown(unknown[0])}; allowed: {', '.join(allowed)}.")


def verdicts(situation: Situation) -> "list[Verdict]":
    """One verdict for every published line; LNAV/VNAV has two, by SBAS and by barometric path.

    Sources: AIM 1-1-18.b and d.2 (levels announced), 7-3-3 (temperature limits bind the LNAV/VNAV
    line with an uncompensated barometric path, not LPV), 5-4-20.f.5 (circling).
    """
    lines = []
    for line in [name for name in LINES if name in situation.published]:
        if line == "LNAV/VNAV":
            lines.append(Verdict(line, "SBAS", lnav_vnav_sbas_reasons(situation)))
            lines.append(Verdict(line, "barometric", lnav_vnav_baro_reasons(situation)))
        elif line == "LPV" or line == "LP":
            lines.append(Verdict(line, "SBAS", sbas_line_reasons(line, situation)))
        else:
            lines.append(Verdict(line, "GPS or SBAS", lateral_line_reasons(line, situation)))
    return lines


def usable_lines(situation: Situation) -> "list[str]":
    """The lines that may be used, best first, each once."""
    lines = []
    for verdict in verdicts(situation):
        if verdict.allowed and verdict.line not in lines:
            lines.append(verdict.line)
    return lines


def sbas_line_reasons(line: str, situation: Situation) -> "list[str]":
    """What stands against LPV or LP: no approval, or another level announced; an empty list if nothing."""
    _known("line", [line], ("LPV", "LP"))
    return _unapproved(line, situation) + _not_announced(line, (line,), situation)


def lnav_vnav_sbas_reasons(situation: Situation) -> "list[str]":
    """What stands against LNAV/VNAV with the SBAS path.

    LPV announced serves as well, since its alert limits are the tighter ones (from memory).
    """
    reasons = _unapproved("LNAV/VNAV", situation)
    return reasons + _not_announced("LNAV/VNAV", ("LPV", "LNAV/VNAV"), situation)


def lnav_vnav_baro_reasons(situation: Situation) -> "list[str]":
    """What stands against LNAV/VNAV with a barometric path: approval, lateral guidance, temperature, notes."""
    reasons = _unapproved("baro-VNAV", situation)
    if situation.announced == "none":
        reasons.append("no lateral guidance is annunciated")
    if situation.baro_vnav_barred:
        reasons.append("a note bars baro-VNAV with this altimeter setting")
    return reasons + _temperature_reasons(situation)


def _temperature_reasons(situation: Situation) -> "list[str]":
    """The chart's limits for uncompensated baro-VNAV; the limit itself is allowed. AIM 7-3-3.a."""
    reasons: list[str] = []
    lowest, highest, now = situation.vnav_lowest_c, situation.vnav_highest_c, situation.temperature_c
    if situation.temperature_compensated:
        return reasons
    if lowest is not None and now < lowest:
        reasons.append(f"{quantity(now, '°C')} is under the chart's {quantity(lowest, '°C')} for uncompensated "
                       "baro-VNAV")
    if highest is not None and now > highest:
        reasons.append(f"{quantity(now, '°C')} is over the chart's {quantity(highest, '°C')} for uncompensated "
                       "baro-VNAV")
    return reasons


def lateral_line_reasons(line: str, situation: Situation) -> "list[str]":
    """What stands against LNAV or circling: no approval, nothing announced, circling without an LNAV line.

    Circling from an RNAV (GPS) approach without LNAV minima is prohibited. AIM 5-4-20.f.5.
    """
    _known("line", [line], ("LNAV", "circling"))
    reasons = _unapproved(line, situation)
    if situation.announced == "none":
        reasons.append("no lateral guidance is annunciated")
    if line == "circling" and "LNAV" not in situation.published:
        reasons.append("circling is prohibited where the chart prints no LNAV line")
    return reasons


def _unapproved(approval: str, situation: Situation) -> "list[str]":
    return [] if approval in situation.approvals else [f"the aircraft or the operator is not approved for {approval}"]


def _not_announced(line: str, levels: "tuple[str, ...]", situation: Situation) -> "list[str]":
    if situation.announced in levels:
        return []
    return [f"{line} needs {' or '.join(levels)} annunciated, found {situation.announced}"]


def vertical_alert_limit_m(hat_ft: float) -> float:
    """The VAL of an LPV line in metres by its height above touchdown: 35 under 250 ft, else 50 (AIM 1-1-18.d.1).

    hat_ft: 0 to 5000; DomainError outside
    """
    in_range("height above touchdown", hat_ft, 0.0, 5000.0, "ft")
    return value("val_lpv200_m") if hat_ft < value("val_lpv200_below_hat_ft") else value("val_lpv_m")
