"""Old links lead to where pages and headings are now; a list that leads nowhere stops the build."""

import hashlib
import json
import re

import pytest

from lpv.core.errors import DataError
from lpv_site.build.moved import Gone, gone_pages, leading_page, now_at, with_lines
from lpv_site.build.moves import OWN_FILE, moves
from lpv_site.build.withdrawn import files, latest, withdrawals

PRESENT = {"a/new.md#top", "a/new.md#one", "b/other.md#top", "b/other.md#two"}


def listed(tmp_path, *lines):
    rows = "".join(f'  {{ from = "{old}", to = "{new}" }},\n' for old, new in lines)
    (tmp_path / "moved.toml").write_text(f"moved = [\n{rows}]\n", "utf-8")
    return moves(tmp_path)


def test_nothing_moved_without_list(tmp_path):
    assert moves(tmp_path) == {}
    assert listed(tmp_path) == {}


def test_department_moves_use_same_file_format(tmp_path):
    (tmp_path / OWN_FILE).parent.mkdir()
    (tmp_path / OWN_FILE).write_text('moved = [{ from = "department/old.md", to = "department/new.md" }]\n', "utf-8")
    own = {"department/old.md": "department/new.md"}
    assert moves(tmp_path) == own
    assert listed(tmp_path, ("a/old.md", "a/new.md")) == {"a/old.md": "a/new.md"} | own


def test_chained_moves_followed(tmp_path):
    table = listed(
        tmp_path, ("a/old.md", "a/older.md"), ("a/older.md", "a/new.md"), ("a/older.md#x", "b/other.md#two"),
    )
    assert now_at("a/old.md", table) == now_at("a/older.md", table) == "a/new.md"
    assert now_at("a/old.md#one", table) == "a/new.md#one"
    assert now_at("a/old.md#x", table) == "b/other.md#two"
    assert now_at("b/other.md#two", table) == "b/other.md#two"


def test_circular_move_refused(tmp_path):
    with pytest.raises(DataError) as error:
        listed(tmp_path, ("a/x.md", "a/y.md"), ("a/y.md", "a/x.md"), ("a/z.md", "a/new.md"))
    assert [fault.key for fault in error.value.faults] == ["moved[1].to", "moved[2].to"]


@pytest.mark.parametrize("line", [("a/x", "a/y.md"), ("a/x.md", "https://elsewhere/"), ("a/x.md#A", "a/y.md")])
def test_address_must_be_below_docs(tmp_path, line):
    with pytest.raises(DataError):
        listed(tmp_path, line)


def test_removed_page_keeps_headings(tmp_path):
    table = listed(
        tmp_path, ("a/old.md", "a/new.md"), ("a/old.md#x", "b/other.md#two"), ("b/other.md#y", "a/new.md#one"),
    )
    assert gone_pages(table, PRESENT) == {"a/old.md": Gone("a/new.md", {"x": "b/other.md#two"})}


def test_invalid_moves_all_named_together(tmp_path):
    table = listed(tmp_path, ("a/old.md", "a/lost.md"), ("a/new.md#one", "b/other.md#two"))
    with pytest.raises(DataError) as error:
        gone_pages(table, PRESENT)
    assert [fault.key for fault in error.value.faults] == ["a/old.md", "a/new.md#one"]


def test_removed_heading_gets_line_on_its_page(tmp_path):
    table = listed(tmp_path, ("b/other.md#y", "a/new.md#one"), ("a/old.md#x", "a/new.md#one"))
    text = with_lines("# Other { #top }\n", "b/other.md", table)
    assert '<p class="hb-moved" id="y">' in text
    assert '<a href="../a/new.md#one">where it is now</a>' in text
    here = listed(tmp_path, ("b/other.md#y", "b/other.md#two"))
    assert '<a href="#two">The second</a>' in with_lines("## The second { #two }\n", "b/other.md", here)
    assert "x" not in re.findall(r'id="(\w+)"', text)
    assert with_lines("# New { #top }\n", "a/new.md", table) == "# New { #top }\n"


def test_redirect_page_works_in_text_data_and_without_scripts():
    page = leading_page("../new/", {"x": "../../b/other/#two"}, "../../", 'A "title" & <more>', "About.")
    assert 'data-to="../new/"' in page
    assert json.loads(re.search(r'data-parts="([^"]*)"', page)[1].replace("&quot;", '"')) == {"x": "../../b/other/#two"}
    assert '<noscript><meta http-equiv="refresh" content="0; url=../new/"></noscript>' in page
    assert '<a href="../new/">A &quot;title&quot; &amp; &lt;more&gt;</a>' in page
    assert re.search(r'src="../../assets/moved\.js\?v=[0-9a-f]{8}"', page)
    assert "Content-Security-Policy" in page
    assert 'property="og:title" content="A &quot;title&quot; &amp; &lt;more&gt;"' in page


WITHDRAWN_ROW = '{ page = "approaches/zz-1.md", on = 2026-12-24, why = "Take the other." }'


def test_withdrawals_of_both_lists_published(tmp_path):
    (tmp_path / "moved.toml").write_text(f"moved = []\nwithdrawn = [{WITHDRAWN_ROW}]\n", "utf-8")
    (tmp_path / OWN_FILE).parent.mkdir()
    (tmp_path / OWN_FILE).write_text('withdrawn = [{ page = "department/a/index.md", on = 2026-12-25 }]\n', "utf-8")
    assert json.loads(files(withdrawals(tmp_path, {"index.md"}), True)["withdrawn.json"]) == {"withdrawn": [
        ["approaches/zz-1/", "2026-12-24", "Take the other."], ["department/a/", "2026-12-25", ""]]}


def test_existing_page_cannot_be_withdrawn(tmp_path):
    (tmp_path / "moved.toml").write_text(f"withdrawn = [{WITHDRAWN_ROW}]\n", "utf-8")
    with pytest.raises(DataError, match="still there"):
        withdrawals(tmp_path, {"approaches/zz-1.md"})


@pytest.mark.parametrize(("directory_urls", "place", "start"), [
    (True, "approaches/zz-1/index.html", "../../"), (False, "approaches/zz-1.html", "../index.html")])
def test_withdrawn_address_says_so_online(tmp_path, directory_urls, place, start):
    row = WITHDRAWN_ROW.replace("the other", "<the> other").replace("<the>", "RWY 11 &")
    (tmp_path / "moved.toml").write_text(f"withdrawn = [{row}]\n", "utf-8")
    page = files(withdrawals(tmp_path), directory_urls)[place]
    assert "<h1>Withdrawn on 2026-12-24</h1><p><strong>Do not use this page" in page
    assert "<p>Take RWY 11 &amp; other.</p><p>approaches/zz-1/</p>" in page
    assert f'href="{start}"' in page
    assert 'name="hb-built"' in page
    assert re.search(r"\n<!-- sha256 [0-9a-f]{32} -->\n\Z", page), "so that it takes the place of a copy"


def test_not_found_page_names_latest_withdrawals(tmp_path):
    rows = "".join(f'{{ page = "a/p{day}.md", on = 2026-12-{day:02} }},' for day in range(1, 31))
    (tmp_path / "moved.toml").write_text(f"withdrawn = [{rows}]\n", "utf-8")
    named = latest(withdrawals(tmp_path))
    assert (len(named), named[0], named[-1][1]) == (20, ("a/p30/", "2026-12-30", ""), "2026-12-11")


def test_redirect_page_sealed_like_any_page():
    page = leading_page("../b/", {}, "../", "B", "About b.")
    body, seal = re.fullmatch(r"(.*)<!-- sha256 ([0-9a-f]{32}) -->\n", page, re.S).groups()
    assert hashlib.sha256(body.encode()).hexdigest().startswith(seal)
