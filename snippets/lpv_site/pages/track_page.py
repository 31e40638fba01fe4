"""One generated page per recorded flight docs/debrief/flights/*.toml: verdicts, figures, moments, and a sheet.

The recording lies beside its file and is read when the site is built.  Pages give times from the first sample on,
never a date.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from lpv.aircraft import record as aircraft
from lpv.approach import record as approach
from lpv.core.errors import DataError, DomainError, Fault
from lpv.core.text import clock, quantity
from lpv.files.toml_reader import read_folder
from lpv.track import command as track
from lpv.track import files as track_reader
from lpv.track import flight_file, report
from lpv.track.ending import ending
from lpv.track.flown import Debrief, Moment
from lpv.track.readers import ENDINGS
from lpv.track.records import Remark
from lpv.track.verdicts import MARKS, NOT_JUDGED, OUTSIDE, TOO_CLOSE, WITHIN
from lpv_site.department.data import DOCS, once
from lpv_site.figures.track_figures import deviation_figure, plan_figure, profile_figure
from lpv_site.pages.track_sheet import answers, card, invented
from lpv_site.text.headings import headings
from lpv_site.text.links import relative
from lpv_site.text.table import stacked, table
from lpv_site.text.text import escape, front_matter

FOLDER = Path("debrief") / "flights"
INDEX = "debrief/flights/index.md"
EXPLAINED = "reference/recordings.md"
# Kind of moment -> where it is explained, when it was within limits or not judged, and when it was outside.
LINKS: dict[str, tuple[str, str]] = {
    "fix": ("final/altimeter.md#table", "intercept/vertical.md#path-met"),
    "leg": ("verify/fixes.md#leg-course-differs", "intercept/index.md#not-established-at-pfaf"),
    "through the course": ("intercept/lateral.md#lead", "intercept/lateral.md#through-the-course"),
    "established": ("intercept/index.md#captures", "intercept/index.md#not-established-at-pfaf"),
    "path from above": ("intercept/vertical.md#above", "intercept/vertical.md#path-from-above"),
    "path from below": ("intercept/vertical.md#path-met", "intercept/vertical.md#path-met"),
    "on path": ("final/deviation.md#path", "final/deviation.md#path"),
    "PFAF": ("final/index.md#table", "intercept/index.md#not-established-at-pfaf"),
    "PFAF, above the glidepath": ("final/index.md#glidepath-from-above", "final/index.md#glidepath-from-above"),
    "PFAF, below the glidepath": (
        "intercept/vertical.md#path-above-at-pfaf", "intercept/vertical.md#path-above-at-pfaf"),
    "cold": ("final/altimeter.md#cold", "intercept/vertical.md#level-at-charted-in-cold"),
    "cold minimum": ("final/altimeter.md#cold", "final/altimeter.md#cold-da-not-corrected"),
    "altimeter": ("final/altimeter.md#table", "final/altimeter.md#altimeter-not-within-tolerance"),
    "gate": ("final/gates.md#table", "final/gates.md#table"),
    "sink": ("final/rate.md#table", "final/rate.md#wrong"),
    "below path": ("final/deviation.md#table", "final/deviation.md#table"),
    "near the glidepath": ("final/deviation.md#table", "final/deviation.md#table"),
    "minimum": ("decide/minimum.md#table", "final/deviation.md#dot-and-half-at-da"),
    "minimum, truly lower": ("final/altimeter.md#cold-da-not-corrected", "final/deviation.md#dot-and-half-at-da"),
    "continued": ("decide/index.md#table", "decide/index.md#table"),
    "sink below the minimum": ("final/rate.md#table", "final/rate.md#wrong"),
    "path below the minimum": ("final/deviation.md#table", "final/deviation.md#table"),
    "level at the minimum": ("decide/minimum.md#table", "decide/minimum.md#table"),
    "go-around": ("decide/missed.md#dip", "decide/missed.md#dip"),
    "touch and go": ("decide/missed.md#dip", "decide/missed.md#dip"),
    "climb": ("decide/missed.md#dip", "decide/missed.md#dip"),
    "gradient": ("decide/missed.md#dip", "decide/missed.md#dip"),
    "missed course": ("decide/missed.md#dip", "decide/missed.md#dip"),
    "missed altitude": ("decide/missed.md#dip", "decide/missed.md#dip"),
    "threshold": ("decide/index.md#table", "decide/index.md#table"),
    "touchdown": ("decide/index.md#table", "decide/index.md#table"),
}
# Kind of remark -> id on the page that explains it, and the words of the link.
ABOUT = {
    "columns": ("columns", "what is read"), "duplicate": ("times", "about times"),
    "backwards": ("times", "about times"), "jump": ("jumps", "about jumps"), "gap": ("gaps", "about gaps"),
    "no-altitude": ("altitude", "about altitudes"), "no-times": ("columns", "what is read"),
    "setting": ("altitude", "about altitudes"), "reference": ("reference-doubtful", "what to do"),
    "temperature": ("altitude", "about altitudes"), "rounded": ("rounded", "about rounding"),
    "several": ("several", "about several approaches"), "minimum": ("not-told", "what it does not show"),
}


@dataclass(frozen=True)
class Recorded:
    """A recorded flight: its file and its debrief."""

    file: flight_file.FlightFile
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
    recordings = tuple(read_folder(folder, partial(_judged, docs)))
    named = {item.file.flight.recording for item in recordings}
    alone = sorted(path.name for path in folder.iterdir() if path.suffix in ENDINGS and path.name not in named)
    if alone:
        raise DataError([
            Fault(name, "", "a recording without a file", "a .toml file beside it", "Add the file, or remove this.")
            for name in alone
        ])
    return recordings


def _judged(docs: Path, path: Path) -> Recorded:
    file = flight_file.read(path)
    flight = file.flight
    to = approach.read(docs / "approaches" / f"{flight.approach}.toml")
    jet = aircraft.read(docs / "aircraft" / f"{flight.aircraft}.toml") if flight.aircraft else None
    recording = track_reader.read(path.parent / flight.recording, flight.altitude or "", file.columns or None)
    try:
        return Recorded(file, track.analyse(recording, to, jet, file.conditions))
    except DomainError as error:
        fault = Fault(path.name, "", str(error), "a flight that can be judged", "Change the file.")
        raise DataError([fault]) from error


def track_pages(docs: Path) -> dict[str, Callable[[], str]]:
    """Address below docs/ -> function that writes the page's Markdown, for the index and every recorded flight."""
    recordings = recorded(docs)
    pages: dict[str, Callable[[], str]] = {INDEX: partial(build_track_index_page, recordings)}
    return pages | {item.address: partial(build_track_page, item, docs) for item in recordings}


def build_track_page(item: Recorded, docs: Path = DOCS) -> str:
    """The page of one recorded flight as Markdown."""
    flight = item.file.flight
    page = f"{front_matter(flight.name, flight.about, search=0.5)}{escape(flight.about)}{invented(flight)}\n\n"
    return page + "\n".join((
        _warning(item), verdicts(item.debrief), _glance(item), _figures(item), _moments(item, docs), _recording(item),
        card(item.debrief, item.file.flight),
    ))


def _warning(item: Recorded) -> str:
    """What makes every altitude of the page doubtful, before anything else."""
    doubts = [remark for remark in item.debrief.remarks if remark.key == "reference"]
    return "".join(
        f'!!! warning "The altitudes of this recording are doubtful"\n\n    {escape(remark.what)} '
        f"{_explained(item, remark)}\n" for remark in doubts
    )


def verdicts(debrief: Debrief) -> str:
    """The line of verdicts, with a link to the moments."""
    return f'<p class="hb-verdicts"><b>{escape(report.verdict_line(debrief))}</b></p>\n'


def _glance(item: Recorded) -> str:
    return "## At a glance { #glance }\n\n" + stacked([(escape(ending(item.debrief.flown)), answers(item.debrief))])


def wrong(debrief: Debrief) -> list[Moment]:
    """What was outside its limits, in the order flown."""
    return debrief.with_verdict(OUTSIDE)


def _figures(item: Recorded) -> str:
    return (
        "## Plan { #plan }\n\n" + plan_figure(item.debrief) + "\n## Profile { #profile }\n\n"
        + profile_figure(item.debrief) + "\n## Deviations { #deviations }\n\n" + deviation_figure(item.debrief)
    )


def _moments(item: Recorded, docs: Path) -> str:
    from_s = item.debrief.flown.points[0].time_s
    rows = [(_where(moment, from_s), _what(item, moment, docs)) for moment in item.debrief.moments]
    whose = "as recorded" if item.debrief.recording.barometric else "as it should have read"
    key = ", ".join(f"{MARKS[word]} {word}" for word in (WITHIN, OUTSIDE, TOO_CLOSE, NOT_JUDGED))
    return (
        f"## Moments {{ #moments }}\n\n{key}. Each figure is judged with its uncertainty (95%): "
        "within or outside only if the whole range is. "
        f"[Whose limits]({relative('final/gates.md#table', item.address)}). "
        f"On the left: distance to the threshold, altimeter ({whose}), time from the first sample.\n\n"
        + table(["where", "what happened, and where it is explained"], rows, left=2)
        + f"\nNot recorded, and not assumed met: {escape(report.not_recorded_items(item.debrief))}.\n"
    )


def _where(moment: Moment, from_s: float) -> str:
    at = moment.at
    altimeter = [] if at.indicated_ft is None else [quantity(at.indicated_ft, "ft")]
    return "<br>".join([f"**{quantity(at.along_nm, 'NM', 0.1)}**", *altimeter, clock(at.time_s - from_s)])


def _what(item: Recorded, moment: Moment, docs: Path) -> str:
    """A moment: mark, words, every comparison that is not within, and the link."""
    mark = f"**{MARKS[moment.verdict]}** " if moment.verdict else ""
    rows = [f"<br>{MARKS[row.verdict]} {escape(report.comparison_text(row))}" for row in moment.compared
            if row.verdict != WITHIN]
    return f"{mark}{escape(moment.what)}{''.join(rows)}{_link(item, moment, docs)}"


def _link(item: Recorded, moment: Moment, docs: Path) -> str:
    """The section that explains a moment, by the words of its heading; "" if this handbook has it no more."""
    address = LINKS.get(moment.key, ("", ""))[moment.verdict == OUTSIDE]
    words = headings(docs).get(address)
    return f"<br>→ [{words}]({relative(address, item.address)})" if words else ""


def _recording(item: Recorded) -> str:
    remarks = [f"- {escape(report.remark_text(remark))} {_explained(item, remark)}\n"
               for remark in item.debrief.remarks]
    number_of = f" Approach {item.debrief.number} of {item.debrief.count}." if item.debrief.count > 1 else ""
    return (
        f"## The recording {{ #recording }}\n\n`{item.file.flight.recording}`.{number_of} "
        f"{escape(report.uncertainty(item.debrief))} It never left the computer "
        f"that built this page. [What is read, and how]({relative(EXPLAINED, item.address)}).\n\n"
        + ("".join(remarks) or "Nothing was left out.\n")
    )


def _explained(item: Recorded, remark: Remark) -> str:
    anchor, words = ABOUT[remark.key]
    return f"[{words[0].upper()}{words[1:]}]({relative(f'{EXPLAINED}#{anchor}', item.address)})"


def _least_to_talk_about(item: Recorded) -> tuple[int, int, str]:
    return len(wrong(item.debrief)), len(item.debrief.with_verdict(NOT_JUDGED)), item.file.flight.name


def build_track_index_page(recordings: Sequence[Recorded]) -> str:
    """The list of recorded flights."""
    page = (
        front_matter("Recorded flights", "Flights as recorded, against their approaches - deviations, moments, gates, "
                     "and what a recording cannot tell.")
        + "After the flight: what a recording shows of an approach, and what it cannot show. Nothing leaves your "
        f"department: [how to add one]({relative(EXPLAINED, INDEX)}). Yours, on your phone: "
        "[your own recording](../own.md).\n\n"
    )
    if not recordings:
        return page + "No recording is here yet.\n"
    return page + "".join(
        f"- [{escape(item.file.flight.name)}]({item.file.slug}.md): {escape(item.file.flight.about)} "
        f"{escape(report.verdict_line(item.debrief))}\n"
        for item in sorted(recordings, key=_least_to_talk_about)
    )
