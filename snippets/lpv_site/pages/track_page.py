"""One generated page per recorded flight docs/debrief/flights/*.toml: what it tells, moment by moment, and a sheet.

The recording lies beside its file and is read when the site is built.  Pages tell times from the first sample on,
never a date.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from lpv.aircraft import record as aircraft
from lpv.approach import record as approach
from lpv.core.errors import DataError, DomainError, Fault
from lpv.files.toml_reader import read_folder
from lpv.track import command as track
from lpv.track import files as track_reader
from lpv.track import flight_file as track_file
from lpv.track import report as track_text
from lpv.track.flown import Debrief, Moment
from lpv.track.moments import ending
from lpv.track.records import Remark
from lpv_site.department.data import DOCS, once
from lpv_site.figures.track_figures import deviation_figure, profile_figure
from lpv_site.pages.track_sheet import answers, card, gates_in_words, invented
from lpv_site.text.headings import headings, relative
from lpv_site.text.table import stacked, table
from lpv_site.text.text import escape, front_matter, kept, quantity

FOLDER = Path("debrief") / "flights"
INDEX = "debrief/flights/index.md"
EXPLAINED = "reference/recordings.md"
MARKS = {True: "✓", False: "✕", None: ""}
# Kind of moment -> where it is explained, when all was as it should be or when it was not (else the first).
LINKS: dict[str, tuple[str, str]] = {
    "through the course": ("intercept/lateral.md#lead", "intercept/lateral.md#through-the-course"),
    "established": ("intercept/index.md#captures", "intercept/index.md#not-established-at-pfaf"),
    "path from above": ("intercept/vertical.md#above", "intercept/vertical.md#path-from-above"),
    "path from below": ("intercept/vertical.md#path-met", "intercept/vertical.md#path-met"),
    "on path": ("final/deviation.md#path", "final/deviation.md#path"),
    "PFAF": ("final/index.md#table", "intercept/index.md#not-established-at-pfaf"),
    "PFAF, above the path": ("final/index.md#glidepath-from-above", "final/index.md#glidepath-from-above"),
    "PFAF, below the path": ("intercept/vertical.md#path-above-at-pfaf", "intercept/vertical.md#path-above-at-pfaf"),
    "cold": ("final/altimeter.md#cold", "intercept/vertical.md#level-at-charted-in-cold"),
    "cold minimum": ("final/altimeter.md#cold", "final/altimeter.md#cold-da-not-corrected"),
    "altimeter": ("final/altimeter.md#table", "final/altimeter.md#altimeter-not-within-tolerance"),
    "gate": ("final/gates.md#table", "final/gates.md#table"),
    "sink": ("final/rate.md#table", "final/rate.md#wrong"),
    "below path": ("final/deviation.md#table", "final/deviation.md#table"),
    "near the path": ("final/deviation.md#table", "final/deviation.md#table"),
    "minimum": ("decide/minimum.md#table", "final/deviation.md#dot-and-half-at-da"),
    "minimum, truly lower": ("final/altimeter.md#cold-da-not-corrected", "final/deviation.md#dot-and-half-at-da"),
    "go-around": ("decide/missed.md#dip", "decide/missed.md#dip"),
    "threshold": ("decide/index.md#table", "decide/index.md#table"),
}
# Kind of remark -> id on the page that explains it, and the words of the link.
ABOUT = {
    "columns": ("columns", "what is read"), "duplicate": ("times", "about times"),
    "backwards": ("times", "about times"), "jump": ("jumps", "about jumps"), "gap": ("gaps", "about gaps"),
    "no-altitude": ("altitude", "about altitudes"), "reference": ("reference-doubtful", "what to do"),
    "temperature": ("altitude", "about altitudes"), "rounded": ("rounded", "about rounding"),
    "several": ("several", "about several approaches"), "minimum": ("not-told", "what is not told"),
}


@dataclass(frozen=True)
class Recorded:
    """A recorded flight with its file and what it tells."""

    file: track_file.FlightFile
    debrief: Debrief

    @property
    def address(self) -> str:
        """Address of its page below docs/."""
        return f"debrief/flights/{self.file.slug}.md"


@once
def recorded(docs: Path = DOCS) -> tuple[Recorded, ...]:
    """Every recorded flight of docs/debrief/flights/; DataError with the faults of all of them."""
    folder = docs / FOLDER
    if not folder.is_dir():
        return ()
    found = tuple(read_folder(folder, partial(_told, docs)))
    named = {one.file.flight.recording for one in found}
    alone = sorted(path.name for path in folder.iterdir() if path.suffix in (".csv", ".gpx") and path.name not in named)
    if alone:
        raise DataError([
            Fault(name, "", "a recording that no file names", "a file .toml beside it", "Add the file, or remove this.")
            for name in alone
        ])
    return found


def _told(docs: Path, path: Path) -> Recorded:
    file = track_file.read(path)
    flight = file.flight
    to = approach.read(docs / "approaches" / f"{flight.approach}.toml")
    by = aircraft.read(docs / "aircraft" / f"{flight.aircraft}.toml") if flight.aircraft else None
    recording = track_reader.read(path.parent / flight.recording, flight.altitude or "")
    try:
        return Recorded(file, track.analyse(recording, to, by, file.conditions))
    except DomainError as error:
        raise DataError([Fault(path.name, "", str(error), "a flight that can be told", "Change the file.")]) from error


def track_pages(docs: Path) -> dict[str, Callable[[], str]]:
    """Address below docs/ -> function that writes the page's Markdown, for the index and every recorded flight."""
    found = recorded(docs)
    pages: dict[str, Callable[[], str]] = {INDEX: partial(build_track_index_page, found)}
    return pages | {one.address: partial(build_track_page, one, docs) for one in found}


def build_track_page(one: Recorded, docs: Path = DOCS) -> str:
    """The page of one recorded flight as Markdown."""
    flight = one.file.flight
    page = f"{front_matter(flight.name, flight.about, search=0.5)}{escape(flight.about)}{invented(flight)}\n\n"
    return page + "\n".join((
        _warning(one), _glance(one), _to_talk_about(one, docs), _deviations(one), _moments(one, docs), _profile(one),
        _gates(one), _recording(one), card(one.debrief, one.file.flight),
    ))


def _warning(one: Recorded) -> str:
    """What makes every altitude of the page doubtful, before anything else."""
    doubts = [remark for remark in one.debrief.remarks if remark.key == "reference"]
    return "".join(
        f'!!! warning "The altitudes of this recording are doubtful"\n\n    {kept(remark.what)} '
        f"{_explained(one, remark)}\n" for remark in doubts
    )


def _glance(one: Recorded) -> str:
    return "## At a glance { #glance }\n\n" + stacked([(kept(ending(one.debrief.flown)), answers(one.debrief))])


def wrong(debrief: Debrief) -> list[Moment]:
    """What was not as it should be, in the order flown."""
    return [moment for moment in debrief.moments if moment.good is False]


def _to_talk_about(one: Recorded, docs: Path) -> str:
    """What was not as it should be, before everything that was: an instructor begins with it."""
    rows = "".join(
        f"- **{quantity(moment.at.along_nm, 'NM', 1)}** {MARKS[False]} {kept(moment.what)}{_link(one, moment, docs)}\n"
        for moment in wrong(one.debrief)
    )
    return "## To talk about { #talk }\n\n" + (rows or "Nothing that a recording tells was wrong.\n")


def _deviations(one: Recorded) -> str:
    return "## Deviations { #deviations }\n\n" + deviation_figure(one.debrief)


def _profile(one: Recorded) -> str:
    return "## Profile { #profile }\n\n" + profile_figure(one.debrief)


def _moments(one: Recorded, docs: Path) -> str:
    from_s = one.debrief.flown.points[0].time_s
    rows = [
        (_where(moment, from_s), f"{_mark(moment.good)}{kept(moment.what)}{_link(one, moment, docs)}")
        for moment in one.debrief.moments
    ]
    whose = "as recorded" if one.debrief.recording.barometric else "as it should have read"
    return (
        f"## Moments {{ #moments }}\n\n{MARKS[True]} as it should be, {MARKS[False]} not; without a mark nothing is "
        "judged, or it is too close to say. At the PFAF and at the minimum the limit is one dot, common practice. On "
        f"the left: distance to the threshold, altimeter ({whose}), time from the first sample.\n\n"
        + table(["where", "what, and where it is explained"], rows, left=2)
    )


def _where(moment: Moment, from_s: float) -> str:
    at = moment.at
    altimeter = [] if at.indicated_ft is None else [quantity(at.indicated_ft, "ft")]
    return "<br>".join([f"**{quantity(at.along_nm, 'NM', 1)}**", *altimeter, track_text.clock(at.time_s - from_s)])


def _mark(good: bool | None) -> str:
    return f"**{MARKS[good]}** " if MARKS[good] else ""


def _link(one: Recorded, moment: Moment, docs: Path) -> str:
    """The section that explains a moment, by the words of its heading; "" if this handbook has it no more."""
    address = LINKS.get(moment.key, ("", ""))[moment.good is False]
    words = headings(docs).get(address)
    return f"<br>→ [{words}]({relative(address, one.address)})" if words else ""


def _gates(one: Recorded) -> str:
    text = "".join(
        f"**{escape(gate.gate.name)}, {quantity(gate.altitude_ft, 'ft')}: {gate.verdict or 'not judged'}**\n\n"
        + (table(["item", "found", "verdict"], [
            (item.item, f"{kept(item.found)}<br>{kept(item.limit)}", item.verdict) for item in gate.items], left=3)
           if gate.items else "") + "\n"
        for gate in one.debrief.gates
    )
    return (
        f"## Gates {{ #gates }}\n\n[Whose limits these are]({relative('final/gates.md#table', one.address)}). The dot "
        f"was written for ILS; that it is applied to LPV is common practice.\n\n{text}Not told by a recording, and not "
        f"taken as met: {escape(track_text.not_told(one.debrief))}.\n"
    )


def _recording(one: Recorded) -> str:
    remarks = [
        f"- {kept(track_text.remark_text(remark))} {_explained(one, remark)}\n" for remark in one.debrief.remarks
    ]
    number_of = f" Approach {one.debrief.number} of {one.debrief.count}." if one.debrief.count > 1 else ""
    return (
        f"## The recording {{ #recording }}\n\n`{one.file.flight.recording}`.{number_of} "
        f"{kept(track_text.uncertainty(one.debrief))} Nothing of it was sent anywhere: it was read on the computer "
        f"that built this page. [What is read, and how]({relative(EXPLAINED, one.address)}).\n\n"
        + ("".join(remarks) or "Nothing had to be left out.\n")
    )


def _explained(one: Recorded, remark: Remark) -> str:
    anchor, words = ABOUT[remark.key]
    return f"[{words[0].upper()}{words[1:]}]({relative(f'{EXPLAINED}#{anchor}', one.address)})"


def build_track_index_page(found: Sequence[Recorded]) -> str:
    """The list of recorded flights."""
    page = (
        front_matter("Recorded flights", "Flights as recorded, against their approaches - deviations, moments, gates, "
                     "and what a recording cannot tell.")
        + "After the flight: what a recording tells of an approach, and what it cannot. Nothing of it leaves your "
        f"department: [how to add one]({relative(EXPLAINED, INDEX)}). Yours, on your phone: "
        "[your own recording](../own.md).\n\n"
    )
    if not found:
        return page + "No recording is here yet.\n"
    return page + "".join(
        f"- [{escape(one.file.flight.name)}]({one.file.slug}.md): {escape(one.file.flight.about)} "
        f"To talk about: {len(wrong(one.debrief)) or 'nothing'}; gates: {gates_in_words(one.debrief)}.\n"
        for one in sorted(found, key=lambda one: (len(wrong(one.debrief)), one.file.flight.name))
    )
