"""Wrong verdicts about simulated flights with known truth: the committed count, and some of the flights flown anew."""

import json

import pytest

from demo import proof_endings
from demo.proof import ENDINGS, FIRST, FLIGHTS, RESULT, drawn, flown_again, summary
from lpv_site.pages.track_proof import recorded_flights_section

AGAIN = range(6, FLIGHTS, 37)  # the later ones each with another ending


@pytest.fixture(scope="module")
def again():
    return [row for number in AGAIN for row in flown_again(number)]


def test_committed_count_meets_target():
    counts = json.loads(RESULT.read_text("utf-8"))
    every = counts["kinds"]["all"]
    assert counts["flights"] == FLIGHTS >= 200
    assert every["missed"] == 0
    for kind, row in counts["kinds"].items():
        assert row["false alarm"] <= 0.01 * row["truly within"], kind
    assert every["truly outside"] > 100
    assert every["truly within"] > 1000
    assert every["outside"] - every["false alarm"] > 0.6 * every["truly outside"]
    for kind, row in counts["kinds"].items():
        judged = row["within"] + row["outside"] + row["too close to say"]
        assert row["truly within"] + row["truly outside"] == judged, kind


def test_new_flights_meet_target(again):
    every = summary(again)["all"]
    assert every["missed"] == every["false alarm"] == 0
    assert every["truly within"] > 50
    kinds = set(summary(again))
    assert {f"{place}: {what} deviation" for place in ("PFAF", "gate", "minimum") for what in ("course", "glidepath")
            } <= kinds <= set(json.loads(RESULT.read_text("utf-8"))["kinds"])


def test_drawn_flights_are_of_every_kind():
    every = [drawn(number) for number in range(FLIGHTS)]
    assert drawn(7) == drawn(7)
    assert {flight.ending for flight in every[:FIRST]} == set(ENDINGS)
    assert {flight.ending for flight in every[FIRST:]} == set(proof_endings.ENDINGS)
    assert len({drawn(number).ending for number in AGAIN if number >= FIRST}) > 1
    assert {flight.interval_s for flight in every} == {1, 2, 4, 5, 10}
    assert len({flight.column for flight in every}) == 2
    assert len({flight.noise_ft for flight in every}) == 5
    assert 10 < sum(flight.gap for flight in every) < 100


def test_page_prints_count():
    section = recorded_flights_section()
    every = json.loads(RESULT.read_text("utf-8"))["kinds"]["all"]
    assert f"{every['too close to say']} were too close to say" in section
    assert f"{FLIGHTS} simulated approaches" in section
