"""The debrief index: every entry under "When it goes wrong" has a permanent code and is listed."""

import posixpath
import re
import shutil
import tomllib

import pytest
from write_codes import write

from lpv.core.errors import DataError
from lpv_site.pages.debrief_codes import FILE, GROUPS, TASKS, code_at, codes, new_entries, uncoded
from lpv_site.pages.debrief_page import GROUP_IDS, build_debrief_page, debrief_pages, with_codes
from lpv_site.text.headings import headings, wrong_entries
from site_pages import DOCS, HEADING, HEADING_ID, name, pages, without_fences

CODED = re.compile(
    r'^- \[[^\]]+\]\((?P<link>[^)]+)\)\{ #(?P<id>[a-z]{2}-\d\d) \} <span class="hb-code">(?P<code>[A-Z0-9-]+)<')


def entries_of(page):
    """Ids of the third-level headings below "When it goes wrong", read another way than `headings` does."""
    wrong = without_fences(page.read_text("utf-8")).partition("## When it goes wrong { #wrong }")[2]
    for mark, text in HEADING.findall(wrong):
        if len(mark) < 3:
            return
        yield f"{name(page)}#{HEADING_ID.search(text)[1]}"


ALL = [entry for page in pages() for entry in entries_of(page)]


def test_all_site_entries_seen():
    assert len(ALL) > 80
    assert sorted(wrong_entries()) == sorted(ALL)


def test_every_entry_has_code():
    assert not uncoded(), "run `python tests/site/write_codes.py`, then word the new lines of docs/debrief/codes.toml"


def test_codes_contiguous_so_none_removed():
    numbers = {}
    for entry in codes():
        letters, number = entry.code.split("-")
        numbers.setdefault(letters, []).append(int(number))
    for letters, taken in numbers.items():
        assert sorted(taken) == list(range(1, len(taken) + 1)), f"{letters}: codes are never removed nor left out"


def test_code_begins_with_task_letters():
    letters = {folder: mark for folder, (mark, _) in TASKS.items()}
    assert len(set(letters.values())) == len(letters)
    moved = [entry.code for entry in codes()
             if entry.at in wrong_entries() and entry.code[:2] != letters.get(entry.at.split("/")[0], "OP")]
    assert not moved


def listed():
    return [match for line in build_debrief_page().splitlines() if (match := CODED.match(line))]


def test_index_lists_every_entry_once_with_code():
    codes = {posixpath.normpath(f"debrief/{match['link']}"): match["code"] for match in listed()}
    assert codes == code_at()
    assert set(ALL) <= set(codes)
    assert len(listed()) == len(codes)
    assert all(match["id"] == match["code"].lower() for match in listed())


@pytest.mark.parametrize("what", [
    "Guidance vanished", "The deviation was the ILS's", "We went through the course",
    "The altimeter was high at the fix", "No vertical guidance", "The minimum was never called",
])
def test_index_grouped_by_event(what):
    assert f"- [{what}" in build_debrief_page().replace("&#39;", "'")


def test_each_group_has_heading():
    page = build_debrief_page()
    for group in {entry.group for entry in codes()}:
        assert f"\n## {GROUPS[group]} {{ #{GROUP_IDS[group]} }}\n" in page
    assert page.startswith("---\n")
    assert list(debrief_pages()) == ["debrief/index.md"]


def test_codes_beside_headings_and_ids_kept():
    address = "modes/wrong-source.md"
    before = (DOCS / address).read_text("utf-8")
    after = with_codes(before, address)
    code = code_at()[f"{address}#deviation-was-the-ils"]
    line = next(line for line in after.splitlines() if "#deviation-was-the-ils " in line)
    assert line.startswith(f"### The deviation was the ILS's <span class=\"hb-code\">{code}</span> {{ #deviation-was-")
    assert 'data-toc-label="The deviation was the ILS&#39;s"' in line
    assert re.sub(r' <span class="hb-code">[^<]+</span>| data-toc-label="[^"]*"', "", after) == before
    assert with_codes(before, "elsewhere.md") == before


def copy_of_docs(folder):
    for page in [*DOCS.rglob("*.md"), DOCS / FILE]:
        target = folder / page.relative_to(DOCS)
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(page, target)
    return folder


def test_script_adds_next_number_only(tmp_path):
    docs = copy_of_docs(tmp_path)
    wrong = "# Title { #top }\n\n## When it goes wrong { #wrong }\n\n### "
    (docs / "verify" / "new.md").write_text(wrong + 'It "broke" \\ here { #it-broke }\n\nText.\n', "utf-8")
    (docs / "company").mkdir()
    (docs / "company" / "own.md").write_text(wrong + "Ours { #ours }\n", "utf-8")
    before = (docs / FILE).read_text("utf-8")
    expected = {"verify/new.md#it-broke": 'It "broke" \\ here', "company/own.md#ours": "Ours"}
    assert expected.items() <= uncoded(docs).items()
    assert "Without a code yet" in build_debrief_page(docs)
    added = write(docs)
    after = (docs / FILE).read_text("utf-8")
    assert [line for line in after.splitlines(True) if line not in added] == before.splitlines(True)
    rows = {row["at"]: row for row in tomllib.loads(after)["entry"]}
    last = max(entry.code for entry in codes() if entry.code.startswith("VE"))
    assert rows["verify/new.md#it-broke"]["code"] == f"VE-{int(last[3:]) + 1:02d}"
    others = [int(entry.code[3:]) for entry in codes() if entry.code.startswith("OP")]
    assert rows["company/own.md#ours"]["code"] == f"OP-{max(others, default=0) + 1:02d}"
    for at, what in expected.items():
        assert rows[at]["what"] == what


def faulty(tmp_path, line):
    docs = copy_of_docs(tmp_path)
    path = docs / FILE
    path.write_text(path.read_text("utf-8").replace("entry = [\n", "entry = [\n" + line), "utf-8")
    with pytest.raises(DataError) as raised:
        codes(docs)
    return str(raised.value)


@pytest.mark.parametrize(("line", "message"), [
    ('{ code = "ZA-01", at = "verify/index.md#gone", group = "data", what = "x y" },\n', "which is no heading"),
    ('{ code = "VE-01", at = "verify/index.md#do", group = "data", what = "x y" },\n', "a second time"),
    ('{ code = "ZA-01", at = "verify/index.md#finding-stop", group = "data", what = "x y" },\n', "one code a place"),
    ('{ code = "ZA-01", at = "verify/index.md#do", group = "weather", what = "x y" },\n', "guidance"),
    ('{ code = "za1", at = "verify/index.md#do", group = "data", what = "x y" },\n', "za1"),
])
def test_faulty_line_named(tmp_path, line, message):
    assert message in faulty(tmp_path, line)


def test_nothing_new_adds_nothing():
    assert [entry.at for entry in new_entries()] == list(uncoded())
    assert set(headings()) >= set(ALL)
