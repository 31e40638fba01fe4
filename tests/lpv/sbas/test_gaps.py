"""Gaps of a level, the costliest moment, the highest protection level, and the satellites missed most."""

import pytest

from lpv.core.errors import DomainError
from lpv.sbas.constellation import baseline, baseline_epoch_gps_s, without
from lpv.sbas.error_model import default_error_model
from lpv.sbas.integrity_fast import missed_most, span
from lpv.sbas.level import Limits
from lpv.sbas.masks import Masks
from lpv.sbas.service import Epoch, costliest, gap_lengths_s, highest_m, times
from lpv.sbas.sky import Site

LIMITS = Limits(40.0, 35.0)


def day(*vpl_m):
    """Moments five minutes apart."""
    return tuple(Epoch(1000.0 + 300.0 * n, 8, 10.0, 12.0, vpl) for n, vpl in enumerate(vpl_m))


def test_gaps_by_hand():
    assert gap_lengths_s(day(30, 36, 36, 30, 36), LIMITS, "LPV") == (600.0, 300.0)
    assert gap_lengths_s(day(30, 30), LIMITS, "LPV") == ()
    assert gap_lengths_s(day(30, None, None), LIMITS, "LPV", 60.0) == (360.0,)
    with pytest.raises(DomainError):
        gap_lengths_s(day(30), LIMITS, "LPV", 0.0)


def test_costliest_moment():
    assert costliest(day(20, 20, 20), day(21, 40, 25)) == 1
    assert costliest(day(20, 20, 20), day(21, 40, None)) == 2
    for before, after in (((), ()), (day(20), day(20, 20))):
        with pytest.raises(DomainError):
            costliest(before, after)


def test_highest_level_between_two_hours():
    moments = day(*range(24))  # two hours in steps of five minutes
    assert highest_m(moments, "vpl_m", 0, 1) == 11
    assert highest_m(moments, "vpl_m", 1, 2) == 23
    assert highest_m(moments, "hpl_pa_m", 0, 24) == 10.0
    assert highest_m(day(20, None), "vpl_m", 0, 24) is None
    for nothing in ((), moments):
        with pytest.raises(DomainError):
            highest_m(nothing, "vpl_m", 5, 6)


def test_most_missed_satellites():
    scene = Site(34.0, -148.0, 0.0), times(baseline_epoch_gps_s(), 7200.0, 600.0), Masks(), default_error_model()
    days = missed_most(baseline(), 2, *scene, LIMITS, "LPV")
    assert [len(out) for out in days] == [0, 1, 2]
    assert days[()] == span(baseline(), *scene)
    # The same by computing each sky by itself.
    last = list(days)[-1]
    worst = span(without(baseline(), last), *scene)
    assert [m.vpl_m for m in days[last]] == pytest.approx([m.vpl_m for m in worst], rel=1e-9)
    with pytest.raises(DomainError):
        missed_most(baseline(), 24, *scene, LIMITS, "LPV")
