"""What is kept for the next build has a key of everything it was made from: what once was missing in one."""

import importlib.metadata
import shutil

import pytest

from lpv_site.build import scripts, site, store
from lpv_site.department import data
from lpv_site.department import files as department_files
from lpv_site.department.data import DOCS
from lpv_site.text import headings

CACHED = (headings.headings, headings.wrong_entries, headings.headings_version)


@pytest.fixture
def docs(tmp_path):
    """A folder of two types and two approaches."""
    for kind in ("aircraft", "approaches"):
        (tmp_path / kind).mkdir()
        for path in sorted((DOCS / kind).glob("*.toml"))[:2]:
            shutil.copy(path, tmp_path / kind)
    (tmp_path / "a.md").write_text("# A { #top }\n\n## When it goes wrong { #wrong }\n\n### One { #one }\n", "utf-8")
    return tmp_path


@pytest.mark.parametrize("kind", ["aircraft", "approaches"])
def test_a_file_that_became_the_departments_own_is_another_version(docs, monkeypatch, kind):
    """A copy of a demo file that is not edited yet: the same bytes, but own ones come first."""
    before = data.data_version.__wrapped__(docs)
    last = sorted((docs / kind).glob("*.toml"))[-1]
    monkeypatch.setattr(department_files, "is_own", lambda path: path == last)
    assert data.data_version.__wrapped__(docs) != before


def test_words_of_the_department_are_in_the_key_of_the_glossary(docs, monkeypatch):
    keys = []
    for meaning in ("one", "two"):
        monkeypatch.setattr(site, "terms", lambda meaning=meaning: {"EFD": meaning})
        keys.append((site.pages_key(site.reference, docs), site.pages_key(site.KEPT[0], docs)))
    assert keys[0][0] != keys[1][0]
    assert keys[0][1] == keys[1][1]


@pytest.mark.parametrize("change", [("# A", "# B"), ("### One", "#### One"), ("#one", "#two")])
def test_a_heading_is_in_the_keys_of_what_prints_its_words(docs, change):
    before = headings.headings_version(docs), site.pages_key(site.KEPT[0], docs)
    (docs / "a.md").write_text((docs / "a.md").read_text("utf-8").replace(*change), "utf-8")
    for known in CACHED:
        known.cache_clear()
    assert headings.headings_version(docs) != before[0]
    assert site.pages_key(site.KEPT[0], docs) != before[1]


def test_only_scripts_that_are_listed_may_print_headings(monkeypatch):
    own = scripts.key_of("debrief/own"), scripts.key_of("final/rate")
    monkeypatch.setattr(scripts, "headings_version", lambda: "others")
    assert scripts.key_of("debrief/own") != own[0]
    assert scripts.key_of("final/rate") == own[1]
    monkeypatch.setattr(scripts, "WITH_HEADINGS", {"set-up/check"})
    with pytest.raises(ValueError, match=r"debrief/own\.py prints words of headings"):
        scripts._run("debrief/own")


def test_the_hook_and_all_that_makes_html_are_in_every_key():
    assert store.SNIPPETS / "hooks.py" in store.code_files()
    assert {"mkdocs", "markdown", "markdown-exec", "jinja2", "mkdocs-material"} <= set(store.LIBRARIES)
    assert all(map(importlib.metadata.version, store.LIBRARIES))


@pytest.mark.parametrize("quote", ['"', "'"])
def test_names_are_found_in_either_quotes(docs, quote):
    (docs / "plan.toml").write_text(f"approach = {quote}zz-named{quote}\n", "utf-8")
    assert department_files.QUOTED.findall((docs / "plan.toml").read_text("utf-8")) == ["zz-named"]
    assert data.IS_LPV.search(f"[identity]\n  level_of_service = {quote}LPV{quote}\n")
