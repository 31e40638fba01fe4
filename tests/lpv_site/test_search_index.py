"""The search index as it is finished: small words, phrases of the debrief index, weights."""

import hashlib
import json
import re
import shutil

import pytest

from lpv.core.errors import DataError
from lpv_site.build.policy import theme_folder
from lpv_site.build.search_worker import FOLDER, mended, with_mended, write
from lpv_site.department.data import DOCS
from lpv_site.pages.debrief_codes import FILE as CODES
from lpv_site.pages.debrief_codes import codes
from lpv_site.text.search import (
    ASIDE_BOOST,
    CODE_LETTERS,
    FIELD,
    FILE,
    INDEX,
    OTHERWISE,
    PLACES,
    SMALL,
    WORD,
    finish,
    finished,
    new_words,
    phrases,
    small_words,
    typed_otherwise,
)
from lpv_site.text.word_forms import forms, slips

GENERATED = ["build-record", "facts", "from-memory", "sources", "validation"]


def index(*entries):
    fields = {"title": {"boost": 1000.0}}
    config = {"lang": ["en"], "separator": r"[\s\-]+", "pipeline": ["stopWordFilter"], "fields": fields}
    return {"config": config, "docs": [{"location": at, "title": title, "text": "Text."} for at, title in entries]}


def test_stop_words_match_theme():
    worker = next((theme_folder() / "assets" / "javascripts" / "workers").glob("search.*.min.js")).read_text("utf-8")
    theirs = re.search(r'generateStopWordFilter\(\["([^\]]+)"\]', worker)[1].split('","')
    assert theirs == SMALL


@pytest.mark.parametrize("typed", ["no", "No", "NO", "would", "didn't", "didn\u2019t", "Didnt", "in", "In", "off"])
def test_stop_words_separate(typed):
    assert re.fullmatch(small_words(), typed)
    assert re.split(small_words(), f"path {typed} armed") == ["path ", " armed"]


@pytest.mark.parametrize("typed", ["notices", "inside", "IN-04", "knot", "aircraft's", "it's", "ILS", "DA", "offline"])
def test_partial_stop_words_do_not_separate(typed):
    assert re.split(small_words(), typed) == [typed]


def test_pattern_has_no_groups_or_language_specific_syntax():
    """The theme makes it a part of others in the browser, by `|` and by number."""
    assert re.compile(small_words()).groups == 0
    assert not re.search(r"\(\?[^:!]", small_words())


def test_code_letters_that_are_stop_words_known():
    assert {"IN"} == {letters for letters in CODE_LETTERS if letters.lower() in SMALL}


def test_entry_gets_words_missing_from_heading():
    words = {"final/altimeter.md#slip": "the reading was off, wrong <QNH>"}
    made = finished(index(("final/altimeter/#slip", "The <b>reading</b> is off FI-13"), ("final/", "Final")), words)
    assert made["docs"][0][FIELD] == "wrong QNH"
    assert FIELD not in made["docs"][1]
    assert made["config"]["fields"].keys() == {"title", FIELD, PLACES, OTHERWISE}
    assert made["config"]["pipeline"] == []
    as_file = finished(index(("final/altimeter.html#slip", "The reading")), words, directory_urls=False)
    assert as_file["docs"][0][FIELD] == "wrong QNH"


def test_pages_outside_tasks_count_less():
    aside = ("reference/import/", "debrief/flights/late/#do", "aircraft/", "plan/zz-sheet/", "plan/zz-sheet.html#do")
    first = ("", "plan/", "final/altimeter/#do", "approaches/zz/", "modes/loss.html", "department/own/")
    made = finished(index(*((at, "Title") for at in aside + first)), {})["docs"]
    assert [entry["location"] for entry in made if entry.get("boost") == ASIDE_BOOST] == list(aside)
    weighed = index(("reference/import/", "Import"))
    weighed["docs"][0]["boost"] = 0.5
    assert finished(weighed, {})["docs"][0]["boost"] == 0.5


def test_new_words_added_once_in_order():
    assert list(new_words("no QNH, baro setting and the qnh go-around", "Setting")) == ["QNH", "baro", "go-around"]


def test_every_entry_has_phrase():
    assert {at for at in phrases() if "#" in at} == {entry.at for entry in codes()}
    assert "QNH" in phrases()["final/altimeter.md#altimeter-setting-slip"]


def test_pages_with_own_words_exist():
    pages = {at for at in phrases() if "#" not in at}
    made = {"reference/glossary.md", "approaches/index.md", "aircraft/index.md", "debrief/index.md",
            "debrief/flights/index.md", "teach/initial.md", "teach/recurrent.md", "teach/line-debrief.md",
            "aircraft/file.md", *(f"reference/{name}.md" for name in GENERATED)}
    assert {at for at in pages if not (DOCS / at).is_file()} == made
    assert {path.relative_to(DOCS).as_posix() for path in DOCS.glob("now/*.md")} <= pages
    assert "VSI" in phrases()["final/rate.md"]


def test_words_have_no_digits():
    typed = [text for text in phrases().values() if any(word.isdigit() for word in WORD.findall(text))]
    assert not typed


def test_words_without_entry_named(tmp_path):
    for page in [*DOCS.rglob("*.md"), DOCS / CODES]:
        (tmp_path / page.relative_to(DOCS)).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(page, tmp_path / page.relative_to(DOCS))
    assert phrases(tmp_path).keys() == {at for at in phrases() if "#" in at}
    phrases.cache_clear()
    (tmp_path / FILE).write_text('said = [\n  { code = "ZA-99", words = "x" },\n]\n', "utf-8")
    with pytest.raises(DataError, match="ZA-99"):
        phrases(tmp_path)


def test_site_without_index_stays_without(tmp_path):
    finish(tmp_path, DOCS, True)
    assert not (tmp_path / INDEX).exists()


def test_page_found_by_headings_and_frequent_words():
    words = {"final/altimeter.md": "QNH, QNH error, the altimeter", "final/altimeter.md#slip": "wrong baro"}
    entries = index(("final/altimeter/", "Altimeter"), ("final/altimeter/#slip", "The reading is off"))
    page, place = finished(entries, words)["docs"]
    assert page[FIELD].split() == ["QNH", "QNH", "error", "altimeter"]
    assert page[PLACES].split() == ["reading", "wrong", "baro"]
    assert {"altimeters", "alitmeter", "errors"} <= set(page[OTHERWISE].split())
    assert place.keys() == {"location", "title", "text", FIELD}


def test_other_forms_added_to_most_relevant_page():
    forms = typed_otherwise({"a/": "glidepath flag", "b/": "glidepath"}, {"a/": "Loss", "b/": "The glidepath"})
    assert "glidepaths" in forms["b/"]
    assert "glidepaths" not in forms["a/"]
    assert not {word for words in forms.values() for word in words} & {"glidepath", "flag", "loss", "the"}


def test_page_without_searched_text_found_by_name(tmp_path):
    (tmp_path / "search").mkdir()
    (tmp_path / INDEX).write_text(json.dumps(index()), "utf-8")
    (tmp_path / "reference" / "sources").mkdir(parents=True)
    (tmp_path / "reference" / "sources" / "index.html").write_text(
        '<title>Sources - LPV handbook</title><meta name="description" content="Documents."></head>', "utf-8")
    finish(tmp_path, DOCS, True)
    entry, = json.loads((tmp_path / INDEX).read_text("utf-8"))["docs"]
    assert (entry["location"], entry["title"], entry["text"]) == ("reference/sources/", "Sources", "Documents.")
    assert "bibliography" in entry[FIELD]


def test_word_forms():
    assert set(forms("alternate")) == {"alternates", "alternated", "alternating"}
    assert "authorise" in forms("authorize")
    assert "approaches" in forms("approach")
    assert "categories" in forms("category")
    assert {"armed", "arming"} <= set(forms("arm"))
    assert list(forms("flaps")) == []


def test_misspellings_keep_first_letter_and_differ_from_word():
    misspelt = slips("altimeter")
    assert {"alitmeter", "altmeter", "altimiter", "altineter"} <= misspelt
    assert {slip[0] for slip in misspelt} == {"a"}
    assert not [slip for slip in misspelt if slip.startswith("altimeter") or "altimeter".startswith(slip)]
    assert slips("angle") == set()


def test_theme_search_fault_fixed_in_one_place(tmp_path):
    theirs, ours, text = mended()
    assert with_mended(f'"workers/{theirs}"') == f'"workers/{ours}"'
    original = (theme_folder() / FOLDER / theirs).read_text("utf-8")
    code = original.partition("\n//# sourceMappingURL")[0]
    assert code.rstrip() != original.rstrip()
    assert len(text.rstrip()) == len(code.rstrip()) + len('+";"')
    (tmp_path / FOLDER).mkdir(parents=True)
    (tmp_path / FOLDER / theirs).write_text(original, "utf-8")
    write(tmp_path)
    assert [path.name for path in (tmp_path / FOLDER).iterdir()] == [ours]
    assert hashlib.sha256((tmp_path / FOLDER / ours).read_bytes()).hexdigest().startswith(ours.split(".")[1])
