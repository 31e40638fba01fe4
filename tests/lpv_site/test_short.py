"""Short addresses: one for every heading, the same for ever, to the place it was made for."""

import json
import re

import pytest

from lpv.core.errors import DataError
from lpv_site.pages.debrief_codes import codes
from lpv_site.text import short
from lpv_site.text.short import code_of, leading_pages, places, short_addresses, url, with_short

PAGE = "---\ntitle: Course\ndescription: About it.\n---\n\n# Course { #top }\n\n## Do *this* `now` { #do }\n"


def headings(page, *more):
    head = {"title": "Course", "description": "About it."}
    return places(page, head, [["top", "Course"], ["do", "Do this now"], *more])


@pytest.fixture
def docs(tmp_path):
    """Docs with one entry in the debrief index and a list of moves."""
    (tmp_path / "debrief").mkdir()
    (tmp_path / "debrief" / "codes.toml").write_text(
        'entry = [\n  { code = "VE-01", at = "verify/course.md#do", group = "data", what = "so" },\n]\n', "utf-8")
    (tmp_path / "verify").mkdir()
    (tmp_path / "verify" / "course.md").write_text(PAGE, "utf-8")
    codes.cache_clear()
    yield tmp_path
    codes.cache_clear()


@pytest.mark.parametrize(("address", "code"), [
    ("verify/course.md#do", "x4q5g"), ("verify/course.md#top", "8drzx"), ("index.md#top", "ddfsg"),
])
def test_codes_never_change(address, code):
    assert code_of(address) == code


def test_code_never_equals_index_code():
    assert all(not re.fullmatch(r"[a-z]{2}-\d+", code_of(f"a.md#{number}")) for number in range(200))
    assert all(set(code_of(f"a.md#{number}")) <= set(short.SIGNS) for number in range(200))


def test_headings_become_plain_word_places():
    assert [(place.at, place.words, place.title, place.about) for place in headings("verify/course.md")] == [
        ("verify/course.md#top", "Course", "Course", "About it."),
        ("verify/course.md#do", "Do this now", "Course", "About it."),
    ]


def test_index_entries_keep_code_other_headings_own(docs):
    addresses = short_addresses(docs, headings("verify/course.md"))
    assert {code: place.at for code, place in addresses.items()} == {
        "ve-01": "verify/course.md#do", code_of("verify/course.md#top"): "verify/course.md#top",
    }


def test_old_address_keeps_code(docs):
    (docs / "moved.toml").write_text('moved = [\n  { from = "a/old.md#x", to = "verify/course.md#do" },\n]\n', "utf-8")
    addresses = short_addresses(docs, headings("verify/course.md"))
    assert addresses[code_of("a/old.md#x")].at == "verify/course.md#do"


def test_duplicate_heading_code_stops_build(docs, monkeypatch):
    monkeypatch.setattr(short, "LENGTH", 0)
    with pytest.raises(DataError, match="another id"):
        short_addresses(docs, headings("verify/course.md", ["more", "More"]))


def test_headings_name_codes_except_on_briefings():
    text = with_short(PAGE, "verify/course.md", {"verify/course.md#do": "VE-01"})
    assert f"# Course {{ #top data-r={code_of('verify/course.md#top')} }}" in text
    assert "{ #do data-r=ve-01 }" in text
    assert with_short(PAGE, "approaches/zzak-09.md", {}) == PAGE


@pytest.mark.parametrize(("address", "served", "filed"), [
    ("index.md", "", "index.html"), ("index.md#x", "#x", "index.html#x"),
    ("verify/index.md#do", "verify/#do", "verify/index.html#do"),
    ("verify/course.md#do", "verify/course/#do", "verify/course.html#do"),
])
def test_site_addresses(address, served, filed):
    assert url(address) == served
    assert url(address, directory_urls=False) == filed


def test_redirect_pages(docs):
    (docs / "moved.toml").write_text(
        'moved = [\n  { from = "a/old.md", to = "verify/course.md" },\n'
        '  { from = "a/old.md#x", to = "verify/course.md#do" },\n]\n', "utf-8")
    made = leading_pages(docs, {"verify/course.md": headings("verify/course.md")}, directory_urls=True)
    assert 'data-to="../../verify/course/#do"' in made["r/ve-01/index.html"]
    assert "<title>Do this now · Course</title>" in made["r/ve-01/index.html"]
    assert 'data-to="../../verify/course/"' in made[f"r/{code_of('verify/course.md#top')}/index.html"]
    assert 'data-to="../../verify/course/"' in made["a/old/index.html"]
    assert "../../verify/course/#do" in made["a/old/index.html"]
    assert json.loads(made[short.LIST])["ve-01"] == "verify/course/#do"
    filed = leading_pages(docs, {"verify/course.md": headings("verify/course.md")}, directory_urls=False)
    assert list(filed) == ["a/old.html"]
    assert 'data-to="../verify/course.html"' in filed["a/old.html"]


def test_renamed_briefing_redirects_without_codes(docs):
    (docs / "moved.toml").write_text(
        'moved = [\n  { from = "approaches/zz-y-09.md", to = "approaches/zz-z-09.md" },\n'
        '  { from = "approaches/zz-10.md", to = "approaches/zz-z-09.md#do" },\n]\n', "utf-8")
    pages, briefing = ({page: headings(page)} for page in ("verify/course.md", "approaches/zz-z-09.md"))
    made = leading_pages(docs, pages, True, briefing)
    assert 'data-to="../../approaches/zz-z-09/"' in made["approaches/zz-y-09/index.html"]
    assert 'data-to="../../approaches/zz-z-09/#do"' in made["approaches/zz-10/index.html"]
    assert "<title>Course</title>" in made["approaches/zz-y-09/index.html"]
    with pytest.raises(DataError, match="which is not there"):
        leading_pages(docs, pages, True, {})
    with pytest.raises(DataError, match="still there"):
        leading_pages(docs, pages, True, briefing | {"approaches/zz-10.md": headings("approaches/zz-10.md")})
