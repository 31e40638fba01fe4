"""What a recorded flight is compared with, from an approach file and an aircraft file."""

from lpv.aircraft.record import Aircraft
from lpv.approach.record import Approach
from lpv.core.units import M_PER_FT
from lpv.crosscheck.fixes import foot
from lpv.fas import segment
from lpv.fas.block import FinalApproachSegment
from lpv.track.against import LPV, Against, By, Final, Fix


def against(approach: Approach) -> Against:
    """An approach in figures."""
    chart, identity = approach.chart, approach.identity
    fixes = [Fix(fix.name, fix.altitude_ft, foot(approach, fix)[0]) for fix in approach.final_fixes[:-1]]
    return Against(
        approach.slug, identity.airport, identity.title, identity.level_of_service, identity.rule,
        chart.airport_elevation_ft, chart.threshold_elevation_ft,
        chart.touchdown_zone_ft, chart.cold_temperature_airport_c,
        final_of(approach.segment), fixes,
        [(row.categories, row.altitude_ft) for row in chart.minima if row.line == LPV],
    )


def final_of(held: FinalApproachSegment) -> Final:
    """A segment in figures; DomainError where LTP and FPAP are one point."""
    return Final(
        held.ltp_latitude_deg, held.ltp_longitude_deg, held.ltp_height_m, segment.true_course_deg(held), held.gpa_deg,
        held.tch_ft, held.course_width_m / M_PER_FT, segment.garp_distance_ft(held),
    )


def by(aircraft: Aircraft) -> By:
    """A type in figures."""
    kind, operator = aircraft.type, aircraft.operator
    return By(aircraft.slug, kind.name, kind.category, operator.lowest_da_above_tdze_ft, aircraft.operator_gates())
