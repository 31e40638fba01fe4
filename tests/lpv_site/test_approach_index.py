"""The index of approaches: small at any number of them, and every approach is reached without a script."""

import gzip
import json
import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generate_approaches import index_entries as entries
from lpv_site.briefing.briefing import IndexEntry
from lpv_site.figures.figure import fill
from lpv_site.pages.approach_index import MAX_IN_ONE_LIST, groups, index_files, index_pages, list_file
from lpv_site.text.convert import address_links


def links(page):
    """Addresses below docs/ that a page of approaches/ leads to."""
    matches = re.findall(r'href="((?:\.\./)?[a-z0-9/-]+\.md)"', fill(page))
    return {f"approaches/{link.removeprefix('../')}" for link in matches}


def test_few_approaches_in_one_list():
    some = entries(MAX_IN_ONE_LIST)
    pages = index_pages(some)
    assert list(pages) == ["approaches/index.md"]
    assert links(pages["approaches/index.md"]) >= {f"approaches/{slug}.md" for slug in some}
    assert index_files(some) == {}
    assert "data-list" not in fill(pages["approaches/index.md"])


@pytest.mark.parametrize("count", [MAX_IN_ONE_LIST + 1, 4000, 12000])
def test_many_approaches_split_into_small_pages(count):
    many = entries(count)
    pages = index_pages(many)
    reached = links(pages["approaches/index.md"]) - {"approaches/changes.md"}
    assert reached == pages.keys() - {"approaches/index.md"}
    lists = {address: links(page) - {"approaches/index.md"} for address, page in pages.items() if address in reached}
    listed = [briefing for group in lists.values() for briefing in group]
    assert sorted(listed) == sorted(f"approaches/{slug}.md" for slug in many)
    for page in pages.values():
        assert len(gzip.compress(fill(page).encode())) < 12_000


def test_filter_fetches_whole_list():
    many = entries(4000)
    ((address, text),) = index_files(many).items()
    assert address == list_file(many)[0]
    assert re.fullmatch(r"assets/approaches\.[0-9a-f]{8}\.json", address)
    rows = {row[0]: (airport, name, *row[1:]) for airport, name, listed in json.loads(text) for row in listed}
    assert rows == {
        slug: (entry.airport, entry.airport_name, entry.title, f"LPV {entry.channel} {entry.path_id}")
        for slug, entry in many.items()
    }
    assert f'data-list="../{address}" data-count="4000"' in fill(index_pages(many)["approaches/index.md"])
    changed = many | {"zzaa-new": many["zzaa-rnav-00000"]}
    assert list_file(changed)[0] != address


def test_demo_kept_apart_from_own_approaches():
    demo = {"zz-demo": IndexEntry("ZZAK", "Bank", "RNAV (GPS) RWY 09", "LPV", 99901, "W09A", "2612")}
    for count in (3, 4000):
        page = fill(index_pages(entries(count, "EX") | demo, set(demo))["approaches/index.md"])
        assert page.index("Invented, for practice") < page.index('href="zz-demo.md"')
        assert page.count('href="zz-demo.md"') == 1


@settings(max_examples=50)
@given(st.lists(st.text("ABZ9", min_size=3, max_size=4), max_size=60), st.integers(0, 3))
def test_groups_hold_every_approach_once_by_letter(airports, crowded):
    airports = [*airports, *["ZZAA"] * (crowded * MAX_IN_ONE_LIST)]
    many = {f"zz-{at}": IndexEntry(airport, "Name", "Title", "LPV", 1, "W", "2612")
            for at, airport in enumerate(airports)}
    divided = groups(many)
    assert sorted(slug for slugs in divided.values() for slug in slugs) == sorted(many)
    for letters, group in divided.items():
        assert all(entry.airport.startswith(letters) for entry in group.values())
        assert len(group) <= MAX_IN_ONE_LIST or {entry.airport for entry in group.values()} == {letters}


def test_group_links_resolve():
    page = fill(index_pages(entries(4000))["approaches/index.md"])
    assert 'href="of-zza/"' in address_links(page, "approaches/index.md", True)
    assert 'href="of-zza/index.html"' in address_links(page, "approaches/index.md", False)
    group = fill(index_pages(entries(4000))["approaches/of-zza/index.md"])
    assert 'href="../zzaa-rnav-00000/"' in address_links(group, "approaches/of-zza/index.md", True)
    assert 'href="../zzaa-rnav-00000.html"' in address_links(group, "approaches/of-zza/index.md", False)
    assert set(re.findall(r'(?:href|src)="([./]*)assets/', group)) == {"../../"}


def test_each_list_states_validity_dates():
    mixed = entries(3)
    mixed["zz-next"] = replace(mixed["zzaa-rnav-00000"], cycle="2613")
    page = fill(index_pages(mixed)["approaches/index.md"])
    held = re.findall(r'class="hb-validity" data-from="([^"]+)" data-until="([^"]+)">(.*?)</p>', page)
    assert [(first, until) for first, until, _ in held] == [("2026-12-24", "2027-01-21"), ("2026-11-26", "2026-12-24")]
    assert [words.partition(".")[0] for _, _, words in held] == ["1 approach", "3 approaches"]
    demo = {"zz-demo": replace(mixed["zz-next"], cycle="2601")}
    assert "2601" not in fill(index_pages(mixed | demo, set(demo))["approaches/index.md"])
