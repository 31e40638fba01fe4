"""Every page script runs by itself, warnings being errors, and prints clean numbers."""

import itertools
import re
from pathlib import Path

import pytest

import drawn
from lpv_site.build import scripts
from lpv_site.build.scripts import SNIPPETS, page_scripts
from lpv_site.figures import figure
from lpv_site.text.shown import Value
from shown import RULE, plain

TESTS = Path(__file__).resolve().parents[1] / "scripts"

NUMERIC = re.compile(r"(?!\d{5}$)[-+]?\d[\d.,:/ ]*(?: ?[A-Za-z°%/]{1,8})?$|none$|-?$")
UNCLEAN = re.compile(r"(?<![\w.])(?:nan|inf|-0(?:\.0*)?)(?![\w.])", re.I)


@pytest.fixture
def sheets(monkeypatch):
    """The drawings that a script makes, as matplotlib has them before they become SVG."""
    made, to_svg = [], figure.to_svg
    monkeypatch.setattr(figure, "to_svg", lambda sheet, name: made.append(sheet) or to_svg(sheet, name))
    return made


@pytest.mark.parametrize("script", page_scripts(), ids=lambda path: str(path.relative_to(SNIPPETS)))
def test_script_runs_and_prints_clean(script, sheets, capsys):
    before = set(figure._drawings)
    name = script.relative_to(SNIPPETS).with_suffix("").as_posix()
    shown = scripts.show(name)
    text, values = shown.markdown, {key: str(value) for key, value in shown.values.items()}
    assert not capsys.readouterr().out, "show() returns what it shows and prints nothing"
    assert text.strip() or values, "a page script shows something or offers values"
    svgs = [figure._drawings[key] for key in set(figure._drawings) - before]
    assert [fault for sheet in sheets for fault in drawn.faults(sheet)] == []
    assert aligned_oddly(text) == []
    for each in (text, *values.values(), *(re.sub(r"<[^>]*>", " ", svg) for svg in svgs)):
        assert not UNCLEAN.search(each), UNCLEAN.search(each)[0]


def aligned_oddly(text):
    """Columns of numbers, but the first, that a table sets to the left."""
    lines, odd = [line.strip() for line in text.splitlines()], []
    for index, line in enumerate(lines):
        if not RULE.fullmatch(line):
            continue
        body = list(itertools.takewhile(lambda each: each.startswith("|"), lines[index + 1:]))
        columns = list(zip(*([plain(cell) for cell in row.strip("|").split("|")] for row in body), strict=True))
        sides = ["right" if cell.startswith("-") else "left" for cell in line.strip("|").split("|")]
        odd += [column for column, side in zip(columns[1:], sides[1:], strict=True)
                if side == "left" and all(NUMERIC.match(cell) for cell in column)]
    return odd


def test_every_computed_value_has_expectation():
    """A value that `show()` offers with its number is compared in tests/scripts with one from elsewhere."""
    texts = [path.read_text("utf-8") for path in TESTS.glob("test_*.py")]
    missing = []
    for path in page_scripts():
        name = path.relative_to(SNIPPETS).with_suffix("").as_posix()
        about = "\n".join(text for text in texts if _calls(text, *name.split("/")))
        computed = [key for key, value in scripts.show(name).values.items() if isinstance(value, Value)]
        missing += [f"{name}: {key}" for key in computed if f'"{key}"' not in about]
    assert not missing


def _calls(text, task, module):
    """Whether a test calls the script's show(), imported as `show` or by its module."""
    by_module = re.search(rf"^from {task} import\b", text, re.M) and re.search(rf"\b{module}\.show\(\)", text)
    return f"from {task}.{module} import show" in text or by_module


def test_script_sizes_stay_small():
    long = [path.name for path in page_scripts() if len(path.read_text("utf-8").splitlines()) > 85]
    assert not long, "split them: page scripts are short"
