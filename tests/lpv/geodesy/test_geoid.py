"""The geoid: the committed grid, its edges, and how it is interpolated."""

import hashlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

import make_geoid_grid
from lpv.core.errors import DomainError
from lpv.geodesy import geoid
from lpv.geodesy.geoid import geoid_height_m

# Points of the published grid, read from it apart from the module: latitude, longitude, height.
POINTS = [
    (-90.0, 0.0, -29.534), (-90.0, -180.0, -29.534), (90.0, 77.25, 13.606), (0.0, 0.0, 17.162),
    (4.75, 78.75, -106.991), (-8.25, 147.25, 85.391), (34.0, -148.0, -23.107), (45.0, -30.0, 61.268),
]


def test_committed_grid_matches_generator():
    assert hashlib.sha256(geoid.FILE.read_bytes()).hexdigest() == geoid.SHA256


@pytest.mark.parametrize(("latitude", "longitude", "published"), POINTS)
def test_grid_points_within_half_step(latitude, longitude, published):
    assert geoid_height_m(latitude, longitude) == pytest.approx(published, abs=0.0501)


def test_bilinear_between_grid_points():
    corners = [geoid_height_m(34.0 + row, -148.25 + column) for row in (0.0, 0.25) for column in (0.0, 0.25)]
    assert geoid_height_m(34.125, -148.125) == pytest.approx(sum(corners) / 4.0, abs=1e-9)
    assert geoid_height_m(34.0, -148.1875) == pytest.approx(0.75 * corners[0] + 0.25 * corners[1], abs=1e-9)


def test_no_seam_at_date_line_and_poles():
    assert geoid_height_m(12.3, 180.0) == geoid_height_m(12.3, -180.0)
    assert geoid_height_m(12.3, 359.0) == pytest.approx(geoid_height_m(12.3, -1.0), abs=1e-9)
    assert geoid_height_m(12.3, 179.999999) == pytest.approx(geoid_height_m(12.3, -179.999999), abs=1e-4)
    assert geoid_height_m(90.0, 10.0) == geoid_height_m(90.0, -170.0)


@given(st.floats(-90.0, 90.0), st.floats(-360.0, 360.0))
def test_values_between_model_extremes(latitude, longitude):
    assert -107.0 <= geoid_height_m(latitude, longitude) <= 85.5


@pytest.mark.parametrize(("latitude", "longitude"), [(90.1, 0.0), (-90.1, 0.0), (0.0, 360.1), (float("nan"), 0.0)])
def test_out_of_domain_rejected(latitude, longitude):
    with pytest.raises(DomainError):
        geoid_height_m(latitude, longitude)


def test_row_made_by_script_reads_back(tmp_path, monkeypatch):
    """A made-up grid of a slope, written by the script's own functions."""
    slope = [0.1 * column - 70.0 for column in range(geoid.COLUMNS)]
    row = make_geoid_grid.row(slope)
    ends = [number * len(row) for number in range(geoid.ROWS + 1)]
    made = geoid.MAGIC + b"".join(end.to_bytes(4, "little") for end in ends) + row * geoid.ROWS
    (tmp_path / "grid").write_bytes(made)
    monkeypatch.setattr(geoid, "FILE", tmp_path / "grid")
    geoid._grid.cache_clear()
    geoid._row.cache_clear()
    try:
        assert geoid_height_m(10.1, -180.0 + 0.25 * 33) == pytest.approx(-66.7, abs=1e-9)
    finally:
        geoid._grid.cache_clear()
        geoid._row.cache_clear()
