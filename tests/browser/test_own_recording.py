"""A recording picked in a real Chromium: what it tells is what the command tells, to the last character."""

import functools
import gzip
import json
import time
from urllib.parse import urlencode

import pytest
from playwright.sync_api import expect

from accessible import faults_in_both_themes
from lpv.aircraft import record as aircraft
from lpv.approach import record as approach
from lpv.track import command as track
from lpv.track import files as track_reader
from lpv.track import report as track_text
from lpv.track.form import MAX_MB, Entries
from lpv_site.forms import phone as phone_files
from lpv_site.forms import setup_figures
from lpv_site.forms.track_form import BOX, links
from support import until_kept, with_hash
from track_cases import DEMO, DOCS, ENTRIES, FLIGHTS, SIMULATED, demo, entered, simulated

pytestmark = pytest.mark.browser
PLACE = "debrief/own/"
CHOICES = ("altitude", "joined", "altimeter_unit", "level", "receiver")
SMALL = """[...document.querySelectorAll(".hb-own :is(input, select, button, summary)")]
  .filter((e) => e.checkVisibility())
  .filter((e) => e.getBoundingClientRect().height < 44 || e.getBoundingClientRect().width < 44)
  .map((e) => e.id || e.className)"""
COPIED = "navigator.clipboard.readText()"
HEADER = "time_s,latitude_deg,longitude_deg,altitude_msl_ft\n"
POINT = '<trkpt lat="34.5" lon="-148.25"><ele>600</ele><time>2026-12-01T10:00:0{}Z</time></trkpt>'
GPX = f'<?xml version="1.0"?>\n<gpx>\n<trk><trkseg>\n{POINT.format(0)}\n{POINT.format(1)}\n</trkseg></trk>\n</gpx>\n'


# Of every recording; what is in them is read and flown by the test that needs it.
NAMES = [*(name for name, *_ in DEMO), *(f"{name}.csv" for name in SIMULATED)]


@functools.cache
def every():
    return [*demo(), *simulated()]


@pytest.fixture
def page(phone_page):
    """A phone on the form's site; anything sent fails the test."""
    yield from only_reading(phone_page)


@pytest.fixture
def used_page(used_phone):
    """The same, one phone for file after file."""
    yield from only_reading(used_phone)


@pytest.fixture
def new_page(new_phone_page):
    yield from only_reading(new_phone_page)


def only_reading(page):
    methods = set()

    def note(request):
        methods.add(request.method)

    page.on("request", note)
    yield page
    page.remove_listener("request", note)
    assert methods <= {"GET"}


def opened(page, query=""):
    """The box of the form, opened and ready."""
    page.goto(f"{page.root}{PLACE}{query}")
    return ready(page)


def still_open(page):
    """The box of the form, opened unless it is."""
    return ready(page) if page.url == f"{page.root}{PLACE}" else opened(page)


def ready(page):
    """The box of the form on the page that is open."""
    box = page.locator(f"#{BOX}")
    if box.get_attribute("open") is None:
        box.locator("summary").first.click()
    expect(box.locator("fieldset:not([disabled])")).to_be_attached(timeout=30_000)
    return box


def read(box, name, data, to="zzak-rnav-09", by="", **values):
    """Choose, pick and read; waits for the answer."""
    box.locator("[name=approach]").select_option(to)
    box.locator("[name=aircraft]").select_option(by or "-")
    for key, text in {key: values.get(key, "") for key in ENTRIES if key not in CHOICES}.items():
        box.locator(f"[name={key}]").fill(text)
    for key, text in {key: ENTRIES[key] for key in CHOICES}.items():
        box.locator(f"[name={key}]").select_option(values.get(key, text))
    box.locator(".hb-file").set_input_files({"name": name, "mimeType": "text/plain", "buffer": data})
    expect(box.locator(".hb-told")).to_be_hidden()
    box.get_by_role("button", name="Read it").click()
    expect(box.locator(".hb-told")).to_be_visible(timeout=60_000)


def faults_of(box):
    return [" ".join(text.split()) for text in box.locator(".hb-faults .hb-row").all_text_contents()]


def copied(page, box):
    box.get_by_role("button", name="Copy all as text").click()
    expect(box.locator(".hb-state")).to_have_text("Text copied.")
    return page.evaluate(COPIED)


@pytest.mark.parametrize("number", range(len(NAMES)), ids=lambda number: f"{number}-{NAMES[number]}")
def test_debrief_matches_command(used_page, number):
    """File after file on one page."""
    page = used_page
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    name, data, to, by, values = every()[number]
    assert name == NAMES[number]
    recording = track_reader.read_bytes(data, name, values.get("altitude", ""))
    box = still_open(page)
    read(box, name, data, to.slug, by.slug if by else "", **values)
    expected = track.analyse(recording, to, by, Entries(entered(**values)).given)
    assert copied(page, box) == track_text.text(expected)
    rows = box.locator(".hb-moments tr")
    assert rows.count() == len(expected.moments)
    for moment, text in zip(expected.moments, rows.all_text_contents(), strict=True):
        assert moment.what in text
    for remark, text in zip(expected.remarks, box.locator(".hb-remarks li").all_text_contents()[1:], strict=True):
        assert track_text.remark_text(remark) in text
    assert box.locator(".hb-verdicts").text_content() == track_text.verdict_line(expected)
    assert box.locator(".hb-plot svg").count() == 3
    marks = [mark for mark in box.locator(".hb-moments td b").all_text_contents() if mark == "✕"]
    assert len(marks) == len(expected.with_verdict("outside"))


def test_every_link_leads_to_section(page):
    for words in links().values():
        for place, text in words.values():
            assert text
            address, _, part = place.partition("#")
            assert f'id="{part}"' in page.request.get(page.root + address).text(), place
    box = opened(page)
    read(box, "late.csv", (FLIGHTS / "late.csv").read_bytes(), by="light-jet", temperature_c="15", joined="vectors")
    addresses = box.locator(".hb-moments a").evaluate_all("all => all.map((a) => a.href)")
    assert f"{page.root}intercept/lateral/#through-the-course" in addresses


SCRIPT = '<h:script xmlns:h="http://www.w3.org/1999/xhtml">alert(1)</h:script>'
HOSTILE = [
    ("a.csv", HEADER + "<img src=x onerror=alert(1)>,1,2,3\n", "line 2, time_s"),
    ("a.csv", HEADER.replace("\n", ",<script>alert(1)</script>\n") + "0,1,2,3,4\n", "the file"),
    ("a.csv", HEADER + "0,\u202e\x1b[31m,2,3\n", "line 2, latitude_deg"),
    ("a.csv", HEADER + "1,2", "line 2"),
    ("a.csv", "", "line 1, header"),
    ("a.csv", HEADER + '0,"34', "line 2"),
    ("a.csv", HEADER + "x" * 2_000_000, "line 2"),
    ("a.csv", "\x00\x01\x02", "the file"),
    ("a.json", '[{"x": "<img src=x onerror=alert(1)>"}]', "line 1, header"),
    ("a.igc", "<img src=x onerror=alert(1)>", "line 1"),
    ("a.kml", "<html/>", "line 1"),
    ("<img src=x onerror=alert(1)>.csv", "x\n", "line 1, header"),
    ("n" * 10_000 + ".csv", "x\n", "line 1, header"),
    ("a.doc", "x", "the file"),
    ("a.gpx", GPX.replace("?>", '?><!DOCTYPE gpx [<!ENTITY x "y">]>', 1), "line 1"),
    ("a.gpx", GPX[:100], "line 4"),
    ("a.gpx", GPX.replace("gpx>", "html>"), "line 2"),
    ("a.gpx", GPX.replace("<gpx>", f"<gpx>{SCRIPT}").replace("34.5", "x"), "line 4, lat"),
    ("a.gpx", "<gpx>" + "<a>" * 40 + "</a>" * 40 + "</gpx>", "line 1"),
    ("a.gpx", GPX.replace("34.5", "<", 1), "line 4"),
    ("a.gpx", GPX.replace('"34.5"', '"99"', 1), "line 4, lat"),
    ("a.gpx", GPX.replace("<gpx>", "<!-- <trkpt/> -->\n<gpx>").replace('"34.5"', '"\u0663"', 1), "line 5, lat"),
    ("a.gpx", GPX.replace("<ele>600", "<ele>" + "6" * 100_000, 1), "line 4, ele"),
]


@pytest.mark.parametrize(("name", "text", "place"), HOSTILE, ids=range(len(HOSTILE)))
def test_bad_file_shows_faults_and_does_nothing(used_page, name, text, place):
    page, asked = used_page, []
    box = still_open(page)

    def note(request):
        asked.append(request.url)

    page.on("request", note)
    read(box, name, text.encode(), altitude="msl" if name.endswith(("gpx", "kml")) else "")
    assert faults_of(box)[0].startswith(place)
    assert all(len(fault) < 400 for fault in faults_of(box))
    expect(box.locator(".hb-sentence")).to_have_text("The file is not read.")
    assert box.locator(".hb-all").is_hidden()
    assert box.locator("img, script, iframe").count() == 0
    page.remove_listener("request", note)
    assert [url for url in asked if "set-up.json" not in url] == []
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


def test_non_text_and_excess_bytes(page):
    box = opened(page)
    for data, words in (
        (b"\xff\xfe" + b"x" * 99, "bytes that are not text"), (b"PK\x03\x04" + b"x", "a compressed file"),
        (b"\x1f\x8b\x08" + b"x", "a compressed file"), (b"1" * int(MAX_MB * 1e6 + 1), "more than 5 MB"),
    ):
        read(box, "a.csv", data)
        assert words in faults_of(box)[0]


def test_wrong_entries_marked_and_nothing_read(page):
    box = opened(page)
    box.get_by_role("button", name="Read it").click()
    expect(box.locator(f"#{BOX}-approach-error")).to_have_text("Choose an approach.")
    expect(box.locator("[name=approach]")).to_be_focused()
    box.locator("[name=approach]").select_option("zzak-rnav-09")
    box.locator("[name=temperature_c]").fill("99")
    expect(box.locator(f"#{BOX}-temperature_c-error")).to_contain_text("allowed")
    box.get_by_role("button", name="Read it").click()
    expect(box.locator(".hb-told")).to_be_hidden()
    box.locator("[name=temperature_c]").fill("")
    box.get_by_role("button", name="Read it").click()
    expect(box.locator(".hb-sentence")).to_have_text("Choose a file first.")


def test_changed_entry_removes_answer_and_nothing_kept(page):
    box = opened(page)
    read(box, "stable.csv", (FLIGHTS / "stable.csv").read_bytes())
    box.locator("[name=temperature_c]").fill("5")
    expect(box.locator(".hb-told")).to_be_hidden()
    read(box, "stable.csv", (FLIGHTS / "stable.csv").read_bytes(), temperature_c="5")
    kept = page.evaluate("JSON.stringify([Object.entries(localStorage), Object.entries(sessionStorage)])")
    assert "stable" not in kept
    assert "temperature" not in kept
    assert page.evaluate("indexedDB.databases().then((all) => all.length)") == 0
    again = opened(page)
    assert again.locator("[name=approach]").input_value() == "zzak-rnav-09", "the approach last used, and no more"
    assert again.locator(".hb-file").evaluate("e => e.files.length") == 0
    expect(again.locator(".hb-told")).to_be_hidden()


def test_flight_plays_below_debrief(page):
    box, player = opened(page), page.locator("#live-flight")
    expect(player).to_be_hidden()
    read(box, "stable.csv", (FLIGHTS / "stable.csv").read_bytes())
    expect(player.locator(".hb-drawn svg")).to_be_visible(timeout=30_000)
    expect(player.locator(".hb-finding")).to_contain_text("annunciations were not recorded")
    moments = player.locator(".hb-data tbody tr")
    assert moments.count() == box.locator(".hb-moments tr").count()
    player.locator(".hb-jump").last.click()
    expect(player.locator("[name=time_s]")).not_to_have_value("0")
    box.locator("[name=temperature_c]").fill("5")
    expect(player).to_be_hidden()


def test_link_may_bring_only_approach(page):
    box = opened(page, "?" + urlencode({"approach": "zzhc-rnav-33", "temperature_c": "<b>"}) + f"#{BOX}")
    assert box.locator("[name=approach]").input_value() == "zzhc-rnav-33"
    assert box.locator("[name=temperature_c]").input_value() == ""
    assert opened(page, "?approach=../x").locator("[name=approach]").input_value() == ""


def test_foreign_columns_assigned_once(page):
    """Offered by their names, corrected by hand, kept for the next file with the same columns, and read."""
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    name, data, to, by, values = next(case for case in simulated() if case[0] == "normal.csv")
    text = data.decode().replace("time_s,latitude_deg,longitude_deg,altitude_ellipsoid_m", "Elapsed;Lat;Lon;Up")
    foreign = text.replace(",", ";").encode()
    box = opened(page)
    box.locator(".hb-file").set_input_files({"name": name, "mimeType": "text/plain", "buffer": foreign})
    expect(box.locator(".hb-columns")).to_be_visible()
    first = box.locator(".hb-columns .hb-column")
    assert [each.input_value() for each in first.all()] == ["", "Lat", "Lon", "", ""]
    first.nth(0).select_option("Elapsed")
    box.locator(".hb-columns .hb-kind").nth(0).select_option("time_s")
    first.nth(3).select_option("Up")
    box.locator(".hb-columns .hb-kind").nth(3).select_option("altitude_ellipsoid_m")
    box.locator("[name=approach]").select_option(to.slug)
    box.locator("[name=aircraft]").select_option(by.slug)
    for key, value in values.items():
        field = box.locator(f"[name={key}]")
        field.select_option(value) if key in CHOICES else field.fill(value)
    box.get_by_role("button", name="Read it").click()
    expect(box.locator(".hb-told")).to_be_visible(timeout=60_000)
    expected = track.analyse(track_reader.read_bytes(data, name), to, by, Entries(entered(**values)).given)
    assert copied(page, box) == track_text.text(expected)
    again = opened(page)
    again.locator(".hb-file").set_input_files({"name": "next.csv", "mimeType": "text/plain", "buffer": foreign})
    expect(again.locator(".hb-columns")).to_be_visible()
    assert [each.input_value() for each in again.locator(".hb-columns .hb-column").all()] == [
        "Elapsed", "Lat", "Lon", "Up", ""]
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


def an_hour():
    """An hour at one sample a second, the demo's approach at its end."""
    head, *rows = (FLIGHTS / "stable.csv").read_text("utf-8").split("time_utc", 1)[1].splitlines()
    cells = [row.split(",") for row in rows]
    begin = [float(cell) for cell in cells[0][1:3]]
    step = [float(cells[1][at]) - float(cells[0][at]) for at in (1, 2)]
    lines = ["time_s" + head]
    for second in range(3600 - len(cells)):
        back = 3600 - len(cells) - second
        at = [begin[axis] - step[axis] * back for axis in (0, 1)]
        lines.append(f"{second},{at[0]:.6f},{at[1]:.6f},{','.join(cells[0][3:])}")
    lines += [",".join([str(3600 - len(cells) + place), *row[1:]]) for place, row in enumerate(cells)]
    return "\n".join(lines).encode()


def test_hour_read_while_page_stays_responsive(new_page):
    """The page has its turns while it reads.  The times are printed, not judged."""
    page = new_page
    data = an_hour()
    box = opened(page)
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.evaluate("""() => { window.longest = window.turns = 0; let last = performance.now();
      setInterval(() => {
        const now = performance.now();
        window.longest = Math.max(window.longest, now - last);
        window.turns += 1;
        last = now;
      }, 20); }""")
    begin = time.monotonic()
    read(box, "hour.csv", data, by="light-jet", temperature_c="5")
    seconds, longest_ms = time.monotonic() - begin, page.evaluate("window.longest")
    print(f"an hour: {seconds:.1f} s, the page asleep for at most {longest_ms:.0f} ms")
    to, by = (approach.read(DOCS / "approaches" / "zzak-rnav-09.toml"),
              aircraft.read(DOCS / "aircraft" / "light-jet.toml"))
    given = Entries(entered(temperature_c="5")).given
    expected = track.analyse(track_reader.read_bytes(data, "hour.csv"), to, by, given)
    assert copied(page, box) == track_text.text(expected)
    assert page.evaluate("window.turns") > 20


def test_works_offline(new_page, site):
    page = new_page
    opened(page)
    page.evaluate("navigator.serviceWorker.ready")
    page.reload()
    box = opened(page)
    figures = with_hash(site, setup_figures.address("zzak-rnav-09"))
    read(box, "stable.csv", (FLIGHTS / "stable.csv").read_bytes(), temperature_c="5")
    runtime = [phone_files.runtime("js"), phone_files.runtime("wasm"), phone_files.code("recording")[0]]
    scripts = [with_hash(site, f"assets/{name}.js") for name in ("choose", "track", "live")]
    needed = [*runtime, with_hash(site, setup_figures.LIST), figures, *scripts, phone_files.code("figures")[0]]
    expect(page.locator("#live-flight .hb-drawn svg")).to_be_visible(timeout=30_000)
    until_kept(page, needed)
    page.context.set_offline(True)
    again = opened(page)
    read(again, "stable.csv", (FLIGHTS / "stable.csv").read_bytes(), temperature_c="5")
    expect(again.locator(".hb-sentence")).to_have_text("Landed, as far as a recording shows.")
    player = page.locator("#live-flight")
    expect(player.locator(".hb-drawn svg")).to_be_visible(timeout=30_000)
    begun = player.locator("[name=time_s]").input_value()
    player.locator(".hb-jump").last.click()
    expect(player.locator("[name=time_s]")).not_to_have_value(begun)
    page.context.set_offline(False)


def test_page_names_command_without_scripts(browser, address):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(address + PLACE)
    page.locator(f"#{BOX} > summary").click()
    state = page.locator(f"#{BOX} .hb-state")
    expect(state).to_contain_text("JavaScript and WebAssembly")
    expect(state).to_contain_text("lpv track FILE --approach FILE")
    assert page.locator(f"#{BOX} .hb-file").is_disabled()
    context.close()


def test_page_explains_missing_webassembly(new_page):
    page = new_page
    page.add_init_script("delete window.WebAssembly")
    page.goto(page.root + PLACE)
    page.locator(f"#{BOX} > summary").click()
    expect(page.locator(f"#{BOX} .hb-state")).to_contain_text("this browser has no WebAssembly")
    expect(page.locator(f"#{BOX} .hb-state")).to_contain_text("lpv track")


def test_early_press_waits_for_approach_figures(new_page):
    page = new_page
    page.add_init_script("""{
      const fetched = window.fetch;
      window.fetch = async (address, ...rest) => {
        if (String(address).includes("/approaches/")) await new Promise((done) => setTimeout(done, 1500));
        return fetched(address, ...rest);
      };
    }""")
    box = opened(page)
    read(box, "stable.csv", (FLIGHTS / "stable.csv").read_bytes(), by="light-jet", temperature_c="5")
    expect(box.locator(".hb-sentence")).to_have_text("Landed, as far as a recording shows.")


def test_accessible_and_fits_phone(page):
    box = opened(page)
    read(box, "late.csv", (FLIGHTS / "late.csv").read_bytes(), by="light-jet", temperature_c="15", joined="vectors")
    assert not faults_in_both_themes(page)
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    assert page.evaluate(SMALL) == []


def test_first_view_small_without_form(page):
    came = {}
    page.on("response", lambda response: came.update({response.url: response}))
    page.goto(page.root + PLACE, wait_until="networkidle")
    assert not [url for url in came if "micropython" in url or "lpv." in url]
    sizes = {url: len(gzip.compress(response.body())) for url, response in came.items()}
    assert page.root + PLACE in sizes
    assert sum(sizes.values()) < 150_000, sizes
    words = json.loads(page.locator(f"#{BOX}").get_attribute("data-words"))
    assert set(words) == {"moments", "remarks", "size"}


def test_file_page_explains_and_names_command(browser, site):
    context = browser.new_context()
    page = context.new_page()
    page.goto((site / PLACE / "index.html").as_uri())
    page.locator(f"#{BOX} > summary").click()
    expect(page.locator(f"#{BOX} .hb-state")).to_contain_text("opened as a file")
    expect(page.locator(f"#{BOX} .hb-state")).to_contain_text("lpv track")
    assert page.locator(f"#{BOX} .hb-file").is_disabled()
    context.close()
