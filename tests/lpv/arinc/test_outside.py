"""Published records against what is computed apart: remainders, path altitudes, the missed approach's course.

FAA, Coded Instrument Flight Procedures, cycles 2003 (KHWD), 2004 (KBUR) and 2609 (KBTV).
"""

import io

import pytest

import coded_current as current
import coded_records as coded
import national_file
from lpv.approach import record as approach
from lpv.arinc.importer import SBAS, Order, run
from lpv.core.course import course_difference_deg, magnetic_deg
from lpv.crosscheck.fixes import foot
from lpv.path.profile import barometric_path_height_ft, straight_path_height_ft

RECORDS = {"kbtv-rnav-01": (current.KBTV, "2609"), "kbur-rnav-08-z": (current.KBUR, "2004"),
           "khwd-rnav-28l": (coded.KHWD, "2003")}
EXPLAINED_FT = 5.0


@pytest.fixture(scope="module")
def published(tmp_path_factory):
    folder = tmp_path_factory.mktemp("published")
    for lines, cycle in RECORDS.values():
        run(io.BytesIO(coded.as_file(lines, header="")), "records.txt", Order(folder, cycle=cycle, levels=SBAS))
    return {slug: approach.read(folder / f"{slug}.toml") for slug in RECORDS}


@pytest.mark.parametrize("slug", RECORDS)
def test_every_remainder_matches_bit_for_bit(slug, published):
    held = published[slug].held
    assert held.stored == held.computed != ""


@pytest.mark.parametrize("slug", RECORDS)
def test_missed_approach_continues_final_course(slug, published):
    """Its coded course against LTP to FPAP less the variation of record, to 0.1 degree."""
    record = published[slug]
    [climb] = [leg for leg in record.database.legs if leg.terminator == "CA"]
    computed = magnetic_deg(record.true_course_deg, record.chart.variation_deg)
    assert abs(course_difference_deg(computed, climb.course_deg)) <= 0.1


PATH = [  # approach, fix, coded altitude; by how much the straight path passes above it, whole feet
    ("kbtv-rnav-01", "OBRIE", 1283, 4), ("kbtv-rnav-01", "RW01", 363, 0), ("kbur-rnav-08-z", "HIMEN", 1201, 1),
    ("khwd-rnav-28l", "FENRA", 2126, 33), ("khwd-rnav-28l", "BOGRE", 1369, 13), ("khwd-rnav-28l", "HUZBY", 1007, 6),
    ("khwd-rnav-28l", "RW28L", 85, 0),
]


def heights_ft(record, name):
    """(straight, barometric) height of the path at a fix."""
    fix = next(fix for fix in record.chart.fixes if fix.name == name)
    path = (max(foot(record, fix)[0], 0.0), record.chart.threshold_elevation_ft, record.chart.tch_ft,
            record.chart.glidepath_deg)
    return straight_path_height_ft(*path), barometric_path_height_ft(*path)


@pytest.mark.parametrize(("slug", "name", "altitude_ft", "above_ft"), PATH)
def test_coded_path_altitude_on_barometric_path(slug, name, altitude_ft, above_ft, published):
    """To a foot; where the straight path is more than 5 ft higher, the curve of the earth explains all of it."""
    record = published[slug]
    fix = next(fix for fix in record.chart.fixes if fix.name == name)
    straight_ft, barometric_ft = heights_ft(record, name)
    assert fix.path_altitude_ft == altitude_ft
    assert barometric_ft == pytest.approx(altitude_ft, abs=1.0)
    assert straight_ft - altitude_ft == pytest.approx(above_ft, abs=1.0)
    curved_ft = 0.883 * foot(record, fix)[0] ** 2  # half the square of the distance over the earth's radius
    if above_ft > EXPLAINED_FT:
        assert straight_ft - barometric_ft == pytest.approx(curved_ft, abs=1.5)


def test_every_coded_path_altitude_tested(published):
    there = {(slug, fix.name) for slug, record in published.items() for fix in record.chart.fixes
             if fix.path_altitude_ft is not None}
    assert there == {(slug, name) for slug, name, _, _ in PATH}


# The generated national file, small


def test_generated_file_imported_whole(tmp_path):
    file = tmp_path / "national.txt"
    national_file.write(file, 5, 4000, "2609")
    with open(file, "rb") as stream:
        summary = run(stream, file.name, Order(tmp_path / "out", levels=SBAS))
    assert (len(summary.done), len(summary.out_of_scope), summary.refused, summary.partly) == (20, 15, [], [])
    assert summary.counts["records"] == summary.announced == sum(summary.kinds.values())
    assert {done.level for done in summary.done} == {"LPV", "LP"}
    for path in (tmp_path / "out").glob("*.toml"):
        held = approach.read(path).held
        assert held.stored == held.computed
