"""What a briefing says where its approach was made from coded records, and the minimum safe altitudes."""

from lpv.approach.coded_leg import CodedLeg
from lpv.approach.provenance import unverified
from lpv.approach.record import Approach
from lpv.approach.schema import TO_BE_FILLED, Chart, SafeAltitude
from lpv.arinc import codes
from lpv.core.text import course, number, quantity, rounded
from lpv.crosscheck.coded import FROM_THE_CHART, NOT_VERIFIED
from lpv_site.text.table import finished
from lpv_site.text.text import escape

COMPUTED = "*"
HOLDS = ("HF", "HM", "HA")
FT_PER_LEVEL = 100


def unread(approach: Approach) -> str:
    """A warning while the chart's side is only a copy of coded records, or lacks what they cannot hold; else ""."""
    chart = approach.chart
    parts = []
    if chart.from_coded_record:
        parts.append("Made from coded records, not yet compared with the chart.")
    if chart.to_be_filled:
        among = ", the minima among them" if "minima" in chart.to_be_filled else ""
        parts.append(f"[{FROM_THE_CHART.capitalize()}](#findings): {len(chart.to_be_filled)} entries{among}.")
    if approach.read_again:
        named = "; ".join(f"{TO_BE_FILLED[row.key]}, since the {row.because} changed in cycle {row.cycle}"
                          for row in approach.read_again)
        parts.append(f"To be read again: {escape(named)}.")
    if waiting := unverified(approach.filled):
        parts.append(f"{NOT_VERIFIED.capitalize()}: {escape(', '.join(TO_BE_FILLED[key] for key in waiting))}.")
    return f"\n!!! warning \"Not a briefing yet\"\n\n    {' '.join(parts)}\n" if parts else ""


def mark(is_computed: bool) -> str:
    """What stands behind a number that was computed because the records leave it blank."""
    return COMPUTED if is_computed else ""


def computed(chart: Chart) -> str:
    """The same behind the final course, in words."""
    return " (computed, not read from the chart)" if chart.course_computed else ""


def coded(approach: Approach) -> str:
    """What is coded and not understood, and what the mark of computed numbers means; "" if there is nothing."""
    chart = approach.chart
    marked = any(fix.leg_computed for fix in chart.fixes)
    marked = marked or any(leg.course_computed or leg.distance_computed for leg in approach.database.legs)
    text = ("\nMarked \\*: computed from positions, with the variation of record; the records code none.\n"
            if marked else "")
    rows = "".join(f"- {escape(words)}\n" for words in chart.coded_legs)
    return text + (f"\nCoded, and not understood:\n\n{rows}" if rows else "")


def legs(approach: Approach) -> str:
    """Every leg as coded, folded; "" for a file without them."""
    rows = [(f"{escape(leg.name)} {leg.terminator}<br>{escape(leg.fix or '')}", _flown(leg), _limits(leg))
            for leg in approach.database.legs]
    if not rows:
        return ""
    text = finished(["leg", "course, NM", "altitude, speed"], rows) + f"\n{_common(approach.database.legs)}"
    return '\n??? note "The legs as coded"\n\n' + "".join(f"    {line}\n" for line in text.splitlines())


def _common(legs: tuple[CodedLeg, ...]) -> str:
    """What is coded at legs and holds for the approach: what it is flown with, minimums, transition altitude."""
    kinds = dict.fromkeys(codes.meaning(codes.GNSS, leg.gnss, "GNSS indication") for leg in legs if leg.gnss)
    pairs = dict.fromkeys((leg.qualifiers + "-")[:2] for leg in legs if leg.qualifiers)
    for first, second in map(tuple, pairs):
        kinds |= {codes.meaning(codes.QUALIFIERS_1, first, "qualifier"): None} if first != "-" else {}
        kinds |= {codes.meaning(codes.QUALIFIERS_2, second, "qualifier"): None} if second != "-" else {}
    altitudes = dict.fromkeys(leg.transition_altitude_ft for leg in legs if leg.transition_altitude_ft is not None)
    remarks = ["; ".join(kinds) + " (meaning of the codes from memory)"] if kinds else []
    remarks += [f"transition altitude {quantity(altitude, 'ft')}" for altitude in altitudes]
    return f"Also coded: {escape('; '.join(remarks))}.\n" if remarks else ""


def _flown(leg: CodedLeg) -> str:
    prescribed = ", prescribed" if leg.turn_prescribed else ""
    parts = [f"turn {leg.turn}{prescribed}" if leg.turn else "", "flown over" if leg.fly_over else ""]
    if leg.course_deg is not None:
        inbound = "inbound " if leg.terminator in HOLDS else ""
        true = " true" if leg.course_true else ""
        parts.append(inbound + course(leg.course_deg, 0.1) + true + mark(leg.course_computed))
    parts += [] if leg.distance_nm is None else [quantity(leg.distance_nm, "NM", 0.1) + mark(leg.distance_computed)]
    parts += [] if leg.time_min is None else [quantity(leg.time_min, "min", 0.1)]
    if leg.radius_nm is not None:
        about = f" about {escape(leg.centre)}" if leg.centre else ""
        parts.append(f"radius {quantity(leg.radius_nm, 'NM', 0.01)}{about}")
    if leg.navaid is not None:
        parts.append(f"by {escape(leg.navaid)}" + _of_navaid(leg))
    return "<br>".join(part for part in parts if part)


def _of_navaid(leg: CodedLeg) -> str:
    parts = ["" if leg.navaid_bearing_deg is None else course(leg.navaid_bearing_deg),
             "" if leg.navaid_distance_nm is None else quantity(leg.navaid_distance_nm, "NM", 0.1)]
    return "".join(f" {part}" for part in parts if part)


def _limits(leg: CodedLeg) -> str:
    parts = [leg.role or "", _altitudes(leg), "altitude by ATC" if leg.by_atc else ""]
    parts += [f"path {_altitude(leg, leg.path_altitude_ft)}"] if leg.path_altitude_ft is not None else []
    if leg.glide_slope_altitude_ft is not None:
        parts.append(f"glideslope {_altitude(leg, leg.glide_slope_altitude_ft)}")
    if leg.speed_kt is not None:
        parts.append(f"{leg.speed_rule or 'limit'} {quantity(leg.speed_kt, 'kt')}")
    parts += [] if leg.angle_deg is None else [f"angle {number(leg.angle_deg, 0.01)}°"]
    parts += [] if leg.rnp_nm is None else [f"RNP {number(leg.rnp_nm, 0.1)}"]
    return "<br>".join(escape(part) for part in parts if part)


def _altitudes(leg: CodedLeg) -> str:
    if leg.altitude_ft is None:
        return ""
    if leg.highest_ft is not None:
        return f"{_altitude(leg, leg.altitude_ft)} to {_altitude(leg, leg.highest_ft)}"
    return f"{leg.altitude_rule or ''} {_altitude(leg, leg.altitude_ft)}".strip()


def _altitude(leg: CodedLeg, altitude_ft: float) -> str:
    return f"FL{int(rounded(altitude_ft / FT_PER_LEVEL)):03d}" if leg.flight_levels else quantity(altitude_ft, "ft")


def lines_coded(approach: Approach) -> str:
    """In place of minima that the file lacks: what is to be filled, and which lines the records authorise."""
    lines = ", ".join(approach.database.lines)
    return f"{FROM_THE_CHART.capitalize()}." + (f" The records authorize: {escape(lines)}." if lines else "") + "\n"


def safe(approach: Approach) -> str:
    """The minimum safe altitudes by sector; "" where the file has none."""
    rows = [(escape(sector.centre), _sector(sector), number(sector.altitude_ft), quantity(sector.radius_nm, "NM"))
            for sector in approach.chart.msa]
    if not rows:
        return ""
    return "## Minimum safe altitude { #msa }\n\n" + finished(["about", "bearing to it", "ft", "within"], rows)


def _sector(sector: SafeAltitude) -> str:
    if sector.from_deg % 360 == sector.to_deg % 360:
        return "all round"
    return f"{course(sector.from_deg)} to {course(sector.to_deg)}"
