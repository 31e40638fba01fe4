"""What findings print for one approach, figure by figure: out of its file, by GeographicLib, or by hand from these."""

import math
from itertools import pairwise

import pytest
from geographiclib.geodesic import Geodesic

from approach_variants import demo
from lpv.crosscheck.check import crosscheck

APPROACH = demo()
FOUND = list(crosscheck(APPROACH))
CHART, FIXES = APPROACH.chart, {fix.name: fix for fix in APPROACH.chart.fixes}
FT_PER_NM = 1852 / 0.3048


def finding_of(key):
    (row,) = [finding for finding in FOUND if finding.key == key]
    return row


def line(start, end):
    """True course (deg) and distance (NM) between two positions."""
    inverse = Geodesic.WGS84.Inverse(*start, *end)
    return inverse["azi1"] % 360.0, inverse["s12"] / 1852.0


def at(name):
    return FIXES[name].latitude_deg, FIXES[name].longitude_deg


def test_courses_to_tenth():
    segment = APPROACH.segment
    true_deg, _ = line((segment.ltp_latitude_deg, segment.ltp_longitude_deg),
                       (segment.fpap_latitude_deg, segment.fpap_longitude_deg))
    magnetic = f"{true_deg - 12.0:05.1f}°"
    course = finding_of("course")
    assert (course.chart, course.database, course.computed) == (
        "092.0° magnetic", f"{true_deg:05.1f}° true", f"{magnetic} magnetic, E12.0° applied")
    assert (finding_of("course-shown").chart, finding_of("course-shown").database) == ("092.0°", "092.0°")
    assert finding_of("runway-course").computed == f"{magnetic}, +{true_deg - 12.0 - 90.0:.1f}° from the number"
    assert finding_of("runway-bearing").chart.startswith(f"runway {true_deg:.1f}° true")
    assert finding_of("variation").chart == finding_of("variation-year").chart == "E12.0° of 2025"


def test_legs_to_digit_of_each_side():
    names = ["BRYNA", "SWELO", "GULLY", "FOMEY", "RW09", "KELPO"]
    lines = [line(at(start), at(end)) for start, end in pairwise(names)]
    legs = [finding for finding in FOUND if finding.key == "leg"]
    assert [finding.computed for finding in legs] == [
        f"{true_deg - 12.0:05.1f}°, {distance_nm:.2f}\u202fNM" for true_deg, distance_nm in lines]
    assert [finding.chart for finding in legs[:2]] == ["182°, 6.0\u202fNM", "091°, 5.5\u202fNM"]
    beyond = [line(at(name), at("RW09"))[1] for name in ("GULLY", "FOMEY", "RW09")]
    assert finding_of("fix-order").computed == ", ".join(f"{distance_nm:.1f}\u202fNM" for distance_nm in beyond)
    on_course = [finding.computed for finding in FOUND if finding.key == "fix-on-course"]
    assert on_course == [f"{distance_nm:.2f}\u202fNM before the threshold, 0.000\u202fNM left of the course"
                         for distance_nm in beyond]


def test_path_and_minimum_heights():
    (gully, fomey) = [finding.computed for finding in FOUND if finding.key == "path-altitude"]
    for printed, name in ((gully, "GULLY"), (fomey, "FOMEY")):
        ground_ft = line(at(name), at("RW09"))[1] * FT_PER_NM
        flat_ft = 22.0 + 52.0 + ground_ft * math.tan(math.radians(3.0))
        straight_ft, barometric_ft = (
            float(part.split()[-1].replace("\u202fft", "")) for part in printed.replace("\u202fft", "").split(", "))
        assert straight_ft == pytest.approx(flat_ft + ground_ft**2 / (2 * 6371000 / 0.3048), abs=1.0)
        assert barometric_ft == pytest.approx(flat_ft, abs=1.0)
    hats = [(finding.chart, finding.computed.partition(" above")[0]) for finding in FOUND if finding.key == "hat"]
    expected = []
    for row in CHART.minima:
        base_ft = 31.0 if row.line == "circling" else 24.0
        height = f"{row.altitude_ft - base_ft:.0f}\u202fft"
        expected.append((f"{row.kind} {row.altitude_ft:.0f}\u202fft, height {height}", height))
    assert hats == expected
    assert (finding_of("glidepath").chart, finding_of("glidepath").database) == ("3.00°", "3.00°")
    assert (finding_of("tch").chart, finding_of("tch").database) == ("52\u202fft", "52\u202fft")


def test_view_from_decision():
    """202 ft over the threshold: 2862 ft to it on the ground, 2866 ft in a line; the lights begin 2400 ft before it."""
    ground_ft = 150.0 / math.tan(math.radians(3.0))
    slant_ft = math.hypot(ground_ft, 202.0)
    text = finding_of("decision-visibility").computed.replace("\u202f", " ")
    numbers = [float(word) for word in text.replace(",", " ").split() if word.replace(".", "").isdigit()]
    assert numbers == [pytest.approx(ground_ft / FT_PER_NM, abs=0.006), pytest.approx(slant_ft, abs=4.0),
                       pytest.approx(slant_ft - 2400.0, abs=4.0),
                       pytest.approx(math.hypot(ground_ft - 2400.0, 202.0), abs=4.0)]
    assert text.startswith("DA 0.47 NM before")


def test_scale_at_garp():
    degrees = math.degrees(math.atan(106.75 / 0.3048 / 11000.0))
    assert f"full scale {degrees:.2f}° at the GARP" in finding_of("course-width").computed
    assert finding_of("course-width").database == "106.75\u202fm to each side"
