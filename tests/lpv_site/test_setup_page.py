"""The set-up check on its page: whole without scripts, empty to begin with, and what it fetches small and kept."""

import gzip
import hashlib
import html
import json
import re
import tomllib
from urllib.parse import parse_qs

import pytest

from lpv.files.json_form import as_text, to_json
from lpv.setup import file as setup_file
from lpv.setup.form_fields import FIELDS
from lpv_site.briefing import briefings
from lpv_site.build.policy import secured
from lpv_site.department.data import DOCS, examples
from lpv_site.figures.figure import fill
from lpv_site.forms import form_parts, setup_figures
from lpv_site.forms.setup_figures import check_link
from lpv_site.forms.setup_form import BOX, build_setup_form, entries, example_link, fits
from lpv_site.pages.teaching import TEACHES, words_of
from lpv_site.text.headings import headings

FORM = fill(build_setup_form())
SETUPS = setup_file.read_all(DOCS / "set-up")
RECORD_BYTES = 2000  # of one approach, compressed
WITH_FILE_BYTES = 3000  # the same with its file, from which the form of such files begins
LIST_BYTES = 50_000  # most of it hashes, which nothing makes smaller


def test_every_entry_has_label_and_error_place():
    for key in [*(field.key for field in FIELDS), "approach", "aircraft"]:
        identity = f"{BOX}-{key}"
        assert f'<label for="{identity}">' in FORM
        assert FORM.count(f'id="{identity}"') == FORM.count(f'id="{identity}-error"') == 1
        described = re.search(rf'id="{identity}" name="{key}" aria-describedby="([^"]+)"', FORM)
        for other in described[1].split():
            assert f'id="{other}"' in FORM
    ids = re.findall(r' id="([^"]+)"', FORM)
    assert len(ids) == len(set(ids))


def test_form_empty_and_disabled_without_scripts():
    assert "<fieldset disabled>" in FORM
    assert not re.search(r'<input[^>]* value="[^"]', FORM)
    assert not re.search(r"<option[^>]* selected", FORM)
    firsts = re.findall(r'<select [^>]*><option value="(.*?)"', FORM)
    assert firsts == [""] * FORM.count("<select ")
    assert len(firsts) > 10
    assert 'href="#by-hand"' in FORM


def test_form_small_and_within_policy():
    page = f'<!doctype html><html><head><meta charset="utf-8"></head><body>{FORM}</body></html>'
    assert "Content-Security-Policy" in secured(page, "x")
    assert "<script" not in page
    assert len(gzip.compress(FORM.encode())) < 6150, "about 140 bytes for each of its entries"


def test_aircraft_file_text_inert(tmp_path, monkeypatch):
    (tmp_path / "aircraft").mkdir()
    text = (DOCS / "aircraft" / "large-jet.toml").read_text("utf-8")
    (tmp_path / "aircraft" / "a.toml").write_text(text.replace("Large demo jet", "A'&_jet"), "utf-8")
    monkeypatch.setattr(form_parts, "DOCS", tmp_path)
    markup = fill(build_setup_form())
    option = re.search(r'<option value="a" data-figures="([^"]*)">([^<]*)</option>', markup)
    assert html.unescape(option[2]) == "A'&_jet"
    assert json.loads(html.unescape(option[1]))["type"]["name"] == "A'&_jet"
    assert "&_jet" not in markup


def test_every_set_up_finding_leads_to_section():
    words = json.loads(html.unescape(re.search(r'data-words="([^"]*)"', FORM)[1]))
    assert set(words["teaches"]) == {key for key in TEACHES if key.startswith("set-") and " " not in key}
    for address, text in words["teaches"].values():
        page, _, part = address.partition("#")
        assert {f"{page}index.md#{part}", f"{page.rstrip('/')}.md#{part}"} & set(headings()), address
        assert text
    assert words_of("set-up/localizer.md#do") == "No localizer left over: Do"


@pytest.mark.parametrize("setup", SETUPS, ids=lambda setup: setup.slug)
def test_link_carries_set_up_file(setup):
    assert fits(setup)
    link = example_link(setup, "check.md")
    assert link.startswith("check.md?own=set-up&")
    assert link.endswith("#" + BOX)
    query = parse_qs(link.partition("?")[2].partition("#")[0], keep_blank_values=True)
    assert {key: text for key, (text,) in query.items() if key != "own"} == entries(setup)
    assert set(entries(setup)) == {field.key for field in FIELDS} | {"approach", "aircraft"}


def test_briefing_leads_to_form():
    assert check_link("../set-up/check.md", "zzak-rnav-09") == "../set-up/check.md?approach=zzak-rnav-09#own-set-up"


def test_set_up_with_extra_frequencies_has_no_link():
    text = (DOCS / "set-up" / "zzak-09-good.toml").read_text("utf-8")
    for row in ("[]", "[113.4, 115.9, 112.3]"):
        assert not fits(setup_file.read_text(text.replace("[113.4]", row), "a.toml"))


# What it fetches


FIGURES = {approach.slug: setup_figures.figures(approach) for approach in examples()}


def test_each_approach_has_file_and_list_line():
    titles = {slug: (record["identity"]["airport"], record["identity"]["title"], setup_figures.as_json(record))
              for slug, record in FIGURES.items()}
    rows = json.loads(setup_figures.listed(titles))
    assert sorted(row[0] for row in rows) == sorted(FIGURES)
    assert [row[1:3] for row in rows] == sorted(row[1:3] for row in rows)
    for slug, *_, digits in rows:
        assert hashlib.sha256(setup_figures.as_json(FIGURES[slug]).encode()).hexdigest().startswith(digits)
        assert len(digits) == 8
    for setup in examples():
        assert json.loads(setup_figures.as_json(FIGURES[setup.slug])) == json.loads(as_text(to_json(setup)))


def test_figures_come_with_briefing_and_follow_changes(tmp_path):
    source = DOCS / "approaches" / "zzak-rnav-09.toml"
    record, _ = briefings.make(source)
    figures = json.loads(record["figures"])
    assert tomllib.loads(figures.pop("file")) == tomllib.loads(source.read_text("utf-8"))  # for the form of such files
    assert figures == json.loads(as_text(FIGURES["zzak-rnav-09"]))
    assert len(gzip.compress(record["figures"].encode())) < WITH_FILE_BYTES
    path = tmp_path / "zzak-rnav-09.toml"
    path.write_text(source.read_text("utf-8").replace("altitude_ft = 224", "altitude_ft = 234"), "utf-8")
    assert json.loads(briefings.make(path)[0]["figures"])["chart"]["minima"][0]["altitude_ft"] == 234


def test_thousands_of_approaches_stay_small():
    many = {f"zz{number // 36:02d}-rnav-{number % 36 + 1:02d}": (
        f"ZZ{number // 36:02d}", f"RNAV (GPS) RWY {number % 36 + 1:02d}", str(number)) for number in range(4000)}
    assert len(gzip.compress(setup_figures.listed(many).encode())) < LIST_BYTES
    assert len(gzip.compress(setup_figures.as_json(FIGURES["zzak-rnav-09"]).encode())) < RECORD_BYTES
