
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core.errors import DataError, DomainError
from lpv.sbas import almanac
from lpv.sbas.constellation import WEEK_S
from lpv_site.checks.checks import FOLDER

TEXT = (FOLDER / "almanac" / "week-38.alm").read_text("ascii")
WEEK = 2086


def faults(text, week=WEEK):
    with pytest.raises(DataError) as caught:
        almanac.read_yuma(text, "test.alm", week)
    return caught.value.faults


def outcome(text):
    """How many satellites and how many faults."""
    try:
        return len(almanac.read_yuma(text, "test.alm", WEEK)), 0
    except DataError as error:
        return 0, len(error.faults)


def test_values_taken_unchanged():
    first, second = almanac.read_yuma(TEXT, "test.alm", WEEK)
    assert (first.name, second.name) == ("PRN 01", "PRN 02")
    assert first.reference_gps_s == 2086 * WEEK_S + 503808.0
    assert first.eccentricity == 0.009250164032
    assert second.perigee_rad == -1.681170289
    assert first.clock_rate == -0.1091393642e-10


@pytest.mark.parametrize("end", ["\r\n", "\r"])
def test_line_endings_make_no_difference(end):
    changed = almanac.read_yuma(TEXT.replace("\n", end), "test.alm", WEEK)
    assert changed == almanac.read_yuma(TEXT, "test.alm", WEEK)


def test_alternative_node_name_known():
    other = TEXT.replace("Right Ascen at Week(rad):", "Right Ascen at TOA(rad): ")
    assert almanac.read_yuma(other, "test.alm", WEEK) == almanac.read_yuma(TEXT, "test.alm", WEEK)


def test_unhealthy_satellite_kept():
    orbits = almanac.read_yuma(TEXT.replace("000", "063", 1), "test.alm", WEEK)
    assert len(orbits) == 2
    assert [orbit.health for orbit in orbits] == [63, 0]


@pytest.mark.parametrize("near", [37, 38, 39, 1062, 2086, 2089, 3110])
def test_full_week_is_nearest(near):
    assert abs(almanac.full_week(38, near) - near) <= 512
    assert almanac.full_week(38, near) % 1024 == 38


def test_full_week_refuses_invalid_week():
    for week, near in ((1024, 2086), (-1, 2086), (38, -1), (38, 10000)):
        with pytest.raises(DomainError):
            almanac.full_week(week, near)


@pytest.mark.parametrize("week", [2083, 2089])
def test_almanac_three_weeks_away_accepted(week):
    assert almanac.read_yuma(TEXT, "test.alm", week)[0].reference_gps_s == 2086 * WEEK_S + 503808.0


@pytest.mark.parametrize("week", [2082, 2090, 2200, 1062 + 4])
def test_almanac_of_other_week_is_one_fault(week):
    (fault,) = faults(TEXT, week)
    assert fault.found == "week 38"
    assert f"week {week}" in fault.allowed


@pytest.mark.parametrize(
    ("old", "new", "key"),
    [
        ("0.9250164032E-002", "0.1000000001E+000", "Eccentricity"),
        ("0.9250164032E-002", "0.92501640x2E-002", "Eccentricity"),
        ("0.9250164032E-002", "nan", "Eccentricity"),
        ("0.9250164032E-002", "", "Eccentricity"),
        ("503808.0000", "604800.0000", "Time of Applicability"),
        ("5153.594238", "515.594238", "SQRT(A)"),
        ("ID:                         01", "ID:                         1.5", "ID"),
        ("Health:                     000", "Health:                     -01", "Health"),
        ("week:                        38", "week:                        2086", "week"),
        ("0.9785563052", "1.9785563052", "Inclination"),
    ],
)
def test_damaged_value_is_one_fault(old, new, key):
    (fault,) = faults(TEXT.replace(old, new, 1))
    assert key in fault.key
    assert fault.file == "test.alm"


def test_eccentricity_of_tenth_still_read():
    text = TEXT.replace("0.9250164032E-002", "0.1000000000E+000")
    assert almanac.read_yuma(text, "test.alm", WEEK)[0].eccentricity == 0.1


@pytest.mark.parametrize(
    ("old", "new", "value"),
    [
        ("week:                        38", "week:                        39", "week 39"),
        ("ID:                         01", "ID:                         07", "ID 7"),
        ("Af0(s):                    -0.2508163452E-003\n", "", "no Af0(s)"),
        ("Af0(s):", "Af9(s):", "Af9(s)"),
        ("******** Week 38 almanac for PRN-01 ********", "******** Week 38 alm", "Week 38 alm"),
    ],
)
def test_damaged_line_names_itself(old, new, value):
    assert value in faults(TEXT.replace(old, new, 1))[0].found


def test_truncated_header_is_one_fault():
    assert len(faults(TEXT.replace("PRN-01 ********", "PRN-0", 1))) == 1


def test_every_cut_faulty_except_between_satellites():
    whole = TEXT.rstrip("\n")
    between = whole.index("\n\n********")
    for end in range(0, len(whole), 3):
        satellites, fault_count = outcome(whole[:end])
        assert (satellites, fault_count) == (1, 0) if between <= end <= between + 2 else fault_count >= 1


def test_file_truncated_in_satellite_is_one_fault():
    (fault,) = faults(TEXT[: TEXT.rindex("Mean Anom")])
    assert fault.key == "PRN-02 (line 16)"
    assert "Mean Anom(rad), Af0(s), Af1(s/s), week" in fault.found


def test_duplicate_satellite_is_one_fault():
    first = TEXT[: TEXT.rindex("********\nID:") - len("******** Week 38 almanac for PRN-02 ")]
    (fault,) = faults(TEXT + first)
    assert "second time" in fault.found


@pytest.mark.parametrize("text", ["", "\n\n", "some other file\nwith lines\n", "{}"])
def test_unrelated_file_is_one_fault(text):
    assert len(faults(text)) == 1


def test_all_faults_reported_together():
    text = TEXT.replace("0.9250164032E-002", "0.9E+000").replace("5153.558105", "x")
    assert len(faults(text)) == 2


@settings(max_examples=150)
@given(st.text(max_size=400))
def test_any_text_is_almanac_or_faults(text):
    satellites, fault_count = outcome(text)
    assert (satellites > 0) != (fault_count > 0)


@settings(max_examples=150)
@given(st.integers(0, len(TEXT) - 1), st.characters(min_codepoint=1, max_codepoint=0x2FF))
def test_changed_character_gives_few_faults_or_none(place, character):
    satellites, fault_count = outcome(TEXT[:place] + character + TEXT[place + 1 :])
    assert (satellites == 2 and fault_count == 0) or 1 <= fault_count <= 3
