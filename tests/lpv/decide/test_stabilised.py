"""Stabilised gates: published rows, and a state judged by them."""

import math

import pytest

from lpv.core.errors import DomainError
from lpv.decide import stabilised
from lpv.decide.stabilised import DONE, GATES, READ_IN_PART, Gate, State
from lpv.facts import fact, value

GOOD = {
    "height_ft": 1000.0, "speed_kt": 140.0, "target_speed_kt": 130.0, "sink_rate_fpm": 740.0,
    "lateral_dots": 0.2, "vertical_dots": -0.3, "bank_deg": 2.0, "done": DONE,
}


def judged(gate, **changes):
    return {item.item: item for item in stabilised.evaluate(gate, State(**{**GOOD, **changes}))}


def test_good_approach_stable_at_every_published_gate():
    for gate in GATES:
        assert stabilised.stable(stabilised.evaluate(gate, State(**GOOD)))


def test_published_rows():
    imc, vmc = GATES
    assert (imc.height_ft, vmc.height_ft) == (1000, 500)
    assert (imc.slowest_kt, imc.fastest_kt, imc.sink_rate_fpm) == (0, 20, 1000)
    assert imc.source == "fsf-alar-7-1"
    assert value("gate_wings_level_circling_ft") == 300


def test_partly_read_source_judges_nothing():
    assert {source.source for source in READ_IN_PART} == {"ac-120-71"}
    assert not {gate.source for gate in GATES} & {source.source for source in READ_IN_PART}
    assert [fact(key).source for source in READ_IN_PART for key in source.facts] == ["ac-120-71", "ac-120-71"]


def test_hidden_deviation_not_met():
    items = judged(GATES[0], lateral_dots=None)
    assert (items["course deviation"].actual, items["course deviation"].met) == ("nothing shown", False)
    assert items["glidepath deviation"].met
    assert "glidepath deviation" not in judged(Gate("own", 500, "threshold", bank_deg=7), vertical_dots=None)


@pytest.mark.parametrize(
    ("changes", "failing"),
    [
        ({"speed_kt": 129.9}, "least speed over target"),
        ({"speed_kt": 150.1}, "most speed over target"),
        ({"sink_rate_fpm": 1001.0}, "rate of descent"),
        ({"lateral_dots": -1.01}, "course deviation"),
        ({"vertical_dots": 1.01}, "glidepath deviation"),
        ({"done": DONE[1:]}, "landing configuration"),
        ({"done": (DONE[0], DONE[2])}, "power set"),
        ({"done": DONE[:2]}, "briefings and checklists complete"),
    ],
)
def test_single_error_fails_one_item(changes, failing):
    items = judged(GATES[0], **changes)
    assert [name for name, item in items.items() if not item.met] == [failing]
    assert not stabilised.stable(list(items.values()))


@pytest.mark.parametrize(
    "changes",
    [
        {"speed_kt": 130.0}, {"speed_kt": 150.0}, {"speed_kt": 150.1, "target_speed_kt": 130.1},
        {"sink_rate_fpm": 1000.0}, {"sink_rate_fpm": -200.0}, {"lateral_dots": -1.0}, {"vertical_dots": 1.0},
    ],
)
def test_exact_limit_is_met(changes):
    assert all(item.met for item in judged(GATES[0], **changes).values())


def test_limit_and_finding_readable():
    item = judged(GATES[0], sink_rate_fpm=1040.0)["rate of descent"]
    assert (item.limit, item.actual, item.met) == ("at most 1000\u202fft/min", "1040\u202fft/min", False)
    item = judged(GATES[0], speed_kt=125.0)["least speed over target"]
    assert (item.limit, item.actual) == ("at least 0\u202fkt", "\u22125\u202fkt")
    assert judged(GATES[0], speed_kt=130.0, lateral_dots=-0.0)["course deviation"].actual == "0\u202fdots"
    assert judged(GATES[0])["course deviation"].limit == "at most 1\u202fdot"
    assert judged(GATES[0], sink_rate_fpm=1000.6)["rate of descent"].actual == "1001\u202fft/min"


def test_unlimited_gate_items_named():
    everything = {"least speed over target", "most speed over target", "rate of descent", "course deviation",
                  "glidepath deviation", "bank", *DONE}
    for gate in GATES:
        assert set(judged(gate)) | set(stabilised.not_judged(gate)) == everything
        assert not set(judged(gate)) & set(stabilised.not_judged(gate))
    assert "bank" in stabilised.not_judged(GATES[0])


def test_operator_own_gate():
    own = Gate("own", 500, "threshold", slowest_kt=-5, fastest_kt=10, bank_deg=7)
    assert [item.met for item in judged(own, speed_kt=125.0, bank_deg=-7.0).values()] == [True, True, True]
    assert not judged(own, bank_deg=-7.1)["bank"].met


def test_gate_without_limits_judges_nothing():
    items = stabilised.evaluate(Gate("empty", 500, "threshold"), State(**GOOD))
    assert items == []
    with pytest.raises(DomainError):
        stabilised.stable(items)


@pytest.mark.parametrize("key", [key for key in GOOD if key != "done"])
@pytest.mark.parametrize("wrong", [math.nan, math.inf, -math.inf, 1e6, -1e6])
def test_impossible_states(key, wrong):
    with pytest.raises(DomainError):
        State(**{**GOOD, key: wrong})


@pytest.mark.parametrize(
    "limits",
    [
        {"height_ft": -1}, {"height_ft": math.nan}, {"slowest_kt": -31}, {"slowest_kt": 5, "fastest_kt": 0},
        {"sink_rate_fpm": -1}, {"sink_rate_fpm": math.nan}, {"lateral_dots": -0.5}, {"vertical_dots": 6},
        {"bank_deg": 61}, {"required": ("gear down",)}, {"fastest_kt": math.nan},
    ],
)
def test_impossible_gates(limits):
    with pytest.raises(DomainError):
        Gate(**{"name": "own", "height_ft": 500, "above": "threshold", **limits})


def test_unknown_action():
    with pytest.raises(DomainError):
        State(**{**GOOD, "done": ("coffee",)})


@pytest.mark.parametrize(("speed_kt", "dots", "sink_fpm", "met"), [
    (139.96, 1.004, 1000.4, True), (139.94, 1.0, 1000.0, False), (140.0, 1.006, 1000.0, False),
    (140.0, 1.0, 1000.6, False),
])
def test_value_judged_as_shown(speed_kt, dots, sink_fpm, met):
    """Speed to a tenth of a knot, deviation to a hundredth of a dot, rate to whole ft/min; the text says the same."""
    items = stabilised.evaluate(GATES[0], State(900.0, speed_kt, 140.0, sink_fpm, dots, 0.0, 0.0, DONE))
    assert stabilised.stable(items) is met
    for item in items:
        limit, actual = ([float(word) for word in text.replace("\u2212", "-").replace("\u202f", " ").split()
                          if word.replace(".", "").replace("-", "").isdigit()] for text in (item.limit, item.actual))
        if limit:
            assert item.met is (actual[0] <= limit[0] if "most" in item.limit else actual[0] >= limit[0])
