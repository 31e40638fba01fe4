"""The rows `[[database.leg]]` of an approach file: the legs as the records code them.

Courses are in the chart's reference unless the row says otherwise.  What the record leaves blank, and positions give,
is marked as computed.  `lpv.arinc.leg_rows` makes the rows, `lpv.arinc.codes` says what their codes mean.
"""


from dataclasses import dataclass

from lpv.approach.schema import FIX_NAME, LOWEST_ALTITUDE_FT
from lpv.files import schema

HIGHEST_LEVEL_FT = 60000
PARTS = ("transition", "final", "missed approach")
ROLES = ("IAF", "IF", "PFAF", "step-down", "MAP", "hold")
ALTITUDE_RULES = ("at", "at or above", "at or below", "between")
SPEED_RULES = ("at", "at or above", "at or below")
TURNS = ("left", "right", "either")


def _altitude(label: str) -> float | None:
    field: float | None = schema.number(label, "ft", LOWEST_ALTITUDE_FT, HIGHEST_LEVEL_FT, required=False)
    return field


def _course(label: str) -> float | None:
    field: float | None = schema.number(label, "deg", 0, 360, required=False)
    return field


@dataclass(frozen=True, kw_only=True)
class CodedLeg:
    """One leg of a coded approach."""

    part: str = schema.choice("which part of the approach", PARTS)
    transition: str | None = schema.text("name of the transition", pattern=FIX_NAME, example="SANDY", required=False)
    sequence: str = schema.text("sequence number", pattern="[0-9]{3}", example="020")
    terminator: str = schema.text("path and termination", pattern="[A-Z]{2}", example="TF")
    fix: str | None = schema.text("its fix", pattern=FIX_NAME, example="SANDY", required=False)
    latitude_deg: float | None = schema.latitude("latitude of the fix", required=False)
    longitude_deg: float | None = schema.longitude("longitude of the fix", required=False)
    role: str | None = schema.choice("what the fix is for", ROLES, required=False)
    fly_over: bool = schema.flag("whether the fix is to be flown over")
    turn: str | None = schema.choice("which way to turn", TURNS, required=False)
    turn_prescribed: bool = schema.flag("whether the turn is prescribed before the leg is captured")
    course_deg: float | None = _course("course of the leg; of a hold, inbound")
    course_computed: bool = schema.flag("whether the course was computed from positions")
    course_true: bool = schema.flag("whether the course is coded in degrees true")
    distance_nm: float | None = schema.number("length of the leg", "NM", 0, 1000, required=False)
    distance_computed: bool = schema.flag("whether the length was computed from positions")
    time_min: float | None = schema.number("time of the leg", "min", 0, 100, required=False)
    altitude_ft: float | None = _altitude("altitude; the lower one of two")
    altitude_rule: str | None = schema.choice("altitude restriction", ALTITUDE_RULES, required=False)
    highest_ft: float | None = _altitude("highest altitude, where two are coded")
    path_altitude_ft: float | None = _altitude("altitude coded as on the vertical path")
    glide_slope_altitude_ft: float | None = _altitude("altitude coded as on the glideslope")
    flight_levels: bool = schema.flag("whether the altitudes are flight levels")
    by_atc: bool = schema.flag("whether air traffic control may change or assign the altitude")
    transition_altitude_ft: float | None = _altitude("transition altitude")
    speed_kt: float | None = schema.number("speed limit", "kt", 0, 999, required=False)
    speed_rule: str | None = schema.choice("how the speed limit binds", SPEED_RULES, required=False)
    angle_deg: float | None = schema.number("vertical angle, descent negative", "deg", -10, 10, required=False)
    rnp_nm: float | None = schema.number("required navigation performance", "NM", 0, 99, required=False)
    radius_nm: float | None = schema.number("radius of the arc", "NM", 0, 1000, required=False)
    centre: str | None = schema.text("center of the arc", pattern=FIX_NAME, example="SANDY", required=False)
    centre_latitude_deg: float | None = schema.latitude(
        "latitude of the center", key="centre_latitude", required=False)
    centre_longitude_deg: float | None = schema.longitude(
        "longitude of the center", key="centre_longitude", required=False)
    inbound_course_deg: float | None = _course("course at the beginning of the arc")
    navaid: str | None = schema.text("recommended navaid", pattern=FIX_NAME, example="ZZV", required=False)
    navaid_bearing_deg: float | None = _course("bearing from the navaid")
    navaid_distance_nm: float | None = schema.number("distance from the navaid", "NM", 0, 1000, required=False)
    safe_altitude_centre: str | None = schema.text(
        "center of the minimum safe altitudes", pattern=FIX_NAME, example="RW09", required=False)
    safe_altitude_multiple: str | None = schema.text(
        "which of several about that center", pattern="[A-Z0-9]", example="A", required=False)
    gnss: str | None = schema.text("GNSS indication", pattern="[A-Z0-9+@-]", example="A", required=False)
    qualifiers: str | None = schema.text("route qualifiers", pattern="[A-Z0-9+@-]{1,2}", example="JS", required=False)

    @property
    def name(self) -> str:
        """Which leg it is: "VINCO 020", of the final route "020"."""
        return f"{self.transition} {self.sequence}" if self.transition else self.sequence
