"""How far a recorded altitude can be believed, against the scale of the path."""

import math

import pytest

from lpv.track.belief import altitude_uncertainty
from lpv.track.records import REFERENCES
from lpv_site.department.data import example


@pytest.mark.parametrize("reference", REFERENCES)
def test_dots_are_halves_of_full_scale(reference):
    """Two dots are full scale, a quarter of the path's angle seen from its foot: 3.0 deg, threshold at 22 ft."""
    full_scale_ft = (1022.0 - 22.0) / math.tan(math.radians(3.0)) * math.tan(math.radians(0.75))
    distance_nm = (1000.0 / math.tan(math.radians(3.0)) - 52.0 / math.tan(math.radians(3.0))) / 6076.12
    uncertainty = altitude_uncertainty(example(), reference, 1022.0, distance_nm)
    assert uncertainty.dots == pytest.approx(2.0 * uncertainty.height_ft / full_scale_ft, rel=0.005)


def test_gnss_independent_of_height_altimeter_not():
    def height_ft(reference, altitude_ft):
        return altitude_uncertainty(example(), reference, altitude_ft, 3.0).height_ft

    assert height_ft("indicated", 2000.0) > height_ft("indicated", 200.0)
    assert height_ft("msl", 2000.0) == height_ft("msl", 200.0) == pytest.approx(13.0 / 0.3048)


