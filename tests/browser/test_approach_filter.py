"""The list of approaches on a phone: narrowed while one types; fetched, when there are many, once the box is used."""

import re
from contextlib import contextmanager

import pytest
from playwright.sync_api import expect

from generate_approaches import index_entries
from lpv_site.figures.figure import fill
from lpv_site.pages.approach_index import index_files, index_pages
from lpv_site.text.convert import address_links, html_of
from support import ROOT, served

pytestmark = pytest.mark.browser
MANY, FEW = 4000, 40
PAGE = """<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Approaches</title>
<meta name="viewport" content="width=device-width"><link rel="stylesheet" href="{up}assets/handbook.css"></head>
<body class="md-typeset"><main>{}</main></body></html>"""


def written(folder, count):
    """The index of so many approaches as a site of a few files."""
    entries = index_entries(count)
    for address, text in index_files(entries).items():
        (folder / "assets").mkdir(parents=True, exist_ok=True)
        (folder / address).write_text(text, "utf-8")
    for address, page in index_pages(entries).items():
        place = (folder / address).with_suffix(".html")
        place.parent.mkdir(parents=True, exist_ok=True)
        up = "../" * address.count("/")
        html = PAGE.replace("{up}", up).format(address_links(fill(html_of(page, address).content), address, True))
        place.write_text(html, "utf-8")
    (folder / "assets").mkdir(exist_ok=True)
    for name in ("approach-index.js", "approach-index.css", "handbook.css"):
        (folder / "assets" / name).write_bytes((ROOT / "docs" / "assets" / name).read_bytes())
    return folder


@contextmanager
def opened(browser, folder, count, **settings):
    """A phone on the index, and the addresses that it asked for."""
    asked = []
    with served(written(folder, count)) as address:
        context = browser.new_context(viewport={"width": 360, "height": 740}, **settings)
        page = context.new_page()
        page.on("response", lambda answer: asked.append(f"{answer.status}") if answer.status >= 400 else None)
        page.on("request", lambda request: asked.append(request.url.removeprefix(address)))
        page.goto(address + "approaches/", wait_until="load")
        yield page, asked
        context.close()
    assert "404" not in asked


def box(page):
    return page.get_by_label("Airport, runway, channel or identifier")


def status(page):
    return page.get_by_role("status")


def lists(asked):
    return [name for name in asked if name.endswith(".json")]


def test_few_approaches_filtered_on_page(browser, tmp_path):
    with opened(browser, tmp_path, FEW) as (page, asked):
        expect(status(page)).to_have_text("40 approaches")
        box(page).fill("zzab w06a")
        expect(status(page)).to_have_text("1 of 40 approaches")
        expect(page.locator("li:visible a")).to_have_attribute("href", "zzab-rnav-00005/")
        expect(page.locator("section:visible")).to_have_count(1)
        box(page).fill("")
        expect(page.locator("li:visible")).to_have_count(FEW)
        assert not lists(asked)


def test_many_approaches_fetched_on_first_use(browser, tmp_path):
    with opened(browser, tmp_path, MANY) as (page, asked):
        expect(status(page)).to_have_text("4000 approaches")
        assert not lists(asked)
        links = page.locator("section:visible li a").all()
        assert 5 <= len(links) <= 40
        box(page).fill("40017")
        expect(status(page)).to_have_text("1 of 4000 approaches")
        expect(page.locator("li:visible a")).to_have_attribute("href", "zzae-rnav-00017/")
        box(page).fill("zzae")
        expect(page.locator("li:visible a")).to_have_count(4)
        expect(page.locator("h2:visible")).to_have_text("ZZAE Invented Island 4")
        assert len(lists(asked)) == 1
        box(page).fill("rnav")
        expect(status(page)).to_have_text("4000 of 4000 approaches; the first 60 are shown, type more")
        expect(page.locator("li:visible a")).to_have_count(60)
        box(page).fill("nowhere")
        expect(status(page)).to_have_text("0 of 4000 approaches")
        box(page).fill("")
        expect(status(page)).to_have_text("4000 approaches")
        expect(page.locator("section:visible li a")).to_have_count(len(links))
        assert page.evaluate("document.documentElement.scrollWidth") <= 360


def test_failed_fetch_leaves_links(browser, tmp_path):
    with opened(browser, tmp_path, MANY) as (page, asked):
        page.route("**/*.json", lambda route: route.abort())
        box(page).fill("zzae")
        expect(status(page)).to_have_text("The list could not be fetched. Take the links below.")
        expect(page.locator("section:visible li a").first).to_be_visible()
        page.unroute("**/*.json")
        box(page).fill("zzaf")
        expect(page.locator("h2:visible")).to_have_text("ZZAF Invented Island 5")
        assert len(lists(asked)) == 2


def test_every_approach_two_links_away_without_script(browser, tmp_path):
    with opened(browser, tmp_path, MANY, java_script_enabled=False) as (page, asked):
        page.get_by_role("link", name=re.compile("^ZZA0 to ")).click()
        expect(page.get_by_role("heading", level=1)).to_contain_text("Airports beginning with ZZA")
        row = page.locator("li", has=page.locator('a[href="../zzae-rnav-00017/"]'))
        expect(row).to_have_text("RNAV (GPS) RWY 18 LPV 40017 W18A")
        assert row.evaluate("row => getComputedStyle(row).display") == "flex", "the list has its style"
        assert not lists(asked)
