"""Records from JSON: the same attributes as the dataclass that the JSON was made from."""

import pytest

from approach_variants import demo
from lpv.core.record import record
from lpv.files.json_form import as_text, to_json


def test_every_field_survives_round_trip():
    approach = demo()
    restored = record(as_text(to_json(approach)))
    assert restored.segment.ltp_latitude_deg == approach.segment.ltp_latitude_deg
    assert restored.segment.tch_ft == approach.segment.tch_ft
    assert [fix.name for fix in restored.chart.fixes] == [fix.name for fix in approach.chart.fixes]
    assert restored.chart.touchdown_zone_ft == approach.chart.touchdown_zone_ft
    assert restored.database.cycle == approach.database.cycle
    assert restored.geometry.true_course_deg == approach.true_course_deg
    assert not hasattr(restored.database, "block")


def test_unknown_field_is_error():
    with pytest.raises(AttributeError, match="no field 'altitude'"):
        record('{"altitude_ft": 1}').altitude  # noqa: B018


@pytest.mark.parametrize("text", ["[]", "1", "null", "{"])
def test_other_json_refused(text):
    with pytest.raises(ValueError, match=r".+"):
        record(text)
