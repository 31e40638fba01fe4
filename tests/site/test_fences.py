"""Fences that mistype an option build green and run nothing; so they are read here."""

from collections import Counter

import pytest

from lpv_site.build.scripts import SNIPPETS, page_scripts
from site_pages import fences, name, pages

ALLOWED = {"exec", "id"}
ALL = [fence for page in pages() for fence in fences(page)]
RUN = [fence for fence in ALL if "exec" in fence.head or (fence.language == "python" and fence.options)]


@pytest.mark.parametrize(
    "fence", RUN, ids=lambda fence: f"{name(fence.page)}:{fence.options.get('id', fence.head)}"
)
def test_a_run_fence_is_one_include_with_an_id(fence):
    rest = fence.head.removeprefix("python")
    assert fence.head == "python " + " ".join(f'{k}="{v}"' for k, v in fence.options.items()), rest
    assert set(fence.options) == ALLOWED, f"only {ALLOWED} are known, found {fence.options}"
    assert fence.options["exec"] == "on"
    assert fence.include, "the body is one include line"
    assert (SNIPPETS / fence.include).is_file()


def test_fence_ids_are_unique():
    twice = [key for key, count in Counter(fence.options["id"] for fence in RUN).items() if count > 1]
    assert not twice


def test_every_page_script_is_run_by_a_page_and_shown_on_it():
    run = {fence.include: fence.page for fence in RUN}
    shown = {(fence.include, fence.page) for fence in ALL if fence not in RUN and fence.include}
    scripts = {str(path.relative_to(SNIPPETS)) for path in page_scripts()}
    assert scripts - run.keys() == set(), "a script that no page runs"
    assert {item for item in run.items() if item not in shown} == set(), "run, but not shown under 'computed'"


def test_scripts_mirror_their_page():
    for fence in RUN:
        assert fence.include.split("/")[0] == name(fence.page).split("/")[0].replace("-", "_"), (
            f"{fence.include} on {fence.page}"
        )
