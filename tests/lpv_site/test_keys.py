"""What is kept for the next build has a key of everything it was made from, and of nothing else."""

import importlib.metadata
import shutil

import pytest

from lpv_site.build import keys, reach, scripts, store
from lpv_site.department import data
from lpv_site.department import files as department_files
from lpv_site.department.data import DOCS
from lpv_site.forms import phone
from lpv_site.text import headings

FENCE = '```python exec="on" id="x"\nfrom final.altimeter import show\nprint(show())\n```\n'


@pytest.fixture
def docs(tmp_path):
    """A folder of two types and two approaches."""
    for kind in ("aircraft", "approaches"):
        (tmp_path / kind).mkdir()
        for path in sorted((DOCS / kind).glob("*.toml"))[:2]:
            shutil.copy(path, tmp_path / kind)
    (tmp_path / "a.md").write_text("# A { #top }\n\n## When it goes wrong { #wrong }\n\n### One { #one }\n", "utf-8")
    return tmp_path


@pytest.fixture
def edited(monkeypatch):
    """A function that lets definitions count as edited, all of a module where only this is named."""
    forgotten, real = (reach.version, keys._version, keys._briefing), reach._line

    def edit(*names):
        places = {place for name in names for place in reach.places(name) if place[1] >= 0}
        assert places
        monkeypatch.setattr(reach, "_line", lambda place: real(place) + ("edited" if place in places else ""))
        for known in forgotten:
            known.cache_clear()

    yield edit
    for known in forgotten:
        known.cache_clear()


def key(markdown):
    return keys.page_key("a.md", markdown)


@pytest.mark.parametrize("markdown", ["# A\n", FENCE, '{{ computed("final/altimeter", "x") }}'])
def test_markdown_and_address_in_key(markdown):
    assert key(markdown) == key(markdown)
    assert key(markdown) != key(markdown + "\n")
    assert key(markdown) != keys.page_key("b.md", markdown)


@pytest.mark.parametrize(("markdown", "inside", "outside"), [
    ("Prose.", "lpv_site.text.convert.html_of", "lpv.air.altimetry"),
    (FENCE, "lpv.air.altimetry.true_height_ft", "lpv.sbas.integrity"),
    (FENCE, "lpv.path.temperature.indicated_on_path_ft", "lpv.path.deviation"),
    ('{{ computed("final/altimeter", "x") }}', "final.altimeter.show", "final.rate"),
    ('{{ formula("lpv.air.altimetry.true_height_ft") }}', "lpv.air.altimetry.true_height_ft", "lpv.sbas.integrity"),
    ('{{ calculator("rvr") }}', "lpv.calculators.run.calculator", "lpv.sbas.integrity"),
    ('{{ calculator("rvr") }}', "lpv.calculators.decide.CALCULATORS", "lpv.calculators.verify.CALCULATORS"),
    ('{{ live("live-rate") }}', "lpv.figures.rate.FIGURES", "lpv.figures.sky.FIGURES"),
    ('{{ fact("hal_lpv_m") }}', "lpv.facts.integrity.FACTS", "lpv.sbas.integrity"),
])
def test_reached_sources_in_key(edited, markdown, inside, outside):
    before = key(markdown)
    edited(outside)
    assert key(markdown) == before
    edited(inside)
    assert key(markdown) != before


def test_phone_code_not_in_key_of_page_but_named_on_it(monkeypatch):
    """An edit of what a phone runs makes no page again: the address is put in as the page is finished."""
    form = '<details data-runtime="a" data-code="assets/lpv.figures.json"> data-code="assets/lpv.set-up.json"</details>'
    monkeypatch.setattr(phone, "code", lambda name: (f"assets/lpv.{name}.0123.json", ""))
    assert phone.attributes("figures").endswith(' data-code="assets/lpv.figures.json"')
    assert phone.with_code_names(form) == form.replace(".json", ".0123.json")
    assert phone.with_code_names(form.replace(" data-code", "data-code")) != form.replace(".json", ".0123.json")


def test_briefing_reaches_own_code_and_no_other_pages(edited):
    before = keys.briefing_key("a.toml", b"x", "")
    edited("lpv_site.pages.aircraft_page", "lpv_site.build.site", "final.altimeter")
    assert keys.briefing_key("a.toml", b"x", "") == before
    edited("lpv_site.briefing.card")
    assert keys.briefing_key("a.toml", b"x", "") != before
    assert keys.briefing_key("a.toml", b"y", "") != before != keys.briefing_key("a.toml", b"x", "https://a.example")


def test_briefings_independent_of_headings_and_other_data():
    files = reach.files([keys.BRIEFINGS])
    assert files.isdisjoint(keys.READ_BY), "one edited heading or data file would make every briefing again"


def test_own_page_scripts_found():
    both = FENCE + FENCE.replace("altimeter", "rate")
    assert list(scripts.named_on(both)) == ["final.altimeter.show", "final.rate.show"]


@pytest.mark.parametrize("kind", ["aircraft", "approaches"])
def test_department_copy_of_file_changes_version(docs, monkeypatch, kind):
    """A copy of a demo file that is not edited yet: the same bytes, but own ones come first."""
    before = data.data_version.__wrapped__(docs)
    last = sorted((docs / kind).glob("*.toml"))[-1]
    monkeypatch.setattr(department_files, "is_own", lambda path: path == last)
    assert data.data_version.__wrapped__(docs) != before


@pytest.mark.parametrize("change", [("# A", "# B"), ("### One", "#### One"), ("#one", "#two")])
def test_headings_in_keys_of_pages_printing_them(docs, change):
    teaching = "lpv_site.pages.drill_page.drill_pages"
    plain = "lpv_site.pages.reference_pages.fact_pages"
    before = keys.maker_key(teaching, (), docs), keys.maker_key(plain, (), docs)
    (docs / "a.md").write_text((docs / "a.md").read_text("utf-8").replace(*change), "utf-8")
    for known in (headings.headings, headings.wrong_entries, headings.headings_version, keys._version):
        known.cache_clear()
    assert keys.maker_key(teaching, (), docs) != before[0]
    assert keys.maker_key(plain, (), docs) == before[1]


def test_html_libraries_in_every_key():
    assert {"mkdocs", "markdown", "markdown-exec", "jinja2", "mkdocs-material"} <= set(store.LIBRARIES)
    assert all(importlib.metadata.version(library) in store.surroundings() for library in store.LIBRARIES)
    assert "permalink_title" in store.surroundings()


@pytest.mark.parametrize("quote", ['"', "'"])
def test_names_found_in_either_quotes(docs, quote):
    (docs / "plan.toml").write_text(f"approach = {quote}zz-named{quote}\n", "utf-8")
    assert department_files.QUOTED.findall((docs / "plan.toml").read_text("utf-8")) == ["zz-named"]
    assert data.IS_LPV.search(f"[identity]\n  level_of_service = {quote}LPV{quote}\n")
