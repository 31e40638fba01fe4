"""Live figures: whatever is set, words and marks keep clear of each other, and the finding has its numbers."""

import json
import re
from functools import cache
from random import Random
from xml.etree import ElementTree

import pytest

import live_cases
from live_cases import cases
from lpv.drawing.check import faults
from lpv.facts import fact
from lpv.figures.figure import Figure, Shown, drawn, wrapped
from lpv.figures.run import figure, names, run, settled
from lpv.forms.fields import Choice, Number
from lpv.forms.form import NoAnswer

CASES = 100
ANSWERED = 0.5
HOSTILE = ("", "x", "1e9", "-", "9" * 500, "nan", "<script>", "\u0661", "{0}", "1;2", "1,5000")


@cache
def all_drawn(name):
    live = figure(name)
    return [(texts, drawn(live, texts)) for texts in cases(live, CASES)]


@pytest.mark.parametrize("name", names())
def test_labels_marks_and_edges(name):
    wrong = {str(texts): faults(result.svg) + result.dropped for texts, result in all_drawn(name)}
    wrong = {texts: faults for texts, faults in wrong.items() if faults}
    assert not wrong, f"{len(wrong)} of {CASES}: {next(iter(wrong.items()))}"


@pytest.mark.parametrize("name", names())
def test_findings_and_tables(name):
    answered = 0
    for texts, result in all_drawn(name):
        assert not result.refused, texts
        assert result.finding[0].isupper() or result.finding[0].isdigit()
        assert result.finding.endswith(".")
        assert len(result.brief) <= 100, result.brief
        assert all(len(row) == len(result.headers) <= 4 for row in result.rows), texts
        assert ElementTree.fromstring(result.svg).get("aria-label") == result.finding
        assert not re.search(r"nan|inf\b|None|-0\b", result.finding + str(result.rows)), texts
        answered += bool(result.rows)
    assert answered >= ANSWERED * CASES


@pytest.mark.parametrize("name", names())
def test_figure_responds_to_every_dial(name):
    """Every field changes something in some case."""
    live = figure(name)
    for field in live.inputs:
        assert any(_changes(live, texts, field) for texts in cases(live, 12)), field.key


def _others(field):
    if isinstance(field, Choice):
        return [value for value, _ in field.options]
    if isinstance(field, Number):
        return [f"{field.low:g}", f"{field.high:g}"]
    return [live_cases.text(field, Random(seed)) for seed in range(3)]


def _changes(live, texts, field):
    others = [drawn(live, {**texts, field.key: text}) for text in _others(field)]
    here = drawn(live, texts)
    return any((there.svg, there.rows) != (here.svg, here.rows) for there in others)


@pytest.mark.parametrize("name", names())
def test_hostile_text_leaves_default(name):
    live = figure(name)
    for key in [field.key for field in live.inputs]:
        for text in HOSTILE:
            result = drawn(live, {key: text})
            assert [refused for refused, _ in result.refused] == [key]
            assert result.svg == drawn(live, {}).svg


@pytest.mark.parametrize("name", names())
def test_declared_for_dials(name):
    live = figure(name)
    assert live.name == name
    assert name.startswith("live-")
    for field in live.inputs:
        if isinstance(field, Number):
            steps = (field.high - field.low) / field.step
            assert steps == pytest.approx(round(steps)), field.key
        assert field.read(field.default) is not None
    for key in live.facts:
        assert fact(key).status


def test_answer_as_json():
    name = names()[0]
    answer = json.loads(run(name, json.dumps({"temperature_c": "-30", "distance_nm": "x"})))
    result = drawn(figure(name), {"temperature_c": "-30"})
    assert answer["values"] == dict(result.values)
    assert answer["values"]["temperature_c"] == "\u221230\u202f\u00b0C"
    assert answer["refused"] == {"distance_nm": "Found x; allowed: a number, 0.5 to 20\u202fNM."}
    assert (answer["svg"], answer["finding"], answer["brief"]) == (result.svg, result.finding, result.brief)
    assert answer["headers"] == list(result.headers)
    assert answer["rows"] == [list(row) for row in result.rows]


def test_link_read_by_figure():
    asked = {"temperature_c": "\u221230", "distance_nm": "5,6", "tch_ft": "900", "form": "x"}
    answer = json.loads(settled(names()[0], json.dumps(asked)))
    assert answer["texts"] == {"temperature_c": "-30", "distance_nm": "5.6"}
    assert answer["refused"] == {"tch_ft": "Found 900; allowed: 0 to 100\u202fft."}


def test_reason_drawn_without_answer():
    def refuse(**_):
        raise NoAnswer("the wind is too strong for this airspeed, and the course cannot be held at all")

    result = drawn(Figure("live-x", "x", refuse, ()), {})
    assert result.finding.startswith("The wind is too strong")
    assert not faults(result.svg)
    assert "".join(ElementTree.fromstring(result.svg).itertext()).replace(" ", "") == result.finding.replace(" ", "")
    assert not result.rows


def test_word_rows():
    assert wrapped("one two three", 7) == ["one two", "three"]
    assert wrapped("immeasurable it", 5) == ["immeasurable", "it"]


def test_missing_brief_finding_shows_finding():
    from lpv.drawing.sheet import Sheet

    assert Shown(Sheet(100), "It is.", (), []).brief == "It is."


def test_unknown_figure_refused():
    with pytest.raises(KeyError, match="live-altimeter"):
        figure("live-nothing")
