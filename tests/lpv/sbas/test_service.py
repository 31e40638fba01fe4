import math
from dataclasses import replace
from pathlib import Path

import pytest

from lpv.approach.record import read
from lpv.core.errors import DomainError
from lpv.sbas import level as levels
from lpv.sbas import service
from lpv.sbas.constellation import baseline, gps_seconds, without
from lpv.sbas.error_model import default_error_model
from lpv.sbas.level import Limits
from lpv.sbas.masks import Masks
from lpv.sbas.service import Epoch
from lpv.sbas.sky import Site

APPROACHES = Path(__file__).resolve().parents[3] / "docs" / "approaches"
START = gps_seconds(703, 345600.0)
SITE = Site(47.0, 8.0)
LPV, LPV_200, LP = Limits(40.0, 50.0), Limits(40.0, 35.0), Limits(40.0, 0.0)
ALL = ("LPV", "LNAV/VNAV", "LNAV")


def moment(hpl_m, vpl_m):
    return Epoch(0.0, 8, hpl_m, None if hpl_m is None else hpl_m * 1.03, vpl_m)


@pytest.mark.parametrize(
    ("hpl", "vpl", "limits", "lines", "level"),
    [
        (40.0, 50.0, LPV, ALL, "LPV"),
        (40.001, 50.0, LPV, ALL, "LNAV/VNAV"),
        (40.0, 50.001, LPV, ALL, "LNAV"),
        (10.0, 35.0, LPV_200, ALL, "LPV"),
        (10.0, 35.001, LPV_200, ALL, "LNAV/VNAV"),
        (10.0, 35.001, LPV_200, ("LPV", "LNAV"), "LNAV"),
        (10.0, 60.0, LPV, ("LPV",), "none"),
        (40.0, 200.0, LP, ("LP", "LNAV"), "LP"),
        (40.1, 200.0, LP, ("LP", "LNAV"), "LNAV"),
        (10.0, 10.0, LPV, ("LNAV",), "LNAV"),
        (600.0, 10.0, LPV, ALL, "none"),
        (545.0, 10.0, LPV, ALL, "LNAV/VNAV"),
        (545.0, 51.0, LPV, ALL, "none"),
        (None, None, LPV, ALL, "none"),
    ],
)
def test_service_level_at_limits(hpl, vpl, limits, lines, level):
    assert levels.level_of_service(moment(hpl, vpl), limits, lines) == level


def test_lpv_needs_vertical_limit_lp_none():
    assert not levels.supports(moment(10.0, 10.0), LP, "LPV")
    assert not levels.supports(moment(10.0, 10.0), LPV, "LP")


def test_unknown_level_refused():
    with pytest.raises(DomainError):
        levels.supports(moment(10.0, 10.0), LPV, "GLS")


def test_availability_and_outages_count_moments():
    vpls = (30.0, 60.0, 61.0, 30.0, None, 20.0, 70.0)
    epochs = [replace(moment(None if v is None else 10.0, v), gps_s=300.0 * n) for n, v in enumerate(vpls)]
    assert levels.availability(epochs, LPV, "LPV") == pytest.approx(3 / 7)
    assert service.outages(epochs, LPV, "LPV") == ((300.0, 600.0), (1200.0, 1200.0), (1800.0, 1800.0))
    assert service.outages(epochs[:1], LPV, "LPV") == ()
    with pytest.raises(DomainError):
        levels.availability([], LPV, "LPV")


def test_day_has_288_moments():
    moments = service.times(START)
    assert len(moments) == 288
    assert moments[0] == START
    assert moments[-1] == START + 86100.0


@pytest.mark.parametrize(("length", "step"), [(0.0, 1.0), (1.0, 0.0), (1.0, 2.0), (1e9, 1.0), (math.nan, 1.0)])
def test_empty_or_endless_span_refused(length, step):
    with pytest.raises(DomainError):
        service.times(START, length, step)


def test_fewer_than_four_satellites_give_no_position():
    few = without(baseline(), [f"{plane}{n}" for plane in "ABCDE" for n in range(1, 5)])
    epoch = service.epoch(few, SITE, START, Masks(), default_error_model())
    assert epoch.satellites < 4
    assert (epoch.hpl_pa_m, epoch.hpl_npa_m, epoch.vpl_m) == (None, None, None)


def test_mask_below_five_degrees_not_in_error_model():
    low = service.epoch(baseline(), SITE, START, Masks(elevation_deg=0.0), default_error_model())
    usual = service.epoch(baseline(), SITE, START, Masks(), default_error_model())
    assert low == usual


def test_removing_satellites_and_banking_cost_service():
    moments = service.times(START, 86400.0, 3600.0)
    model = default_error_model()
    whole = service.span(baseline(), SITE, moments, Masks(), model)
    fewer = service.span(without(baseline(), ["A1", "B2"]), SITE, moments, Masks(), model)
    banked = service.span(baseline(), SITE, moments, Masks(heading_deg=90.0, bank_deg=25.0), model)
    for other in (fewer, banked):
        assert all(b.satellites <= a.satellites for a, b in zip(whole, other, strict=True))
        assert all(b.vpl_m is None or b.vpl_m >= a.vpl_m - 1e-9 for a, b in zip(whole, other, strict=True))
        assert levels.availability(other, LPV_200, "LPV") <= levels.availability(whole, LPV_200, "LPV")
    assert sum(b.satellites for b in banked) < sum(a.satellites for a in whole)


def test_segment_gives_limits_and_place():
    segment = read(APPROACHES / "zzak-rnav-09.toml").segment
    limits = service.limits_of(segment)
    assert (limits.hal_m, limits.val_m) == (segment.hal_m, segment.val_m)
    assert service.site_of(segment) == Site(
        segment.ltp_latitude_deg, segment.ltp_longitude_deg, segment.ltp_height_m
    )
