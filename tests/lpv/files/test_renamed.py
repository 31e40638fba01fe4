"""A department's files of an earlier version, read by this one: each key that went is told with its new name."""

import importlib
import re
import shutil
import tomllib
from pathlib import Path

import jsonschema
import pytest

from lpv.aircraft import record as aircraft
from lpv.aircraft.schema import Flying, Modes
from lpv.command.json_schema import schema_of
from lpv.core.errors import DataError
from lpv.drill.rows import Listed, Row
from lpv.files import toml_reader
from lpv.files.schema import entries
from lpv_site.department.data_faults import data_faults
from lpv_site.department.json_schemas import RECORDS
from support import EXAMPLE, ROOT

EARLIER = Path(__file__).with_name("earlier")
RENAMED = {"flying": Flying, "modes": Modes, "drill[1]": Row}
NAMED = re.compile(r"[a-z]+_[a-z_0-9]+|^difficulty$")


def tables(record, seen):
    """A record and all that stand in it."""
    if record not in seen:
        seen.add(record)
        for _, entry in entries(record).values():
            if entry.record is not None:
                tables(entry.record, seen)
    return seen


def all_tables():
    tables_found = set()
    for module, name, _ in RECORDS.values():
        tables(getattr(importlib.import_module(module), name), tables_found)
    return tables_found


def test_renamed_keys_exist_and_old_keys_do_not():
    every = {key for record in all_tables() for key in entries(record)}
    told = {record: record.RENAMED for record in all_tables() if hasattr(record, "RENAMED")}
    assert set(told) == set(RENAMED.values())
    for record, renamed in told.items():
        assert not set(renamed) & set(entries(record))
        for old, words in renamed.items():
            assert NAMED.findall(words), old
            assert set(NAMED.findall(words)) <= every, old


@pytest.mark.parametrize(("file", "read"), [
    ("example-jet.toml", aircraft.read), ("drills.toml", lambda path: toml_reader.read_file(path, Listed))])
def test_earlier_version_files_get_new_names_and_lines(file, read):
    with pytest.raises(DataError) as caught:
        read(EARLIER / file)
    unknown = [fault for fault in caught.value.faults if "unknown key" in fault.found]
    assert unknown
    for fault in unknown:
        table, _, key = fault.key.rpartition(".")
        assert fault.action == f"Since an earlier version it is written as {RENAMED[table].RENAMED[key]}."
        assert fault.text.startswith(key)


def test_earlier_version_folder_faults_name_one_file(tmp_path):
    """Plan and scenario name the aircraft: its faults are those of its own file alone; all else is taken."""
    shutil.copytree(EXAMPLE, tmp_path, dirs_exist_ok=True)
    shutil.copy(EARLIER / "example-jet.toml", tmp_path / "aircraft")
    faults = data_faults(tmp_path)
    assert {fault.file for fault in faults} == {"aircraft/example-jet.toml"}
    told = {fault.key for fault in faults if "Since an earlier version" in fault.action}
    assert told == {f"flying.{key}" for key in Flying.RENAMED} | {f"modes.{key}" for key in Modes.RENAMED}
    shutil.copy(EXAMPLE / "aircraft" / "example-jet.toml", tmp_path / "aircraft")
    assert data_faults(tmp_path) == []


def test_renamed_drill_list_is_valid():
    """The recipe of the guide: read the faults, write what they say, and the new version takes the file."""
    text = (EARLIER / "drills.toml").read_text("utf-8")
    schema = jsonschema.Draft202012Validator(schema_of("drills", RECORDS))
    assert not schema.is_valid(tomllib.loads(text))
    with pytest.raises(DataError) as caught:
        toml_reader.read_text(text, "drills.toml", Listed)
    for fault in caught.value.faults:
        if new := re.search(r"written as (\w+)\.", fault.action):
            text = text.replace(f"\n{fault.key.rpartition('.')[2]} = ", f"\n{new[1]} = ")
    assert toml_reader.read_text(text, "drills.toml", Listed).drills[0].difficulty == "plain"
    assert schema.is_valid(tomllib.loads(text))


def test_current_file_of_same_type_is_valid():
    assert aircraft.read(ROOT / "tests" / "department" / "aircraft" / "example-jet.toml").slug == "example-jet"
