"""Energy and configuration: speed and energy height by distance, the last place for the last step, the speed brake."""

from lpv.core.text import number, quantity
from lpv.drawing.panel import BOTTOM, LEFT, RIGHT, TOP, Panel
from lpv.drawing.sheet import WIDTH, Sheet
from lpv.facts import value
from lpv.figures.figure import Figure, Shown
from lpv.figures.parts import APPROACH, angle, crossing_height, spread
from lpv.figures.slowing import EXAMPLE, Slowing, slowed
from lpv.forms.fields import Choice, Number
from lpv.forms.form import NoAnswer
from lpv.intercept.schedule import Descent, Schedule, slowing
from lpv.motion.energy import Moment, moment_at
from lpv.path.profile import straight_path_height_ft

HEIGHT = 3200
UPPER, LOWER = (LEFT, TOP, WIDTH - RIGHT, 1700), (LEFT, 2080, WIDTH - RIGHT, HEIGHT - BOTTOM)
STEP_NM, SMOOTH_NM = 0.2, 0.5  # of the way, and of the curve of its energy
ROOM_KT, MIN_KT = 14.0, 60.0
LABEL = 13  # letters of a step beside its place
HEADERS = ("set, at", "begins", "level, idle", "on the glidepath")


def _energy(
    late_nm: float, tailwind_kt: float, gpa_deg: float, brake: str, vref_kt: float, slows: str, pfaf_nm: float,
    airport_ft: float, threshold_above_ft: float, tch_ft: float,
) -> Shown:
    threshold_ft = airport_ft + threshold_above_ft
    pfaf_ft = straight_path_height_ft(pfaf_nm, threshold_ft, tch_ft, gpa_deg)
    gate_ft = value("gate_imc_ft")
    if pfaf_ft < airport_ft + gate_ft:
        raise NoAnswer(f"The FAF lies below {quantity(gate_ft, 'ft')} above the airport: be ready before it.")
    descent = Descent(pfaf_nm, pfaf_ft, airport_ft, threshold_ft, tch_ft, gpa_deg)
    slowing_down = slowed(slows, vref_kt)
    schedule = Schedule(descent, slowing_down, tailwind_kt, late_nm, STEP_NM)
    if schedule.steps[0].begins_nm <= schedule.gate_nm:
        raise NoAnswer("That late, the first step begins inside the gate: you are not configured there.")
    out = brake == "out" and schedule.brake_kt_per_s > 0.0
    moments = schedule.flown_with_brake() if out else schedule.flown()
    latest_nm = schedule.latest_last_step_nm()
    ready = schedule.ready(moments)
    finding = (f"{_at_gate(schedule, moments, ready)} {_on_path(schedule, moments)} "
               f"{_last(schedule, latest_nm, ready, out)}")
    at_gate_kt = moment_at(moments, schedule.gate_nm).airspeed_kt
    brief = f"{'Ready' if ready else 'Not ready'}: {quantity(at_gate_kt, 'kt')} at the gate"
    planned = []  # type: list[Moment]
    if late_nm != 0.0 or tailwind_kt != 0.0 or out:
        planned = Schedule(descent, slowing_down, 0.0, 0.0, STEP_NM).flown()
    sheet = _drawn(schedule, moments, planned, latest_nm)
    begins = [""] + [quantity(step.begins_nm, "NM", 0.1) for step in schedule.steps]
    stages = slowing(schedule)
    rows = [  # type: list[tuple[str, ...]]
        (f"{stages[place].label}, {quantity(stages[place].airspeed_kt, 'kt')}", begins[place],
         _rate(stages[place].level_kt_per_s), _rate(stages[place].path_kt_per_s)) for place in range(len(stages))]
    return Shown(sheet, finding, HEADERS, rows, brief)


def _rate(loses_kt_per_s: float) -> str:
    if not number(abs(loses_kt_per_s), 0.01).strip("0."):
        return "holds the speed"
    return f"{'loses' if loses_kt_per_s > 0.0 else 'gains'} {quantity(abs(loses_kt_per_s), 'kt/s', 0.01)}"


def _at_gate(schedule: Schedule, moments: "list[Moment]", ready: bool) -> str:
    """What the aircraft is at the gate."""
    at, last_kt = moment_at(moments, schedule.gate_nm), schedule.steps[-1].target_kt
    gate = f"the gate at {quantity(schedule.gate_nm, 'NM', 0.1)}"
    if ready:
        since_nm = schedule.ready_from_nm(moments)
        return (
            f"Ready from {quantity(since_nm, 'NM', 0.1)} on, {quantity(since_nm - schedule.gate_nm, 'NM', 0.1)} before "
            f"{gate}: all set, {quantity(at.airspeed_kt, 'kt')}.")
    missing = []
    if at.moved < len(schedule.steps):
        missing.append(f"{schedule.labels[at.moved]} is not set")
    if number(at.airspeed_kt - last_kt) > number(0.0) and at.airspeed_kt > last_kt:
        missing.append(f"it is {quantity(at.airspeed_kt - last_kt, 'kt')} faster than {quantity(last_kt, 'kt')}")
    return f"Not ready at {gate}: {' and '.join(missing or ['the thrust is not up yet'])}."


def _on_path(schedule: Schedule, moments: "list[Moment]") -> str:
    """Whether it can slow down on the path with what is set where the path begins."""
    at_faf = moment_at(moments, schedule.pfaf_nm)
    label = schedule.labels[at_faf.moved - 1] if at_faf.moved else "clean"
    rate = schedule.path_rate_kt_per_s(at_faf)
    return f"At the FAF, {label}, {quantity(at_faf.airspeed_kt, 'kt')}, idle {_rate(rate)} on the glidepath."


def _last(schedule: Schedule, latest_nm: "float | None", ready: bool, out: bool) -> str:
    """The last place for the last step, and whether the speed brake is needed."""
    last = schedule.labels[-1]
    words = f"No place of {last} makes the gate without speed brake" if latest_nm is None else (
        f"{last} by {quantity(latest_nm, 'NM', 0.1)} at the latest")
    if out:
        return f"{words}. The speed brake is out as far as it may be."
    if ready:
        return f"{words}; no speed brake needed."
    if not schedule.brake_kt_per_s:
        return f"{words}; this type has no speed brake."
    makes_it = schedule.ready(schedule.flown_with_brake())
    return f"{words}; with the speed brake out it is {'ready' if makes_it else 'not ready either'}."


def _drawn(
    schedule: Schedule, flown: "list[Moment]", planned: "list[Moment]", latest_nm: "float | None",
) -> Sheet:
    sheet = Sheet(HEIGHT)
    far_nm = schedule.from_nm + 0.4
    speeds = [moment.airspeed_kt for moment in flown + planned]
    low, high = spread(speeds, MIN_KT, 0.0)
    panel = Panel(sheet, UPPER, (far_nm, 0.0), (low - ROOM_KT, high + 2.0 * ROOM_KT))
    panel.x_axis("")
    panel.y_axis("indicated airspeed, kt")
    _places(panel, schedule, latest_nm)
    if planned:
        panel.line(_curve(planned, _speed), "second", "dash")
    panel.line(_curve(flown, _speed), "first")
    for part in _gaining(flown):
        panel.line(_curve(part, _speed), "answer", "wide dot")
    _labels(panel, schedule, flown)
    _energies(sheet, schedule, flown, planned, far_nm)
    return sheet


def _places(panel: Panel, schedule: Schedule, latest_nm: "float | None") -> None:
    """The FAF, the gate, and the last place for the last step."""
    panel.rule_x(schedule.pfaf_nm, "muted", "thin")
    panel.rule_x(schedule.gate_nm, "muted", "thin")
    if latest_nm is not None:
        panel.rule_x(latest_nm, "third", "dash")
        panel.label(f"latest {number(latest_nm, 0.1)}", latest_nm, panel.y[0], "third", ("ne", "nw"))


def _labels(panel: Panel, schedule: Schedule, flown: "list[Moment]") -> None:
    at_kt = moment_at(flown, schedule.gate_nm).airspeed_kt
    panel.mark(schedule.gate_nm, at_kt, "circle", "answer")
    for step in schedule.steps:
        if 0.0 <= step.begins_nm <= flown[0].distance_nm:
            panel.mark(step.begins_nm, moment_at(flown, step.begins_nm).airspeed_kt, "post", "first")
    panel.label(quantity(at_kt, "kt"), schedule.gate_nm, at_kt, "answer", ("se", "ne", "s"), True)
    panel.label("gate", schedule.gate_nm, panel.y[1], "muted", ("se", "sw"))
    panel.label("FAF", schedule.pfaf_nm, panel.y[1], "muted", ("sw", "se"))
    for place in range(len(schedule.steps)):
        step, label = schedule.steps[place], schedule.labels[place]
        if step.begins_nm >= 0.0:
            short = label if len(label) <= LABEL else label[:LABEL - 1] + "."
            begins_kt = moment_at(flown, step.begins_nm).airspeed_kt
            panel.label(short, step.begins_nm, begins_kt, "first", ("sw", "ne", "nw"))


def _energies(
    sheet: Sheet, schedule: Schedule, flown: "list[Moment]", planned: "list[Moment]", far_nm: float,
) -> None:
    """Height, and above it what the speed is worth."""
    height = [(far_nm, schedule.descent.height_ft(far_nm))] + [
        (nm, schedule.descent.height_ft(nm)) for nm in (schedule.pfaf_nm, schedule.pfaf_nm / 2.0, 0.0)]
    own = _curve(_thinned(flown), schedule.energy_ft)
    panel = Panel(sheet, LOWER, (far_nm, 0.0), (0.0, 1.2 * max([ft for _, ft in own])))
    height_and_ground = list(height)
    height_and_ground.extend(((0.0, 0.0), (far_nm, 0.0)))
    panel.area(height_and_ground)
    panel.x_axis("to the threshold, NM")
    panel.y_axis("energy height above the airport, ft")
    panel.rule_x(schedule.pfaf_nm, "muted", "thin")
    panel.rule_x(schedule.gate_nm, "muted", "thin")
    if planned:
        panel.line(_curve(_thinned(planned), schedule.energy_ft), "second", "dash")
    panel.line(own, "first")
    panel.line(height, "ink")
    panel.label("height and speed", own[len(own) // 4][0], own[len(own) // 4][1], "first", ("ne", "n"))
    panel.label("height", far_nm, height[0][1], "ink", ("se", "ne"))
    if planned:
        near = planned[len(planned) // 2]
        panel.label("as planned, calm", near.distance_nm, schedule.energy_ft(near), "second", ("sw", "ne"))


def _thinned(moments: "list[Moment]") -> "list[Moment]":
    """So many of them as a smooth curve needs: the ends, and one in a part of a mile."""
    kept = [moments[0]]
    for moment in moments:
        if moment.distance_nm <= kept[-1].distance_nm - SMOOTH_NM or moment.distance_nm <= 0.0:
            kept.append(moment)
    return kept


def _speed(moment: Moment) -> float:
    return moment.airspeed_kt


def _curve(moments: "list[Moment]", value_of: "object") -> "list[tuple[float, float]]":
    """A value by distance."""
    return [(moment.distance_nm, value_of(moment)) for moment in moments]  # type: ignore[operator]


def _gaining(moments: "list[Moment]") -> "list[list[Moment]]":
    """The stretches on which idle gains speed."""
    parts, before = [], False  # type: list[list[Moment]], bool
    for moment in moments:
        gains = moment.rate_kt_per_s < 0.0
        if gains and not before:
            parts.append([])
        if gains:
            parts[-1].append(moment)
        before = gains
    return [part for part in parts if len(part) > 1]


FIGURES = (
    Figure(
        "live-energy", "energy and configuration", _energy,
        inputs=(
            Number("late_nm", "Every step later by", "NM", -4, 8, 0.5, 0),
            Number("tailwind_kt", "Tailwind (below 0: headwind)", "kt", -40, 30, 1, 0),
            angle(),
            Choice("brake", "Speed brake", (("in", "in"), ("out", "out as far as it may be")), "in"),
            Number("vref_kt", "VREF", "kt", 70, 180, 1, 130, "aircraft.vref_kt"),
            Slowing("slows", "Steps of the schedule", EXAMPLE, "aircraft.slowing"),
            Number("pfaf_nm", "Distance of the FAF", "NM", 3, 12, 0.1, 5.0, "approach.pfaf_distance_nm", APPROACH),
            Number("airport_ft", "Airport elevation", "ft", -500, 10000, 10, 0, "approach.airport_elevation_ft",
                   APPROACH),
            Number("threshold_above_ft", "Threshold above the airport elevation", "ft", -300, 200, 1, 0,
                   "approach.threshold_above_airport_ft", APPROACH),
            crossing_height(),
        ),
        facts=("gate_imc_ft",),
        remarks="Level to the FAF, idle while faster than planned, every lever at its place or once the speed is under "
        "its limit. Dotted wide: idle gains speed. No turns, no ice, a steady wind.",
    ),
)
