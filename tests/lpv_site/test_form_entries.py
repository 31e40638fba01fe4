"""The entries of the forms: each kind of key, of field and of section, as the page has it."""

import html
import re
from types import SimpleNamespace as Stub

import pytest

from lpv.compose.entries import CARRIED
from lpv.files.schema import Entry
from lpv.forms.fields import Choice, Number
from lpv_site.forms import approach_form, form_parts, setup_form, track_form
from lpv_site.forms.form_parts import Parts

SECTIONS = {
    "identity": "The chart's margin", "chart": "What the chart prints", "chart.fix": "Fixes", "chart.minima": "Minima",
    "chart.missed": "Missed approach", "chart.lights": "Approach lights", "chart.msa": "Minimum safe altitudes",
    "database": "What the database holds",
    "database.segment": "The segment by its fields, instead of a data block",
    "database.fix": "Fixes as the aircraft shows them", "runway": "The runway as surveyed",
    "filled": "Who filled in and who verified",
}
LISTS = {"chart.fix": "Add a fix", "chart.minima": "Add a line of minima", "chart.msa": "Add a sector",
         "database.fix": "Add a fix", "filled": "Add an entry"}
INPUT = '<input spellcheck="false" autocapitalize="off">'
NUMERIC = '<input inputmode="decimal" spellcheck="false" autocapitalize="off">'
AREA = '<textarea rows="2" spellcheck="false"></textarea>'


def markup(text, element):
    """What stands in one element."""
    return re.findall(rf"<{element}[^>]*>(.*?)</{element}>", text)


def test_approach_form_has_section_for_each_table():
    form = approach_form._form()
    sections = re.findall(r'data-section="([^"]*)"><summary>(.*?) <span', form)
    assert {path: html.unescape(title) for path, title in sections} == SECTIONS
    assert [path for path, _ in sections] == list(SECTIONS), "in the order of the file"
    rows = re.findall(r'<template data-row="([^"]*)">(.*?)</template>.*?>(Add [^<]*)<', form)
    assert {path: words for path, _, words in rows} == LISTS
    for path, row, words in rows:
        one = words.partition(" ")[2].partition(" ")[2]
        assert f'<div class="hb-rows" data-list="{path}" data-one="{one}">' in form
        assert f'<p class="hb-pair-name">{one[0].upper()}{one[1:]} <span' in row
        keys = {place.rpartition(".")[2] for place in approach_form.paths() if place.rpartition(".")[0] == path}
        assert set(re.findall('data-key="([^"]*)"', row)) == keys
        assert "data-path" not in row
    paths = [path for path in approach_form.paths() if path.rpartition(".")[0] not in LISTS]
    assert sorted(re.findall('data-path="([^"]*)"', form)) == sorted(paths)
    assert not {path.split(".")[0] for path in paths} & set(CARRIED)


@pytest.mark.parametrize(("entry", "control", "hint"), [
    (Entry("text", "a text", example="ZZAK"), INPUT, ", such as ZZAK, needed"),
    (Entry("text", "a text", longest=80, required=False), INPUT, ""),
    (Entry("text", "a text", longest=81), AREA, ", needed"),
    (Entry("number", "a number", "deg", 0.0, 360.0), NUMERIC, ", 0 to 360°, needed"),
    (Entry("whole", "a number", "ft", -1.0, 9.0, required=False), INPUT, ", \u22121 to 9\u202fft"),
    (Entry("flag", "whether", required=False),
     '<select><option value="">no</option><option value="yes">yes</option></select>', ""),
    (Entry("choice", "which", allowed=("a<", "b")),
     '<select><option value="">choose</option><option value="a&#60;">a&#60;</option>'
     '<option value="b">b</option></select>',
     ", needed"),
    (Entry("day", "when"), INPUT, ", such as 2026-11-26, needed"),
    (Entry("latitude", "where"), INPUT, ", degrees, or such as N37 05 00.5, needed"),
    (Entry("longitude", "where"), INPUT, ", degrees, or such as W002 05 35.6, needed"),
    (Entry("texts", "several"), AREA, ", one to a line, needed"),
    (Entry("parsed", "a block", example="12"), AREA, ", such as 12, needed"),
    (Entry("parsed", "a cycle", example='"2612"'), INPUT, ', such as "2612", needed'),
])
def test_each_kind_of_key_has_control_and_hint(entry, control, hint):
    assert approach_form._entry(entry) == control
    assert approach_form._hint(entry) == hint
    field = approach_form._field("the_key", entry, "table.the_key")
    wide = " hb-wide" if entry.kind in ("texts", "parsed") or entry.longest > 80 else ""
    unit = {"deg": "°"}.get(entry.unit, entry.unit)
    assert field == (
        f'<div class="hb-field{wide}" data-key="the_key" data-path="table.the_key">'
        f"<label>{entry.what[0].upper()}{entry.what[1:]}</label>"
        f'<span class="hb-entry">{control}<span class="hb-unit">{unit}</span></span>'
        f'<span class="hb-hint"><code>the_key</code>{html.escape(hint).replace("&quot;", "&#34;")}</span>'
        '<span class="hb-error"></span></div>')


def test_several_choices_are_ticks():
    field = approach_form._field("lines", Entry("choices", "the lines", allowed=("LPV", "LP")), "")
    assert field.startswith('<div class="hb-field hb-wide" role="group" data-key="lines"><b>The lines</b>')
    assert markup(field, "label") == [f'<input type="checkbox" value="{word}">{word}' for word in ("LPV", "LP")]
    assert ", any of these, needed" in field


def test_parts_of_form_refer_to_each_other():
    parts = Parts("box")
    assert parts.row("key", "Label", "ENTRY") == (
        '<div class="hb-field"><label for="box-key">Label</label><span class="hb-entry">ENTRY</span>'
        '<span class="hb-error" id="box-key-error"></span></div>')
    assert parts.row("key", "Label", "ENTRY", True, "a < b") == (
        '<div class="hb-field hb-wide"><label for="box-key">Label</label><span class="hb-entry">ENTRY</span>'
        '<span class="hb-hint" id="box-key-hint">a &#60; b</span>'
        '<span class="hb-error" id="box-key-error"></span></div>')
    assert parts.about("key") == 'id="box-key" name="key" aria-describedby="box-key-error"'
    assert parts.about("key", "other") == 'id="box-key" name="key" aria-describedby="other box-key-error"'
    number = Number("temperature_c", "Temperature", "deg C", -60.0, 50.0, 1.0, 15.0, "day.temperature_c")
    own, none, given = (parts.entry(number, hint) for hint in ("", None, "other"))
    assert 'aria-describedby="box-temperature_c-hint box-temperature_c-error"' in own
    assert 'aria-describedby="box-temperature_c-error"' in none
    assert 'aria-describedby="other box-temperature_c-error"' in given
    assert ' inputmode="decimal" data-day="temperature_c">' in own
    assert own.endswith('aria-label="Change the sign: Temperature">±</button><span class="hb-unit">°C</span>')
    plain = parts.entry(Number("speed_kt", "Speed", "kt", 0.0, 200.0, 1.0, 120.0))
    assert plain.endswith(' inputmode="decimal"><span class="hb-unit">kt</span>')
    choice = Choice("side", "Side", (("l", "left"), ("r", "right")), "l")
    assert markup(parts.entry(choice), "select") == ['<option value="l">left</option><option value="r">right</option>']
    controls = (("title", "title", '<select {} class="hb-title"><option value="">choose</option></select>'),
                ("day", "day", '<input {} type="date">'),
                ("word", "cycle", '<input {} inputmode="numeric" spellcheck="false">'),
                ("word", "ident", '<input {} autocapitalize="characters" spellcheck="false">'))
    for kind, key, control in controls:
        field = Stub(key=key, kind=kind, hint="", label="")
        assert parts.entry(field) == control.format(parts.about(key))
    assert form_parts.of_day(Stub(source="approach.x")) == ""


def test_types_between_head_and_foot():
    row = Parts("box").aircraft("<option>first</option>", "<option>last</option>")
    options = re.findall(r"<option[^>]*>([^<]*)</option>", row)
    assert (options[0], options[-1]) == ("first", "last")
    assert len(options) > 4
    assert row.startswith('<div class="hb-field hb-wide"><label for="box-aircraft">Aircraft</label>')
    approach = Parts("box").approach()
    assert re.findall('for="([^"]*)"', approach) == ["box-narrow", "box-approach"]
    assert re.findall(' id="([^"]*)"', approach) == [
        "box-narrow", "box-narrow-hint", "box-approach", "box-approach-error"]


def test_recording_columns_tell_contents():
    columns = track_form._columns()
    assert [html.unescape(label) for label in markup(columns, "label")] == [
        "Time", "Latitude", "Longitude", "Altitude by GNSS", "Altitude by an altimeter"]
    hidden = re.findall(r'aria-label="([^"]*): what it holds"( hidden)?', columns)
    assert hidden == [("Time", ""), ("Latitude", " hidden"), ("Longitude", " hidden"), ("Altitude by GNSS", ""),
                      ("Altitude by an altimeter", "")]
    names = {name: words for _, _, kinds in track_form.COLUMNS for name, words in kinds}
    assert {name for name in names if name.startswith("time")} == {"time_utc", "time_s", "time_ms", "time_clock"}
    assert all(words.rpartition(", ")[2] == name.rpartition("_")[2]
               for name, words in names.items() if not name.startswith(("time", "lat", "lon")))
    assert track_form.address("debrief/a.md#b") == "debrief/a/#b"
    links = track_form.links()
    assert all(len(link) == 2 and "#" in link[0] and link[1] for rows in links.values() for link in rows.values())
    assert any(key.endswith(", wrong") for key in links["moments"])
    assert len(links["moments"]) > 10
    assert all(words[0].isupper() for _, words in links["remarks"].values())


def test_set_up_texts_of_file():
    assert [setup_form._text(value) for value in (110.3, 92.0, -3.0, 0.25)] == ["110.3", "92", "-3", "0.25"]
    assert (setup_form._optional(None), setup_form._optional(4.0)) == ("", "4")
    for count, room in ((0, False), (1, True), (2, True), (3, False)):
        sides = [Stub(tuned_mhz=(110.3,) * count), Stub(tuned_mhz=(110.3,))]
        assert setup_form.fits(Stub(left=sides[0], right=sides[1])) is setup_form.fits(
            Stub(left=sides[1], right=sides[0])) is room
    side = setup_form._side("left", Stub(tuned_mhz=(110.3, 109.0), source="SBAS", minimum_ft=420.0))
    assert side == {"left_source": "SBAS", "left_minimum_ft": "420", "left_tuned": "110.3", "left_tuned_2": "109"}
    assert setup_form._side("right", Stub(tuned_mhz=(110.3,)))["right_tuned_2"] == ""


def test_set_up_pairs_name_both_sides():
    left, right = (Number(f"{side}_source", "The source", "ft", 0.0, 9.0, 1.0, 1.0) for side in ("left", "right"))
    pair = setup_form._pair(left, right)
    assert pair.startswith(f'<div class="hb-pair hb-pair-wide" role="group" aria-labelledby="{setup_form.BOX}-source">')
    labels = [re.sub("<[^>]*>", "", label) for label in markup(pair, "label")]
    assert labels == ["The source, left", "The source, right"]
    assert pair.count(f'aria-describedby="{setup_form.BOX}-source-hint ') == 2
    assert pair.count(f'id="{setup_form.BOX}-source-hint">0 to 9\u202fft</span>') == 1
    sides = (Stub(key=f"{side}_ident", kind="word", hint="", label="A") for side in ("left", "right"))
    other = setup_form._pair(*sides)
    assert other.startswith(f'<div class="hb-pair" role="group" aria-labelledby="{setup_form.BOX}-ident">')
    assert "hint" not in other
