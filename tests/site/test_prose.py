"""Rules for what is typed on pages: no figures with units, known abbreviations, explicit ids."""

import re

import pytest
import yaml

from lpv.core.text import fact_text
from lpv.facts import FACTS, STATUSES
from lpv.facts.sources import SOURCES
from lpv_site.pages.glossary import glossary
from site_pages import HEADING, HEADING_ID, name, pages, prose, without_fences

UNIT = (
    r"(?:ft|feet|NM|kt|knots?|m|metres?|°|degrees?|deg|%|per cent|s|seconds?|min(?:utes?)?|h|hours?"
    r"|fpm|SM|km|kHz|MHz|hPa|inHg)"
)
TYPED_FIGURE = re.compile(rf"(?<![\w.])\d[\d.,]*[\s\u202f-]*{UNIT}(?![\w])")
ABBREVIATION = re.compile(r"(?<![\w-])[A-Z][A-Z0-9]*[A-Z][A-Z0-9]*(?![\w-])")
# Whole words in capitals, identifiers and codes that are no abbreviations.
WORDS = {"CSV", "GPX", "HTML", "IGC", "JSON", "KML", "README", "MIT", "PDF", "RWY"}


# Headings cannot hold an expression: search, index and links take them as they stand.  Each of these figures is a fact.
FIGURES_IN_HEADINGS = {"1000\u202fft/min": "gate_sink_rate_fpm"}


def typed_figures(page):
    text = prose(page)
    for figure in FIGURES_IN_HEADINGS:
        text = re.sub(rf"^(#+ .*){re.escape(figure)}", r"\1", text, flags=re.M)
    return [match[0] for match in TYPED_FIGURE.finditer(text)]


def by_page(check):
    """Name of each page with a fault -> what the check says of it."""
    return {name(page): fault for page in pages() if (fault := check(page))}


def test_no_typed_figure_with_unit():
    assert by_page(typed_figures) == {}, "print it with {{ fact(...) }} or {{ computed(...) }}"


@pytest.mark.parametrize(("figure", "key"), FIGURES_IN_HEADINGS.items())
def test_heading_figures_equal_facts(figure, key):
    assert figure == fact_text(FACTS[key])


def test_every_abbreviation_in_glossary():
    known = WORDS | glossary().keys()
    unknown = by_page(lambda page: {
        word for word in set(ABBREVIATION.findall(prose(page))) - known if not word.startswith("ZZ")})
    assert unknown == {}, "add them to docs/reference/glossary.toml"


def heading_faults(page):
    """Headings without an id, and ids that are there twice."""
    headings = [match[2] for match in HEADING.finditer(without_fences(page.read_text("utf-8")))]
    ids = [heading_id[1] for heading in headings if (heading_id := HEADING_ID.search(heading))]
    return [heading for heading in headings if not HEADING_ID.search(heading)] + [
        each for each in set(ids) if ids.count(each) > 1]


def test_every_heading_has_explicit_unique_id():
    assert by_page(heading_faults) == {}


def test_every_page_has_title_and_description():
    for page in pages():
        head = re.match(r"---\n(.*?)\n---\n", page.read_text("utf-8"), re.S)
        assert head, page
        meta = yaml.safe_load(head[1])
        assert isinstance(meta["title"], str), page
        assert 20 <= len(meta["description"]) <= 200, page


def test_rule_finds_typed_figures():
    for text in ("50 ft", "3.0°", "1,000 fpm", "40\u202fm", "18 NM"):
        assert TYPED_FIGURE.search(text), text
    for text in ("step 3", "runway 09", "cycle 2612", "4 fixes", "0 mistakes"):
        assert not TYPED_FIGURE.search(text), text


def test_every_fact_has_source_place_and_status():
    for key, fact in FACTS.items():
        assert fact.source in SOURCES, key
        assert fact.place or fact.source in {"trade", "demo", "own-computation"}, key
        assert fact.status in STATUSES, key
        assert fact.what, key
        assert not isinstance(fact.value, bool), key


def test_key_ends_in_unit():
    endings = {"ft": "_ft", "m": "_m", "NM": "_nm", "kt": "_kt", "SM": "_sm", "fpm": "_fpm", "s": "_s"}
    wrong = [
        key
        for key, fact in FACTS.items()
        if fact.unit in endings and not key.endswith(endings[fact.unit]) and not isinstance(fact.value, str)
    ]
    assert not wrong
