"""Every page script runs by itself, warnings being errors, and prints clean numbers."""

import re
from pathlib import Path

import pytest

from lpv_site.build import scripts
from lpv_site.build.scripts import SNIPPETS, page_scripts
from lpv_site.figures import figure
from lpv_site.text.shown import Value

TESTS = Path(__file__).resolve().parents[1] / "scripts"

UNCLEAN = re.compile(r"(?<![\w.])(?:nan|inf|-0(?:\.0*)?)(?![\w.])", re.I)


@pytest.mark.parametrize("script", page_scripts(), ids=lambda path: str(path.relative_to(SNIPPETS)))
def test_script_runs_and_prints_clean(script, capsys):
    before = set(figure._drawings)
    name = script.relative_to(SNIPPETS).with_suffix("").as_posix()
    shown = scripts.show(name)
    text, values = shown.markdown, {key: str(value) for key, value in shown.values.items()}
    assert not capsys.readouterr().out, "show() returns what it shows and prints nothing"
    assert text.strip() or values, "a page script shows something or offers values"
    drawn = [figure._drawings[key] for key in set(figure._drawings) - before]
    for each in (text, *values.values(), *(re.sub(r"<[^>]*>", " ", svg) for svg in drawn)):
        assert not UNCLEAN.search(each), UNCLEAN.search(each)[0]


def test_every_computed_value_has_an_expectation():
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
