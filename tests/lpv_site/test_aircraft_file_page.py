"""The page that says how a type is written down: complete, and its recipes do what their titles say."""

import re
import tomllib

import pytest

from lpv.aircraft import record
from lpv.aircraft.command import main
from lpv.aircraft.record import Aircraft, read_text
from lpv.files.schema import entries
from lpv.modes.machine import run
from lpv.modes.properties import PROPERTIES
from lpv.modes.rules import LISTS, REMOVED_BY, RULES, SELECTED_BY
from lpv.modes.selection import kept_without_power, tuned_effect
from lpv.modes.traps import TRAPS
from lpv.modes.ways import select_needed, shown_unselected
from lpv_site.department.data import DOCS
from lpv_site.pages.aircraft_file_page import build_aircraft_file_page, impossible
from lpv_site.pages.aircraft_page import build_aircraft_page
from lpv_site.pages.aircraft_recipes import RECIPES

PAGE = build_aircraft_file_page(DOCS)
LARGE = (DOCS / "aircraft" / "large-jet.toml").read_text("utf-8")


def keys_of(record):
    """Every key of a record and of the records within it."""
    for key, (_, entry) in entries(record).items():
        yield key
        if entry.record:
            yield from keys_of(entry.record)


def test_every_key_and_choice_on_page():
    for key in set(keys_of(Aircraft)):
        assert f"`{key}`" in PAGE or f"[{key}]" in PAGE or f".{key}]" in PAGE, key
    for _, words in (*RULES.values(), *LISTS.values(), ("", SELECTED_BY), ("", REMOVED_BY)):
        for word in words:
            assert f'"{word}"' in PAGE, word


def test_refused_and_described_rules_on_page():
    assert all(rule.statement in PAGE for rule in PROPERTIES)
    assert all(f"`{trap.key}`: {trap.statement}" in PAGE for trap in TRAPS)
    assert all(f"(`{rule.key}`)" in PAGE for rule in PROPERTIES)
    assert len(list(impossible())) == len(record.CHECKS)
    assert all(len(line) > 20 for line in impossible())


def test_heading_ids_unique():
    ids = re.findall(r"^#+ .*\{ #([a-z-]+) \}$", PAGE, re.M)
    assert len(ids) == len(re.findall(r"^##+ |^# T", PAGE, re.M)) == len(set(ids))


def test_page_example_is_valid_file():
    text = PAGE.split("{ #example }")[1].split("```toml\n")[1].split("```")[0]
    assert read_text(text, "large-jet.toml").type.name == "Large demo jet"


def with_recipe(identity):
    """The large jet with the keys of a recipe in the place of its own."""
    own, recipe = tomllib.loads(LARGE), tomllib.loads(RECIPES[identity][1])
    for row in recipe.pop("source", []):
        if "source" in tomllib.loads(RECIPES[identity][1]) and len(tomllib.loads(RECIPES[identity][1])["source"]) >= 2:
            own["source"] = tomllib.loads(RECIPES[identity][1])["source"]
            break
        own["source"] = [row if row["name"] == source["name"] else source for source in own["source"]]
    if not any("another taken away" in source["selected_by"] and "offered" not in source for source in own["source"]):
        own["source"].append({"name": "FMS lateral navigation", "selected_by": ["another taken away"]})
    for table, keys in recipe.items():
        own[table] |= keys
    return read_text(as_toml(own), "recipe.toml")


def as_toml(data, name=""):
    """TOML of tables, lists of tables and plain values."""
    plain = {key: value for key, value in data.items() if not isinstance(value, dict) and not tables(value)}
    lines = [f"{key} = {literal(value)}" for key, value in plain.items()]
    for key, value in data.items():
        full = f"{name}{key}"
        if isinstance(value, dict):
            lines += [f"[{full}]", as_toml(value, full + ".")]
        elif tables(value):
            for row in value:
                lines += [f"[[{full}]]", as_toml(row, full + ".")]
    return "\n".join(lines)


def tables(value):
    return isinstance(value, list) and value != [] and isinstance(value[0], dict)


def literal(value):
    if isinstance(value, list):
        return "[" + ", ".join(map(literal, value)) + "]"
    return str(value).lower() if isinstance(value, bool) else f'"{value}"' if isinstance(value, str) else str(value)


def traps(jet):
    return {trap.key for trap, _ in jet.exploration.traps}


ACTIVE = ("take off", "load SBAS approach", "activate approach")
DOES = {
    "one-switch": lambda jet: shown_unselected(jet.rules) == "ILS" and tuned_effect(jet.rules) == "no effect",
    "by-hand": lambda jet: shown_unselected(jet.rules) == "FMS lateral navigation" and "sides-apart" in traps(jet),
    "by-procedure": lambda jet: run(ACTIVE, jet.rules).selected == ("SBAS", "SBAS") and not select_needed(jet.rules),
    "transfer": lambda jet: run(
        (*ACTIVE, "FMS lateral mode", "arm approach", "course reached"), jet.rules).selected[0] == "SBAS",
    "inhibited": lambda jet: tuned_effect(jet.rules) == "inhibits SBAS on both sides",
    "taken-over": lambda jet: tuned_effect(jet.rules) == "takes over its side",
    "near-the-airport": lambda jet: run(
        (*ACTIVE, "select SBAS", "arm approach", "course reached"), jet.rules).lateral == "armed",
    "basic-mode": lambda jet: "goes-on-in-basic" in traps(jet),
    "level-falls": lambda jet: {"level-falls", "level-returns"} <= traps(jet),
    "path-first": lambda jet: "vertical-first" in traps(jet),
    "plan-kept": lambda jet: "SBAS" in kept_without_power(jet.rules) and "approach-survives-power" in traps(jet),
    "go-around-heading": lambda jet: "missed-not-followed" in traps(jet),
}


@pytest.mark.parametrize("identity", RECIPES)
def test_recipe_makes_valid_file_matching_title(identity):
    jet = with_recipe(identity)
    assert jet.exploration.broken == ()
    assert DOES[identity](jet)


NEVER_CAPTURES = RECIPES["by-hand"][1] + 'captures_from = "FMS lateral only"\nfms_lateral = "with FMS selected"\n'


def test_command_reports_proof_or_every_fault(capsys, tmp_path):
    assert main([str(DOCS / "aircraft" / "large-jet.toml")]) == 0
    out = capsys.readouterr().out
    assert "large-jet: Large demo jet" in out
    assert "trap source-survives-landing: take off, then select SBAS, then land" in out
    assert out.count("proven:") == len(PROPERTIES)
    assert out.count("never put to the test") == 1
    assert "WARNING" not in out
    rows = {line.strip().partition("  ")[0]: line for line in out.splitlines()}
    assert "SBAS without guidance" in rows["landed"]
    assert re.search(r"vertical lost inside the FAF +SBAS +LPV, vertical lost +captured +basic mode, lost +stays", out)
    blind = tmp_path / "blind-jet.toml"
    blind.write_text(as_toml(tomllib.loads(LARGE) | {
        "modes": tomllib.loads(LARGE)["modes"] | tomllib.loads(NEVER_CAPTURES)["modes"],
        "source": tomllib.loads(NEVER_CAPTURES)["source"]}))
    assert main([str(blind)]) == 0
    out = capsys.readouterr().out
    assert "WARNING: SBAS is never captured in an approach of its own: no sequence of events leads to it. Look" in out
    assert "proven: captured-has-source (never put to the test: nothing is ever captured)" in out
    page = build_aircraft_page(read_text(blind.read_text()))
    assert "- ✕ **SBAS is never captured in an approach of its own: no sequence of events leads to it.**" in page
    assert "**Never put to the test in this type:** nothing is ever captured" in page
    bad = tmp_path / "bad-jet.toml"
    bad.write_text(LARGE.replace("cutoff_deg = 14", "cutoff_deg = 99").replace("reaction_s = 1.5", "reaction_s = 99"))
    assert main([str(bad), str(DOCS / "aircraft" / "mid-jet.toml")]) == 2
    output = capsys.readouterr()
    assert {"cockpit.cutoff_deg", "go_around.reaction_s"} <= {line.split(": ")[1] for line in output.err.splitlines()}
    assert "mid-jet:" in output.out
