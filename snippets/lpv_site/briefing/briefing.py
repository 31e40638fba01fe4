"""One generated page per approach, and the index that leads to them."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from lpv.approach.provenance import unverified
from lpv.approach.record import Approach
from lpv.approach.schema import Fix
from lpv.core.course import magnetic_deg
from lpv.core.findings import Finding, by_severity, counts, verdict
from lpv.core.spoken import spoken
from lpv.core.text import course, number, plural, quantity
from lpv.crosscheck.coded import FROM_THE_CHART
from lpv.decide.final_path import glidepath, has_glidepath, pfaf_distance_nm
from lpv.decide.visibility import printed_visibility_text
from lpv.fas.block import encode
from lpv.path.profile import barometric_path_height_ft, straight_path_height_ft
from lpv_site.briefing import card as briefing_card
from lpv_site.briefing import coded as briefing_coded
from lpv_site.briefing import flying as briefing_flying
from lpv_site.briefing.coded import mark
from lpv_site.briefing.figures import plan, profile
from lpv_site.briefing.numbers import (
    crosschecked,
    in_force,
    is_awaited,
    minima_in_words,
)
from lpv_site.figures.figure import set_aside
from lpv_site.forms.setup_figures import check_link
from lpv_site.text.findings import finding_list
from lpv_site.text.table import finished, stacked
from lpv_site.text.text import escape, front_matter

ALTITUDE_STEP_NM = 1


def build_briefing_page(approach: Approach) -> str:
    """The briefing of one approach as Markdown: the answer first, everything computed."""
    title = f"{approach.identity.title}, {approach.identity.airport}"
    page = front_matter(title, "Briefing of " + title, heading=approach.identity.title)
    sections = (section(approach) for section in SECTIONS)
    return page + "\n".join(section for section in sections if section)


def headline(approach: Approach) -> str:
    """Where it is, what search knows of it, and from when to when its data hold."""
    who = approach.identity
    invented = " Invented: no such place exists." if who.invented else ""
    return (
        f"{escape(who.airport_name)} ({escape(who.airport)}), runway {escape(who.runway)}: "
        f"{who.level_of_service}, channel {who.channel}, {escape(who.path_id)}.{invented}\n\n" + in_force(who)
        + briefing_coded.unread(approach)
    )


def identity(approach: Approach) -> str:
    """The strip that the crew compares first."""
    chart, who = approach.chart, approach.identity
    line, kind, altitude = minima_in_words(approach)
    pairs = [
        ("channel", str(who.channel)),
        ("path identifier", escape(who.path_id)),
        ("course", course(chart.course_deg) + " " + chart.course_reference + briefing_coded.computed(chart)),
        ("glidepath", quantity(chart.glidepath_deg, "°", 0.01) if chart.glidepath_deg is not None else "none"),
        ("threshold crossing", quantity(chart.tch_ft, "ft") if chart.tch_ft is not None else ""),
        (f"{line} {kind}", altitude),
        ("missed approach to", quantity(chart.missed.altitude_ft, "ft") if chart.missed else ""),
        ("rules", who.rule),
    ]
    links = f'<a href="{check_link("../set-up/check.md", approach.slug)}">Check what both sides have set</a>\n'
    links += '<a href="../debrief/own.md">After the flight: your own recording</a>'
    listed = stacked([("Chart and aircraft must both show", pairs)])
    return f'## Set and compare {{ #identity }}\n\n{listed}\n<div class="hb-more"><p>{links}</p></div>\n'


def checked(approach: Approach) -> str:
    """What the cross-check of chart, database and computation found."""
    findings = crosschecked(approach)
    text = f"## Does the database agree? {{ #findings }}\n\n**{verdict(findings)}**\n\n"
    unsettled = [finding for finding in findings if finding.grade in ("stop", "resolve")]
    text += finding_list(by_severity(unsettled)) if unsettled else ""
    unknown = [finding for finding in findings if finding.grade == "not compared"]
    if unknown:
        text += f'\n??? note "{len(unknown)} not compared, and why"\n\n' + indented(finding_list(unknown)) + "\n"
    notes = [finding for finding in findings if finding.grade == "note"]
    if notes:
        text += f'\n??? note "{plural(len(notes), "note")} to brief"\n\n' + indented(finding_list(notes)) + "\n"
    agreed = [finding for finding in findings if finding.grade == "ok"]
    return text + f'\n??? note hb-agreed "{plural(len(agreed), "check")} that agree"\n\n' + indented(
        f"<ul>{''.join(map(_agreed, agreed))}</ul>"
    )


def _agreed(finding: Finding) -> str:
    return f"<li>{escape(finding.what)}: {escape(finding.chart or finding.computed)}</li>"


def indented(text: str) -> str:
    """Markdown moved into the block above it."""
    return "\n".join("    " + line for line in text.splitlines()) + "\n"


def vertical(approach: Approach) -> str:
    """Profile and altitude against distance; the answer for an approach without glidepath is that there is none."""
    if not has_glidepath(approach):
        return (
            "## Altitudes { #altitudes }\n\nNo glidepath: lateral guidance only. Fly altitudes by the "
            "altimeter, down to a minimum descent altitude.\n"
        )
    arguments = glidepath(approach)
    miles = int(pfaf_distance_nm(approach))
    rows = [
        (
            quantity(distance, "NM"),
            number(straight_path_height_ft(distance, *arguments)),
            number(barometric_path_height_ft(distance, *arguments)),
        )
        for distance in range(miles, 0, -ALTITUDE_STEP_NM)
    ]
    return (
        "## Altitude against distance { #altitudes }\n\n"
        + profile(approach)
        + "\n"
        + finished(["to threshold", "SBAS glidepath, ft", "barometric path, ft"], rows)
    )


def legs(approach: Approach) -> str:
    """The fixes in the order flown, and the plan."""
    rows = [_leg(fix) for fix in approach.chart.fixes]
    return (
        "## Fixes { #fixes }\n\n"
        + finished(["fix", "course", "NM", "altitude, ft"], rows)
        + briefing_coded.coded(approach)
        + "\n"
        + plan(approach)
        + briefing_coded.legs(approach)
    )


def _leg(fix: Fix) -> Sequence[str]:
    altitude = [] if fix.altitude_ft is None else [number(fix.altitude_ft), escape(fix.altitude_rule)]
    altitude += [] if fix.path_altitude_ft is None else [f"path {number(fix.path_altitude_ft)}"]
    return (
        f"{escape(fix.name)}<br>{escape(spoken(', '.join((fix.role, *fix.also))))}",
        "" if fix.leg_course_deg is None else course(fix.leg_course_deg) + mark("course" in fix.leg_computed),
        "" if fix.leg_distance_nm is None else number(fix.leg_distance_nm, 0.1) + mark("distance" in fix.leg_computed),
        "<br>".join(altitude),
    )


def courses(approach: Approach) -> str:
    """The true course of the segment and the magnetic one to set."""
    chart, true_deg = approach.chart, approach.true_course_deg
    variation = chart.variation_deg
    rows = [
        ("true, LTP to FPAP", course(true_deg, 0.01)),
        ("variation of record, east positive", number(variation, 0.1) + "°"),
        ("magnetic, computed", course(magnetic_deg(true_deg, variation), 0.1)),
        (f"<strong>{'computed, the chart not read' if chart.course_computed else 'as charted, to set'}</strong>",
         f"<strong>{course(chart.course_deg)}</strong>"),
    ]
    return "## Course { #course }\n\n" + finished(["course", "degrees"], rows)


def minima(approach: Approach) -> str:
    """The lines of minima as printed."""
    if not approach.chart.minima:
        return "## Minima { #minima }\n\n" + briefing_coded.lines_coded(approach)
    rows = [
        (
            f"{line.line}<br>{line.categories}",
            f"{line.kind} {number(line.altitude_ft)}",
            "" if line.hat_ft is None else number(line.hat_ft),
            printed_visibility_text(line),
        )
        for line in approach.chart.minima
    ]
    return "## Minima { #minima }\n\n" + finished(["line", "ft", "above TDZE, ft", "visibility"], rows)


def missed(approach: Approach) -> str:
    """The missed approach in the chart's words."""
    if approach.chart.missed is None:
        awaited = f"{FROM_THE_CHART.capitalize()}.\n" if is_awaited(approach, "missed") else ""
        return awaited and "## Missed approach { #missed }\n\n" + awaited
    return f"## Missed approach {{ #missed }}\n\n{escape(approach.chart.missed.instruction)}\n"


def block(approach: Approach) -> str:
    """The data block as its fields encode it, with the remainder that came with it."""
    text = encode(approach.segment).hex().upper()
    lines = "\n".join(text[start : start + 20] for start in range(0, len(text), 20))
    coded = approach.held
    remainder = f"Remainder: stored {coded.stored or 'none'}, computed {coded.computed}."
    code = set_aside(f"<pre><span></span><code>{lines}\n</code></pre>")
    return (
        f"## Data block {{ #block }}\n\nStored as {coded.form}. {remainder}\n\n"
        f'<div class="language-text highlight">{code}</div>\n'
    )


SECTIONS: tuple[Callable[[Approach], str], ...] = (
    headline,
    *briefing_card.SECTIONS,
    identity,
    checked,
    vertical,
    courses,
    legs,
    minima,
    briefing_coded.safe,
    missed,
    *briefing_flying.SECTIONS,
    block,
)


@dataclass(frozen=True)
class IndexEntry:
    """One line of the index, what search knows of a briefing, and what is open about it.

    unverified: values that nobody verified; 1 where the file does not say who read it from the chart
    """

    airport: str
    airport_name: str
    title: str
    level_of_service: str
    channel: int
    path_id: str
    cycle: str = ""
    stops: int = 0
    unresolved: int = 0
    not_compared: int = 0
    to_be_filled: int = 0
    unverified: int = 0


def index_entry(approach: Approach) -> IndexEntry:
    """The line of the index for an approach."""
    who, count_of = approach.identity, counts(list(crosschecked(approach)))
    return IndexEntry(
        who.airport, who.airport_name, who.title, who.level_of_service, who.channel, who.path_id, who.cycle,
        count_of["stop"], count_of["resolve"], count_of["not compared"], len(approach.chart.to_be_filled),
        len(unverified(approach.filled)) if approach.filled else 1,
    )
