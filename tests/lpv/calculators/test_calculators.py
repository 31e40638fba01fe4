"""Calculators: what fields accept, what is said about the rest, and that the answers are those of the functions."""

import json
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculator_cases import as_json, cases
from lpv.calculators import TASKS
from lpv.calculators.block import NOTHING, show_field, stored_hex
from lpv.calculators.final import held_course, sink_rate_limit
from lpv.calculators.run import calculator, names, run
from lpv.calculators.verify import EXAMPLE_BLOCK
from lpv.core.dms import latitude_deg, longitude_deg
from lpv.core.errors import DomainError
from lpv.core.text import capitalized, miles, quantity
from lpv.decide import visibility
from lpv.facts import FACTS
from lpv.facts import value as fact_value
from lpv.fas.codec import decode
from lpv.forms.fields import (
    Block,
    Choice,
    Course,
    Day,
    Number,
    Word,
    number_range,
    read_decimal,
    shown_text,
)
from lpv.forms.form import NO_ANSWER, Limit, NoAnswer, Output, Rows, Steps, answer
from lpv.motion import kinematics as motion
from lpv.setup import radio

SPEED = Number("speed_kt", "Speed", "kt", 60, 250, 1, 130)
TEMPERATURE = Number("temperature_c", "Temperature", "deg C", -60, 50, 1, 0)
FREQUENCY = Number("frequency_mhz", "Frequency", "MHz", 108, 118, 0.001, 110.3)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("137", 137.0), (" 137 ", 137.0), ("137.4", 137.4), ("137,4", 137.4), ("137.", 137.0), ("+137", 137.0),
        ("0137", 137.0), ("1 3 7", 137.0), ("60", 60.0), ("250.00", 250.0),
    ],
)
def test_number_accepts_point_or_comma(text, value):
    assert SPEED.read(text) == value


@pytest.mark.parametrize(("text", "value"), [("-18", -18.0), ("\u221218", -18.0), ("-,5", -0.5), ("-0", 0.0)])
def test_negative_number_accepts_either_sign(text, value):
    number = TEMPERATURE.read(text)
    assert number == value
    assert math.copysign(1.0, number) == math.copysign(1.0, value)


@pytest.mark.parametrize(
    "text",
    ["", " ", "x", "1e3", "0x80", "1_000", "nan", "inf", "-", "+-1", "1.2.3", "1,2.3", "--1", "59.99", "250.01", "-137",
     "9" * 50, "١٢٠", "137\x00"],
)
def test_invalid_number_refused_in_words(text):
    with pytest.raises(DomainError, match="60 to 250"):
        SPEED.read(text)


def test_ambiguous_comma_not_guessed():
    for text in ("1,500", "1.500", "150.000"):
        with pytest.raises(DomainError, match="at most 2 decimals"):
            SPEED.read(text)
    with pytest.raises(DomainError, match="Write 1500 if that is meant"):
        read_decimal("1,500", 2, "60 to 250")
    assert FREQUENCY.read("110,305") == 110.305


def test_number_keeps_typed_decimals():
    assert SPEED.show(SPEED.read("137")) == "137\u202fkt"
    assert SPEED.show(SPEED.read("137,5")) == "137.5\u202fkt"
    assert SPEED.show(SPEED.read("137,55")) == "137.55\u202fkt"
    assert TEMPERATURE.show(-18.0) == "\u221218\u202f°C"
    assert FREQUENCY.show(110.3) == "110.300\u202fMHz"


def test_courses_shown_in_three_digits():
    assert Course("c", "c", 1, 90).show(7.0) == "007°"
    assert Course("c", "c", 0.1, 90).show(7.0) == "007.0°"
    assert Course("c", "c", 1, 90).show(0.0) == "360°"


def test_choices_words_blocks_and_days():
    choice = Choice("side", "to the", (("E", "east"), ("W", "west")), "E")
    assert choice.show(choice.read("W")) == "west"
    word, block, day = Word("w", "w", 4, "W09A"), Block("b", "b", 40, ""), Day("d", "d", "2026-11-26")
    assert word.read(" w09a ") == "W09A"
    assert block.read("0a:" * 39 + "FF") == "0A" * 39 + "FF"
    assert day.show(day.read("2026-07-09")) == "2026-07-09"
    wrong = [
        (choice, ("", "X", "east")), (word, ("", "W09AB", "W-9A", "Ä")), (block, ("", "0" * 79, "00" * 39, "zz" * 40)),
        (day, ("", "2026-02-30", "26-07-09", "2026-7-9", "<b>")),
    ]
    for field, texts in wrong:
        for text in texts:
            with pytest.raises(DomainError):
                field.read(text)


def test_typed_text_echoed_short_on_one_line():
    assert shown_text("a\nb\tc\x7f") == "a?b?c?"
    assert shown_text("  ") == "nothing"
    assert len(shown_text("x" * 1000)) == 43


@given(st.text(max_size=60))
def test_any_text_read_or_refused(text):
    for name in ("descent-rate", "data-block", "identity", "cycle"):
        form = calculator(name)
        result = answer(form, {field.key: text for field in form.inputs})
        assert result.errors or result.problem or result.outputs


def test_output_states_sides_signs_and_limits():
    across = Output("a", "Across", "kt", sides=("from the right", "from the left"))
    assert [across.show(value) for value in (7.0, -7.0, 0.4, -0.4)] == [
        "7\u202fkt from the right", "7\u202fkt from the left", "0\u202fkt", "0\u202fkt",
    ]
    margin = Output("m", "Margin", "ft", signed=True, limits=(Limit("under", 0.0, "Too little."),), absent="none")
    assert [margin.show(value) for value in (3.0, -3.0, 0.2, None)] == [
        "+3\u202fft", "\u22123\u202fft", "0\u202fft", "none",
    ]
    assert [margin.words(value) for value in (3.0, -3.0, None)] == ["", "Too little.", ""]
    with pytest.raises(ValueError, match="neither"):
        Limit("above", 1.0, "")


def test_every_calculator_declared_where_listed():
    assert len(names()) == len(set(names())) >= 16
    for task, members in TASKS:
        module = __import__(f"lpv.calculators.{task}", fromlist=["CALCULATORS"])
        assert tuple(calculator.name for calculator in module.CALCULATORS) == members
    with pytest.raises(KeyError, match="no calculator"):
        calculator("nope")


@pytest.mark.parametrize("name", names())
def test_declaration_complete(name):
    form = calculator(name)
    keys = [field.key for field in form.inputs] + [output.key for output in form.outputs]
    assert len(set(keys)) == len(keys)
    assert set(form.facts) <= FACTS.keys()
    assert form.question.endswith("?")
    assert form.title[0].islower() or form.title.startswith("RVR")
    result = answer(form, {field.key: field.default for field in form.inputs})
    assert not result.errors
    assert not result.problem
    assert [key for key, _, _ in result.outputs] == [output.key for output in form.outputs]
    assert "{" not in result.sentence
    headers = form.headers()
    assert len(headers) <= 4
    assert all(len(row) == len(headers) for row in result.rows)
    if isinstance(form.table, Steps):
        field = form.field(form.table.field)
        assert result.rows[result.own][0] == field.show(field.read(field.default))
        assert set(form.table.outputs) <= {output.key for output in form.outputs}
    elif isinstance(form.table, Rows):
        assert result.own == -1


def test_ranges_and_examples_on_round_steps():
    """A step is 1, 2, 2.5, 5 or 1.25 of some power of ten; ends and example are whole steps, the example between."""
    for name in names():
        for field in calculator(name).inputs:
            if isinstance(field, Number):
                lead = field.step / 10.0 ** math.floor(math.log10(field.step) + 1e-9)
                assert min(abs(lead - round_one) for round_one in (1.0, 1.25, 2.0, 2.5, 5.0)) < 1e-9, (name, field.key)
                for value in (field.low, field.high, field.read(field.default)):
                    assert value / field.step == pytest.approx(round(value / field.step), abs=1e-6), (name, field.key)
                assert field.low <= field.read(field.default) <= field.high


def test_block_field_shown_to_its_step():
    """Crossing height in steps of 0.05 m or 0.1 ft; nothing for no letter; differences in seconds of arc."""
    assert show_field("tch", 305, 15.25, "m") == "15.25\u202fm"
    assert show_field("tch", 520, 52.0, "ft") == "52.0\u202fft"
    assert show_field("route_indicator", 0, "", "") == NOTHING
    assert show_field("delta_fpap_latitude_deg", 2, 2.8e-7, "deg") == "0.0010″"


@pytest.mark.parametrize("name", names())
def test_range_ends_have_answer_or_words(name):
    form = calculator(name)
    for field in form.inputs:
        if isinstance(field, Number):
            for end in (field.low, field.high):
                texts = {each.key: each.default for each in form.inputs} | {field.key: field.fill(end)}
                result = answer(form, texts)
                assert not result.errors
                assert result.outputs or result.problem not in ("", NO_ANSWER), (field.key, end)


@pytest.mark.parametrize("name", names())
def test_random_cases_print_clean(name):
    for texts in cases(calculator(name), 30):
        answer = run(name, as_json(texts))
        assert not any(dirty in answer.lower().split() for dirty in ("nan", "inf", "\u22120", "-0"))


def answered(name, **changed):
    texts = {field.key: field.default for field in calculator(name).inputs} | changed
    return json.loads(run(name, as_json(texts)))


def outputs_of(name, **changed):
    return {key: text for key, (text, _) in answered(name, **changed)["outputs"].items()}


def test_answers_as_json():
    result = answered("descent-rate", ground_speed_kt="137", gpa_deg="3")
    assert result["outputs"]["rate_fpm"][0] == quantity(motion.descent_rate_fpm(137.0, 3.0), "ft/min", 10)
    assert set(result) == {"outputs", "sentence", "rows", "own"}
    assert len(result["outputs"]) == 3
    assert (len(result["rows"]), result["own"]) == (7, 3)
    assert json.loads(run("descent-rate", as_json({"ground_speed_kt": " ", "junk": ""}))) == {"errors": {
        "ground_speed_kt": "Fill this in: 60 to 250\u202fkt.", "gpa_deg": "Fill this in: 2 to 9°."}}
    gale = {"course_deg": "90", "true_airspeed_kt": "60", "wind_from_deg": "0", "wind_kt": "90"}
    assert json.loads(run("wind", as_json(gale)))["problem"].startswith("The wind")
    assert "allowed: 400" in run("data-block", as_json({"block": "0" * 401}))


def test_all_digits_of_figure_count():
    """6.0482 NM is shown as 6.0: what is computed is never rounded before."""
    text = calculator("altimeter").field("distance_nm").fill(6.0482)
    assert text == "6.0~6.0482"
    field = calculator("altimeter").field("distance_nm")
    assert field.read(text) == 6.0482
    assert field.read("6.0") == 6.0
    assert outputs_of("altimeter", distance_nm=text) != outputs_of("altimeter", distance_nm="6.0")
    assert field.fill(6.0) == "6.0"


@pytest.mark.parametrize("text", ["6.0~x", "6.0~", "~6.0", "6.0~1e9", "6.0~nan", "6.0~30.1", "6~6.2", "6.0~6~6"])
def test_impossible_digits_refused(text):
    with pytest.raises(DomainError):
        calculator("altimeter").field("distance_nm").read(text)


def test_exceeded_limit_stated_in_words():
    for name, changed, words in (
        ("descent-rate", {"ground_speed_kt": "200"}, "special briefing"),
        ("turn-on", {"track_deg": "150", "final_course_deg": "90"}, "controllers"),
        ("climb", {"climb_rate_fpm": "300"}, "not met"),
        ("dip", {"reaction_s": "10", "ground_speed_kt": "200"}, "design"),
        ("dots", {"offset_ft": "300"}, "not stabilized"),
        ("course", {"true_course_deg": "90", "charted_course_deg": "92"}, "reason"),
        ("frequency", {"frequency_mhz": "110.3"}, "localizer"),
        ("data-block", {"block": EXAMPLE_BLOCK[:-1] + "0"}, "damaged"),
    ):
        texts = [words for _, words in answered(name, **changed)["outputs"].values()]
        assert words in " ".join(texts), name
        usual = [words for _, words in answered(name)["outputs"].values()] if name != "frequency" else []
        assert words not in " ".join(usual), name


def test_heading_meets_course_as_calculated_by_hand():
    """3 NM beside the course at 30 degrees: 6 NM to go, 5.196 of them along; gate a mile outside a FAF at 5 NM."""
    calm = outputs_of("vector")
    assert calm["distance_nm"] == f"{14.0 - 5.196:.1f}\u202fNM"
    assert (calm["where"], calm["angle_deg"], calm["allowed"]) == ("outside the FAF", "30°", "at most 30°")
    assert calm["outside_nm"] == f"{14.0 - 5.196 - 6.0:.1f}\u202fNM"
    assert calm["time_s"] == "120\u202fs"
    left, right = outputs_of("vector", wind_from_deg="30", wind_kt="40"), outputs_of(
        "vector", side="right", heading_deg="60", wind_from_deg="150", wind_kt="40")
    assert left == right
    assert left != calm


@pytest.mark.parametrize(("changed", "key", "words"), [
    ({"along_nm": "12.9"}, "outside_nm", "longer final"),
    ({"along_nm": "9"}, "established_nm", "Not established"),
    ({"across_nm": "0.1"}, "roll_s", "already late"),
    ({"along_nm": "12.9"}, "allowed", "over 20°"),
    ({"along_nm": "9"}, "where", "inside the FAF"),
])
def test_vector_too_close(changed, key, words):
    assert words in " ".join(answered("vector", **changed)["outputs"][key])
    assert words not in " ".join(answered("vector")["outputs"][key])


@pytest.mark.parametrize("heading", ["60", "90", "270", "265"])
def test_heading_never_meets_course(heading):
    assert answered("vector", heading_deg=heading)["problem"].startswith("This heading does not lead")


def test_answers_match_functions():
    assert outputs_of("rvr", rvr_ft="2500")["visibility"] == miles(visibility.visibility_for_rvr_sm(2500)) + "\u202fSM"
    for frequency in ("108.10", "108.20", "111.95", "112.10", "110.305"):
        assert radio.kind(float(frequency)) in outputs_of("frequency", frequency_mhz=frequency)["kind"]
    outputs = outputs_of("course", true_course_deg="3", variation_deg="13.2", side="E", charted_course_deg="350")
    assert outputs["magnetic"] == "349.8°"
    assert outputs["difference_deg"] == "0.2°"
    assert outputs["aside_ft"].endswith("to the right")
    assert outputs_of("cycle", day="2026-12-23", ident="2613")["held"] == "not yet in force: from 2026-12-24"
    assert outputs_of("cycle", day="2026-12-24", ident="2612")["held"] == "out of date since 2026-12-24"
    assert outputs_of("cold", altitude_ft="9000", temperature_c="-20")["minimum_ft"] == "not given"
    deep = {"altitude_ft": "-1500", "threshold_elevation_ft": "14000", "gpa_deg": "2"}
    assert outputs_of("path-altitude", **deep)["met_nm"].startswith("nowhere")
    assert outputs_of("identity", channel="39999")["channel_says"].startswith("no SBAS channel")
    assert outputs_of("identity", channel="40000.5")["channel_says"].startswith("no SBAS channel")
    assert outputs_of("sight", tch_ft="100", height_ft="150", gpa_deg="9", cutoff_deg="5")["needed"].startswith("none")


def test_block_positions_exact_to_step():
    fields = decode(EXAMPLE_BLOCK)
    rows = {row[0]: row[2] for row in answered("data-block")["rows"]}
    assert latitude_deg(rows["LTP latitude"]) == pytest.approx(fields["ltp_latitude_deg"], abs=1e-12)
    assert longitude_deg(rows["LTP longitude"]) == pytest.approx(fields["ltp_longitude_deg"], abs=1e-12)
    assert show_field("ltp_longitude_deg", 180 * 7_200_000, 180.0, "deg") == "E180 00 00.0000"
    assert show_field("tch", 1000, 50.0, "m") == "50.00\u202fm"
    assert show_field("tch", 1000, 100.0, "ft") == "100.0\u202fft"
    assert show_field("delta_fpap_latitude_deg", -7_199_999, -7_199_999 / 7_200_000, "deg") == "\u22123599.9995″"


def test_small_parts_of_answers():
    assert stored_hex("0A0B0C0D", 1, 2) == "0B 0C"
    assert show_field("airport", 0, "", "") == show_field("airport", 0, "", "m")
    assert show_field("ltp_latitude_deg", -1, -1 / 7_200_000, "deg") == "S00 00 00.0005"
    assert number_range(60.0, 250.0, "kt", 1.0) == "60 to 250\u202fkt"
    assert number_range(0.5, 9.0, "deg", 0.1) == "0.5 to 9°"


def test_rate_criterion_not_to_be_exceeded():
    limit = sink_rate_limit()
    assert not limit.exceeded(fact_value("gate_sink_rate_fpm"))
    assert limit.exceeded(fact_value("gate_sink_rate_fpm") + 1)


def test_excessive_wind_gives_no_answer():
    assert held_course(90.0, 140.0, 90.0, 20.0).ground_speed_kt == pytest.approx(120.0)
    with pytest.raises(NoAnswer):
        held_course(90.0, 60.0, 0.0, 90.0)


@pytest.mark.parametrize(("text", "written"), [("a dot", "A dot"), ("NM", "NM"), ("", ""), ("9 ft", "9 ft")])
def test_sentence_starts_with_capital(text, written):
    assert capitalized(text) == written


def test_vref_addition_by_each_rule():
    """By hand: course 090, wind 120 at 20 gusting 32: 17.3 of headwind, 12 of gust."""
    texts = {field.key: field.default for field in calculator("added").inputs} | {
        "wind_kt": "20", "gust_kt": "32", "headwind_share": "0.5", "gust_share": "0.25", "most_added_kt": "9"}
    added = {whose: json.loads(run("added", json.dumps(texts | {"additive": whose})))
             for whose in ("own", "half-gust", "headwind", "none")}
    assert {whose: row["outputs"]["added_kt"] for whose, row in added.items() if "outputs" in row} == {
        "own": ["9\u202fkt", "Cut to the most that the rule allows, 9\u202fkt."], "half-gust": ["6\u202fkt", ""],
        "headwind": ["20\u202fkt", "Cut to the most that the rule allows, 20\u202fkt."]}
    assert "this handbook has none of its own" in added["none"]["problem"]
    assert "from memory" in added["headwind"]["outputs"]["whose"][0]
    less = json.loads(run("added", json.dumps(texts | {"gust_kt": "10"})))
    assert less["outputs"]["over_kt"] == ["0\u202fkt", "Less than the wind: no gust."]


def test_hold_matches_hand_calculation():
    """Due east in still air and in 30 kt on the nose at 200 kt, 25 deg: a circle takes 141.2 s.

    170 x 60 = 10200 of the inbound leg less 30 x 141.2 = 4236 of the wind, flown outbound at 230: 26 s.
    """
    texts = {field.key: field.default for field in calculator("hold").inputs} | {"wind_from_deg": "90", "wind_kt": "30"}
    outputs = json.loads(run("hold", json.dumps(texts)))["outputs"]
    assert (outputs["outbound_heading_deg"][0], outputs["outbound_s"][0], outputs["bank_deg"][0]) == (
        "270°", "26\u202fs", "25°")
    assert "too strong" in json.loads(run("hold", json.dumps(texts | {"wind_kt": "100"})))["problem"]
