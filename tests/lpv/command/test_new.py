"""Blank data files: every key has its comment, nothing is filled, and the reader names all that is missing."""

import dataclasses
import importlib
import io
import re
import tomllib

import pytest

from lpv.command import new, runner
from lpv.core.errors import DataError
from lpv.files import schema, toml_reader
from lpv.files.schema import entries
from lpv_site.department.json_schemas import RECORDS


def keys(record, path=""):
    """Every key of a record and of the tables in it."""
    for key, (_, entry) in entries(record).items():
        yield f"{path}{key}"
        if entry.kind in ("table", "tables"):
            yield from keys(entry.record, f"{path}{key}.")


def record_of(name):
    module, record, _ = RECORDS[name]
    return getattr(importlib.import_module(module), record)


def whole(text):
    """The template with every # before a key or heading taken away, and something behind each =."""
    uncommented = re.sub(r"^#(?=[\[a-z])", "", text, flags=re.M)
    return tomllib.loads(re.sub(r"^([a-z_]+) =$", r"\1 = 1", uncommented, flags=re.M))


def keys_of(tables, path=""):
    for key, value in tables.items():
        yield f"{path}{key}"
        for row in value if isinstance(value, list) else [value]:
            if isinstance(row, dict):
                yield from keys_of(row, f"{path}{key}.")


@pytest.mark.parametrize("name", RECORDS)
def test_every_key_in_its_place(name):
    text = new.template(name, kinds=RECORDS)
    assert set(keys_of(whole(text))) == set(keys(record_of(name)))
    assert max(map(len, text.splitlines())) <= 130


@pytest.mark.parametrize("name", [name for name in RECORDS if name != "moved"])  # an empty list of moves is whole
def test_blank_template_refused_only_for_missing_values(name):
    text = new.template(name, kinds=RECORDS)
    with pytest.raises(DataError) as caught:
        toml_reader.read_text(text, "blank.toml", record_of(name))
    values = {fault.found for fault in caught.value.faults}
    assert values <= {"nothing", "0 forms of the segment", "0 of them", "no drill"}
    assert "invented = true" not in text


def test_only_airport_and_runway_are_filled(capsys):
    assert new.main(["approach", "ZZXX", "27"]) == 0
    text = capsys.readouterr().out
    values = [line for line in text.splitlines() if re.match(r"[a-z_]+ =", line)]
    assert values == ['airport = "ZZXX"', 'runway = "27"']


def test_template_written_without_overwriting(tmp_path, capsys):
    assert new.main(["approach", "ZZXX", "09L", "--out", str(tmp_path)]) == 0
    path = tmp_path / "zzxx-09l.toml"
    assert capsys.readouterr().out.strip() == str(path)
    path.write_text("mine")
    assert new.main(["approach", "ZZXX", "09L", "--out", str(tmp_path)]) == 2
    assert path.read_text() == "mine"
    assert "found a file of this name" in capsys.readouterr().err


def test_full_disk_leaves_no_partial_file(tmp_path, monkeypatch, capsys):
    class Full(io.StringIO):
        name = str(tmp_path / "zzxx-27.toml")

        def write(self, _):
            raise OSError(28, "No space left on device")

    def opened(path, mode, **_):
        path.touch()
        return Full()

    monkeypatch.setattr("pathlib.Path.open", opened)
    assert runner.run(new.main, ["approach", "ZZXX", "27", "--out", str(tmp_path)]) == runner.BAD_INPUT
    assert list(tmp_path.iterdir()) == []
    assert capsys.readouterr().err.startswith(f"{tmp_path / 'zzxx-27.toml'}: found a disk that is full")


@pytest.mark.parametrize("arguments", [
    ["approach"], ["approach", "ZZXX"], ["approach", "ZZXX", "37"], ["approach", "zzxx", "27"], ["aircraft", "ZZXX"],
    ["approach", 'ZZ"X', "27"], ["chart"], [],
])
def test_unused_or_missing_arguments_refused(arguments, capsys):
    with pytest.raises(SystemExit) as stopped:
        new.main(arguments)
    assert stopped.value.code == 2
    assert capsys.readouterr().err


def test_rows_of_blank_list_as_many_as_must_be():
    @dataclasses.dataclass
    class Row:
        name: str = schema.text("a name")

    headings = {("table", 0, True): ["[t]"], ("tables", 0, False): ["#[[t]]"], ("tables", 1, True): ["[[t]]"],
                ("tables", 2, True): ["[[t]]", "[[t]]"], ("tables", 3, True): ["[[t]]"] * 3}
    for (kind, low, required), expected in headings.items():
        lines = list(new._inner(schema.Entry(kind, "rows", low=low, required=required, record=Row), "t", {}))
        assert [line for line in lines if "[t]" in line] == expected
        assert lines.count("#name =") == len(expected)
        assert lines[0] == ""
        assert lines[1] == ("# * rows" if required else "# rows")
