"""The runway of an approach, from its own record: a second opinion on the final approach segment."""

from typing import Any

from lpv.arinc.columns import angle_deg, course_deg
from lpv.arinc.flown import Reckoning, straight
from lpv.arinc.layouts import RUNWAY
from lpv.arinc.positions import Place
from lpv.arinc.records import Lookup
from lpv.core.course import true_deg
from lpv.core.text import course_digits
from lpv.core.units import M_PER_FT
from lpv.fas.path_point_reader import PathPoint

Table = dict[str, Any]
OPPOSITE = {"L": "R", "R": "L"}
BEARING_PLACES = 2  # decimals


def runway_table(texts: dict[str, str], reckoning: Reckoning, lookup: Lookup) -> Table:
    """The table [runway]; {} where the record has no threshold elevation, without which it is not complete."""
    if not texts["elevation"]:
        return {}
    bearing, how = _bearing(texts, reckoning, lookup)
    return {
        "threshold_latitude_deg": round(angle_deg(texts["latitude"]), 7),
        "threshold_longitude_deg": round(angle_deg(texts["longitude"]), 7),
        **({} if bearing is None else {"bearing_true_deg": bearing}), "length_ft": int(texts["length"]),
        "displaced_threshold_ft": int(texts["displaced"] or 0), "threshold_elevation_ft": int(texts["elevation"]),
        "source": f"runway record of {texts['ident']}, last changed in cycle {texts['cycle']}; {how}",
    }


def _bearing(texts: dict[str, str], reckoning: Reckoning, lookup: Lookup) -> tuple[float | None, str]:
    """The true bearing, and where it is from: both thresholds, else the record with the variation of record."""
    other = lookup.single("PG", opposite(texts["ident"]), RUNWAY)
    if other and (texts["latitude"], texts["longitude"]) != (other["latitude"], other["longitude"]):
        lookup.left_over["runway of the other direction, all but its position", other["ident"]] = 1
        if other["length"] != texts["length"]:
            lookup.remark(f"{texts['ident']} is {texts['length'] or 'blank'} ft long, {other['ident']} "
                          f"{other['length'] or 'blank'}")
        return round(straight(_threshold(texts), _threshold(other)).course_deg, BEARING_PLACES), (
            f"bearing from both thresholds, coded {_as_coded(texts['bearing'])}")
    coded = course_deg(texts["bearing"])
    if coded is None:
        return None, "without a bearing"
    if coded[1]:
        return coded[0], "bearing as coded, true"
    return round(true_deg(coded[0], reckoning.variation_deg), BEARING_PLACES), (
        "bearing as coded, with the airport's variation of record")


def _as_coded(bearing: str) -> str:
    coded = course_deg(bearing)
    return "none" if coded is None else f"{course_digits(coded[0], 0.1)} {'true' if coded[1] else 'magnetic'}"


def _threshold(texts: dict[str, str]) -> Place:
    return Place(angle_deg(texts["latitude"]), angle_deg(texts["longitude"]))


def opposite(ident: str) -> str:
    """The runway's other direction: RW10R of RW28L."""
    number = (int(ident[2:4]) + 17) % 36 + 1
    return f"RW{number:02d}{OPPOSITE.get(ident[4:].strip(), ident[4:].strip())}"


def displaced_ft(texts: dict[str, str]) -> Table:
    """The key for a displaced threshold; {} for one that is not."""
    displaced = int(texts["displaced"] or 0)
    return {"displaced_threshold_ft": displaced} if displaced else {}


def threshold_elevation_ft(texts: dict[str, str], point: PathPoint, lookup: Lookup) -> tuple[int, list[str]]:
    """The threshold's elevation, and a remark where it is the path point's; DataError where neither has one."""
    if texts["elevation"]:
        return int(texts["elevation"]), []
    if point.ltp_orthometric_height_m is None:
        raise lookup.refused(f"no elevation of {texts['ident']}", "one, of the runway or of the path point")
    return round(point.ltp_orthometric_height_m / M_PER_FT), [
        "Threshold elevation: the path point's height of the LTP; the runway record has none."]
