"""What the scripts of docs/reference/ show, worked out in another way."""

import math
from pathlib import Path

import pytest

from lpv_site.build import hosting
from reference import (
    cycle_grades,
    hosting_headers,
    hosting_kinds,
    import_codes,
    import_filled,
    publish_container,
    publish_folder,
    schema_files,
)
from reference.columns import show as columns
from reference.cycle_grades import MEANING
from reference.recorded_altitude import show
from shown import cell, rows

GNSS_95_M, ALTIMETER_FT, AIR_C = 13.0, 75.0, 5.0
DA_FT, THRESHOLD_FT, AIRPORT_FT, PATH_DEG = 224.0, 22.0, 31.0, 3.0
# Full scale of the path is a quarter of its angle, seen from where it meets the ground.
FULL_SCALE_FT = (DA_FT - THRESHOLD_FT) / math.tan(math.radians(PATH_DEG)) * math.tan(math.radians(PATH_DEG / 4))


def test_minimum_is_charted_da():
    assert show().number("minimum") == DA_FT
    assert show().text("minimum") == "224\u202fft"


@pytest.mark.parametrize("key", ["msl", "ellipsoid"])
def test_gnss_height(key):
    assert show().number(key) == pytest.approx(GNSS_95_M / 0.3048)
    assert show().number(f"{key}_dots") == pytest.approx(2 * GNSS_95_M / 0.3048 / FULL_SCALE_FT, rel=0.005)


@pytest.mark.parametrize("key", ["indicated", "pressure"])
def test_altimeter_height(key):
    """Air five degrees colder than thought: the height above the airport is wrong by 5/288 of itself."""
    air_ft = (DA_FT - AIRPORT_FT) * AIR_C / 288.15
    assert show().number(key) == pytest.approx(math.hypot(ALTIMETER_FT, air_ft), rel=1e-4)
    dots = 2 * math.hypot(ALTIMETER_FT, air_ft) / FULL_SCALE_FT
    assert show().number(f"{key}_dots") == pytest.approx(dots, rel=0.005)


KEYS = {"msl_dots": "above mean sea level, by GNSS", "ellipsoid_dots": "above the ellipsoid, by GNSS",
        "indicated_dots": "as indicated by the altimeter", "pressure_dots": "pressure altitude"}


@pytest.mark.parametrize("key", KEYS)
def test_table_prints_values(key):
    height = show().number(key.removesuffix("_dots"))
    assert cell(show(), KEYS[key], 1) == f"{height:.0f}"
    assert cell(show(), KEYS[key], 2) == f"{show().number(key):.1f}"


def test_columns_in_metres_separate():
    listed, _, in_metres = columns().markdown.rpartition("In meters: ")
    assert in_metres.count("_m`") == in_metres.count("`") // 2 > 0
    assert "_m`" not in listed


def test_address_list_has_type_and_lifetime():
    table = rows(hosting_kinds.show())
    assert len(table) == len(hosting.KINDS) >= 4
    assert all(address and "/" in kind and keep for address, kind, keep in table)
    assert hosting_kinds.show().markdown.splitlines()[1] == "|:---|:---|:---|"


def test_container_file_and_headers_printed_whole():
    text = publish_container.show().markdown
    assert text.startswith("```text\nFROM ") or "\nFROM " in text
    assert text.endswith("```")
    lines = hosting_headers.show().markdown.splitlines()
    assert (lines[0], lines[-1]) == ("```http", "```")
    assert all(": " in line for line in lines[1:-1])


def test_every_data_file_kind_has_schema():
    schemas = dict(rows(schema_files.show()))
    folder = Path(__file__).resolve().parents[2] / "docs" / "reference" / "schemas"
    assert set(schemas.values()) == {path.name for path in folder.glob("*.json")}


@pytest.mark.parametrize(("code", "becomes", "status"), [
    ("TF", "fix, course, length", "published"), ("IF", "fix", "published"), ("HM", "fix", "published"),
    ("HA", "fix", "from memory"), ("RF", "fix", "published"), ("VA", "", "from memory"), ("VM", "", "from memory"),
])
def test_coded_leg_result(code, becomes, status):
    """No published record read here confirms HA, VA or VM; a leg to no fix is no fix of the list."""
    (row,) = [row for row in rows(import_codes.show()) if row[0] == code]
    assert (row[2], row[3]) == (becomes, status)


def test_values_missing_from_records_have_chart_key():
    table = rows(import_filled.show())
    assert table
    assert all(what and key for what, key in table)


def test_cycle_change_has_meaning_per_grade():
    assert [row[0].split()[-1] for row in rows(cycle_grades.show())] == list(MEANING)


def test_required_department_keys():
    """Only the name is; the rest may be left out (docs/reference/department.md)."""
    assert [words.endswith("(must be there)") for words in dict(publish_folder.keys()).values()].count(True) == 1
    assert publish_folder.keys()[0][0] == "**name**"
    assert publish_folder.keys()[0][1].endswith("(must be there)")


def test_dots_to_tenth():
    for key in KEYS:
        assert show().text(key) == f"{show().number(key):.1f}\u202fdots"
