"""Generated reference pages: facts, sources, validation.  Plain functions, Markdown out."""

import re
from collections import Counter
from collections.abc import Callable, Iterable
from functools import partial
from pathlib import Path

from lpv.core.errors import DataError, Fault
from lpv.core.text import capitalized, fact_text
from lpv.facts import FACTS, STATUSES, SUBJECTS, Fact, fact
from lpv.facts.sources import SOURCES
from lpv_site.checks.check_table import check_table, source_text
from lpv_site.checks.checks import CASE_STATUSES, TASKS, Result, load_cases, results
from lpv_site.department.department import overridden
from lpv_site.pages.scores import scores
from lpv_site.pages.track_proof import recorded_flights_section
from lpv_site.text.table import table
from lpv_site.text.text import escape, fact_id, front_matter

TASK_TITLES = {
    "plan": "Plan",
    "verify": "Verify",
    "set-up": "Set up",
    "intercept": "Intercept",
    "final": "Final",
    "decide": "Decide",
    "modes": "Modes",
    "after-landing": "After landing",
    "debrief": "Debrief",
    "practice": "Practice",
}
SUBJECT_TITLES = {
    "segment": "The final approach segment",
    "scaling": "Deviation scaling",
    "visual": "Visual segment",
}


def slug(text: str) -> str:
    """A text as an id: lower case letters, digits and hyphens."""
    return re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-")


def fact_pages(_docs: Path) -> dict[str, Callable[[], str]]:
    """The pages of facts and of sources."""
    return {"reference/facts.md": build_facts_page, "reference/sources.md": build_sources_page}


def validation_pages(_docs: Path) -> dict[str, Callable[[], str]]:
    """The list of all checks by task, and a page for each task."""
    outcomes = results()
    pages: dict[str, Callable[[], str]] = {"reference/validation.md": partial(build_validation_page, outcomes)}
    tasks = [task for task in TASKS if any(result.case.task == task for result in outcomes)]
    return pages | {f"reference/validation-{task}.md": partial(build_validation_task_page, task, outcomes)
                    for task in tasks}


def build_facts_page() -> str:
    """Every fact of the registry with value, source, place and status in words."""
    counts = Counter(row.status for row in FACTS.values())
    page = front_matter(
        "Facts", "Every figure that is not computed, with its source and status.", search=False
    )
    page += (
        "Figures that this handbook takes from others, each with its source and status. Pages link here.\n\n"
    )
    page += table(["status", "facts"], [(status, counts[status]) for status in STATUSES if counts[status]])
    for subject, rows in SUBJECTS.items():
        if rows:
            page += (
                f"\n## {SUBJECT_TITLES.get(subject, subject.capitalize())} {{ #facts-{slug(subject)} }}\n\n"
            )
            page += "\n".join(_fact_row(fact(key)) for key in rows) + "\n"
    return page


def _fact_row(row: Fact) -> str:
    remark = f" {escape(capitalized(row.remark))}." if row.remark else ""
    if row.ours:
        ours = f"{fact_text(row.ours)}, {source_text(row.ours.source, row.ours.place)} · {row.ours.status}"
        remark += f" <b>This figure is {escape(overridden(row))}</b>; the handbook has {ours}."
    return (
        f'<div class="hb-fact" id="{fact_id(row.key)}" markdown="0"><b>{fact_text(row)}</b> {escape(row.what)}.'
        f"{remark}<br><small>{source_text(row.source, row.place)} · {row.status} · {escape(row.key)}</small></div>\n"
    )


def build_sources_page() -> str:
    """The list of sources: those that a fact or a check names."""
    page = front_matter("Sources", "The documents behind the facts and the checks.", search=False)
    page += "Facts and checks name one of these and the place in it.\n\n"
    named = {row.source for row in FACTS.values()} | {case.source for case in load_cases()}
    for key in [key for key in SOURCES if key in named]:
        page += f'<div class="hb-fact" id="source-{key}" markdown="0">{source_text(key)}</div>\n\n'
    return page


def _taken_from_own_facts() -> str:
    own = [row.key for row in FACTS.values() if row.ours]
    return f" If a figure of your own is the reason, withdraw it: {', '.join(own)}." if own else ""


def require_all_hold(results: Iterable[Result]) -> None:
    """Raise DataError naming every case that is out of tolerance."""
    faults = [
        Fault(
            "tests/reference",
            result.case.id,
            f"computed {result.computed}",
            f"{result.case.expected} {result.case.unit} within {result.case.tolerance}",
            "Correct the function; the published value stands." + _taken_from_own_facts(),
        )
        for result in results
        if not result.holds
    ]
    if faults:
        raise DataError(faults)


def build_validation_page(results: tuple[Result, ...]) -> str:
    """Counts of all checks by status and by task, with links to the lists."""
    require_all_hold(results)
    page = front_matter("Validation", "Every published value this handbook is checked against.", search=False)
    page += (
        "The functions that compute the pages are run against values from outside. A value out of tolerance "
        "stops the build, so this page cannot disagree with the tests.\n\n"
    )
    counts = Counter(result.case.status for result in results)
    rows = [(status, counts[status]) for status in CASE_STATUSES if counts[status]]
    page += table(["status of the expected value", "checks"], [*rows, ("all, and all hold", len(results))])
    page += "\n## By task { #by-task }\n\n"
    for task in TASKS:
        count = sum(result.case.task == task for result in results)
        if count:
            page += f"- [{TASK_TITLES[task]}: {count} checks](validation-{task}.md)\n"
    return page + scores(results) + recorded_flights_section()


def build_validation_task_page(task: str, results: tuple[Result, ...]) -> str:
    """Every check of one task: expected, computed, difference, tolerance, source, status."""
    of_task = [result for result in results if result.case.task == task]
    title = f"Validation: {TASK_TITLES[task]}"
    page = front_matter(title, f"The checks behind the pages of the task {TASK_TITLES[task]}.", search=False)
    page += "[All tasks](validation.md)\n"
    for subject in dict.fromkeys(result.case.subject for result in of_task):
        page += f"\n## {escape(subject)} {{ #{slug(subject)} }}\n\n"
        page += check_table([result for result in of_task if result.case.subject == subject]) + "\n"
    return page
