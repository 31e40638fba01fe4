"""Every limit of a difference, tried on either side of the figure that it is meant to be."""

import pytest

from lpv.crosscheck.limits import LIMITS, grade_difference
from lpv.facts import FACTS

# Key of the limit; a difference is a note, to resolve, a stop above these.
TABLE = [
    ("altitude", None, 0.5, 50.0),
    ("glidepath", None, 0.005, 0.045),
    ("tch", None, 1.0, 10.0),
    ("geoid", None, 2.0, 5.0),
    ("elevation", None, 1.0, 10.0),
    ("threshold_along", None, 3.0, 30.0),
    ("threshold_across", None, 3.0, 10.0),
    ("runway_bearing", 0.3, 1.0, None),
    ("fpap", None, 3.0, 300.0),
    ("course_width", None, 0.2, 10.0),
    ("course", 0.6, 1.0, 3.0),
    ("course_shown", None, 0.5, 3.0),
    ("variation", 1.0, 5.0, None),
    ("variation_year", 0.75, 1.5, None),
    ("runway_course", None, 10.0, 30.0),
    ("across", None, 0.05, 0.3),
    ("leg_course", None, 1.0, 5.0),
    ("leg_course_copy", None, 0.5, 5.0),
    ("leg_distance", None, 0.1, 0.5),
    ("leg_distance_copy", None, 0.05, 0.5),
    ("path_rounded", None, 50.0, 200.0),
    ("path_exact", None, 10.0, 50.0),
    ("curvature", 20.0, None, None),
    ("hat", None, 1.0, 20.0),
    ("length", 8.0, 24.0, None),
    ("runway_length", None, 10.0, 200.0),
]
STEPS = [(key, grade, limit) for key, *limits in TABLE
         for grade, limit in zip(("note", "resolve", "stop"), limits, strict=True) if limit is not None]
ORDER = ("ok", "note", "resolve", "stop")


@pytest.mark.parametrize(("key", "grade", "limit"), STEPS)
@pytest.mark.parametrize("sign", [1.0, -1.0])
def test_either_side_of_limits(key, grade, limit, sign):
    milder = [name for name, *_ in ((g, k) for k, g, _ in STEPS if k == key) if ORDER.index(name) < ORDER.index(grade)]
    assert grade_difference(key, sign * limit * 0.999) == max(milder, key=ORDER.index, default="ok")
    assert grade_difference(key, sign * limit) == max(milder, key=ORDER.index, default="ok")
    assert grade_difference(key, sign * limit * 1.001) == grade


def test_limit_table_complete():
    assert [limit.key for limit in LIMITS] == [key for key, *_ in TABLE]
    assert len(STEPS) == sum(key.startswith("limit_") for key in FACTS)
