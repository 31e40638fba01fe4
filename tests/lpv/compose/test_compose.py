# ruff: noqa: PT018, RUF001
"""The form of an approach file in CPython: every key is reached, and what it saves is what the command line reads."""

import json
import random
import tomllib

import pytest

from lpv.approach import record
from lpv.compose import form
from lpv.compose.entries import CARRIED, shown, tables_of, texts_of, written
from lpv.core.errors import DataError
from lpv.core.findings import by_severity, verdict
from lpv.crosscheck.check import crosscheck
from lpv.files.schema import entries
from lpv_site.forms.approach_form import paths
from support import ROOT

DAY = "2026-12-01"
DOCS = ROOT / "docs"
FILES = [*sorted((DOCS / "approaches").glob("*.toml")),
         *sorted((ROOT / "tests" / "department").rglob("approaches/*.toml"))]
LEG = """
[[database.leg]]
part = "final"
sequence = "020"
terminator = "TF"
fix = "GULLY"
distance_nm = 5.55
"""


def opened(text):
    state = json.loads(form.opened(text))
    assert "error" not in state, state
    return state


def run(state, name="zzak-rnav-09"):
    return json.loads(form.run(json.dumps(state["entries"]), state["carried"], name, DAY))


def keys_of_schema():
    """Every key of the schema for editors, which is made another way; rows of a list under the list's own path."""
    whole = json.loads((DOCS / "reference" / "schemas" / "approach.schema.json").read_text("utf-8"))

    def of(node):
        return whole["$defs"][node["$ref"].rpartition("/")[2]] if "$ref" in node else node

    def walk(node, place):
        node = of(node)
        rows = of(node["items"]) if node.get("type") == "array" and isinstance(node.get("items"), dict) else {}
        node = rows if "properties" in rows else node
        if "properties" not in node:
            yield place
            return
        for key, part in node["properties"].items():
            yield from walk(part, f"{place}.{key}" if place else key)

    return set(walk(whole, ""))


def test_every_hand_filled_key_has_entry():
    carried = {key for key in keys_of_schema() if key.startswith(tuple(f"{place}." for place in CARRIED))}
    assert len(carried) > 40
    assert set(paths()) == keys_of_schema() - carried
    assert len(paths()) == len(set(paths())) > 100


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_opened_and_saved_file_is_same_record(path):
    text = path.read_text("utf-8")
    state = opened(text)
    answer = run(state, path.stem)
    assert record.read_text(answer["toml"], path.name) == record.read(path)
    assert answer["faults"] == [] and answer["name"] == "" and answer["file"] == path.name
    assert tomllib.loads(answer["toml"]) == tomllib.loads(text)
    assert answer["toml"].partition("\n")[0] == text.partition("\n")[0]
    findings = by_severity(crosscheck(record.read(path), DAY))
    assert answer["sentence"] == verdict(findings)
    assert [(row["key"], row["grade"], row["about"]) for row in answer["findings"]] == [
        (row.key, row.grade, row.about) for row in findings]
    assert run(opened(answer["toml"]), path.stem) == answer


def test_keys_not_filled_by_hand_preserved():
    text = FILES[0].read_text("utf-8") + LEG + '\n[records]\nhead = "0123456789ab"\n'
    tables = tomllib.loads(text)
    state = opened(text.replace("[chart]\n", "# a remark\n[chart]\nzeta = 3\n"))
    assert "Carried along" in state["told"][-1]
    assert state["told"][:2] == ["Not known here, and left out: chart.zeta.",
                                 "Comments below the head of the file are left out: 1."]
    saved = tomllib.loads(run(state)["toml"])
    assert saved["database"]["leg"] == tables["database"]["leg"] and saved["records"] == tables["records"]
    head = "# First.\n# records 0123456789ab\n\n"
    assert run(opened(head + "[identity]\n"))["toml"].startswith(head + "[identity]\n")
    assert opened("# no more")["carried"] == "# no more" and opened("\ufeffa=1\r\n")["entries"] == []
    assert "chart" in opened("chart = 3\n[[database]]\na=1\n")["told"][0]


def test_new_form_names_missing_values_and_has_two_fixes():
    answer = run(json.loads(form.started()), "")
    tables = tomllib.loads(answer["toml"])
    assert [row["role"] for row in tables["chart"]["fix"]] == ["PFAF", "MAP"]
    assert answer["file"] == "new-approach.toml" and answer["findings"] == []
    faults = dict(map(tuple, answer["faults"]))
    assert "identity.airport" in faults and "chart.fix[2].latitude" in faults
    assert faults["identity.airport"].endswith("Add airport: location identifier of the airport.")
    with pytest.raises(DataError) as error:
        record.read_text(answer["toml"], "new-approach.toml")
    assert [fault.key for fault in error.value.faults] == [key for key, _ in answer["faults"]]
    assert answer["sentence"] == f"Not checked yet: {len(faults)} to fill in or to correct."


def test_faults_name_key_value_allowed_and_action():
    state = opened(FILES[0].read_text("utf-8"))
    changed = dict(map(tuple, state["entries"])) | {
        "chart.course_deg": "370", "chart.fix[1].latitude": "N99", "filled[1].filled_on": "2026-02-30",
        "filled[1].keys": "minima", "filled[1].filled_by": "A. Reader", "chart.minima[1].line": "LPW"}
    answer = run(state | {"entries": list(changed.items())}, "Zz Ak")
    faults = dict(map(tuple, answer["faults"]))
    assert faults["chart.course_deg"] == (
        "Found 370; allowed: a number, 0 to 360°. Check the value and that it is in deg.")
    assert faults["chart.minima[1].line"].startswith("Found 'LPW'; allowed: \"LPV\" or ")
    assert set(faults) == {"chart.course_deg", "chart.fix[1].latitude", "filled[1].filled_on", "chart.minima[1].line"}
    assert answer["name"].endswith("Rename the file.")
    assert opened(answer["toml"])["entries"] == [
        [path, text] for path, text in opened(answer["toml"])["entries"] if changed[path] == text]


def test_harmless_texts_accepted():
    """Whatever is typed, the file is TOML, and holds it or a value that is shown as it."""
    pick = random.Random(4)
    signs = "aZ09 .-+−:,\"'\\\n\r\t#=[]{}<>|é\u202f\u2028\u0001\U0001F600"
    for _ in range(60):
        texts = {path.replace("fix.", "fix[1].").replace("minima.", "minima[1].").replace("filled.", "filled[1].")
                 .replace("msa.", "msa[1]."): "".join(pick.choice(signs) for _ in range(pick.randrange(6)))
                 for path in paths()}
        answer = run({"entries": list(texts.items()), "carried": ""})
        tables = tomllib.loads(answer["toml"])
        assert answer["faults"] and opened(answer["toml"])
        again = tables_of(record.Approach, dict(texts_of(record.Approach, tables)[0]), {})
        assert again == tables


WRITTEN = (
    ("chart", "course_deg", (("92", 92), ("92.5", 92.5), ("-3", -3), ("−3.5", -3.5), ("+4", 4), ("1e3", "1e3"),
                             ("3.", "3."), (".5", ".5"), ("3,5", "3,5"), ("nan", "nan"), ("٣", "٣"), ("-", "-"))),
    ("identity", "invented", (("yes", True), ("maybe", "maybe"))),
    ("identity", "runway", (("09", "09"),)),
    ("chart", "notes", (("one\n\n two ", ["one", "two"]),)),
    ("chart", "to_be_filled", (("minima\nnotes", ["minima", "notes"]),)),
    ("database", "path_point", (("a\nb", ["a", "b"]),)),
    ("database", "effective", (("2026-11-26", tomllib.loads("a=2026-11-26")["a"]), ("2026-13-01", "2026-13-01"),
                               ("26-11-2026", "26-11-2026"), ("x", "x"))),
)


def test_texts_written_as_in_file():
    for table, key, cases in WRITTEN:
        entry = entries(entries(record.Approach)[table][1].record)[key][1]
        for text, expected in cases:
            line = written(entry, text)
            assert (line, type(line)) == (expected, type(expected)), text
    assert shown(False) == "" and shown(True) == "yes" and shown([1.5, "x"]) == "1.5\nx"


def test_mixed_list_not_treated_as_tables():
    for rows in ([{"line": "LPV"}, 3], [3], 3):
        assert texts_of(record.Approach, {"chart": {"minima": rows}}) == ([], ["chart.minima"]), rows
    tables = {"chart": {"minima": [{"line": "LPV"}]}}
    assert texts_of(record.Approach, tables) == ([("chart.minima[1].line", "LPV")], [])


def test_invalid_toml_reported_with_line():
    assert json.loads(form.opened("[chart]\ncourse_deg 92\n"))["error"].count("line 2") == 1
    assert "empty" in json.loads(form.opened(" "))["error"]
    assert "300001 characters" in json.loads(form.opened("#" + "x" * 300_000))["error"]
