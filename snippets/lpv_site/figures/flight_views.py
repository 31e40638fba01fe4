"""A flown scenario from above and from the side, written as SVG at once (`lpv_site.figures.plot`)."""

from collections.abc import Sequence
from itertools import accumulate, pairwise

from lpv.core.text import feet, nautical_miles, number
from lpv.core.units import FT_PER_NM
from lpv.simulate.legs import distance_ft
from lpv.simulate.procedure import along_course
from lpv.simulate.records import Flight, Sample
from lpv_site.figures.figure import POINTS_PER_IN, figure_html
from lpv_site.figures.plot import (
    BOTTOM,
    LEFT,
    RIGHT,
    TOP,
    WIDTH,
    Frame,
    Point,
    Words,
    labelled,
    line,
    mark,
    sheet,
)

DATA_ROWS = 10
MIN_WIDE_NM = 2.0
TALLEST_IN = 4.4
ROOM = 0.06
PATH_WITHIN_FT = 0.5 * FT_PER_NM  # of the final course, where the profile shows the path
MARKED = {"arm approach": ("armed", "square"), "course reached": ("course captured", "diamond"),
          "path reached from below": ("glidepath captured", "circle"),
          "path reached from above": ("glidepath captured", "circle"),
          "PFAF passed": ("FAF", "bar"), "minimum": ("minimum", "bar"), "go around": ("go around", "diamond")}


def plan_of_flight(flight: Flight) -> str:
    """Seen from above: the ground track with the coded legs under it, the final course up the page, one scale."""
    track = [_above(sample) for sample in flight.samples]
    legs = [[(right / FT_PER_NM, -along / FT_PER_NM) for along, right in places] for places in _coded(flight)]
    frame = _to_scale("plan", [*track, *(place for leg in legs for place in leg), (0.0, 0.0)])
    marks = [(words, shape, _above(at)) for words, shape, at in _marks(flight)]
    svg = sheet(frame, ("left or right of the final course, NM", "along it, NM"), [
        line(frame, ((0.0, frame.y[0]), (0.0, 0.0)), "muted", 0.8, dashed=True),
        *(line(frame, leg, "second", 1.1, dashed=True) for leg in legs),
        line(frame, track, "first"), mark(frame, (0.0, 0.0), "bar", "ink"),
        *(mark(frame, at, shape, "ink") for _, shape, at in marks),
    ], _clear_words(frame, [(words, at) for words, _, at in marks] + [("threshold", (0.0, 0.0))], track))
    return figure_html(
        "plan", svg, f"Plan view, {_flown_nm(flight)} flown. {_legs_in_words(legs)}Gray: the final course.",
        ["NM before", "NM right", "heading, °", "kt over ground"],
        [(number(sample.along_nm, 0.1), number(sample.across_ft / FT_PER_NM, 0.01), number(sample.heading_deg),
          number(sample.ground_speed_kt)) for sample in _few(flight)])


def _legs_in_words(legs: Sequence[object]) -> str:
    return "Dashed: the coded legs. " if legs else ""


def profile_of_flight(flight: Flight) -> str:
    """Seen from the side: the altimeter over the distance flown, the SBAS path where it leads, and the gates."""
    flown = dict(zip((sample.time_s for sample in flight.samples), _distances_nm(flight.samples), strict=True))
    altitudes = [(flown[sample.time_s], sample.indicated_ft) for sample in flight.samples]
    on_final = [sample for sample in flight.samples if _on_final(sample)]
    path = [(flown[sample.time_s], sample.indicated_ft - sample.path_ft) for sample in on_final]
    top = max(ft for _, ft in altitudes)
    low = min(ft for _, ft in altitudes)
    frame = Frame("profile", (0.0, altitudes[-1][0]), (low - ROOM * (top - low), top + 3.0 * ROOM * (top - low)), 2.6)
    marks = [(words, shape, (_at(flown, at.time_s), at.indicated_ft)) for words, shape, at in _marks(flight)]
    gates = [(_at(flown, gate.sample.time_s), gate.sample.indicated_ft) for gate in flight.gates]
    svg = sheet(frame, ("distance flown, NM", "altimeter, ft"), [
        *([line(frame, [at for at in path if at[1] <= frame.y[1]], "second", 1.1, dashed=True)] if path else []),
        line(frame, altitudes, "first"), *(mark(frame, at, "square", "answer") for at in gates),
        *(mark(frame, at, shape, "ink") for _, shape, at in marks),
    ], _clear_words(frame, [(words, at) for words, _, at in marks], altitudes))
    dashed = "Dashed: the SBAS glidepath. " if path else ""
    return figure_html(
        "profile", svg, f"Profile: from {feet(altitudes[0][1])} on the altimeter to "
        f"{feet(altitudes[-1][1])}. {dashed}{_gates_in_words(flight)}",
        ["NM flown", "altimeter, ft", "ft/min", "kt indicated"],
        [(number(flown[sample.time_s], 0.1), number(sample.indicated_ft), number(sample.climb_fpm, 10.0),
          number(sample.airspeed_kt)) for sample in _few(flight)])


def _gates_in_words(flight: Flight) -> str:
    count = len(flight.gates)
    return f"{count} {'gate' if count == 1 else 'gates'} passed, one square each." if count else "It reached no gate."


def _above(sample: Sample) -> Point:
    return sample.across_ft / FT_PER_NM, -sample.along_nm


def _coded(flight: Flight) -> list[list[tuple[float, float]]]:
    first = flight.samples[0]
    begin = first.along_nm * FT_PER_NM, first.across_ft
    return [*along_course(flight.procedure.joining, begin), *along_course(flight.procedure.missed, (0.0, 0.0))]


def _marks(flight: Flight) -> list[tuple[str, str, Sample]]:
    """(words, shape, where) of what is marked, each once."""
    marks: dict[str, tuple[str, str, Sample]] = {}
    for moment in flight.moments:
        if moment.key in MARKED and moment.sample:
            words, shape = MARKED[moment.key]
            marks.setdefault(words, (words, shape, moment.sample))
    return list(marks.values())


def _to_scale(name: str, places: Sequence[Point]) -> Frame:
    """A frame in which a mile is as long across as up."""
    (left, right), (low, high) = ((min(values), max(values)) for values in zip(*places, strict=True))
    wide, tall = max(MIN_WIDE_NM, right - left) * (1 + 2 * ROOM), (high - low) * (1 + 2 * ROOM)
    width_in, margin_in = (WIDTH - LEFT - RIGHT) / POINTS_PER_IN, (BOTTOM + TOP) / POINTS_PER_IN
    nm_per_in = max(wide / width_in, tall / (TALLEST_IN - margin_in))
    middle_x, middle_y = (left + right) / 2.0, (low + high) / 2.0
    half = nm_per_in * width_in / 2.0
    height_in = max(1.6, tall / nm_per_in + margin_in)
    up = nm_per_in * (height_in - margin_in) / 2.0
    return Frame(name, (middle_x - half, middle_x + half), (middle_y - up, middle_y + up), height_in)


def _clear_words(frame: Frame, marked: Sequence[tuple[str, Point]], drawn: Sequence[Point]) -> list[str]:
    """Words beside their marks, off the line where there is room."""
    words = [Words(at, text, sides=("e", "w")) for text, at in marked]
    return labelled(frame, words, [at for _, at in marked], [drawn])


def _on_final(sample: Sample) -> bool:
    return sample.along_nm >= 0.0 and abs(sample.across_ft) < PATH_WITHIN_FT


def _distances_nm(samples: Sequence[Sample]) -> list[float]:
    """Distance flown to each sample."""
    places = [(sample.along_nm * FT_PER_NM, sample.across_ft) for sample in samples]
    return list(accumulate((distance_ft(*pair) / FT_PER_NM for pair in pairwise(places)), initial=0.0))


def _at(flown: dict[float, float], time_s: float) -> float:
    """Distance flown at the sample nearest in time."""
    return flown[min(flown, key=lambda at: abs(at - time_s))]


def _flown_nm(flight: Flight) -> str:
    return nautical_miles(_distances_nm(flight.samples)[-1])


def _few(flight: Flight) -> list[Sample]:
    step = max(1, len(flight.samples) // DATA_ROWS)
    return [*flight.samples[::step], flight.samples[-1]]
