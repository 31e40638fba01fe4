"""Kinds of notices: what each means, what to plan, and who tells it to a pilot; the states that a line can be in."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

State = Literal["unaffected", "noted", "changed", "doubted", "gone"]
STATES: tuple[State, ...] = ("unaffected", "noted", "changed", "doubted", "gone")
SOURCE = "aim-2026"
HANDBOOK = "common practice"


def worst_state(states: Iterable[State]) -> State:
    """The gravest of some states; "unaffected" of none."""
    return max(states, key=STATES.index, default="unaffected")


@dataclass(frozen=True)
class Kind:
    """A kind of notice: its permanent name, what it means, what to plan, and where that is published.

    told says whether air traffic control tells it to pilots: in words, since it differs by kind.  place says which
    of this the paragraph holds, where it does not hold all.
    """

    name: str
    means: str
    plan: str
    told: str = ""
    place: str = ""
    status: str = HANDBOOK


MAY_NOT_BE = Kind(
    "sbas-may-not-be-available",
    "A prediction: vertical guidance, sometimes lateral too, may be missing at times.",
    "Plan as if the named minima were not there. They may be flown if the avionics show the level available.",
    "Air traffic control does not volunteer it for a single site: read it before the flight.",
    "1-1-18.c.5(a), (c): what may be missing, what may be flown if shown, what the controller says; "
    "to plan without the minima is this handbook's caution",
    "published",
)
NOT_AVAILABLE = Kind(
    "sbas-not-available",
    "The SBAS service is lost over an area: no LPV, LP or SBAS LNAV/VNAV.",
    "Plan on GPS alone: check RAIM, use LNAV or LNAV/VNAV with approved barometric path, or ground aids.",
    "Air traffic control tells pilots who ask for an RNAV (GPS) approach, unless it is on the ATIS.",
    "1-1-18.c.5(b): the loss, what the controller says; c.8: GPS alone with RAIM; "
    "which lines to plan on is this handbook's caution",
    "published",
)
INTERFERENCE = Kind(
    "gps-interference-test",
    "A test, an exercise or interference may take away GPS, SBAS and everything that uses them inside the area.",
    "Plan an approach with ground aids at the destination or the alternate, and a missed approach too.",
    "Air traffic control tells pilots cleared for a GPS approach and asks for their intentions; after reports of "
    "anomalies it may clear another approach.",
    "1-1-18.c.6: the form of a test, what the controller does; the plan is this handbook's caution",
    "published",
)
CHART_WITHOUT_NOTICES = Kind(
    "chart-without-site-notices",
    "The chart is marked: for this site no SBAS notices are issued, and daily vertical outages may come.",
    "Plan on LNAV or circling, at the destination and at the alternate; an area-wide loss is still announced.",
    "Air traffic control gives no advisories for this site.",
    "1-1-18.c.7",
    "published",
)
NOT_KNOWN = Kind(
    "unknown",
    "It names GPS, SBAS or the approach, and the reader does not fully understand it.",
    "Read the whole notice. Until it is clear, plan as if no satellite line were there.",
)
OTHER_SUBJECT = Kind(
    "other-subject",
    "It names neither GPS nor SBAS nor an approach: no rule of this sheet reads it.",
    "Read it: this sheet did not.",
)
GPS_NOT_AVAILABLE = Kind(
    "gps-not-available",
    "GPS itself is not available: no line of a satellite approach is.",
    "Plan an approach with ground aids, here or at another airport.",
)
RAIM_NOT_AVAILABLE = Kind(
    "raim-not-available",
    "Without SBAS the receiver cannot guarantee its position at these times.",
    "Without SBAS, or where SBAS is missing too, do not plan a satellite line then. A receiver that has SBAS does not "
    "need RAIM.",
)
SATELLITE_OUT = Kind(
    "satellite-out-of-service",
    "One satellite is missing: the geometry is weaker, at some times of the day only.",
    "Without SBAS, check RAIM without that satellite. With SBAS, expect the level to come and go.",
)
SBAS_SATELLITE_OUT = Kind(
    "sbas-satellite-out-of-service",
    "One of the satellites that send the messages of SBAS is out: where no other is in view, there is no SBAS.",
    "Plan as if the SBAS lines were not there, unless another of its satellites is in view at the airport.",
)
LINE_NOT_AVAILABLE = Kind(
    "line-not-available",
    "Lines of minima of this approach are not authorized or not available.",
    "Plan on another line. The level may still be annunciated; that does not make the line legal.",
)
PROCEDURE_NOT_AVAILABLE = Kind(
    "procedure-not-available",
    "The approach is not authorized, suspended or withdrawn: none of its lines may be flown.",
    "Plan another approach.",
)
LIMITED = Kind(
    "limited-use",
    "It takes lines away under a condition: at night, for some aircraft, with some equipment out. The reader does not "
    "weigh conditions.",
    "Read the condition; plan as if the lines were not there until it is clear that it does not hold.",
)
MINIMA_CHANGED = Kind(
    "minima-changed",
    "Minima or other figures of this approach differ from the chart.",
    "Take the figures of the notice, not those of the chart: enter them in the approach file.",
)
ALTIMETER = Kind(
    "altimeter-setting",
    "The local altimeter setting is missing, or another one is to be used: minima rise, or lines go.",
    "Read the note of the chart on the remote altimeter setting, and enter its addition.",
)
RUNWAY_CHANGED = Kind(
    "runway-changed",
    "Threshold or runway are not as charted: crossing height, minima and visibility no longer hold.",
    "Read what the notice gives for the approach; without that, plan another one.",
)
RUNWAY_CLOSED = Kind("runway-closed", "The runway is closed.", "Plan another runway or another airport.")
AIRPORT_CLOSED = Kind("airport-closed", "The airport is closed.", "Plan another airport.")
LIGHTS_OUT = Kind(
    "lights-out",
    "Approach or runway lights are out: the required visibility rises, and at night a line may go.",
    "Read the chart and the table of inoperative components or the operator's table, and enter the addition.",
)
SLOPE_LIGHTS_OUT = Kind(
    "slope-lights-out",
    "Lights that lead to the threshold by eye are out.",
    "Read the notes of the chart: some approaches are not authorized at night without them.",
)
VDP_OUT = Kind(
    "vdp-not-authorized", "The visual descent point does not hold.", "Leave the MDA by the references alone.",
)
GROUND_AID_OUT = Kind(
    "ground-aid-out", "A ground aid is out of service, or its approach is not authorized.",
    "Do not count on it as the way in without GPS.",
)
TAKES_BACK = Kind(
    "takes-back-another",
    "It cancels another notice, or says that a service is back.",
    "Find the notice that it cancels and remove both from the file. Until then nothing is concluded from it.",
)
KINDS = (
    MAY_NOT_BE, NOT_AVAILABLE, INTERFERENCE, CHART_WITHOUT_NOTICES, GPS_NOT_AVAILABLE, RAIM_NOT_AVAILABLE,
    SATELLITE_OUT, SBAS_SATELLITE_OUT, LINE_NOT_AVAILABLE, PROCEDURE_NOT_AVAILABLE, LIMITED, MINIMA_CHANGED, ALTIMETER,
    RUNWAY_CHANGED, RUNWAY_CLOSED, AIRPORT_CLOSED, LIGHTS_OUT, SLOPE_LIGHTS_OUT, VDP_OUT, GROUND_AID_OUT, TAKES_BACK,
    NOT_KNOWN, OTHER_SUBJECT,
)
