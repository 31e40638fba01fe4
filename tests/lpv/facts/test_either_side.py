"""Limits among the facts, each tried just inside and just outside of the figure that it is meant to be.

The figures are written out here, so that a limit which moves is noticed, whichever way it moves.
"""

import re
from dataclasses import replace
from functools import partial
from types import SimpleNamespace
from unittest.mock import patch

import pytest

from demo.approaches import FOLDER
from felt import changed
from lpv.approach.record import read
from lpv.approach.schema import KINDS, Lights, Minima, SafeAltitude
from lpv.core.errors import DataError, DomainError
from lpv.crosscheck import minima, missed, printed, runway, segment
from lpv.decide.additive import added_kt, half_the_gust
from lpv.decide.category import category_for_vref
from lpv.decide.cold import cold
from lpv.decide.last_mile import lights_only_ft
from lpv.decide.minima import vertical_alert_limit_m
from lpv.decide.stabilised import GATES, State, evaluate, stable
from lpv.decide.visibility import needs_head_up_display_easa
from lpv.decide.visual import lights_length_ft
from lpv.facts import FACTS
from lpv.fas.identity import is_sbas_channel
from lpv.geodesy import earth
from lpv.geodesy.magnetic import model_zone
from lpv.intercept import vectors
from lpv.intercept.course import overshoot_captured_at_nm
from lpv.path.deviation import missed_first_leg_full_scale_ft
from lpv.path.ils_scale import localizer_full_scale_deg
from lpv.path.temperature import order_lowest_angle_deg
from lpv.sbas import service
from lpv.sbas.almanac import read_yuma
from lpv.sbas.day import Moment
from lpv.sbas.error_model import troposphere_mapping
from lpv.sbas.integrity import protection_levels
from lpv.sbas.ionosphere import cell_variance_m2
from lpv.sbas.level import Limits, supports
from lpv.setup.radio import kind_of_khz
from lpv.track import analysis, ending, files, form, level_flight, moments, readers, reference, xml_tracks
from lpv.track.clean import clean, gap_of, jumps
from lpv.track.levels import levels_of
from lpv.track.points import places
from lpv.track.records import Conditions, Reading, Recording
from lpv.track.target import Target
from lpv_site.checks import probes_planning as planning
from lpv_site.checks.checks import FOLDER as VALUES
from support import ROOT

PLAIN, EUROPEAN, COLD = (read(FOLDER / f"{name}.toml") for name in ("zzak-rnav-09", "zzeg-rnp-24", "zzhc-rnav-33"))

ALMANAC = (VALUES / "almanac" / "week-38.alm").read_text("ascii")


def chart(approach, **values):
    return replace(approach, chart=replace(approach.chart, **values))


def held(approach, **values):
    block = approach.database.block
    block = replace(block, segment=replace(block.segment, **values))
    return replace(approach, database=replace(approach.database, block=block))


def graded(rule, approach, key=""):
    [grade] = [finding.grade for finding in rule(approach, None) if key in ("", finding.key)]
    return grade


def refused(function, *given):
    """What a function refuses, "" where it answers."""
    try:
        function(*given)
    except DomainError as error:
        return str(error).partition(";")[0]
    return ""


def row(line, categories, altitude_ft, **more):
    return Minima(line=line, kind=KINDS[line], categories=categories, altitude_ft=altitude_ft, **more)


def height_of(line, categories="A"):
    """The grade of a line's only minimum so many feet above what it counts from."""
    base_ft = PLAIN.chart.airport_elevation_ft if line == "circling" else PLAIN.chart.tdze_ft
    return lambda ft: graded(minima.lowest, chart(PLAIN, minima=(row(line, categories, base_ft + ft),)))


def seen(approach, line, unit):
    return lambda given: graded(minima.visibilities, chart(approach, minima=(row(line, "A", 900.0, **{unit: given}),)))


def angle(approach, categories):
    lines = (row("LPV", categories, 400.0),)
    return lambda deg: graded(segment.angle_range, held(chart(approach, minima=lines), gpa_deg=deg))


def offset(approach):
    """The grade of a runway's bearing so many degrees off the final course."""
    course_deg = approach.true_course_deg

    def grade(deg):
        surveyed = replace(approach.runway, bearing_true_deg=(course_deg + deg) % 360.0)
        return graded(runway.bearing, replace(approach, runway=surveyed))

    return grade


def share_at(limit):
    """The grade of a temperature limit at which the barometric path has this share of its angle."""
    def grade(share):
        of = chart(PLAIN, minima=(row("LNAV/VNAV", "A", 500.0),))
        low_c, high_c = -80.0, 60.0
        while high_c - low_c > 1e-9:
            middle_c = (low_c + high_c) / 2.0
            low_c, high_c = (middle_c, high_c) if printed.path_share(of, middle_c) < share else (low_c, middle_c)
        return graded(printed.vnav_temperatures, chart(of, vnav_lowest_c=low_c, vnav_highest_c=low_c), limit)

    return grade


def lights(name):
    return lambda ft: graded(printed.lights, chart(PLAIN, lights=Lights(name=name, length_ft=ft)))


def sector(airport_ft):
    """The grade of a safe altitude of 1500 ft over an airport of this elevation."""
    around = SafeAltitude(centre="RW09", from_deg=180.0, to_deg=180.0, altitude_ft=1500.0, radius_nm=25.0)
    return graded(printed.safe_altitudes, chart(PLAIN, airport_elevation_ft=airport_ft, msa=(around,)))


def slope(rise_ft):
    """The grade of an airport that lies so far above a threshold at the end of 10 000 ft of runway."""
    of = chart(PLAIN, threshold_elevation_ft=20.0, tdze_ft=20.0, airport_elevation_ft=20.0 + rise_ft,
               runway_length_ft=10000.0)
    return graded(minima.elevations, of)


def zone(rise_ft):
    """The grade of a touchdown zone that lies so far above its threshold."""
    of = chart(PLAIN, threshold_elevation_ft=20.0, tdze_ft=20.0 + rise_ft, airport_elevation_ft=100.0)
    return graded(minima.elevations, of)


def runway_ft(length_ft):
    return runway.fpap_places_ft(replace(PLAIN, runway=replace(
        PLAIN.runway, length_ft=length_ft, displaced_threshold_ft=0.0)))[0]


def within_gate(name, number):
    """Whether an aircraft meets the first gate with one figure other than perfect."""
    perfect = {"height_ft": 900.0, "speed_kt": 130.0, "target_speed_kt": 120.0, "sink_rate_fpm": 700.0,
               "lateral_dots": 0.0, "vertical_dots": 0.0, "bank_deg": 0.0, "done": GATES[0].required}
    return stable(evaluate(GATES[0], State(**perfect | {name: number})))


def level(which, hpl_m, vpl_m):
    return supports(Moment(8, hpl_m, hpl_m, vpl_m), Limits(40.0, 50.0), which)


def satellites(count):
    spread = [(0.0, 20.0), (90.0, 40.0), (180.0, 30.0), (270.0, 80.0)][:count]
    return refused(protection_levels, [azimuth for azimuth, _ in spread], [up for _, up in spread], [1.0] * count)


def cell(latitude_deg):
    return refused(cell_variance_m2, latitude_deg, 1.0, (latitude_deg - 1.0, 0.0), 5.0, (1.0, 1.0, 1.0, 1.0))


def two(seconds, climb_ft=0.0, north_ft=0.0):
    """Whether the second of two samples cannot follow the first."""
    north_deg = north_ft / (1852.0 / 0.3048) / 60.0
    return jumps(Reading(1, 0.0, 30.0, 10.0, 2000.0), Reading(2, seconds, 30.0 + north_deg, 10.0, 2000.0 + climb_ft))


def usual(interval_s):
    return gap_of([Reading(n, interval_s * n, 30.0, 10.0) for n in range(9)])


def looked_at_for_level(true_ft=300.0, indicated_ft=300.0):
    """Whether a sample is looked at for level flight at a DA of 400 ft."""
    point = SimpleNamespace(indicated_ft=indicated_ft, true_ft=true_ft, along_nm=1.0, part=0)
    of = SimpleNamespace(points=(point,), minimum_ft=400.0, levels=SimpleNamespace(threshold_ft=0.0),
                         noise=SimpleNamespace(interval_s=0.0))
    return bool(level_flight._stretches(of)[-1])


def level_for(seconds):
    """The verdict on level flight of so many seconds."""
    of = SimpleNamespace(noise=SimpleNamespace(interval_s=1.0), reason="")
    return level_flight.compare_level(of, SimpleNamespace(least_s=seconds, most_s=seconds)).verdict


def told_cold(temperature_c):
    of = SimpleNamespace(levels=SimpleNamespace(temperature_c=temperature_c, temperature_stated=True),
                         target=SimpleNamespace(cold=lambda _: SimpleNamespace(due=False)))
    return moments._is_cold(of)


def asked(ceiling_ft=5000.0, visibility_sm=10.0):
    return planning.alternate_needed(ceiling_ft, visibility_sm, 0)


def allowed(line, ceiling_ft=5000.0, visibility_sm=10.0):
    return planning.alternate_allowed(line, ceiling_ft, visibility_sm)


def crossing(ft):
    return graded(segment.crossing_range, held(PLAIN, tch=ft))


def val(metres):
    return graded(segment.alert_limits, held(PLAIN, val_m=metres), "val")


def hal(metres):
    return graded(segment.alert_limits, held(PLAIN, hal_m=metres), "hal")


def gradient(ft_per_nm):
    chart_missed = replace(PLAIN.chart.missed, climb_gradient_ft_per_nm=ft_per_nm)
    return graded(missed.climb, chart(PLAIN, missed=chart_missed))


def cold_at(printed_c):
    return graded(printed.cold_temperature, chart(PLAIN, cold_temperature_airport_c=printed_c))


def undecided(temperature_c):
    return cold(chart(PLAIN, cold_temperature_airport_c=None), temperature_c).grade


def entry(old):
    """Whether an almanac is read with another figure in the place of one."""
    def read_with(new):
        try:
            return bool(read_yuma(ALMANAC.replace(old, f"{new:.7f}", 1), "a.alm", 2086))
        except DataError:
            return False

    return read_with


def parts(count):
    """How many parts a recording has in which so many samples lie elsewhere."""
    rows = [Reading(n, float(n), 30.1 if 10 <= n < 10 + count else 30.0, 10.0, 2000.0) for n in range(40)]
    return len(clean(Recording("a.csv", "msl", "", tuple(rows), 6))[0])


def looked_at(before_nm):
    """How many samples so far before the threshold are looked at."""
    ltp = PLAIN.segment.ltp_latitude_deg, PLAIN.segment.ltp_longitude_deg
    at = earth.destination(*ltp, PLAIN.true_course_deg + 180.0, before_nm)
    reading = Reading(1, 0.0, *at, 3000.0)
    target, recording = Target(PLAIN), Recording("a.csv", "msl", "", (reading,), 6)
    return len(places([(reading,)], target, levels_of(recording, target, Conditions(15.0))))


def near_minimum(indicated_ft):
    """Whether a sample so high counts as near a minimum of 400 ft."""
    point = SimpleNamespace(above_ft=0.0, path_dots=0.0, indicated_ft=indicated_ft, along_nm=1.0)
    of = SimpleNamespace(minimum_ft=400.0, coming_in=(point,), limit_dots=1.0, reason="",
                         path_uncertainty_dots=lambda _: 0.1, path_uncertainty_ft=lambda _: 5.0)
    return bool(moments._near_minimum(of))


def on_runway(seconds):
    """Whether samples on the runway so many seconds apart show it."""
    return reference._is_ground([SimpleNamespace(time_s=0.0), SimpleNamespace(time_s=seconds)])


def climb_told(climb_ft):
    rows = (0.0, 900.0), (60.0, 900.0 + climb_ft)
    points = [SimpleNamespace(time_s=time_s, indicated_ft=ft) for time_s, ft in rows]
    return analysis.other(1, points, None).rpartition(", ")[2]


def low_explained(indicated_ft):
    """Whether low at a fix charted at 2000 ft is the cold that nobody corrects."""
    fix = SimpleNamespace(charted_ft=2000.0, corrected_ft=None)
    with patch.object(moments, "at_pfaf", lambda _: fix):
        return moments.explains_low(None, SimpleNamespace(indicated_ft=indicated_ft))


def satellites_used(elevation_deg):
    satellite = SimpleNamespace(azimuth_deg=0.0, elevation_deg=elevation_deg)
    with patch.object(service, "visible", lambda *_: [satellite]), patch.object(service, "sigma_m", lambda *_: 1.0):
        return service.epoch([], None, 0.0, None, None).satellites


def climb_cut_short(seconds):
    """Whether a recording that ends so long after its highest sample is said to end in the climb."""
    rows = [SimpleNamespace(time_s=time_s, indicated_ft=ft) for time_s, ft in ((0.0, 2000.0), (seconds, 1990.0))]
    flown = SimpleNamespace(
        target=SimpleNamespace(missed_ft=lambda _: 3000.0), after=rows, reason="",
        levels=SimpleNamespace(temperature_c=15.0, temperature_stated=True), reading_uncertainty_ft=lambda _: 10.0)
    [moment] = ending._altitude(flown)
    return moment.what.endswith("The recording ends in the climb.")


def offset_told(spread_ft):
    """Whether a final flown 400 ft above its path, within so many feet, counts as altitudes from something else."""
    points = tuple(SimpleNamespace(above_ft=400.0, along_nm=3.0, course_dots=0.0, true_ft=2000.0) for _ in range(50))
    levels = SimpleNamespace(uncertainty_ft=lambda _: 50.0)
    with patch.multiple(reference, half_spread_ft=lambda _: spread_ft, _other_unit=lambda *_: "",
                        _explained=lambda *_: ""):
        return reference.doubt(points, {}, levels, SimpleNamespace(pfaf_nm=5.0)) is not None


NM_FT = 1852.0 / 0.3048
# Limit: what answers, and twice a number beside the limit with the answer to it.
TABLE = {
    "hal_lpv_m": (hal, 40.0, "ok", 40.2, "stop"),
    "hal_lnav_m": (lambda m: level("LNAV", m, 9.0), 556.0, True, 556.1, False),
    "val_lpv_m": (lambda m: level("LNAV/VNAV", 9.0, m), 50.0, True, 50.1, False),
    "val_lpv200_below_hat_ft": (vertical_alert_limit_m, 249.9, 35.0, 250.0, 50.0),
    "val_lpv_lowest_m": (val, 12.0, "stop", 12.2, "resolve"),
    "lpv_lowest_hat_ft": (height_of("LPV"), 200.0, "ok", 199.9, "stop"),
    "lnav_vnav_lowest_hat_ft": (height_of("LNAV/VNAV"), 250.0, "ok", 249.9, "stop"),
    "mda_lowest_hat_ft": (height_of("LNAV"), 249.5, "ok", 249.4, "resolve"),
    "circling_lowest_a_ft": (height_of("circling", "A"), 349.5, "ok", 349.4, "resolve"),
    "circling_lowest_b_ft": (height_of("circling", "AB"), 449.5, "ok", 449.4, "resolve"),
    "circling_lowest_c_ft": (height_of("circling", "C"), 449.5, "ok", 449.4, "resolve"),
    "circling_lowest_d_ft": (height_of("circling", "CD"), 549.5, "ok", 549.4, "resolve"),
    "circling_lowest_e_ft": (height_of("circling", "E"), 549.5, "ok", 549.4, "resolve"),
    "sbas_channel_lowest": (is_sbas_channel, 40000, True, 39999, False),
    "sbas_channel_highest": (is_sbas_channel, 99999, True, 100000, False),
    "fpap_distance_lowest_ft": (runway_ft, 9022.0, 9023.0, 9024.0, 9024.0),
    "course_half_width_lowest_ft": (segment.faa_half_width_m, 13000.0, 106.75, 13400.0, 107.0),
    "offset_highest_faa_deg": (offset(PLAIN), 2.99, "resolve", 3.01, "stop"),
    "offset_highest_icao_deg": (offset(EUROPEAN), 4.99, "resolve", 5.01, "stop"),
    "gpa_lowest_deg": (angle(PLAIN, "A"), 2.75, "ok", 2.74, "resolve"),
    "gpa_highest_a_deg": (angle(PLAIN, "A"), 6.4, "ok", 6.41, "resolve"),
    "gpa_highest_b_deg": (angle(PLAIN, "AB"), 4.2, "ok", 4.21, "resolve"),
    "gpa_highest_c_deg": (angle(PLAIN, "ABC"), 3.6, "ok", 3.61, "resolve"),
    "gpa_highest_d_deg": (angle(PLAIN, "ABCD"), 3.1, "ok", 3.11, "resolve"),
    "gpa_highest_e_deg": (angle(PLAIN, "E"), 3.1, "ok", 3.11, "resolve"),
    "gpa_lowest_icao_deg": (angle(EUROPEAN, "A"), 3.0, "ok", 2.99, "resolve"),
    "gpa_highest_icao_deg": (angle(EUROPEAN, "A"), 3.5, "ok", 3.51, "resolve"),
    "tch_lowest_ft": (crossing, 30.0, "ok", 29.9, "resolve"),
    "tch_highest_ft": (crossing, 70.0, "ok", 70.1, "resolve"),
    "tch_stop_below_ft": (crossing, 15.0, "resolve", 14.9, "stop"),
    "tch_stop_above_ft": (crossing, 100.0, "resolve", 100.1, "stop"),
    "visibility_lowest_ft": (seen(PLAIN, "LPV", "rvr_ft"), 1799.0, "ok", 1798.9, "resolve"),
    "visibility_highest_ft": (seen(EUROPEAN, "LPV", "rvr_m"), 5000.2, "ok", 5000.3, "resolve"),
    "visibility_lowest_circling_ft": (seen(PLAIN, "circling", "visibility_sm"), 1.0, "ok", 0.99, "resolve"),
    "visibility_lowest_circling_icao_m": (seen(EUROPEAN, "circling", "visibility_m"), 1500.0, "ok", 1499.0, "resolve"),
    "runway_slope_highest": (slope, 200.0, "ok", 200.1, "resolve"),
    "touchdown_zone_ft": (zone, 60.0, "ok", 60.1, "resolve"),
    "missed_gradient_ft_per_nm": (gradient, 200.0, "ok", 199.9, "resolve"),
    "missed_gradient_highest_ft_per_nm": (gradient, 425.0, "ok", 425.1, "resolve"),
    "vnav_angle_lowest_share": (share_at("vnav-lowest"), 0.901, "ok", 0.899, "resolve"),
    "vnav_angle_highest_share": (share_at("vnav-highest"), 1.199, "ok", 1.201, "resolve"),
    "cold_airport_lowest_c": (cold_at, -60.0, "ok", -60.1, "resolve"),
    "cold_airport_highest_c": (cold_at, 0.0, "ok", 0.1, "resolve"),
    "cold_without_rule_c": (undecided, 0.0, "resolve", 0.1, "ok"),
    "msa_above_airport_ft": (sector, 500.0, "ok", 500.1, "resolve"),
    "lights_length_ft": (lights("MALSR"), 2550.0, "ok", 2551.0, "resolve"),
    "lights_full_m": (lights("full"), 2363.0, "ok", 2362.0, "resolve"),
    "lights_intermediate_m": (lights("intermediate"), 1378.0, "ok", 1377.0, "resolve"),
    "lights_basic_m": (lights("basic"), 689.0, "ok", 688.0, "resolve"),
    "als_alsf_angle_deg": (partial(lights_length_ft, "ALSF-2"), 2.75, 2400.0, 2.74, 3000.0),
    "easa_rvr_head_up_below_m": (needs_head_up_display_easa, 749.9, True, 750.0, False),
    "localizer_lowest_mhz": (kind_of_khz, 108100, "localizer", 108050, "VOR"),
    "localizer_highest_mhz": (kind_of_khz, 111950, "localizer", 112000, "VOR"),
    "vor_lowest_mhz": (kind_of_khz, 108000, "VOR", 107950, "neither"),
    "vor_highest_mhz": (kind_of_khz, 117950, "VOR", 118000, "neither"),
    "wmm_blackout_below_nt": (model_zone, 1999.9, "blackout", 2000.0, "caution"),
    "wmm_caution_below_nt": (model_zone, 5999.9, "caution", 6000.0, "normal"),
    "missed_aligned_within_deg": (missed_first_leg_full_scale_ft, 3.0, 0.3 * NM_FT, 3.01, NM_FT),
    "localizer_width_lowest_deg": (localizer_full_scale_deg, 13000.0, 1.54221, 13400.0, 1.5),
    "localizer_width_highest_deg": (localizer_full_scale_deg, 6700.0, 2.99034, 6650.0, 3.0),
    "category_b_from_kt": (category_for_vref, 90.9, "A", 91.0, "B"),
    "category_c_from_kt": (category_for_vref, 120.9, "B", 121.0, "C"),
    "category_d_from_kt": (category_for_vref, 140.9, "C", 141.0, "D"),
    "category_e_from_kt": (category_for_vref, 165.9, "D", 166.0, "E"),
    "gate_speed_above_vref_kt": (partial(within_gate, "speed_kt"), 140.0, True, 140.1, False),
    "gate_sink_rate_fpm": (partial(within_gate, "sink_rate_fpm"), 1000.0, True, 1001.0, False),
    "gate_deviation_dots": (partial(within_gate, "lateral_dots"), 1.0, True, 1.01, False),
    "additive_most_kt": (lambda kt: added_kt(half_the_gust(), 0.0, kt), 39.9, 19.95, 41.0, 20.0),
    "vector_angle_near_gate_deg": (vectors.highest_angle_deg, 1.99, 20.0, -5.0, 20.0),
    "vector_angle_deg": (vectors.highest_angle_deg, 2.0, 30.0, 50.0, 30.0),
    "vector_outside_gate_nm": (vectors.highest_angle_deg, 1.99, 20.0, 2.0, 30.0),
    "approach_gate_lowest_nm": (vectors.approach_gate_nm, 3.9, 5.0, 4.1, 5.1),
    "satellites_lowest": (satellites, 4, "", 3, "satellites: found 3"),
    "troposphere_elevation_lowest_deg": (
        partial(refused, troposphere_mapping), 4.0, "", 3.99, "elevation: found 3.99 deg"),
    "ionosphere_grid_latitude_highest_deg": (cell, 75.0, "", 75.1, "latitude: found 75.1 deg"),
    "no_alternate_ceiling_ft": (lambda ft: asked(ceiling_ft=ft), 2000.0, False, 1999.0, True),
    "no_alternate_visibility_sm": (lambda sm: asked(visibility_sm=sm), 3.0, False, 2.99, True),
    "alternate_precision_ceiling_ft": (lambda ft: allowed("ILS", ceiling_ft=ft), 600.0, True, 599.0, False),
    "alternate_precision_visibility_sm": (lambda sm: allowed("ILS", visibility_sm=sm), 2.0, True, 1.99, False),
    "alternate_nonprecision_ceiling_ft": (lambda ft: allowed("LNAV", ceiling_ft=ft), 800.0, True, 799.0, False),
    "alternate_nonprecision_visibility_sm": (lambda sm: allowed("LNAV", visibility_sm=sm), 2.0, True, 1.99, False),
    "easa_no_alternate_ceiling_ft": (
        lambda ft: planning.alternate_needed_easa(ft, 0.0, 2, 5.0), 2000.0, False, 1999.0, True),
    "easa_no_alternate_flight_h": (
        lambda hours: planning.alternate_needed_easa(5000.0, 0.0, 2, hours), 6.0, False, 6.01, True),
    "pofz_lowest_hat_ft": (lambda ft: planning.minimum_zone_not_clear(ft, 0.0), 249.0, 250.0, 251.0, 251.0),
    "pofz_lowest_visibility_sm": (planning.visibility_zone_not_clear, 0.7, 0.75, 0.8, 0.8),
    "baro_path_lowest_share": (order_lowest_angle_deg, 3.0, 2.751, 4.0, 3.668),
    "als_only_lowest_above_tdze_ft": (lambda ft: lights_only_ft(chart(PLAIN, tdze_ft=ft)), 30.0, 130.0, 31.0, 131.0),
    "almanac_eccentricity_highest": (entry("0.9250164032E-002"), 0.1, True, 0.1001, False),
    "almanac_root_axis_lowest": (entry("5153.594238"), 5000.0, True, 4999.9, False),
    "almanac_root_axis_highest": (entry("5153.594238"), 5300.0, True, 5300.1, False),
    "almanac_time_highest_s": (entry("503808.0000"), 602112.0, True, 602113.0, False),
    "recording_farthest_nm": (looked_at, 24.99, 1, 25.01, 0),
    "recording_jump_most_rows": (parts, 5, 1, 6, 3),
    "recording_near_da_ft": (near_minimum, 700.0, True, 700.1, False),
    "recording_gap_s": (usual, 3.9, 10.0, 4.1, 10.25),
    "recording_gap_most_s": (usual, 11.9, 29.75, 12.1, 30.0),
    "recording_jump_ft": (lambda ft: two(0.0, climb_ft=ft), 500.0, False, 500.1, True),
    "recording_jump_fpm": (lambda ft: two(6.0, climb_ft=ft), 1499.9, False, 1500.1, True),
    "recording_jump_kt": (lambda ft: two(6.0, north_ft=ft), 499.0 + NM_FT, False, 501.0 + NM_FT, True),
    "recording_touch_ft": (lambda ft: looked_at_for_level(true_ft=ft), 50.1, True, 50.0, False),
    "recording_level_above_ft": (
        lambda ft: looked_at_for_level(indicated_ft=ft + 150.0), 460.0, True, 460.1, False),  # 150 ft more
    "recording_level_s": (level_for, 5.45, "within", 5.55, "too close to say"),  # uncertain by 2.5 s
    "recording_ground_s": (on_runway, 8.0, True, 7.9, False),
    "recording_climb_ft": (climb_told, 100.0, "then climbs", 99.9, "then ends"),
    "altimeter_ground_check_ft": (low_explained, 1925.0, True, 1924.9, False),
    "mask_elevation_deg": (satellites_used, 5.0, 1, 4.99, 0),
    "recording_settled_s": (climb_cut_short, 19.9, True, 20.0, False),
    "recording_offset_share": (offset_told, 100.0, True, 100.1, False),
    "two_dot_scale_dots": (
        lambda dots: refused(overshoot_captured_at_nm, SimpleNamespace(cross_track_nm=1.0), dots, 1000.0), 2.0, "",
        2.01, "dots: found 2.01 dots"),
    "recording_cold_c": (told_cold, -0.1, True, 0.0, False),
}


# Taken into tables when their modules are imported, so that a test cannot move them.
ON_IMPORT = {"category_b_from_kt", "category_c_from_kt", "category_d_from_kt", "category_e_from_kt",
             "localizer_lowest_mhz", "localizer_highest_mhz", "vor_lowest_mhz", "vor_highest_mhz",
             "gate_speed_above_vref_kt", "gate_sink_rate_fpm", "gate_deviation_dots",
             "recording_jump_kt", "recording_jump_fpm", "recording_jump_most_rows"}
# Limits that other tests try on either side: the file, and what stands there of it.
ELSEWHERE = {
    "almanac_age_highest_weeks": ("lpv/sbas/test_almanac.py", "[2083, 2089]", "[2082, 2090,"),
    "part_135_over_minimum_ft": ("lpv/plan/test_rules.py", "(2009.0, 3.0, {", "(2008.0, 3.0, {"),
    "part_135_over_visibility_sm": ("lpv/plan/test_rules.py", "(5000.0, 3.4, {", "(5000.0, 3.5, {"),
    "easa_no_alternate_visibility_m": ("lpv/plan/test_rules.py", "(2000.0, 5000.0, None,", "(2000.0, 4999.0, None,"),
    "descent_gradient_final_lowest_ft_per_nm":
        ("lpv/crosscheck/test_parts.py", '(1580, "resolve")', '(1595, "ok")'),
    "missed_above_airport_ft": ("lpv/crosscheck/test_parts.py", '(1030, "resolve")', '(1031, "ok")'),
}


def holds(key):
    """Whether both numbers beside the limit have the answers of the table."""
    answer, inside, answer_inside, outside, answer_outside = TABLE[key]
    pairs = ((answer(inside), answer_inside), (answer(outside), answer_outside))
    return all(value == (pytest.approx(expected, rel=1e-5) if type(expected) is float else expected)
               for value, expected in pairs)


@pytest.mark.parametrize("key", TABLE)
def test_either_side_of_limit(key):
    assert holds(key)


@pytest.mark.parametrize("key", [key for key in TABLE if key not in ON_IMPORT])
def test_moved_limit_noticed(key):
    for factor in (0.7, 1.3) if key == "satellites_lowest" else (0.98, 1.02):
        with changed(key, factor):
            assert not holds(key), factor


def test_recording_size_bounds():
    assert (files.MAX_BYTES, readers.MAX_ROWS, xml_tracks.MAX_POINTS) == (32_000_000, 100_000, 100_000)
    assert (form.MAX_MB, form.MAX_ROWS) == (5.0, 20_000)


def test_table_complete():
    """Those of differences and of consequences have tables of their own, which their tests hold whole."""
    named = re.compile(r"_(lowest|highest|longest|most|least|farthest|below|above|within|from|over|near)(_|$)")
    code = "\n".join(path.read_text("utf-8") for path in sorted((ROOT / "snippets" / "lpv").rglob("*.py"))
                     if path.parent.name != "facts")
    limits = [key for key, fact in FACTS.items() if isinstance(fact.value, float) and named.search(key)
              and not key.startswith(("limit_", "consequence_")) and f'"{key}"' in code]
    assert len(limits) > 60
    bounds = {"recording_most_mb", "recording_most_rows"}
    assert set(limits) - TABLE.keys() - ELSEWHERE.keys() == bounds
    sides = re.findall(r'[<>]=? [^"\n]*\bvalue\("(\w+)"\)|\bvalue\("(\w+)"\)\)? [<>]=? ', code)
    compared = {key for pair in sides for key in pair if key and not key.startswith(("limit_", "consequence_"))}
    assert len(compared) > 15
    assert compared <= TABLE.keys() | ELSEWHERE.keys()
    for name, *beside in ELSEWHERE.values():
        text = (ROOT / "tests" / name).read_text("utf-8")
        assert all(piece in text for piece in beside), name
