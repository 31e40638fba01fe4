"""Planning: what the chart prints beside its figures: notes under a condition, RVR by the table of EASA; findings."""

from collections.abc import Iterator

from lpv.approach.schema import TO_BE_FILLED, Minima
from lpv.core.errors import DomainError
from lpv.core.findings import Finding, not_compared
from lpv.core.text import quantity
from lpv.core.units import M_PER_FT
from lpv.decide.minimum import base_of_heights_ft
from lpv.decide.visibility import light_class_easa, needs_head_up_display_easa, rvr_for_decision_height_easa_m
from lpv.notices import kinds
from lpv.notices.airport import Reading
from lpv.notices.reading import read_notice
from lpv.plan.case import Case, category, rules_of
from lpv.plan.notices import reading


def findings(case: Case) -> Iterator[Finding]:
    """Every note of the chart, every printed RVR that a table of EASA can be set beside, and what is not yet read."""
    for key in case.approach.chart.to_be_filled:
        yield not_compared("chart-missing", TO_BE_FILLED[key], "missing in the chart part", about=key,
                           why="The file was made from coded records; nobody has read this from the chart.",
                           action="Read it from the chart and enter it.")
    for number, note in enumerate(case.approach.chart.notes, 1):
        yield _note(case, note, f"note {number}")
    if case.approach.identity.rule == "EASA":
        for row in case.approach.chart.minima:
            if row.rvr_m is not None:
                yield from _rvr(case, row)


def _note(case: Case, note: str, about: str) -> Finding:
    """A note that takes a line away under a condition, compared with the day; any other one is to be read."""
    read, flight = read_notice(note), case.scenario.flight
    takes = any(effect.state in ("gone", "doubted", "changed") for effect in read.effects)
    if takes and all(effect.categories for effect in read.effects):
        ours = any(category(case) in effect.categories for effect in read.effects)
        return _by_condition(note, about, f"category {category(case)}", "", "yes" if ours else "no")
    if takes and "NIGHT" in read.text:
        return _by_condition(note, about, "night at the ETA", "no ", flight.night)
    if takes and "ALTIMETER" in read.text:
        remote = None if flight.remote_addition_ft is None and not flight.baro_vnav_barred else "yes"
        return _by_condition(note, about, "remote altimeter setting", "no ", remote)
    if takes and read.kind in (kinds.LINE_NOT_AVAILABLE, kinds.PROCEDURE_NOT_AVAILABLE, kinds.VDP_OUT):
        return Finding("chart-note", "resolve", "note of the chart", chart=note, why=read.kind.means,
                       action="Check that the lines in the file agree with it.", about=about)
    return not_compared("chart-note", "note of the chart", "not read", chart=note, about=about,
                        why="Notes are kept as text: this sheet reads only what they bar at night or with a remote "
                        "altimeter setting.", action="Read it.")


def _by_condition(note: str, about: str, condition: str, negated: str, holds: str | None) -> Finding:
    what = "note of the chart"
    if holds is None:
        return not_compared("chart-note", what, "not stated", chart=note, about=about,
                            why=f"The file does not state it: {condition}.")
    if holds == "no":
        return Finding("chart-note", "ok", what, chart=note, computed=negated + condition, about=about)
    return Finding("chart-note", "resolve", what, chart=note, computed=condition, about=about,
                   why="The note takes something away today.", action="Strike what it names, then plan.")


def _rvr(case: Case, row: Minima) -> Iterator[Finding]:
    """A printed RVR beside the lowest of AMC5 CAT.OP.MPA.110 for its height and the lights that work."""
    rules, what, chart = rules_of(case), f"RVR of {row.line}", f"RVR {quantity(row.rvr_m or 0.0, 'm')}"
    if rules is None:
        yield not_compared("rvr", what, "no rule", chart=chart, about=row.line,
                           why="No rule set is chosen, so the RVR is not compared with a table.")
        return
    lights_m, whose = _lights_m(case)
    height_ft = row.altitude_ft - base_of_heights_ft(case.approach, row)
    try:
        lowest_m = rvr_for_decision_height_easa_m(height_ft, lights_m)
    except DomainError:
        yield not_compared("rvr", what, "no rule", chart=chart, about=row.line,
                           why=f"The table at hand ends at 400 ft; this height is {quantity(height_ft, 'ft')}.")
        return
    computed = f"at least {quantity(lowest_m, 'm')} with {light_class_easa(lights_m)} approach lights ({whose})"
    source = "AMC5 CAT.OP.MPA.110, Table 5" if rules.name == "EASA commercial" else "AMC2 NCO.OP.110, Table 2"
    if (row.rvr_m or 0.0) < lowest_m:
        yield Finding("rvr", "resolve", what, chart=chart, computed=computed, about=row.line,
                      why=f"The table requires more than the chart prints ({rules.name}, {source}).",
                      action="Plan with the higher of the two, or find out why.")
    else:
        yield Finding("rvr", "ok", what, chart=chart, computed=computed, about=row.line, why=f"{rules.name}, {source}.")
    if row.kind == "DA" and needs_head_up_display_easa(row.rvr_m or 0.0):
        yield not_compared(
            "rvr-equipment", what, "not stated", chart=chart, about=row.line,
            why="Under 750 m an approach with vertical guidance that is not a precision approach asks for full "
            "approach lights, touchdown zone and centerline lights and an approved head-up display "
            "(AMC5 CAT.OP.MPA.110(a)(4)(iii)). The files hold neither these lights nor the display.",
            action="Confirm all of them, or plan with 750 m.")


def _lights_m(case: Case) -> tuple[float, str]:
    """Length of the approach lights that work, m, and what says so."""
    lights = case.approach.chart.lights
    if any(_takes_lights(reading(case, notice, "destination")) for notice in case.scenario.notices):
        return 0.0, "out by a notice"
    return (0.0, "none on the chart") if lights is None else (lights.length_ft * M_PER_FT, "chart")


def _takes_lights(noted: Reading) -> bool:
    return not noted.outside and any(effect.kind is kinds.LIGHTS_OUT for effect in noted.notice.effects)
