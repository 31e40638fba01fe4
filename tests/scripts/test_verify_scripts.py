"""What the scripts of docs/verify/ show, worked out in another way.

The example: threshold 22 ft, crossing height 52 ft, 3.00 degrees, variation of record 12 degrees east.
"""

import html
import math
import re
from dataclasses import replace

import pygeomag
import pyproj
import pytest

from approach_variants import demo
from lpv.crosscheck.limits import BY_KEY
from paths_by_hand import barometric_ft, straight_ft
from shown import SPACES, cell, lines, row, row_of, rows
from verify import (
    block_bytes,
    block_flip,
    course,
    damaged,
    fixes,
    fixes_plan,
    identifier,
    identity,
    limits,
    path,
    path_excess,
    published,
    variation,
)

GEOD = pyproj.Geod(ellps="WGS84")
EXAMPLE = demo()


def text(shown):
    return html.unescape(re.sub(r"<[^>]*>", " ", shown.markdown)).translate(SPACES)


# Identity


def test_channels_and_identifiers_that_are_possible():
    found = rows(identity.show())
    assert ["ZZAKRNAV (GPS) RWY 09", "99901", "W09A", "possible"] in found
    assert {cells[3] for cells in found} == {"possible"}


@pytest.mark.parametrize("wrong", [{"channel": 21909}, {"path_id": "W27A"}, {"path_id": "E09A"}])
def test_a_channel_or_identifier_that_cannot_be(wrong, monkeypatch):
    monkeypatch.setattr(identity, "examples", lambda: [replace(EXAMPLE, identity=replace(EXAMPLE.identity, **wrong))])
    assert rows(identity.show())[0][3] == "impossible"


def test_an_identifier_part_by_part():
    assert row(identifier.show(), "runway") == ["runway", "09", "09 (fits)", "from memory"]
    assert [cells[1] for cells in rows(identifier.show())] == ["4", "W", "09", "A"]


# Course and fixes


def ends(approach):
    held = approach.segment
    return held.ltp_latitude_deg, held.ltp_longitude_deg, held.fpap_latitude_deg, held.fpap_longitude_deg


def azimuth_deg(start, end):
    """Course (deg true) and distance (NM) between two places, by another library's geodesic."""
    azimuth, _, metres = GEOD.inv(start[1], start[0], end[1], end[0])
    return azimuth % 360.0, metres / 1852.0


def test_the_course_by_record_and_by_model():
    told = lines(course.show())["ZZAK RNAV (GPS) RWY 09"]
    latitude, longitude, *end = ends(EXAMPLE)
    true_deg, _ = azimuth_deg((latitude, longitude), end)
    model_deg = pygeomag.GeoMag().calculate(glat=latitude, glon=longitude, alt=-0.016, time=2026.9).d
    assert told[0] == ("charted, to set", "092° magnetic")
    assert told[1] == ("true, LTP to FPAP", f"{true_deg:06.2f}°")
    assert told[2] == ("variation of record", "+12.0°")
    assert told[3] == ("magnetic with it", f"{true_deg - 12.0:05.1f}°")
    assert told[4] == ("variation by model, 2026.9", f"+{model_deg:.1f}°")
    assert told[5] == ("magnetic with it", f"{true_deg - model_deg:05.1f}°")


def test_west_variation_is_added():
    told = dict(lines(course.show())["ZZEG RNP RWY 24"][:4])
    assert (told["true, LTP to FPAP"], told["variation of record"], told["magnetic with it"]) == (
        "231.90°", "-9.0°", "240.9°")


def test_the_model_over_its_years():
    """Declination by the model's library; its error by WMM 2025, table of uncertainty: 0.26 and 5417 nT over H."""
    latitude, longitude, *_ = ends(EXAMPLE)
    for key, year in (("first", 2025.0), ("last", 2030.0)):
        field = pygeomag.GeoMag().calculate(glat=latitude, glon=longitude, alt=-0.016, time=year)
        assert variation.show().number(key) == pytest.approx(field.d, abs=0.01)
    field = pygeomag.GeoMag().calculate(glat=latitude, glon=longitude, alt=-0.016, time=2025.0)
    assert variation.show().number("uncertainty") == pytest.approx(math.hypot(0.26, 5417.0 / field.h), abs=0.003)
    true_deg, _ = azimuth_deg(ends(EXAMPLE)[:2], ends(EXAMPLE)[2:])
    assert row_of(variation.show(), "2030")[2] == f"{true_deg - 11.44:05.1f}°"


def test_legs_as_printed_and_as_positions_give_them():
    places = {fix.name: (fix.latitude_deg, fix.longitude_deg) for fix in EXAMPLE.chart.fixes}
    for start, end, role in (("SWELO", "GULLY", "PFAF"), ("FOMEY", "RW09", "MAP")):
        true_deg, distance_nm = azimuth_deg(places[start], places[end])
        told = cell(fixes.show(), f"{start} to {end}{role}", 2)
        assert told == f"{true_deg - 12.0:05.1f}°{distance_nm:.2f} NM"
    assert cell(fixes.show(), "GULLY to FOMEYstep-down", 3) == "800at or above"


def test_the_plan_is_that_of_the_briefing():
    assert "GULLY" in fixes_plan.show().markdown


# Path


@pytest.mark.parametrize(("key", "distance_nm"), [("at_5", 5.0), ("at_10", 10.0)])
def test_the_straight_path_above_the_barometric_one(key, distance_nm):
    expected = straight_ft(distance_nm, 50.0) - barometric_ft(distance_nm, 50.0)
    assert path_excess.show().number(key) == pytest.approx(expected, abs=0.1)
    assert row_of(path_excess.show(), f"{distance_nm:.0f} NM")[2] == f"+{expected:.0f} ft"


def test_both_paths_at_the_fix():
    (latitude, longitude, *_), fix = ends(EXAMPLE), EXAMPLE.pfaf
    _, distance_nm = azimuth_deg((fix.latitude_deg, fix.longitude_deg), (latitude, longitude))
    told = row(path.show(), f"ZZAK GULLY{distance_nm:.1f} NM out")
    assert told[1] == "2000"
    assert float(told[2]) == pytest.approx(barometric_ft(distance_nm, 74.0), abs=0.6)
    assert float(told[3]) == pytest.approx(straight_ft(distance_nm, 74.0), abs=0.6)


def test_a_published_approach_runs_below_the_straight_path():
    """SUDGE of KHWD, charted 3200 ft, 9.47 NM out; threshold 50 ft, crossing height 35 ft, 3.10 degrees."""
    expected = straight_ft(9.47, 85.0, 3.1) - barometric_ft(9.47, 85.0, 3.1)
    assert published.show().number("excess") == pytest.approx(expected, abs=1.0)
    assert published.show().text("excess").translate(SPACES) == "79 ft above the charted altitude"
    assert row(published.show(), "SUDGE") == ["SUDGE", "3200", "3200", "3279"]


# Data block


def test_every_byte_once_and_in_order():
    octets = {}
    for what, held, _ in rows(block_bytes.show()):
        first, last = re.search(r"bytes? (\d+)(?: to (\d+))?$", what).groups()
        octets |= dict(zip(range(int(first), int(last or first) + 1), bytes.fromhex(held), strict=True))
    assert sorted(octets) == list(range(40))
    assert int.from_bytes(bytes([octets[30], octets[31]]), "little") == 300  # hundredths of a degree
    assert octets[34] == 40.0 / 0.2


def test_what_one_flipped_bit_changes():
    told = dict(lines(block_flip.show())["glidepath angle: bit 244"])  # 2**4 hundredths of a degree
    assert (told["was"], told["would read"], told["so the block is"]) == ("3°", "3.16°", "refused")
    assert dict(lines(block_flip.show())["runway number: bit 41"])["would read"] == "11"  # 9 with bit 1


def test_all_wrong_bits_are_found():
    """320 bits; pairs 320 over 2; bursts: an odd first bit, any pattern to the last, at every place."""
    shown = block_flip.show()
    bursts = sum((320 - length + 1) * 2 ** max(0, length - 2) for length in range(1, 33))
    assert (shown.number("single"), shown.number("double"), shown.number("burst")) == (320, 320 * 319 // 2, bursts)
    assert shown.text("double") == "51,040 of 51,040"
    assert shown.number("longest") == 32


# Limits and findings


def test_limits_as_they_stand():
    fact = BY_KEY["course"]
    told = row(limits.show(), fact.what)
    assert told[1:] == [f"over {limit.value:g}°" for limit in (fact.note, fact.resolve, fact.stop)]
    assert len(rows(limits.show())) == len(BY_KEY)
    assert "The reason for each limit" in limits.show().markdown


def test_the_damaged_draft_is_a_stop():
    told = text(damaged.show())
    assert told.startswith("**Do not fly it: ")
    assert told.index("remainder") < told.index("not compared", 100)
