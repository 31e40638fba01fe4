"""Scenario files: one flight to one approach and what the crew does on it, one TOML file each, read strictly.

    [scenario]          # what it shows; approach and aircraft by the names of their files; weather, weight
    approach = "zzak-rnav-09"
    ...
    [start]             # where the flight begins, and how
    [[wind]]            # by height; none: calm
    [[event]]           # what happens, in order: when, and what
    distance_nm = 9
    does = "arm approach"
    [ils]               # the ILS whose localizer is tuned, if one is
    [[leg]]             # coded legs that the FMS flies, where the approach's file holds none

Headings and winds are in the chart's reference.  Events wait for each other: the second is looked for once
the first has happened.  `lpv.simulate.simulation` flies it.
"""
# ruff: noqa: RUF009  (the schema functions return dataclasses.field)

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

from lpv.approach.coded_leg import CodedLeg
from lpv.approach.schema import FIX_NAME, FaultRow
from lpv.core.text import trimmed_quantity
from lpv.files import named_file, schema
from lpv.files import toml_reader as tomlfile
from lpv.modes.autopilot import ENGAGED, OFF
from lpv.modes.machine import EVENTS

ACTIVATIONS = ("procedure", "vectors")
# What a scenario shows, in the order in which the list of scenarios tells them.
KINDS = ("as it should be", "go-around", "cold", "course", "path", "source", "loss", "after landing")
TRIGGERS = ("time_s", "after_s", "distance_nm", "across_nm", "altitude_ft")
# Events that happen by where the aircraft is, and those that begin or end a flight.
AUTOMATIC = (
    "arming distance reached", "course reached", "path reached from below", "path reached from above", "PFAF passed",
    "land")
CREW = tuple(event for event in EVENTS if event not in AUTOMATIC and event not in ("take off", "next approach"))
TUNING = tuple(event for event in EVENTS if event.startswith("tune"))


@dataclass(frozen=True, kw_only=True)
class Story:
    """What the scenario is about, and what does not change in it."""

    name: str = schema.text("what it shows, in a few words")
    about: str = schema.text("what happens, in one or two sentences", longest=400)
    kind: str = schema.choice("what kind of flight, which decides its place in the list", KINDS)
    approach: str = schema.text("name of the approach file, without its ending", pattern=named_file.SLUG,
                                example="zzak-rnav-09")
    aircraft: str = schema.text("name of the aircraft file, without its ending", pattern=named_file.SLUG,
                                example="light-jet")
    invented: bool = schema.flag("whether the flight is made up")
    weight_lb: float = schema.number("landing weight", "lb", 1000, 1_500_000)
    temperature_c: float = schema.number("temperature at the aerodrome", "deg C", -60, 50)
    altimeter_reads_high_ft: float | None = schema.number(
        "what the altimeter reads too high because it is set wrong; negative: too low", "ft", -1500, 1500,
        required=False)
    transition: str | None = schema.text(
        "name of the coded transition that is flown, where there are several", pattern=FIX_NAME, example="SANDY",
        required=False)
    activation: str = schema.choice("how the approach is joined, which decides the course scale", ACTIVATIONS)
    minimum_ft: float | None = schema.number(
        "decision altitude that the crew uses, if not the chart's and the operator's", "ft", -1500, 20000,
        required=False)
    longest_s: float = schema.number("the flight ends then at the latest", "s", 10, 1800)
    afterwards: tuple[str, ...] = schema.texts("what happens to the modes after the flight, as events, in order")

    def faults(self) -> Iterator[FaultRow]:
        """Only events that there are."""
        yield from _unknown("afterwards", self.afterwards)


@dataclass(frozen=True, kw_only=True)
class Start:
    """Where the flight begins, and how."""

    distance_nm: float = schema.number("along the final course, before the threshold", "NM", 0.5, 35)
    across_nm: float = schema.number("from the final course, right of it positive", "NM", -20, 20)
    heading_deg: float = schema.number("heading flown", "deg", 0, 360)
    altitude_ft: float = schema.number("altitude on the altimeter", "ft", -1000, 15000)
    speed_kt: float = schema.number("indicated airspeed", "kt", 60, 300)
    set_up: tuple[str, ...] = schema.texts("what has been done before, as events, in order")
    autopilot: str | None = schema.choice(
        "the autopilot at the start; left out, nothing is told of it", (ENGAGED, OFF), required=False)

    def faults(self) -> Iterator[FaultRow]:
        """Only events that there are."""
        yield from _unknown("set_up", self.set_up)


@dataclass(frozen=True, kw_only=True)
class Wind:
    """The wind at one height, from where it blows."""

    height_ft: float = schema.number("above the aerodrome", "ft", 0, 15000)
    from_deg: float = schema.number("direction it blows from", "deg", 0, 360)
    speed_kt: float = schema.number("speed", "kt", 0, 80)


@dataclass(frozen=True, kw_only=True)
class Event:
    """One thing that happens: one trigger, and at least one of does, autopilot, heading_deg, level_ft.

    Heading and altitude are flown while no guidance is captured that says otherwise.
    """

    time_s: float | None = schema.number("at this time", "s", 0, 1800, required=False)
    after_s: float | None = schema.number("so long after the event before", "s", 0, 600, required=False)
    distance_nm: float | None = schema.number("at this distance before the threshold", "NM", -5, 35, required=False)
    across_nm: float | None = schema.number(
        "on passing this distance from the final course, right of it positive", "NM", -20, 20, required=False)
    altitude_ft: float | None = schema.number(
        "on passing this altitude on the altimeter", "ft", -1500, 20000, required=False)
    does: str | None = schema.choice("event of the modes", CREW, required=False)
    autopilot: str | None = schema.choice("what the crew makes of the autopilot", (ENGAGED, OFF), required=False)
    heading_deg: float | None = schema.number("heading to turn to", "deg", 0, 360, required=False)
    level_ft: float | None = schema.number(
        "altitude to fly to, on the altimeter", "ft", -1000, 15000, required=False)
    rate_fpm: float | None = schema.number("vertical speed on the way there", "ft/min", 100, 4000, required=False)

    def faults(self) -> Iterator[FaultRow]:
        """One trigger; something that happens; a vertical speed only with an altitude."""
        triggers = [name for name in TRIGGERS if getattr(self, name) is not None]
        if len(triggers) != 1:
            yield "", f"{len(triggers)} triggers", f"one of {', '.join(TRIGGERS)}", "Say when it happens, once."
        if all(value is None for value in (self.does, self.autopilot, self.heading_deg, self.level_ft)):
            yield "does", "nothing that happens", "does, autopilot, heading_deg or level_ft", "Say what happens."
        if (self.rate_fpm is None) != (self.level_ft is None):
            yield "rate_fpm", "one of rate_fpm and level_ft", "both or neither", "Add the other, or remove it."


@dataclass(frozen=True, kw_only=True)
class Ils:
    """An ILS, given against the final course of the SBAS approach."""

    offset_deg: float = schema.number("its course, right of the final course positive", "deg", -10, 10)
    antenna_beyond_ft: float = schema.number("localizer antenna behind the threshold", "ft", 1000, 20000)
    antenna_right_ft: float = schema.number("localizer antenna right of the final course", "ft", -6000, 6000)
    glide_slope_deg: float = schema.number("glideslope", "deg", 2, 6)
    tch_ft: float = schema.number("height of the glideslope over the threshold", "ft", 20, 100)


@dataclass(frozen=True, kw_only=True)
class Scenario:
    """One scenario.  slug is the file's name."""

    story: Story = schema.table(Story, "what it is about", key="scenario")
    start: Start = schema.table(Start, "where the flight begins")
    winds: tuple[Wind, ...] = schema.tables(Wind, "wind by height, lowest first", key="wind", unique="height_ft")
    events: tuple[Event, ...] = schema.tables(Event, "what happens, in order", key="event")
    ils: Ils | None = schema.table(Ils, "the ILS whose localizer is tuned", required=False)
    legs: tuple[CodedLeg, ...] = schema.tables(
        CodedLeg, "legs that the FMS flies, as coded; none: those of the approach's file", key="leg", most=60)
    slug: str = ""

    def faults(self) -> Iterator[FaultRow]:
        """Winds in order; an event before one that follows; an ILS where one is tuned."""
        for lower, higher in pairwise(self.winds):
            if higher.height_ft <= lower.height_ft:
                yield ("wind", f"{trimmed_quantity(higher.height_ft, 'ft')} after "
                       f"{trimmed_quantity(lower.height_ft, 'ft')}", "rising heights",
                       "Reorder the rows.")
        if self.events and self.events[0].after_s is not None:
            yield "event[1].after_s", "no event before it", "another trigger", "Give a time or a place."
        happens = [*self.start.set_up, *(event.does for event in self.events)]
        if self.ils is None and any(event in TUNING for event in happens):
            yield "ils", "nothing, and a localizer that is tuned", "a table [ils]", "Say where that ILS leads."


def _unknown(key: str, events: tuple[str, ...]) -> Iterator[FaultRow]:
    for event in events:
        if event not in EVENTS:
            yield key, f'"{event}"', ", ".join(EVENTS), "Correct the words."


def read(path: Path | str) -> Scenario:
    """The scenario in a file; DataError with every fault found in it."""
    return named_file.read(Path(path), Scenario)


def read_text(text: str, name: str = "text") -> Scenario:
    """The scenario in the text of a file; faults name the file `name`.  DataError with every fault."""
    return named_file.read_text(text, name, Scenario)


def read_all(folder: Path | str) -> list[Scenario]:
    """All scenarios of a folder in the order of file names; DataError with every fault of every file."""
    return tomlfile.read_folder(Path(folder), read)
