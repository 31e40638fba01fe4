"""Calculators on pages: whole without scripts, the code served is the code here, the runtime as it was published."""

import ast
import hashlib
import html
import json
import re
import tokenize
from io import StringIO

import pytest

from lpv.calculators.run import calculator, names
from lpv.figures import run as live
from lpv.forms.fields import Choice
from lpv.forms.form import answer
from lpv_site.build.policy import secured
from lpv_site.department.data import aircraft, example, example_aircraft, examples
from lpv_site.figures.figure import fill
from lpv_site.forms import phone
from lpv_site.forms.calculator_figures import aircraft_figures, approach_figures
from lpv_site.forms.calculators import begin_with, build_form, calculator_link
from lpv_site.forms.lean import lean
from lpv_site.text.inline import expand
from site_pages import DOCS, pages

RUNTIME_FILES = {"LICENSE", "SHA256SUMS", "micropython.06338c95.wasm", "micropython.c2be87e7.js"}
PLACED = re.compile(r'^\{\{ calculator\("([a-z-]+)"\) \}\}$', re.M)


def form(name):
    return fill(build_form(name, "../reference/facts.md"))


def text_of(markup):
    return html.unescape(re.sub(r"<[^>]*>", " ", markup))


# The code


def code_of(text):
    """The syntax tree of a module without its docstrings."""
    tree = ast.parse(text)
    for node in ast.walk(tree):
        if isinstance(getattr(node, "body", None), list):
            node.body = [part for part in node.body if not is_text_alone(part)] or [ast.Pass()]
    return ast.dump(tree)


def is_text_alone(node):
    return isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant) and isinstance(node.value.value, str)


LEAN = (
    ('"""What."""\nA = "# no comment"  # one\n\n\nB = 1\n', 'A = "# no comment"\nB = 1\n'),
    ('class A:\n    """Alone."""\n\n# more\nB = """a\n# kept"""\n', 'class A:\n    pass\nB = """a\n# kept"""\n'),
    ('A = """a \n\n# kept\n"""  # lost\n', 'A = """a \n\n# kept\n"""\n'),
    ('A = 1\n"""Said\nof A."""\ndef b():\n    """Is."""\n    return A\n', 'A = 1\ndef b():\n    return A\n'),
)


@pytest.mark.parametrize(("text", "expected"), LEAN)
def test_comments_not_served(text, expected):
    assert lean(text) == expected


@pytest.mark.parametrize("form", phone.ENTRIES)
def test_served_code_equals_files(form):
    address, text = phone.code(form)
    served = json.loads(text)
    assert len(served) > 20
    for place, content in served.items():
        assert code_of(content) == code_of((phone.SNIPPETS / place).read_text("utf-8")), place
        tokens = tokenize.generate_tokens(StringIO(content).readline)
        assert tokenize.COMMENT not in {token.type for token in tokens}, place
        assert ast.get_docstring(ast.parse(content)) is None, place
    assert hashlib.sha256(text.encode()).hexdigest()[:8] in address


def is_for_types(node):
    """Whether a block is `if TYPE_CHECKING:`, which no interpreter runs."""
    return isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING"


@pytest.mark.parametrize("form", phone.FORMS)
def test_files_in_key_hold_all_that_is_served(form):
    served = phone.modules_anew(form) if form in phone.SAID_ANEW else phone.modules(form)
    ours = {phone.SNIPPETS / address for address in served if (phone.SNIPPETS / address).is_file()}
    ours |= {phone.SNIPPETS / "phone" / "geoid.py"} if form in phone.SAID_ANEW else set()  # in the place of lpv's
    assert len(ours) > 10
    assert ours <= phone.files_of(form)
    assert phone.SNIPPETS / "lpv" / "arinc" / "records.py" not in phone.files_of(form)


@pytest.mark.parametrize("form", phone.ENTRIES)
def test_served_modules_equal_imports(form):
    served = phone.modules(form)
    for place in served:
        tree = ast.parse((phone.SNIPPETS / place).read_text("utf-8"))
        tree.body = [node for node in tree.body if not (isinstance(node, ast.If) and is_for_types(node))]
        for node in ast.walk(tree):
            if isinstance(node, ast.Import):
                imported = [alias.name for alias in node.names]
            elif isinstance(node, ast.ImportFrom):
                assert node.level == 0
                imported = [str(node.module)]
            else:
                continue
            for name in imported:
                assert name in phone.ALLOWED or phone.source(name).relative_to(phone.SNIPPETS).as_posix() in served, (
                    f"{place} imports {name}"
                )


def test_unsupported_module_stops_build():
    with pytest.raises(ValueError, match=r"lpv\.geodesy\.magnetic runs on the phone, which has no .*pygeomag"):
        phone.imported("lpv.geodesy.magnetic")


def test_runtime_matches_publication():
    listed = dict(line.split()[::-1] for line in (phone.RUNTIME / "SHA256SUMS").read_text("utf-8").splitlines())
    assert {path.name for path in phone.RUNTIME.iterdir()} == RUNTIME_FILES
    assert listed.keys() == {name for name in RUNTIME_FILES if name.startswith("micropython")}
    for name, digest in listed.items():
        assert hashlib.sha256((phone.RUNTIME / name).read_bytes()).hexdigest() == digest
        assert name.split(".")[1] == digest[:8], "the name says the content, so that a copy of it never grows old"
    assert "Permission is hereby granted" in (phone.RUNTIME / "LICENSE").read_text("utf-8")


def test_runtime_needs_no_eval():
    script = next(phone.RUNTIME.glob("*.js")).read_text("utf-8")
    assert not re.search(r"\beval\(|new Function|\bFunction\(", script)


# The forms


@pytest.mark.parametrize("name", names())
def test_form_complete_without_scripts(name):
    declared, markup = calculator(name), form(name)
    result = answer(declared, begin_with(declared))
    assert not result.errors
    assert not result.problem
    visible = text_of(markup)
    cells = [cell for row in result.rows for cell in row]
    for text in [result.sentence, *(text for _, text, _ in result.outputs), *cells]:
        assert " ".join(text.split()) in " ".join(visible.split())
    assert 'class="hb-state"' in markup
    assert "<fieldset disabled>" in markup


@pytest.mark.parametrize("name", names())
def test_every_field_has_label_hint_and_error_place(name):
    markup = form(name)
    for field in calculator(name).inputs:
        identity = f"own-{name}-{field.key}"
        assert f'<label for="{identity}">' in markup
        for part in ("hint", "error"):
            assert f'id="{identity}-{part}"' in markup
        assert f'aria-describedby="{identity}-hint {identity}-error"' in markup
    ids = re.findall(r' id="([^"]+)"', markup)
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("name", names())
def test_form_complies_with_policy(name):
    page = f'<!doctype html><html><head><meta charset="utf-8"></head><body>{form(name)}</body></html>'
    assert "Content-Security-Policy" in secured(page, name)
    assert "<script" not in page


def test_number_fields_use_numeric_keyboard():
    markup = form("altimeter")
    assert markup.count('inputmode="decimal"') == 7
    assert markup.count('class="hb-sign"') == 4
    assert 'type="date"' in form("cycle")
    assert "<textarea" in form("data-block")


def test_data_file_text_inert(monkeypatch):
    hostile = [('<b onclick="x">', {"approach.block": '"><i>'})]
    monkeypatch.setattr("lpv_site.forms.calculators._of_approaches", lambda: hostile)
    markup = form("data-block")
    assert "<b " not in markup
    assert "<i>" not in markup


def test_expression_places_form_and_wrong_name_stops_build():
    markup = fill(expand('x\n\n{{ calculator("rvr") }}\n\ny', "decide/page.md"))
    assert 'id="own-rvr"' in markup
    with pytest.raises(ValueError, match=r"page\.md.*no calculator 'nope'"):
        expand('{{ calculator("nope") }}', "page.md")


def test_each_form_listed_and_on_its_task_page():
    placed = {page.relative_to(DOCS).as_posix(): PLACED.findall(page.read_text("utf-8")) for page in pages()}
    assert sorted(placed.pop("calculate/index.md")) == sorted(names())
    assert sorted(name for names in placed.values() for name in names) == sorted(names())


# What they begin with


def test_every_source_is_figure_of_example():
    known = approach_figures(example()) | aircraft_figures(example_aircraft())
    declared = [*map(calculator, names()), *map(live.figure, live.names())]
    asked = {field.source for each in declared for field in each.inputs} - {""}
    asked = {source for source in asked if not source.startswith("day.")}  # given by the reader
    assert asked <= known.keys()
    assert known.keys() <= asked, "a figure that no field asks for"


@pytest.mark.parametrize("name", names())
def test_field_starts_with_example_figure(name):
    known = approach_figures(example()) | aircraft_figures(example_aircraft())
    for field, text in zip(calculator(name).inputs, begin_with(calculator(name)).values(), strict=True):
        assert text == (field.fill(known[field.source]) if field.source in known else field.default)


@pytest.mark.parametrize("name", names())
def test_figures_of_every_approach_and_aircraft_usable(name):
    declared = calculator(name)
    for approach in examples():
        for jet in aircraft():
            figures = approach_figures(approach) | aircraft_figures(jet)
            result = answer(declared, begin_with(declared, figures))
            assert not result.errors, (approach.slug, jet.type.name)


def test_option_left_empty_without_approach_value():
    figures = [json.loads(html.unescape(text)) for text in re.findall(r'data-figures="([^"]*)"', form("descent-rate"))]
    lateral_only = [each for each in examples() if each.identity.level_of_service == "LP"]
    assert sum(held.get("gpa_deg") == "" for held in figures) == len(lateral_only) >= 1
    assert figures[-1] == {}


def test_link_carries_figures_calculator_needs():
    link = calculator_link("descent-rate", "../calculate/", {"approach.glidepath_deg": 3.5, "approach.tch_ft": 50.0})
    assert link == "../calculate/?own=descent-rate&gpa_deg=3.50#own-descent-rate"


def test_choices_start_with_valid_option():
    for name in names():
        for field in calculator(name).inputs:
            if isinstance(field, Choice):
                assert field.default in dict(field.options)
