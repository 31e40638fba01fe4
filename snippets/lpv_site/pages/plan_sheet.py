"""One generated planning sheet per scenario file docs/plan/*.toml: the answers, the findings, a card to print.

A sheet is dated and applies rules to the data of its file.  It explains; it does not predict weather,
service or status.
"""

from collections.abc import Callable, Iterator
from pathlib import Path

from lpv.core import findings
from lpv.core.findings import Finding, by_severity, worst
from lpv.core.text import number, plural, quantity, signed
from lpv.decide.cold import SEGMENTS, ColdAltitude, all_segments, individual_segments
from lpv.files.toml_reader import read_folder
from lpv.notices.reading import read_notice
from lpv.plan import sheet as plan
from lpv.plan.case import Case, category, cold_of, rules_of, weather_at_eta
from lpv.plan.forecast import in_words, lines_of, visibility_words
from lpv.plan.lines import SURE, Usable, usable
from lpv.plan.notices import airports, effect_words, reading
from lpv_site.briefing import numbers
from lpv_site.briefing.briefing import indented
from lpv_site.briefing.card import CAUTION, card_row
from lpv_site.department.data import DOCS, once
from lpv_site.pages.notice_pages import name_words
from lpv_site.text.findings import MARKS, finding_list
from lpv_site.text.table import stacked
from lpv_site.text.text import escape, front_matter

LEADS = findings.LEADS | {"stop": "Not as planned", "note": "May be planned", "ok": "May be planned"}
DATA_WORDS = {
    "stop": "not in force", "resolve": "changes that day: ask", "note": "in force, changes within a day",
    "ok": "in force", "not compared": "not compared with the day",
}
NO_FORECAST = "It applies the rules to the data in this file. It does not predict weather, service or status."


@once
def cases(docs: Path = DOCS) -> tuple[Case, ...]:
    """Every scenario of docs/plan/ in the order of file names; DataError with the faults of all of them."""
    return tuple(read_folder(docs / "plan", plan.read))


def example_case() -> Case:
    """The scenario that the pages of planning take as their example: the first one."""
    return cases()[0]


def sheet_name(case: Case) -> str:
    """Name of a scenario's page in the folder plan/, without its ending."""
    return f"{case.scenario.slug}-sheet"


def sheet_pages(docs: Path) -> dict[str, Callable[[], str]]:
    """Address below docs/ -> function that writes the sheet's Markdown, for every scenario file."""
    return {
        f"plan/{sheet_name(case)}.md": (lambda case=case: build_plan_sheet_page(case))  # type: ignore[misc]
        for case in cases(docs)
    }


def build_plan_sheet_page(case: Case) -> str:
    """The planning sheet of one scenario as Markdown; DataError where its forecast does not cover the flight."""
    rows = plan.plan(case)
    title = f"Planning sheet, {case.approach.identity.title}, {case.approach.identity.airport}, {day(case)}"
    heading = f"Planning sheet: {case.approach.identity.title}"
    page = front_matter(title, title + ": answers, findings, card.", heading=heading) + f"{_head(case)}\n"
    sections = (_answers(case, rows), _findings(rows), _cold(case), _weather(case), _card(case, rows))
    return page + "\n".join(section for section in sections if section)


def day(case: Case) -> str:
    """The day of the ETA, UTC."""
    return case.scenario.flight.eta.strftime("%Y-%m-%d")


def verdict(rows: list[Finding]) -> str:
    """One sentence: may the flight be planned like this."""
    return findings.verdict(rows, LEADS)


def _head(case: Case) -> str:
    who, flight = case.approach.identity, case.scenario.flight
    invented = " Invented: no such flight, no such place." if flight.invented or who.invented else ""
    return (
        f"{escape(who.airport_name)} ({escape(who.airport)}), runway {escape(who.runway)}, "
        f"{escape(case.aircraft.type.name)}, ETA {day(case)} {flight.eta:%H:%M} UTC.{invented}\n\n"
        f"{numbers.in_force(who)}"
    )


def _answers(case: Case, checks: list[Finding]) -> str:
    rows = stacked([(verdict(checks), [(label, escape(text)) for label, text in answers(case, checks)])])
    return f"## May it be planned? {{ #answer }}\n\n{rows}\n{NO_FORECAST}\n"


def answers(case: Case, rows: list[Finding]) -> Iterator[tuple[str, str]]:
    """What a crew asks before the flight, in the order of planning: (question, answer), plain text."""
    lines = usable(case)
    sure = next((line for line in lines if line.key in SURE), None)
    if worst([f for f in rows if f.key.startswith("cycle")]) == "stop":
        yield "plan on", "nothing from this chart: its data are not in force"
    else:
        yield "plan on", line_words(case, sure) if sure else "no line: see the findings"
        yield "only if annunciated", "; ".join(line_words(case, line) for line in lines if line.key == "line-uncertain")
    yield "rules", _rules(case)
    yield "category", category(case)
    yield "forecast at the ETA", in_words(weather_at_eta(case), case.approach.identity.rule)
    yield "alternate", "; ".join(_alternate(rows))
    yield "cold", _cold_answer(case)
    yield "notices", "; ".join(_notices(case)) or _no_notices(case)
    yield "data", _data(case, rows)


def line_words(case: Case, line: Usable) -> str:
    """A line with what to set for it: "LPV DA 274 ft, 3/4 SM"."""
    visibility = visibility_words(line.visibility.visibility_sm, case.approach.identity.rule)
    return f"{line.line} {line.row.kind} {quantity(line.minimum.altitude_ft, 'ft')}, {visibility}"


def _rules(case: Case) -> str:
    rules = rules_of(case)
    if rules is None:
        return f"none chosen for a chart of {case.approach.identity.rule}"
    return rules.name + (f", {case.operator.operator.name}" if case.operator else ", for want of an operator")


def _cold_answer(case: Case) -> str:
    decision = cold_of(case)
    if decision.grade == "not compared":
        return f"not compared: {decision.reason}"
    if decision.due is None:
        return f"to settle: {decision.reason}"
    if not decision.due:
        return f"no correction: {decision.reason}"
    method = "all" if decision.segments == SEGMENTS else ", ".join(decision.segments)
    return f"correct altitudes: {method} segments"


def _alternate(rows: list[Finding]) -> Iterator[str]:
    for finding in rows:
        if finding.key.startswith("alternate") and finding.key != "alternate-line":
            words = finding.computed or f"{finding.what} {finding.grade}"
            yield f"{finding.about} {words}".strip()


def _no_notices(case: Case) -> str:
    return "none, as the file states" if case.scenario.flight.no_notices else "not compared: the file lists none"


def _notices(case: Case) -> Iterator[str]:
    for notice in case.scenario.notices:
        effects = (f"{airport}: {effect_words(reading(case, notice, airport))}" for airport in airports(case))
        yield f"{name_words(read_notice(notice.text).kind)} ({'; '.join(effects)})"
    if case.scenario.flight.no_site_notices:
        yield "chart without site notices"


def _data(case: Case, rows: list[Finding]) -> str:
    grade = next(f.grade for f in rows if f.key.startswith("cycle"))
    return f"cycle {case.approach.identity.cycle} {DATA_WORDS[grade]}"


def _findings(rows: list[Finding]) -> str:
    open_ones = by_severity([finding for finding in rows if finding.grade != "ok"])
    agreed = [finding for finding in rows if finding.grade == "ok"]
    text = "## Findings { #findings }\n\n" + (finding_list(open_ones) if open_ones else "None.\n")
    if agreed:
        text += f'\n??? note "{plural(len(agreed), "check")} passed"\n\n{indented(finding_list(agreed))}'
    return text


def cold_rows(case: Case) -> list[ColdAltitude]:
    """The day's corrected altitudes by the method of the file; [] where nothing is corrected."""
    decision, now_c = cold_of(case), case.scenario.flight.temperature_c
    if not decision.due:
        return []
    if decision.segments == SEGMENTS:
        return all_segments(case.approach, now_c)
    return individual_segments(case.approach, now_c, decision.segments)


def _cold(case: Case) -> str:
    rows = [
        (f"{row.name}, {row.segment}" if row.segment not in row.name else row.name, number(row.charted_ft),
         number(row.corrected_ft))
        for row in cold_rows(case)
    ]
    if not rows:
        return ""
    return (
        f"## Altitudes at {quantity(case.scenario.flight.temperature_c, '°C')} {{ #cold }}\n\n"
        + numbers.numbers_table(["altitude, segment", "charted, ft", "to use, ft"], rows)
        + "\nFAA, AIM 7-3-5. The additions of the operator to a minimum are not in this table.\n"
    )


def _weather(case: Case) -> str:
    listed, authority = case.scenario.alternate, case.approach.identity.rule
    parts = [("destination", lines_of(case.scenario.forecast, authority))]
    if listed is not None:
        parts.append((f"alternate {listed.airport}", lines_of(listed.forecast, authority)))
    parts.append(("notices", [notice.text for notice in case.scenario.notices]))
    text = "".join(
        f"\n**{escape(name)}**\n\n" + "".join(f"- {escape(line)}\n" for line in lines) for name, lines in parts if lines
    )
    slugs = case.approach.slug, case.aircraft.type.name
    return (
        f"## What it was made from {{ #data }}\n\nApproach: [the briefing](../approaches/{slugs[0]}.md). "
        f"Aircraft: {escape(slugs[1])}.\n{text}"
    )


def _card(case: Case, checks: list[Finding]) -> str:
    """The card: with the address ending in #card it is printed alone (docs/assets/card.css)."""
    who, flight = case.approach.identity, case.scenario.flight
    invented = " Invented." if flight.invented or who.invented else ""
    rows = "".join(card_row(label, escape(text)) for label, text in answers(case, checks) if text)
    return (
        "## Card { #print data-search-exclude }\n\n"
        '<p class="hb-print"><a href="#card">Print this card</a> on one page: A5 or half letter.</p>\n\n'
        '<section class="hb-card" id="card" aria-label="Card" data-search-exclude>\n'
        f'<p class="hb-card-name">{escape(who.airport)} {escape(who.title)}</p>\n'
        f'<p class="hb-card-key">{day(case)} {flight.eta:%H:%M} UTC · {escape(case.aircraft.type.name)} · '
        f"{signed(flight.temperature_c, '°C')}</p>\n<p>Planning sheet.{invented} {NO_FORECAST}</p>\n"
        f"{numbers.in_force(who)}{card_row('Verdict', escape(verdict(checks)))}{rows}{_card_findings(checks)}"
        f"{_card_cold(case)}"
        f'<p class="hb-card-caution"><b>Caution.</b> {CAUTION}</p>\n</section>\n'
    )


def headline(finding: Finding) -> str:
    """What a finding is about, in the words of the sheet: "line LPV, LPV (SBAS)"; never its internal key."""
    what = finding.what.split(":")[0]
    return f"{what}, {finding.about}" if finding.about else what


def _card_findings(rows: list[Finding]) -> str:
    """What stops or is to be settled, with what to do: one line for all that ask for the same."""
    together: dict[tuple[str, str], list[str]] = {}
    for finding in by_severity(rows):
        if finding.grade in ("stop", "resolve"):
            together.setdefault((finding.grade, finding.action or finding.why), []).append(headline(finding))
    return "".join(
        card_row(f"{MARKS[grade]} {grade}", escape(f"{'; '.join(dict.fromkeys(heads))}: {action}"))
        for (grade, action), heads in together.items()
    )


def _card_cold(case: Case) -> str:
    parts = [
        f"{escape(row.name)} {quantity(row.corrected_ft, 'ft')}"
        for row in cold_rows(case) if row.addition_ft and row.segment != "final"
    ]
    return card_row("Corrected altitudes", " · ".join(parts)) if parts else ""
