"""What stays the same during a simulated flight: air, guides, limits, speeds, from the three data files."""

import math
from dataclasses import dataclass

from lpv.aircraft.record import CLEAN, Aircraft
from lpv.aircraft.schema import Step
from lpv.approach.record import Approach
from lpv.core.errors import DomainError
from lpv.core.units import FT_PER_NM, degrees_180
from lpv.decide.final_path import in_chart_reference_deg, pfaf_distance_nm
from lpv.decide.minimum import minimum
from lpv.decide.stabilised import GATES, Gate, gate_altitude_ft
from lpv.modes.state import FLYING, State, lateral_source, source, vertical_source
from lpv.motion.energy import level_deceleration_kt_per_s
from lpv.simulate.air import Air, WindRow, make_air
from lpv.simulate.guides import Guide, altimeter_guide, fms_guide, ils_guide, missed_guide, sbas_guide
from lpv.simulate.point_mass import Limits, Point
from lpv.simulate.procedure import Procedure, procedure
from lpv.simulate.scenario import Scenario


@dataclass(frozen=True)
class Setting:
    """Everything that a flight needs and does not change; distances in NM, altitudes in ft MSL.

    course_deg:  final course in the chart's reference, unrounded
    speeds_kt:   target speed of each step of the aircraft's schedule
    minimum_ft:  the decision altitude used, on the altimeter
    guides:      "SBAS", "altimeter" (its baro-VNAV path), "ILS" (if the scenario has one), "FMS", "missed"
    procedure:   the coded legs that the FMS flies before the final course and after the missed approach waypoint
    """

    scenario: Scenario
    approach: Approach
    aircraft: Aircraft
    air: Air
    limits: Limits
    guides: dict[str, Guide]
    course_deg: float
    pfaf_nm: float
    vref_kt: float
    speeds_kt: tuple[float, ...]
    minimum_ft: float
    gates: tuple[Gate, ...]
    procedure: Procedure

    @property
    def steps(self) -> tuple[Step, ...]:
        """The schedule of configuration and speed."""
        return self.aircraft.schedule

    def shown(self, state: State, leg: Guide | None = None) -> Guide | None:
        """What the flying side's deviations come from; None where nothing is shown.  leg: what the FMS flies along."""
        source_name = source(state, FLYING, self.aircraft.rules)
        if source_name == "FMS lateral navigation":
            return leg or self.guides["missed" if state.phase == "missed" else "FMS"]
        return self.guides.get(lateral_source(state, self.aircraft.rules)) if source_name in ("SBAS", "ILS") else None

    def path_guide(self, state: State) -> Guide | None:
        """The source of vertical guidance on the flying side, None if there is none."""
        return self.guides.get(vertical_source(state, self.aircraft.rules))

    def distance_nm(self, point: Point, place: str) -> float:
        """Distance to the final course, to the PFAF or to the airport, which is taken at the threshold."""
        along_ft = {"final course": point.along_ft, "PFAF": self.pfaf_nm * FT_PER_NM, "airport": 0.0}[place]
        return math.hypot(point.along_ft - along_ft, point.across_ft) / FT_PER_NM

    def heading(self, heading_deg: float) -> float:
        """A heading in the chart's reference as an angle (rad) from the final course."""
        return math.radians(degrees_180(heading_deg - self.course_deg))

    def gate_altitude_ft(self, gate: Gate) -> float:
        """The altitude at which a gate lies."""
        chart = self.approach.chart
        return gate_altitude_ft(gate, chart.airport_elevation_ft, chart.threshold_elevation_ft)

    def start(self) -> Point:
        """Where the flight begins: level, wings level, on its heading."""
        begin = self.scenario.start
        return Point(
            begin.distance_nm * FT_PER_NM, begin.across_nm * FT_PER_NM, self.air.true_ft(begin.altitude_ft),
            self.heading(begin.heading_deg), 0.0, 0.0, begin.speed_kt,
            level_deceleration_kt_per_s(self.aircraft.drag_rows(CLEAN), begin.speed_kt),
        )


def make_setting(scenario: Scenario, approach: Approach, aircraft: Aircraft) -> Setting:
    """The setting of a scenario; DomainError where the three files do not go together."""
    _check(scenario, approach, aircraft)
    story, chart, flying = scenario.story, approach.chart, aircraft.flying
    course_deg, pfaf_nm = in_chart_reference_deg(approach, approach.true_course_deg), pfaf_distance_nm(approach)
    winds = tuple(WindRow(row.height_ft, row.from_deg, row.speed_kt) for row in scenario.winds)
    air = make_air(
        chart.airport_elevation_ft, story.temperature_c, course_deg, winds, story.altimeter_reads_high_ft or 0.0)
    return Setting(
        scenario, approach, aircraft, air,
        Limits(math.radians(flying.bank_limit_deg), math.radians(flying.roll_rate_deg_per_s),
               most_thrust(aircraft, aircraft.target_speeds_kt(story.weight_lb)), flying.spool_up_s),
        _guides(scenario, approach, aircraft, pfaf_nm, air), course_deg, pfaf_nm,
        aircraft.vref_kt(story.weight_lb), aircraft.target_speeds_kt(story.weight_lb),
        _minimum_ft(approach, aircraft) if story.minimum_ft is None else story.minimum_ft,
        tuple(GATES) + tuple(aircraft.operator_gates()),
        procedure(scenario.legs or approach.database.legs, approach, course_deg, story.transition),
    )


def most_thrust(aircraft: Aircraft, speeds_kt: tuple[float, ...]) -> float:
    """Thrust of a go-around above idle, kt/s: what it accelerates with in landing configuration, and the drag there."""
    name = aircraft.landing.configuration
    target_kt = speeds_kt[[step.label for step in aircraft.schedule].index(name)]
    return aircraft.flying.thrust_kt_per_s + level_deceleration_kt_per_s(aircraft.drag_rows(name), target_kt)


def _check(scenario: Scenario, approach: Approach, aircraft: Aircraft) -> None:
    for subject, expected, actual in (
        ("approach", scenario.story.approach, approach.slug), ("aircraft", scenario.story.aircraft, aircraft.slug),
    ):
        if expected != actual:
            raise DomainError(f"{scenario.slug}: {subject}: found {actual}; allowed: {expected}, as the scenario says.")


def _guides(
    scenario: Scenario, approach: Approach, aircraft: Aircraft, pfaf_nm: float, air: Air
) -> dict[str, Guide]:
    sbas = sbas_guide(approach, pfaf_nm, scenario.story.activation == "vectors")
    guides = {
        "SBAS": sbas,
        "FMS": fms_guide(pfaf_nm),
        "missed": missed_guide(approach.geometry.missed_turn_deg or 0.0),
    }
    if aircraft.equipment.baro_vnav == "approved":
        guides["altimeter"] = altimeter_guide(approach, sbas, air)
    if scenario.ils is not None:
        row = scenario.ils
        guides["ILS"] = ils_guide(
            approach.chart.threshold_elevation_ft, row.offset_deg, row.antenna_beyond_ft, row.antenna_right_ft,
            row.glide_slope_deg, row.tch_ft)
    return guides


def _minimum_ft(approach: Approach, aircraft: Aircraft) -> float:
    """The DA of the LPV line for the type's category, not under the operator's floor."""
    answer = minimum(approach, "LPV", aircraft.type.category, aircraft.operator)
    if answer is None:
        raise DomainError(f"{approach.slug}: found no LPV minimum for category {aircraft.type.category}.")
    return answer.altitude_ft
