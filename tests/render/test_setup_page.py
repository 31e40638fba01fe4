"""The set-up check on its page: whole without scripts, empty to begin with, and what it fetches small and kept."""

import gzip
import html
import json
import re
import shutil
from urllib.parse import parse_qs

import pytest

from lpv import setup_file
from lpv.errors import DataError
from lpv.setup_data import charted_texts
from lpv.setup_fields import FIELDS
from lpv.track_data import against_texts
from lpv.track_held import against
from render import form_parts, setup_figures
from render.data import DOCS
from render.figure import fill
from render.headings import headings
from render.policy import secured
from render.setup_figures import check_link
from render.setup_form import BOX, build_setup_form, entries, example_link, fits
from render.teaching import TEACHES, words_of

FORM = fill(build_setup_form())
SETUPS = setup_file.read_all(DOCS / "set-up")
LIST_BYTES = 30_000


def test_every_entry_has_a_label_and_a_place_for_its_error():
    for key in [*(field.key for field in FIELDS), "approach", "aircraft"]:
        identity = f"{BOX}-{key}"
        assert f'<label for="{identity}">' in FORM
        assert FORM.count(f'id="{identity}"') == FORM.count(f'id="{identity}-error"') == 1
        described = re.search(rf'id="{identity}" name="{key}" aria-describedby="([^"]+)"', FORM)
        for other in described[1].split():
            assert f'id="{other}"' in FORM
    ids = re.findall(r' id="([^"]+)"', FORM)
    assert len(ids) == len(set(ids))


def test_nothing_is_filled_in_and_it_is_grey_without_scripts():
    assert "<fieldset disabled>" in FORM
    assert not re.search(r'<input[^>]* value="[^"]', FORM)
    assert not re.search(r"<option[^>]* selected", FORM)
    firsts = re.findall(r'<select [^>]*><option value="(.*?)"', FORM)
    assert firsts == [""] * FORM.count("<select ")
    assert len(firsts) > 10
    assert 'href="#by-hand"' in FORM


def test_it_keeps_to_the_policy_and_is_small():
    page = f'<!doctype html><html><head><meta charset="utf-8"></head><body>{FORM}</body></html>'
    assert "Content-Security-Policy" in secured(page, "x")
    assert "<script" not in page
    assert len(gzip.compress(FORM.encode())) < 6000


def test_text_of_an_aircraft_file_is_inert(tmp_path, monkeypatch):
    (tmp_path / "aircraft").mkdir()
    text = (DOCS / "aircraft" / "large-jet.toml").read_text("utf-8")
    (tmp_path / "aircraft" / "a.toml").write_text(text.replace("Large demo jet", "A'&_jet"), "utf-8")
    monkeypatch.setattr(form_parts, "DOCS", tmp_path)
    markup = fill(build_setup_form())
    option = re.search(r'<option value="a" data-figures="([^"]*)">([^<]*)</option>', markup)
    assert html.unescape(option[2]) == "A'&_jet"
    assert json.loads(html.unescape(option[1]))["name"] == "A'&_jet"
    assert "&_jet" not in markup


def test_every_finding_of_a_set_up_leads_to_a_section():
    words = json.loads(html.unescape(re.search(r'data-words="([^"]*)"', FORM)[1]))
    assert set(words["teaches"]) == {key for key in TEACHES if key.startswith("set-") and " " not in key}
    for address, text in words["teaches"].values():
        page, _, part = address.partition("#")
        assert {f"{page}index.md#{part}", f"{page.rstrip('/')}.md#{part}"} & set(headings()), address
        assert text
    assert words_of("set-up/localizer.md#do") == "No localizer left over: Do"


@pytest.mark.parametrize("found", SETUPS, ids=lambda found: found.slug)
def test_a_link_carries_a_set_up_file(found):
    assert fits(found)
    link = example_link(found, "check.md")
    assert link.startswith("check.md?own=set-up&")
    assert link.endswith("#" + BOX)
    query = parse_qs(link.partition("?")[2].partition("#")[0], keep_blank_values=True)
    assert {key: text for key, (text,) in query.items() if key != "own"} == entries(found)
    assert set(entries(found)) == {field.key for field in FIELDS} | {"approach", "aircraft"}


def test_a_briefing_leads_to_the_form():
    assert check_link("../set-up/check.md", "zzak-rnav-09") == "../set-up/check.md?approach=zzak-rnav-09#own-set-up"


def test_a_set_up_with_more_frequencies_has_no_link():
    text = (DOCS / "set-up" / "zzak-09-good.toml").read_text("utf-8")
    for row in ("[]", "[113.4, 115.9, 112.3]"):
        assert not fits(setup_file.read_text(text.replace("[113.4]", row), "a.toml"))


# What it fetches


@pytest.fixture
def docs(tmp_path, monkeypatch):
    """A copy of the approaches, with a place of its own to keep figures in."""
    shutil.copytree(DOCS / "approaches", tmp_path / "docs" / "approaches")
    monkeypatch.setattr(setup_figures, "KEPT", tmp_path / "kept")
    return tmp_path / "docs"


def test_each_approach_has_its_file_and_its_line_in_the_list(docs):
    files = setup_figures.files(docs)
    slugs = sorted(path.stem for path in (docs / "approaches").glob("*.toml"))
    rows = json.loads(files.pop(setup_figures.LIST))
    assert sorted(row[0] for row in rows) == slugs
    assert [row[1:] for row in rows] == sorted(row[1:] for row in rows)
    assert sorted(files) == [setup_figures.address(slug) for slug in slugs]
    for path in (docs / "approaches").glob("*.toml"):
        texts = json.loads(files[setup_figures.address(path.stem)])
        found = setup_figures.approach.read(path)
        assert list(texts.items()) == [*charted_texts(setup_file.charted(found)), *against_texts(against(found))]
        assert all(isinstance(text, str) and "\t" not in text and "\n" not in text for text in texts.values())


def test_only_what_changed_is_read_again(docs, monkeypatch):
    asked = []
    read = setup_figures.figures
    monkeypatch.setattr(setup_figures, "figures", lambda path: (asked.append(path.stem), read(path))[1])
    before = setup_figures.files(docs)
    assert len(asked) == len(before) - 1
    asked.clear()
    assert setup_figures.files(docs) == before
    assert asked == []
    path = docs / "approaches" / "zzak-rnav-09.toml"
    path.write_text(path.read_text("utf-8").replace("altitude_ft = 224", "altitude_ft = 234"), "utf-8")
    (docs / "approaches" / "zzhc-rnav-33.toml").unlink()
    after = setup_figures.files(docs)
    assert asked == ["zzak-rnav-09"]
    assert "LPV DA ABCD 234" in after[setup_figures.address("zzak-rnav-09")]
    assert before.keys() - after.keys() == {setup_figures.address("zzhc-rnav-33")}


def test_many_are_read_by_several_processes_alike(docs, monkeypatch):
    few = setup_figures.files(docs)
    monkeypatch.setattr(setup_figures, "KEPT", docs / "kept-by-many")
    monkeypatch.setattr(setup_figures, "WORTH_A_POOL", 2)
    assert setup_figures.files(docs) == few


def test_a_file_with_faults_is_named(docs):
    (docs / "approaches" / "zzaa.toml").write_text("[identity]\n", "utf-8")
    with pytest.raises(DataError, match=r"zzaa\.toml"):
        setup_figures.files(docs)


def test_thousands_of_approaches_stay_small(docs, monkeypatch):
    texts = json.loads(setup_figures.files(docs)[setup_figures.address("zzak-rnav-09")])
    many = {f"zz{number // 36:02d}-rnav-{number % 36 + 1:02d}": texts | {
        "airport": f"ZZ{number // 36:02d}", "title": f"RNAV (GPS) RWY {number % 36 + 1:02d}"} for number in range(4000)}
    monkeypatch.setattr(setup_figures, "all_figures", lambda docs: many)
    files = setup_figures.files(docs)
    assert len(gzip.compress(files[setup_figures.LIST].encode())) < LIST_BYTES
    assert max(len(text) for address, text in files.items() if address != setup_figures.LIST) < 1000
