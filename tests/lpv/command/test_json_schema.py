"""The JSON Schemas: what is published is what the code gives, and it agrees with the strict reader."""

import datetime
import importlib
import json
import re
import tomllib
from dataclasses import dataclass

import jsonschema
import pytest

from demo import approaches as make_demo
from lpv.approach.record import read_text
from lpv.command.json_schema import _referred, as_text, file_name, main, schema_of
from lpv.core.errors import DataError
from lpv.files import schema
from lpv.files import toml_reader as tomlfile
from lpv_site.department.json_schemas import RECORDS

DOCS = make_demo.FOLDER.parent
FOLDER = DOCS / "reference" / "schemas"
DEPARTMENT = DOCS.parent / "tests" / "department"
FILES = {
    "approach": [*DOCS.glob("approaches/*.toml"), *DOCS.glob("approaches/*/*.toml")],
    "aircraft": [*DOCS.glob("aircraft/*.toml")], "plan": [*DOCS.glob("plan/*.toml")],
    "operator": [*DOCS.glob("plan/operators/*.toml")],
    "setup": [*DOCS.glob("set-up/*.toml")], "scenario": [*DOCS.glob("modes/scenarios/*.toml")],
    "flight": [*DOCS.glob("debrief/flights/*.toml")], "drills": [DOCS / "practice" / "drills.toml"],
    "lesson": [*DOCS.glob("teach/*.toml")],
    "department": [DEPARTMENT / "department.toml"], "moved": [DOCS / "moved.toml", DEPARTMENT / "moved.toml"],
}
GOOD = (make_demo.FOLDER / "zzak-rnav-09.toml").read_text("utf-8")


def as_json(value):
    """TOML's values as JSON has them: dates as text."""
    if isinstance(value, dict):
        return {key: as_json(item) for key, item in value.items()}
    if isinstance(value, list):
        return [as_json(item) for item in value]
    return value.isoformat() if isinstance(value, (datetime.date, datetime.time)) else value


def holds(name, text):
    """Whether the text of a data file fits the schema, by an independent library."""
    return jsonschema.Draft202012Validator(schema_of(name, RECORDS)).is_valid(as_json(tomllib.loads(text)))


def test_published_schema_matches_code():
    assert {path.name for path in FOLDER.iterdir()} == {file_name(name) for name in RECORDS}
    assert all((FOLDER / file_name(name)).read_text("utf-8") == as_text(name, RECORDS) for name in RECORDS)


@pytest.mark.parametrize("name", RECORDS)
def test_schemas_valid_and_accept_demo_files(name):
    jsonschema.Draft202012Validator.check_schema(schema_of(name, RECORDS))
    assert FILES[name]
    for path in FILES[name]:
        assert holds(name, path.read_text("utf-8")), path


@pytest.mark.parametrize(("old", "new"), [
    ('airport = "ZZAK"', 'airport = "zzak"'), ("channel = 99901", "channel = 999.5"), ("channel = 99901", ""),
    ('rule = "FAA"', 'rule = "XXX"'), ("invented = true", "invented = 1"),
    ("glidepath_deg = 3.0", "glidepath_deg = 30"),
    ("[chart.missed]", "[chart.mist]"), ('name = "BRYNA"', 'name = "BRYNA"\nheight_ft = 1'),
    ('"Lights of runway 16 on request."', '"<b>"'), ('"Lights of runway 16 on request."', '" x "'),
    ('airport_name = "Kittiwake Bank"', f'airport_name = "{"x" * 81}"'),
    ("course_reference", "to_be_filled = [\"weather\"]\ncourse_reference"),
    ("course_reference", "to_be_filled = [\"notes\", \"notes\"]\ncourse_reference"),
    ("latitude = \"N34 09 48.94\"", "latitude = 91"),
    ("latitude = \"N34 09 48.94\"", "latitude = \"N91 09 48.94\""),
    ("latitude = \"N34 09 48.94\"", "latitude = \"N34 60 48.94\""),
    ("latitude = \"N34 09 48.94\"", "latitude = \"E034 09 48.94\""),
    ('cycle = "2612"', 'cycle = "2615"'), ('cycle = "2612"', 'cycle = "12/26"'), ('cycle = "2612"', "cycle = 2612"),
    ('kind = "DA"', 'kind = "MDA"'), ("glidepath_deg = 3.0\n", ""),
    ("[database]\n", "[database]\npath_point = []\n"),
    ("block = ", "blocks = "), ("tdze_ft = ", "# "), ('altitude_rule = "at or above"', ""),
    ("visibility_sm = ", "rvr_ft = 2400\nvisibility_sm = "), ("effective = ", 'effective = "soon" # '),
    ("Kittiwake Bank", "Kittiwake\u202eBank"), ('block = "', 'block = "00'),
])
def test_reader_and_schema_refuse_same_files(old, new):
    assert old in GOOD
    text = GOOD.replace(old, new, 1)
    assert not holds("approach", text)
    with pytest.raises(DataError):
        read_text(text)


def test_minima_may_be_missing_when_stated():
    without = re.sub(r"\[\[chart\.minima\]\].*?(?=\[database\])", "", GOOD, flags=re.S)
    assert not holds("approach", without)
    with pytest.raises(DataError, match=r"chart\.minima"):
        read_text(without)
    excused = without.replace("[chart]\n", '[chart]\nto_be_filled = ["minima"]\n')
    assert holds("approach", excused)
    assert read_text(excused).chart.minima == ()
    with pytest.raises(DataError, match="minima, which is filled"):
        read_text(GOOD.replace("[chart]\n", '[chart]\nto_be_filled = ["minima"]\n'))
    with pytest.raises(DataError, match="a list of"):
        read_text(without.replace("[chart]\n", '[chart]\nto_be_filled = "minima"\n'))


@pytest.mark.parametrize(("name", "text"), [
    ("drills", '[[drill]]\nnumber = 0\ndifficulty = "plain"\napproach = "zzak-rnav-09"\naircraft = "light-jet"\n'),
    ("drills", '[[drill]]\nnumber = 1\ndifficulty = "hard"\napproach = "zzak-rnav-09"\naircraft = "light-jet"\n'),
    ("drills", "[[drill]]\nnumber = 1\n"), ("moved", 'moved = [{ from = "verify/old.md" }]\n'),
    ("moved", '[[moved]]\nfrom = "/"\nto = "a.md"\n'),
    ("department", 'title = "Ours"\n'), ("department", 'name = "Ours"\n[colours]\nheader = "red"\n'),
    ("department", 'name = "Ours"\n[[fact]]\nkey = "limit_tch_stop_ft"\nvalue = "5"\nsource = "A"\nstatus = "sure"\n'),
])
def test_reader_and_site_schemas_refuse_same_files(name, text):
    module, record, _ = RECORDS[name]
    assert not holds(name, text)
    with pytest.raises(DataError):
        tomlfile.read_text(text, f"{name}.toml", getattr(importlib.import_module(module), record))


def test_duplicate_table_names_refused():
    def one():
        @dataclass(frozen=True, kw_only=True)
        class Leg:
            """One."""

            name: str = schema.text("name")

        return Leg

    def other():
        @dataclass(frozen=True, kw_only=True)
        class Leg:
            """Another."""

            name: str = schema.text("name")

        return Leg

    defined = {}
    assert _referred(one(), defined) == {"$ref": "#/$defs/Leg"}
    with pytest.raises(ValueError, match="two tables are called Leg"):
        _referred(other(), defined)


def test_schema_command(tmp_path, capsys):
    assert main(["approach"]) == 0
    assert json.loads(capsys.readouterr().out) == schema_of("approach")
    assert main(["--write", str(tmp_path / "out")], RECORDS) == 0
    assert len(list((tmp_path / "out").iterdir())) == len(RECORDS)
    for wrong in ([], ["weather"], ["approach", "--write", str(tmp_path)]):
        with pytest.raises(SystemExit) as stopped:
            main(wrong)
        assert stopped.value.code == 2
