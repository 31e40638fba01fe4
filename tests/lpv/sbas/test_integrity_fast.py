from dataclasses import replace

import numpy as np
import pytest

from lpv.core.errors import DomainError
from lpv.sbas import integrity_fast, service
from lpv.sbas.almanac import read_yuma
from lpv.sbas.constellation import baseline, gps_seconds, position, without
from lpv.sbas.error_model import DESIGNATOR_A, default_error_model, error_model
from lpv.sbas.masks import Masks
from lpv.sbas.sky import Site, sight
from lpv_site.checks.checks import FOLDER
from support import calls

START = gps_seconds(703, 345600.0)
SKIES = (
    Masks(),
    Masks(elevation_deg=15.0),
    Masks(elevation_deg=0.0),
    Masks(heading_deg=300.0, bank_deg=25.0),
    Masks(bank_deg=-25.0, wing_deg=5.0),
    Masks(elevation_deg=0.0, wing_deg=12.0),
    Masks(terrain=((0.0, 10.0), (90.0, 25.0), (200.0, 0.0))),
)


def same(scalar, fast):
    """The same satellites everywhere, and protection levels equal to a millionth."""
    for a, b in zip(scalar, fast, strict=True):
        assert (a.gps_s, a.satellites) == (b.gps_s, b.satellites)
        assert (a.vpl_m is None) == (b.vpl_m is None)
        if a.vpl_m is not None:
            for name in ("hpl_pa_m", "hpl_npa_m", "vpl_m"):
                assert getattr(b, name) == pytest.approx(getattr(a, name), rel=1e-6)


@pytest.mark.parametrize("masks", SKIES)
@pytest.mark.parametrize("site", [Site(47.0, 8.0), Site(0.0, -180.0), Site(-90.0, 0.0), Site(78.0, 15.0, 300.0)])
def test_fast_method_equals_readable_method(masks, site):
    moments = service.times(START, 86400.0, 3600.0)
    model = default_error_model()
    same(
        service.span(baseline(), site, moments, masks, model),
        integrity_fast.span(baseline(), site, moments, masks, model),
    )


def test_few_satellites_lack_position_at_same_moments():
    few = without(baseline(), [f"{plane}{n}" for plane in "ABCD" for n in (1, 2, 3)])
    moments = service.times(START, 86400.0, 1800.0)
    model = error_model(8, 12, DESIGNATOR_A)
    scalar = service.span(few, Site(30.0, 60.0), moments, Masks(), model)
    assert any(moment.vpl_m is None for moment in scalar)
    same(scalar, integrity_fast.span(few, Site(30.0, 60.0), moments, Masks(), model))


def test_real_almanac_eccentric_orbits_match():
    text = (FOLDER / "almanac" / "week-38.alm").read_text("ascii")
    orbits = read_yuma(text, "week-38.alm", 2086)
    moments = service.times(gps_seconds(2086, 0.0), 86400.0, 7200.0)
    fast = integrity_fast.positions(orbits, moments)
    away = integrity_fast.directions(fast, Site(47.0, 8.0))
    for number, gps_s in enumerate(moments):
        for index, orbit in enumerate(orbits):
            where = position(orbit, gps_s)
            assert fast[number, index] == pytest.approx((where.x_m, where.y_m, where.z_m), abs=1e-5)
            up = np.sin(np.radians(sight(orbit.name, where, Site(47.0, 8.0)).elevation_deg))
            assert away[number, index, 2] == pytest.approx(up, abs=1e-12)


def test_unhealthy_satellites_not_used():
    sick = tuple(replace(orbit, health=63) if orbit.name[0] in "AB" else orbit for orbit in baseline())
    well = without(baseline(), [f"{plane}{n}" for plane in "AB" for n in range(1, 5)])
    moments = service.times(START, 86400.0, 7200.0)
    model, site = default_error_model(), Site(47.0, 8.0)
    assert integrity_fast.span(sick, site, moments, Masks(), model) == integrity_fast.span(
        well, site, moments, Masks(), model
    )


def test_no_satellites_no_position_no_moments_nothing():
    model, site = default_error_model(), Site(47.0, 8.0)
    (epoch,) = integrity_fast.span((), site, (START,), Masks(), model)
    assert (epoch.satellites, epoch.vpl_m) == (0, None)
    assert integrity_fast.span(baseline(), site, (), Masks(), model) == ()


def test_time_outside_gps_time_refused():
    with pytest.raises(DomainError):
        integrity_fast.span(baseline(), Site(0.0, 0.0), (START, -5.0), Masks(), default_error_model())


def test_day_at_five_minute_steps_needs_less_work():
    """Calls of Python functions: the same count on any machine."""
    moments, of = service.times(START), (baseline(), Site(47.0, 8.0))
    made, epochs = calls(integrity_fast.span, *of, moments, SKIES[-1], default_error_model())
    readable, _ = calls(service.span, *of, moments, SKIES[-1], default_error_model())
    assert len(epochs) == 288
    assert made < readable / 4


@pytest.mark.parametrize("orbits", [baseline(), baseline()[:4], baseline()[:1]])
def test_day_without_each_satellite_in_turn(orbits):
    sick = (*orbits, replace(baseline()[-1], name="sick", health=63))
    moments = service.times(START, 86400.0, 7200.0)
    model, site = default_error_model(), Site(47.0, 8.0)
    missing = integrity_fast.missing_one(sick, site, moments, SKIES[3], model)
    assert list(missing) == [orbit.name for orbit in orbits]
    for name, epochs in missing.items():
        same(service.span(without(orbits, [name]), site, moments, SKIES[3], model), epochs)


def test_no_satellite_missed_without_moments():
    missing = integrity_fast.missing_one(baseline()[:2], Site(0.0, 0.0), (), Masks(), default_error_model())
    assert missing == {"A1": (), "A2": ()}
