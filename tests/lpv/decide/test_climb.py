"""The climb that a missed approach needs: the higher of what the chart prints and the standard by its rules."""

from dataclasses import replace

import pytest

from approach_variants import demo, with_chart
from lpv.approach.schema import Missed
from lpv.decide import climb

APPROACH = demo()
FT_PER_NM = 1852 / 0.3048


def test_missed_approach_climb_required():
    def needed(rule, published):
        missed = Missed(instruction="Climb.", altitude_ft=3000.0, climb_gradient_ft_per_nm=published)
        chart = with_chart(APPROACH, missed=missed)
        return climb.climb_gradient_ft_per_nm(replace(chart, identity=replace(chart.identity, rule=rule)))

    assert needed("FAA", None) == needed("FAA", 180.0) == 200.0
    assert needed("FAA", 240.0) == needed("ICAO", 240.0) == 240.0
    assert needed("ICAO", None) == pytest.approx(0.025 * FT_PER_NM)
    assert climb.climb_gradient_ft_per_nm(with_chart(APPROACH, missed=None)) == 200.0


def test_unread_standard_says_so():
    def texts(rule, published):
        missed = Missed(instruction="Climb.", altitude_ft=3000.0, climb_gradient_ft_per_nm=published)
        chart = with_chart(APPROACH, missed=missed)
        return climb.climb_remembered(replace(chart, identity=replace(chart.identity, rule=rule)))

    assert texts("ICAO", None) == texts("EASA", 100.0) == ", from memory"
    assert texts("ICAO", 240.0) == texts("FAA", None) == texts("FAA", 240.0) == ""
