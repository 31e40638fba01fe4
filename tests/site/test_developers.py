"""What DEVELOPERS.md and DESIGN.md list is what there is."""

import ast
import re
from importlib import import_module

import pytest

from support import ROOT

TEXT = "\n".join((ROOT / name).read_text("utf-8") for name in ("DEVELOPERS.md", "DESIGN.md"))


def test_every_named_file_exists():
    named = set(re.findall(r"(?:tests|snippets|docs|lpv_site|lpv)/[a-z_/.-]*\.[a-z]+", TEXT))
    assert len(named) > 20
    for name in named:
        assert (ROOT / name).exists() or (ROOT / "snippets" / name).exists(), name


ROOMS = sorted(path.parent for path in (ROOT / "snippets" / "lpv").glob("*/__init__.py"))
PUBLIC = re.compile(r"`(\w+)(?:\.(\w+))?`")
FIGURE = re.compile(r"^\| .+?`(docs/\S+)` \| `([\w.]+)\.(\w+)` \| .+ \| `(tests/\S+)`(?:, `([\w-]+)`)? \|$", re.M)


@pytest.mark.parametrize("room", ROOMS, ids=lambda room: room.name)
def test_every_room_states_purpose_and_contents(room):
    docstring = ast.get_docstring(ast.parse((room / "__init__.py").read_text("utf-8"))) or ""
    assert docstring.split("\n")[0].endswith((".", "?")), docstring
    public = docstring.partition("Public: ")[2]
    for module, name in PUBLIC.findall(public):
        imported = import_module(f"lpv.{room.name}.{module}")
        assert not name or hasattr(imported, name), f"{module}.{name}"
    assert f"`{room.name}`" in TEXT


def test_figure_leads_to_formula_and_test():
    rows = FIGURE.findall(TEXT)
    assert len(rows) == 10
    for page, module, name, test, case in rows:
        assert (ROOT / page).exists(), page
        assert hasattr(import_module(f"lpv.{module}"), name), name
        text = (ROOT / test).read_text("utf-8")
        assert (f'id = "{case}"' if case else name) in text, test
        assert f'formula("lpv.{module}.{name}")' in (ROOT / page).read_text("utf-8"), page
        if case:
            assert f'function = "lpv.{module}.{name}"' in text.partition(f'id = "{case}"')[2].partition("[[case]]")[0]


SENTENCE = re.compile(r"_(?:the|an|what|whatever|whose)_")


def test_test_names_are_short_and_no_sentences():
    """A name in two hundred may be a sentence."""
    names = [name for path in (ROOT / "tests").rglob("test_*.py")
             for name in re.findall(r"^ *def (test_\w+)\(", path.read_text("utf-8"), re.M)]
    assert len(names) > 2500
    sentences = [name for name in names if SENTENCE.search(name) or len(name) > 75]
    assert len(sentences) < len(names) / 200, sentences


def test_test_files_have_different_names():
    """Two of one name cannot be collected in one run."""
    names = [path.name for path in (ROOT / "tests").rglob("test_*.py")]
    assert sorted({name for name in names if names.count(name) > 1}) == []
