"""The strict reader of data files: every fault at once, each with file and key, and nothing guessed."""
# ruff: noqa: RUF009  (the schema functions return dataclasses.field)

import datetime
from dataclasses import dataclass
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.approach.record import Approach
from lpv.core.errors import DataError, DomainError
from lpv.files import schema
from lpv.files.toml_reader import LINE_LIMIT, SIZE_LIMIT_BYTES, read_each, read_file, read_folder, read_text
from lpv.files.toml_value import display
from support import ROOT

DOCS = ROOT / "docs"


def _doubled(value):
    if value == "bad":
        raise DomainError("doubling: found bad; allowed: anything else.")
    return (value, value)


@dataclass(frozen=True, kw_only=True)
class Leg:
    name: str = schema.text("name of the fix", pattern="[A-Z]{5}", example="SANDY")
    latitude_deg: float = schema.latitude("where it is")
    altitude_ft: float | None = schema.number("altitude", "ft", -1000, 60000, required=False)
    rule: str | None = schema.choice("altitude restriction", ("at", "at or above"), required=False)

    def faults(self):
        if self.rule and self.altitude_ft is None:
            yield "rule", "a rule without an altitude", "both or none", "Add altitude_ft."


@dataclass(frozen=True, kw_only=True)
class Sheet:
    title: str = schema.text("title", longest=20)
    channel: int = schema.whole("channel", "", 0, 99999)
    invented: bool = schema.flag("whether it is invented")
    notes: tuple[str, ...] = schema.texts("notes", most=3)
    effective: datetime.date | None = schema.day("first day", required=False)
    twice: tuple[object, object] | None = schema.parsed("doubled", _doubled, required=False)
    legs: tuple[Leg, ...] = schema.tables(Leg, "legs", least=1, unique="name", key="leg")


GOOD = """
title = "A sheet"
channel = 40123
notes = ["first", "second"]
effective = 2026-11-26
twice = 1
[[leg]]
name = "SANDY"
latitude = "N10 30 00"
altitude_ft = 2000
rule = "at"
[[leg]]
name = "SHELL"
latitude = -10.5
"""


def faults(text):
    with pytest.raises(DataError) as caught:
        read_text(text, "sheet.toml", Sheet)
    assert all(fault.file == "sheet.toml" for fault in caught.value.faults)
    assert all(fault.found and fault.allowed and fault.action for fault in caught.value.faults)
    return {fault.key: fault for fault in caught.value.faults}


def only_fault(text):
    reported = faults(text)
    assert len(reported) == 1
    return next(iter(reported.values()))


def test_good_file_becomes_record():
    sheet = read_text(GOOD, "sheet.toml", Sheet)
    assert sheet == Sheet(
        title="A sheet", channel=40123, invented=False, notes=("first", "second"),
        effective=datetime.date(2026, 11, 26), twice=(1, 1),
        legs=(Leg(name="SANDY", latitude_deg=10.5, altitude_ft=2000.0, rule="at"),
              Leg(name="SHELL", latitude_deg=-10.5, altitude_ft=None, rule=None)),
    )


def test_missing_optional_keys_take_default():
    sheet = read_text('title="x"\nchannel=1\n[[leg]]\nname="SANDY"\nlatitude=0', "sheet.toml", Sheet)
    assert (sheet.invented, sheet.notes, sheet.effective) == (False, (), None)


@pytest.mark.parametrize(("old", "new", "key", "says"), [
    ("channel = 40123", 'channel = "40123"', "channel", "without quotes"),
    ("channel = 40123", "channel = true", "channel", "True"),
    ("channel = 40123", "channel = 40123.0", "channel", "whole number"),
    ("channel = 40123", "channel = 400123", "channel", "0 to 99999"),
    ("channel = 40123", "channels = 40123", "channels", "Did you mean channel?"),
    ("altitude_ft = 2000", "altitude_ft = nan", "leg[1].altitude_ft", "nan"),
    ("altitude_ft = 2000", "altitude_ft = inf", "leg[1].altitude_ft", "in ft"),
    ("altitude_ft = 2000", "altitude_ft = true", "leg[1].altitude_ft", "True"),
    ("-10.5", "91", "leg[2].latitude", "\u221290 to 90"),
    ("N10 30 00", "N91 00 00", "leg[1].latitude", "-90"),
    ("N10 30 00", "ten", "leg[1].latitude", "N37 05 00.5"),
    ("SHELL", "SHE", "leg[2].name", "SANDY"),
    ("SHELL", "SANDY", "leg[2].name", "second time"),
    ('"at"', '"on top"', "leg[1].rule", '"at" or "at or above"'),
    ("A sheet", "A <b>sheet</b>", "title", "markup"),
    ("A sheet", "A [link](x)", "title", "markup"),
    ("A sheet", "A &lt; B", "title", "markup"),
    ("A sheet", "A {{ x }}", "title", "markup"),
    ("A sheet", "A \\u202Eteehs", "title", "direction marks"),
    ("A sheet", "A \\u0007", "title", "control characters"),
    ("A sheet", "A\\nsheet", "title", "line ends"),
    ("A sheet", " A sheet", "title", "spaces around"),
    ("A sheet", "", "title", "spaces around"),
    ("A sheet", "A" * 21, "title", "at most 20"),
    ('"second"', "2", "notes", "in quotes"),
    ('["first", "second"]', '"first"', "notes", "list"),
    ("2026-11-26", '"2026-11-26"', "effective", "without quotes"),
    ("2026-11-26", "2026-11-26T10:00:00", "effective", "without a time"),
    ("twice = 1", 'twice = "bad"', "twice", "doubling"),
    ("twice = 1", "invented = 1", "invented", "true or false"),
    ("[[leg]]\nname = \"SHELL\"\nlatitude = -10.5", "", None, None),
])
def test_wrong_value_gives_one_fault(old, new, key, says):
    assert old in GOOD
    text = GOOD.replace(old, new, 1)
    if key is None:
        assert len(read_text(text, "sheet.toml", Sheet).legs) == 1
        return
    reported = faults(text)
    assert key in reported
    assert says in str(reported[key])
    assert set(reported) <= {key, "channel"}  # the misspelt key is also missing


def test_all_faults_reported_together():
    text = GOOD.replace("channel = 40123", 'channel = "x"').replace("-10.5", "91")
    text = text.replace("altitude_ft", "altitude_m").replace('title = "A sheet"\n', "colour = 1\n")
    assert set(faults(text)) == {"colour", "title", "channel", "leg[1].altitude_m", "leg[2].latitude"}


def test_altitude_in_metres_answered_with_unit():
    assert "altitude_ft, in ft" in only_fault(GOOD.replace("altitude_ft = 2000", "altitude_m = 610").replace(
        'rule = "at"\n', "")).action


def test_record_checks_combined_fields():
    assert only_fault(GOOD.replace("altitude_ft = 2000\n", "")).key == "leg[1].rule"


@pytest.mark.parametrize("text", ["", "  \n\t\n"])
def test_empty_file(text):
    assert only_fault(text).found == "an empty file"


def test_toml_error_names_line():
    assert "line 3" in only_fault('title = "x"\nchannel = 1\nnotes = = 3\n').found


@pytest.mark.parametrize("text", [
    "a = " + "[" * 1500,
    "\n".join("a = [" if n == 0 else "[" * 100 for n in range(40)),
    "channel = " + "1" * 5000,
    "channel = " + "9" * 1900,
    "channel = 0x" + "f" * 1900,
    'title = ["' + "x" * 1900 + '"]',
    ".".join("a" * 900) + " = 1",
    "\ufefftitle = 1",
    "a\u202e = 1",
    "'' = 1",
    "title = '\x00'",
    "effective = 2026-13-45",
])
def test_hostile_text_raises_own_error_only(text):
    assert faults(text)


def test_long_line_refused():
    assert only_fault("title = '" + "x" * LINE_LIMIT + "'").key == "line 1"


def test_tables_must_be_tables():
    assert "[[leg]]" in str(faults('title="x"\nchannel=1\nleg = 3')["leg"])
    assert "a table with keys" in str(faults('title="x"\nchannel=1\nleg = [3]')["leg[1]"])
    assert "1 to 60" in str(faults('title="x"\nchannel=1\nleg = []')["leg"])


def test_files(tmp_path):
    good = tmp_path / "good.toml"
    good.write_text(GOOD, "utf-8")
    assert read_file(good, Sheet).channel == 40123
    large = tmp_path / "large.toml"
    large.write_bytes(b"#" * 10_000_000)
    latin = tmp_path / "latin.toml"
    latin.write_bytes(b'title = "x"\n# \xe9\n')
    with pytest.raises(DataError) as caught:
        read_folder(tmp_path, lambda path: read_file(path, Sheet))
    assert [(fault.file, fault.found) for fault in caught.value.faults] == [
        ("large.toml", "10000000 bytes"), ("latin.toml", "bytes in line 2 that are not UTF-8"),
    ]
    assert str(SIZE_LIMIT_BYTES) in caught.value.faults[0].allowed
    assert [sheet.channel for sheet in read_each([good, good], lambda path: read_file(path, Sheet))] == [40123, 40123]
    with pytest.raises(DataError) as caught:
        read_each([latin, good, large], lambda path: read_file(path, Sheet))
    assert [fault.file for fault in caught.value.faults] == ["latin.toml", "large.toml"]


def test_missing_file_and_folder(tmp_path):
    for path in (tmp_path / "none.toml", tmp_path):
        with pytest.raises(DataError):
            read_file(path, Sheet)


@settings(max_examples=150)
@given(st.text())
def test_random_text_raises_only_data_error(text):
    with pytest.raises(DataError):
        read_text(text, "sheet.toml", Sheet)


VALUES = st.recursive(
    st.one_of(
        st.integers(-10**30, 10**30).map(str), st.floats().map(lambda x: f"{x:g}" if x == x else "nan"),
        st.sampled_from(["true", "2026-11-26", "10:20:30", "2026-11-26T10:00:00Z", '"N10 30 00"', "''"]),
    ),
    lambda inner: st.lists(inner, max_size=3).map(lambda items: "[" + ", ".join(items) + "]"),
    max_leaves=5,
)


@settings(max_examples=150)
@given(st.sampled_from(["title", "channel", "invented", "notes", "effective", "twice", "leg"]), VALUES)
def test_random_value_raises_only_data_error(key, value):
    lines = [line for line in GOOD.splitlines() if not line.startswith(key + " =")]
    if key == "leg":
        lines = lines[: lines.index("[[leg]]")]
    keys = []
    try:
        read_text(f"{key} = {value}\n" + "\n".join(lines), "sheet.toml", Sheet)
    except DataError as error:
        keys = [fault.key for fault in error.faults]
    assert all(name.startswith(key) for name in keys)


def test_any_value_can_be_displayed():
    assert display(3) == "3"
    assert display("a\u202e") == "'a\\u202e'"
    assert display("x" * 100) == "'" + "x" * 56 + "..."
    assert display(1 << 40000) == "something of type int, too large to show"


def test_schema_describes_every_key():
    described = schema.entries(Sheet)
    assert list(described) == ["title", "channel", "invented", "notes", "effective", "twice", "leg"]
    assert described["leg"][0] == "legs"
    assert all(entry.what for _, entry in described.values())


def test_byte_order_mark_skipped(tmp_path):
    path = tmp_path / "zzak-rnav-09.toml"
    path.write_bytes(b"\xef\xbb\xbf" + (DOCS / "approaches" / "zzak-rnav-09.toml").read_bytes())
    assert read_file(path, Approach).identity.airport == "ZZAK"


def test_device_read_limited_to_file_size():
    device = Path("/dev/zero")
    if not device.exists():
        pytest.skip("no device without an end")
    with pytest.raises(DataError, match="at most"):
        read_file(device, Approach)


def faults_of_demo(before, after):
    text = (DOCS / "approaches" / "zzak-rnav-09.toml").read_text("utf-8")
    assert before in text
    with pytest.raises(DataError) as caught:
        read_text(text.replace(before, after, 1), "a.toml", Approach)
    return {fault.key: fault for fault in caught.value.faults}


def test_key_after_its_table_told_where_to_go():
    text = (DOCS / "approaches" / "zzak-rnav-09.toml").read_text("utf-8")
    line = next(line for line in text.splitlines() if line.startswith("tdze_ft"))
    message = faults_of_demo(line + "\n", "")
    assert "chart.tdze_ft" in message
    moved = text.replace(line + "\n", "").rstrip()
    moved = moved.replace("[chart.missed]\n", f"[chart.missed]\n{line}\n")
    with pytest.raises(DataError) as caught:
        read_text(moved, "a.toml", Approach)
    [fault] = [fault for fault in caught.value.faults if fault.key == "chart.missed.tdze_ft"]
    assert fault.action == "A key belongs to the heading above it: move tdze_ft up, directly under [chart]."


def test_hint_never_names_existing_key():
    message = faults_of_demo("tdze_ft =", "tdze_fts = 1\ntdze_ft =")
    assert "tdze_ft?" not in message["chart.tdze_fts"].action
