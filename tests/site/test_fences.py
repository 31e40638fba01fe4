"""Fences that mistype an option build green and run nothing; so they are read here."""

import re
from collections import Counter

import pytest

from lpv_site.build.scripts import SNIPPETS, page_scripts, show
from lpv_site.checks.formula import place
from lpv_site.text.shown import Value
from site_pages import EXPRESSION, fences, name, pages

ALLOWED = {"exec", "id"}
FORMULA = re.compile(r'\{\{ formula\("([^"]+)"\) \}\}')
ALL = [fence for page in pages() for fence in fences(page)]
RUN = [fence for fence in ALL if "exec" in fence.head or (fence.language == "python" and fence.options)]
SCRIPTS = {path.relative_to(SNIPPETS).with_suffix("").as_posix(): path for path in page_scripts()}


@pytest.mark.parametrize("fence", RUN, ids=lambda fence: f"{name(fence.page)}:{fence.options.get('id', fence.head)}")
def test_each_fence_prints_one_script(fence):
    rest = fence.head.removeprefix("python")
    assert fence.head == "python " + " ".join(f'{k}="{v}"' for k, v in fence.options.items()), rest
    assert set(fence.options) == ALLOWED, f"only {ALLOWED} are known, found {fence.options}"
    assert fence.options["exec"] == "on"
    assert fence.script in SCRIPTS, "the body is `from <task>.<name> import show` and `print(show())`"


def test_fence_ids_unique():
    twice = [key for key, count in Counter(fence.options["id"] for fence in RUN).items() if count > 1]
    assert not twice


def test_every_page_script_run_by_page():
    assert SCRIPTS.keys() - {fence.script for fence in RUN} == set(), "a script that no page runs"


def test_page_with_computed_values_shows_formula():
    for page in sorted({fence.page for fence in RUN}):
        shown = [show(fence.script) for fence in RUN if fence.page == page]
        if any(isinstance(value, Value) for each in shown for value in each.values.values()):
            computed = page.read_text("utf-8").partition("{ #computed }")[2]
            formulas = [each for each in EXPRESSION.findall(computed) if "formula(" in each]
            assert formulas, f"{name(page)} prints computed numbers and shows no formula under 'computed'"


def test_formulas_name_existing_functions():
    """A function that is renamed or moved is named anew on the pages that show it."""
    named = {(name(page), formula) for page in pages() for formula in FORMULA.findall(page.read_text("utf-8"))}
    missing = []
    for page, formula in sorted(named):
        try:
            place(formula)
        except LookupError as error:
            missing.append(f"{page}: {error}")
    assert not missing


def test_scripts_mirror_pages():
    for fence in RUN:
        folder = name(fence.page).split("/")[0].replace("-", "_")
        assert fence.script.split("/")[0] == {"index.md": "home"}.get(folder, folder), f"{fence.script} on {fence.page}"
