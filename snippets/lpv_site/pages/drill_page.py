"""The pages of find-the-error drills, one per level of difficulty: generated from docs/practice/drills.toml.

All drills of a page stand in one element that prints alone when the address ends in #card; answers never print.
With scripts an answer opens once the reader has given his own (`lpv_site.pages.drill_choices`); without, it is folded.
"""

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from pathlib import Path
from typing import TypeVar

from lpv.approach.database import DatabaseFix
from lpv.approach.schema import Fix
from lpv.core import airac
from lpv.core.findings import Finding, by_severity
from lpv.core.text import course, feet, number, pressure, quantity
from lpv.decide.lines import straight_in_rows
from lpv.drill import today
from lpv.drill.case import Case, all_findings
from lpv.drill.drills import Drill, read_all
from lpv.drill.judgement import ACTIONS, SEVERITIES, judgement
from lpv.drill.planted import Planted
from lpv.drill.rows import DIFFICULTIES, Numbered
from lpv.modes.selection import tuned_effect
from lpv.modes.ways import shown_unselected
from lpv.setup.records import Setup, Side
from lpv_site.briefing.card import CAUTION
from lpv_site.department.data import DOCS, once
from lpv_site.pages.drill_choices import answer_place, right_judgement, score_box
from lpv_site.pages.teaching import link, section
from lpv_site.text.findings import finding_list
from lpv_site.text.table import table
from lpv_site.text.text import escape, front_matter

FOLDER = "practice"
Value = TypeVar("Value")
TITLES = {
    "plain": "Drills: one plain mistake",
    "subtle": "Drills: one subtle mistake",
    "mixed": "Drills: two mistakes, or none",
}
INVENTED = "Mistakes are planted here on purpose. For practice on the ground only, never for flight."
ON_PAPER = "A drill, with or without planted mistakes: never for flight."
DOT = "\u00a0· "
NOTHING_WRONG = ("set-up/index.md#table", "verify/index.md#do")


@once
def drills(docs: Path = DOCS) -> tuple[Drill, ...]:
    """Every drill of docs/practice, made once."""
    return tuple(read_all(docs))


def of_difficulty(difficulty: str, docs: Path = DOCS) -> list[Drill]:
    """The drills of one level of difficulty in the order of their numbers."""
    selected = (drill for drill in drills(docs) if drill.row.difficulty == difficulty)
    return sorted(selected, key=lambda drill: drill.row.number)


def drill_pages(docs: Path = DOCS) -> dict[str, Callable[[], str]]:
    """Address below docs/ -> function that writes the page, for each level of difficulty that has drills.

    DataError if a drill cannot be made.
    """
    drills(docs)
    return {f"{FOLDER}/{difficulty}.md": partial(build_drill_page, difficulty, docs) for difficulty in DIFFICULTIES}


def build_drill_page(difficulty: str, docs: Path = DOCS) -> str:
    """All drills of a level of difficulty, their answers folded; the page is not found by the site's search."""
    page = f"{FOLDER}/{difficulty}.md"
    listed = [drill_markdown(drill, page) for drill in of_difficulty(difficulty, docs)]
    about = "Find what is wrong in each set-up; the answers are folded."
    return sheet(TITLES[difficulty], about, INVENTED, difficulty, listed, docs)


def sheet(title: str, about: str, lead: str, kind: str, listed: Sequence[str], docs: Path) -> str:
    """A page of drills: its lead, the score of that kind, and the drills in one element that prints alone."""
    return (
        f"{front_matter(title, about, search=False)}{lead} [How to use them](index.md)\n\n{score_box([kind], docs)}\n"
        '<p class="hb-print"><a href="#card">Print without the answers</a></p>\n\n'
        f'<section class="hb-card hb-sheet" id="card" aria-label="{title}" markdown>\n\n'
        f'<p class="hb-card-name hb-on-paper">{title}</p>\n\n'
        + "\n".join(listed)
        + f'\n<p class="hb-card-caution hb-on-paper"><b>Caution.</b> {CAUTION}</p>\n\n</section>\n'
    )


def framed(row: Numbered, body: str, right: Mapping[str, object], answer: str, more: str = "") -> str:
    """One drill: what it shows, the place for an answer, the right one; more: a further class of its element."""
    return (
        f'<div class="hb-drill{more}" markdown>\n\n## Drill {row.number:02d} {{ #{row.name} }}\n\n{body}\n'
        f'<p class="hb-on-paper">{ON_PAPER}</p>\n\n</div>\n\n{answer_place(row.name, right)}\n\n{answer}\n'
    )


def drill_markdown(drill: Drill, page: str) -> str:
    """One drill: what happened so far, the chart, what the aircraft holds, what both sides have set, the answer."""
    case = drill.case
    body = f"{_situation(case)}\n\n{_chart(case)}\n\n{_type(case)}\n\n{_database(case)}\n{_sides(case)}"
    return framed(drill.row, body, right(drill), answer(drill, page))


def right(drill: Drill) -> dict[str, object]:
    """What is right to say of a drill, for the script."""
    return {"kind": "find", "mistakes": [right_judgement(planted) for planted in drill.planted]}


def _situation(case: Case) -> str:
    """Where the flight stands, in a few words."""
    who, setup = case.approach.identity, case.setup
    before = f" The previous approach's course was {_given(setup.previous_course_deg, course)}."
    cold = case.approach.chart.cold_temperature_airport_c
    corrected = cold is not None and setup.temperature_c is not None and setup.temperature_c <= cold
    hour = _given(setup.day, airac.iso) + (f", {case.hour}" if case.hour else "")
    return (
        f"**{escape(who.airport)} {escape(who.airport_name)}, {escape(who.title)}**, {hour}. "
        f"The {setup.flying} side flies. Reported {_setting(setup.reported, setup)}, "
        f"{_given(setup.temperature_c, _celsius)}. "
        + ("ATC has agreed to altitudes corrected for cold. " if corrected else "")
        + f"{_armed(case)}{before}"
    )


def _armed(case: Case) -> str:
    setup = case.setup
    across_nm = setup.across_nm or 0.0
    where = f"{quantity(abs(across_nm), 'NM', 0.1)} {'right' if across_nm > 0.0 else 'left'} of the course"
    return f"The approach is armed: {where}, track {course(setup.track_deg or 0.0)}."


def _chart(case: Case) -> str:
    """What the chart prints, in one line of words."""
    who, chart = case.approach.identity, case.approach.chart
    rows = straight_in_rows(case.approach, case.expected.category)
    lines = [f"{row.line} {row.kind} {quantity(row.altitude_ft, 'ft')}" for row in rows]
    tdze = [] if chart.tdze_ft is None else [f"TDZE {quantity(chart.tdze_ft, 'ft')}"]
    cold = chart.cold_temperature_airport_c
    parts = [
        f"channel {who.channel}", escape(who.path_id),
        f"course {course(chart.course_deg)} {chart.course_reference}",
        *lines, *tdze, f"missed approach {quantity(chart.missed.altitude_ft if chart.missed else 0.0, 'ft')}",
        *([] if cold is None else [f"correct for cold at {quantity(cold, 'deg C')} and below"]), f"cycle {who.cycle}",
    ]
    return f"**Chart** {DOT.join(parts)}"


SELECTORS = {
    "shared": "one source selector for both sides", "per side": "a source selector per side",
    "none": "no source selector",
}


def _type(case: Case) -> str:
    """What the type does, as far as a set-up depends on it."""
    flown, rules = case.aircraft, case.aircraft.rules
    selector = SELECTORS[rules.source_control]
    parts = [
        f"category {escape(flown.type.category)}", selector,
        f"SBAS selected, localizer tuned: {escape(tuned_effect(rules))}",
        f"SBAS not selected, localizer tuned: {escape(shown_unselected(rules))} is shown",
        f"lowest DA {quantity(flown.operator.lowest_da_above_tdze_ft, 'ft')} above TDZE",
    ]
    return f"**{escape(flown.type.name)}** {DOT.join(parts)}"


def _database(case: Case) -> str:
    """Chart against aircraft: cycle, path and legs."""
    chart, database, segment = case.approach.chart, case.approach.database, case.approach.segment
    rows: list[tuple[str, str, str]] = [("cycle", case.approach.identity.cycle, database.cycle or "")]
    if database.course_deg is not None:
        rows.append(("final course", course(chart.course_deg), course(database.course_deg)))
    if chart.glidepath_deg is not None and chart.tch_ft is not None:
        rows.append(("glidepath", quantity(chart.glidepath_deg, "deg", 0.01), quantity(segment.gpa_deg, "deg", 0.01)))
        rows.append(("TCH", quantity(chart.tch_ft, "ft"), quantity(segment.tch_ft, "ft")))
    fixes = {row.name: row for row in database.fixes}
    rows += [(escape(fix.name), _charted(fix), _held(fixes.get(fix.name)))
             for fix in chart.fixes if not fix.role.startswith("missed")]
    return table(["item", "chart", "aircraft"], rows)


def _charted(fix: Fix) -> str:
    return _leg(fix.leg_course_deg, fix.leg_distance_nm, fix.altitude_ft)


def _held(row: DatabaseFix | None) -> str:
    return "not there" if row is None else _leg(row.course_deg, row.distance_nm, row.altitude_ft)


def _leg(course_deg: float | None, distance_nm: float | None, altitude_ft: float | None) -> str:
    parts = [
        "" if course_deg is None else course(course_deg),
        "" if distance_nm is None else quantity(distance_nm, "NM", 0.1),
        "" if altitude_ft is None else quantity(altitude_ft, "ft"),
    ]
    return " ".join(part for part in parts if part) or "nothing"


def _sides(case: Case) -> str:
    """What both sides have set, in the order of the cockpit."""
    columns = [_set(side, case) for side in case.setup.sides()]
    return table(["set", "left", "right"], [(label, columns[0][label], columns[1][label]) for label in columns[0]])


def _set(side: Side, case: Case) -> dict[str, str]:
    return {
        "procedure": escape(side.title),
        "channel": str(side.channel),
        "identifier": escape(side.path_id),
        "source": _given(side.source, str),
        "tuned, MHz": "<br>".join(f"{number(mhz, 0.01)}" for mhz in side.tuned_mhz or ()),
        "course": _given(side.course_deg, course),
        "altimeter": _setting(side.altimeter, case.setup).replace(" ", "\u202f"),
        "level": _given(side.level, str),
        "minimum": f"{side.minimum_kind} {_given(side.minimum_ft, feet)}",
        "missed to": _given(side.missed_altitude_ft, feet),
    }


def _given(value: Value | None, written: Callable[[Value], str]) -> str:
    """A value as it is written, or that nothing is set."""
    return "not set" if value is None else written(value)


def _celsius(value_c: float) -> str:
    return quantity(value_c, "deg C")


def _setting(value: float | None, setup: Setup) -> str:
    """An altimeter setting in the unit of the set-up."""
    return "not set" if value is None or setup.altimeter_unit is None else pressure(value, setup.altimeter_unit)


def answer(drill: Drill, page: str) -> str:
    """What is wrong and which section teaches it, folded; it never prints."""
    findings = drill.findings()
    if drill.planted:
        count = "One thing is wrong." if len(drill.planted) == 1 else "Two things are wrong."
        body = f"**{count}**\n\n" + "".join(
            _mistake(drill, number, findings, page) for number in range(len(drill.planted)))
    else:
        body = _nothing(drill.case, page)
    return '??? note hb-answer "Answer"\n\n' + "".join(f"    {line}".rstrip() + "\n" for line in body.splitlines())


def _mistake(drill: Drill, number: int, findings: Sequence[Finding], page: str) -> str:
    planted, key = drill.planted[number], drill.row.mistakes[number]
    expected = by_severity([row for row in findings if (row.name(), row.grade) in planted.expected])
    links = dict.fromkeys(link(section(row, key), page) for row in expected)
    return f"**{planted.words}** {answer_words(planted)} {', '.join(links)}.\n\n{finding_list(expected)}\n"


def answer_words(planted: Planted) -> str:
    """How serious a mistake is and what to do now, in words."""
    right_answer = judgement(planted)
    return f"{SEVERITIES[right_answer.severity].capitalize()}: {list(ACTIONS.values())[right_answer.action]}."


def _nothing(case: Case, page: str) -> str:
    notes = today.brief(case)
    agree = sum(row.grade == "ok" for row in all_findings(case))
    links = ", ".join(link(address, page) for address in NOTHING_WRONG)
    brief = f" To brief, not to correct:\n\n{finding_list(notes)}" if notes else "\n"
    return f"**Nothing is wrong:** {agree} checks agree. {links}.{brief}\n"
