"""What a pilot types, in a real Chromium: the page that answers is among the first found."""

import json
import re

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser
FIRST = 5
# Typed words -> the page that answers them, or the page and the place on it.
ANSWERS = {
    "channel": "verify/identity/",
    "localizer": "set-up/localizer/",
    "minus 20": "plan/temperature/",
    "altimeter high": "verify/path/#altimeter-high-at-fix",
    "guidance vanished": "modes/loss/#guidance-vanished",
    "dot": "final/deviation/",
    "cold": "plan/temperature/",
    "missed approach": "decide/missed/",
    "NOTAM": "plan/notices/",
    "remainder": "verify/data-block/",
    "went through the course": "intercept/lateral/#through-the-course",
    "alternate": "plan/alternate/",
    "path from above": "intercept/vertical/",
    "expired": "plan/currency/",
}
# What crews say happened -> the entry that explains it, on one of the first three pages found.
HAPPENED = {
    "no glidepath on final": "final/#vertical-lost-inside-pfaf",
    "autopilot did not capture": "final/#nothing-captured-at-pfaf",
    "approach would not arm": "now/nothing-armed/",
    "wrong QNH": "final/altimeter/#altimeter-setting-slip",
    "baro setting wrong": "final/altimeter/#altimeter-setting-slip",
    "lost gps signal": "modes/loss/#guidance-vanished",
    "ILS frequency left in": "set-up/localizer/#localizer-inhibits-sbas",
    "forgot to set the minimums": "decide/minimum/#minimum-never-called",
    "sank below minimums": "decide/minimum/#minimum-never-called",
    "flight director disappeared": "modes/loss/#guidance-vanished",
    "needle jumped": "final/deviation/#deviation-jumps-before-pfaf",
    "spoofing": "plan/unavailable/#all-flagged",
    "overshot the localizer": "intercept/lateral/#through-the-course",
    "we busted the altitude": "intercept/vertical/#altitude-not-captured",
    "was too fast at the FAF": "intercept/configuration/#fast-at-pfaf",
    "LPV downgraded to LNAV": "plan/unavailable/#lpv-planned-lnav-announced",
    "lost the runway in cloud": "decide/#references-lost",
    "FMS didn't sequence": "decide/missed/#guidance-did-not-sequence",
    "FMS didn\u2019t sequence": "decide/missed/#guidance-did-not-sequence",
    "false glideslope": "intercept/vertical/#false-path",
    "autopilot kept descending": "modes/loss/#descends-without-path",
    "wrong channel": "verify/identity/#channel-other-approach",
    "turned the wrong way": "intercept/arming/#armed-flying-away",
    "NO GLIDEPATH ON FINAL": "final/#vertical-lost-inside-pfaf",
    "IN-04": "intercept/arming/#armed-far-out",
}
FIRST_OF_THESE = 3
# What a crew types -> the page that must be found first, or one of those.
FIRST_HIT = {
    "VSI": "final/rate/",
    "vertical speed": "final/rate/",
    "V/S": "final/rate/",
    "sink rate": "final/rate/",
    "descent rate": "final/rate/",
    "feet per minute": "final/rate/",
    "fpm": "final/rate/",
    "ground speed": "final/rate/",
    "tailwind": "final/rate/",
    "GS": ("intercept/vertical/", "final/rate/"),
    "glideslope intercept": "intercept/vertical/",
    "above the glideslope": "intercept/vertical/",
    "slam dunk": "intercept/vertical/",
    "TOGA": "decide/missed/",
    "go around": "decide/missed/",
    "go-around": "decide/missed/",
    "missed approach": "decide/missed/",
    "balked landing": "decide/missed/",
    "climb gradient": "decide/missed/",
    "engine failure": "decide/missed/",
    "single engine": "decide/missed/",
    "crosswind": "intercept/lateral/",
    "overshoot": "intercept/lateral/",
    "intercept angle": "intercept/lateral/",
    "vectors to final": "intercept/lateral/",
    "VDP": "plan/minima/",
    "circling": "plan/minima/",
    "LNAV+V": "final/advisory/",
    "advisory glidepath": "final/advisory/",
    "approach category": "plan/minima/",
    "PAPI": "decide/see/",
    "RVR": "decide/see/",
    "RVR to miles": "decide/see/",
    "approach lights": "decide/see/",
    "runway in sight": "decide/see/",
    "VASI": "decide/see/",
    "visibility": "decide/see/",
    "miscompare": "now/sides-disagree/",
    "sides disagree": "now/sides-disagree/",
    "comparator": "now/sides-disagree/",
    "power down": "after-landing/",
    "shutdown": "after-landing/",
    "next crew": "after-landing/",
    "after landing": "after-landing/",
    "data cycle": "plan/currency/",
    "AIRAC": "plan/currency/",
    "database date": ("plan/currency/", "now/data-expired/"),
    "expired database": ("now/data-expired/", "plan/currency/"),
    "data expired": "now/data-expired/",
    "DA or MDA": "decide/minimum/",
    "minimums": "decide/minimum/",
    "decision altitude": "decide/minimum/",
    "MDA": "decide/minimum/",
    "minimums bug": "decide/minimum/",
    "DDA": "decide/minimum/",
    "stabilized": "final/gates/",
    "stabilised": "final/gates/",
    "stabilized approach": "final/gates/",
    "unstable": "final/gates/",
    "FAF": "final/",
    "final approach fix": "final/",
    "altimeter check": "final/altimeter/",
    "QNH": "final/altimeter/",
    "altimeter setting": "final/altimeter/",
    "annunciation": "modes/",
    "annunciator": "modes/",
    "autopilot": "modes/",
    "flight director": "modes/",
    "mode confusion": "modes/",
    "ILS difference": "reference/not-an-ils/",
    "LPV vs ILS": "reference/not-an-ils/",
    "difference between LPV and ILS": "reference/not-an-ils/",
    "is LPV a precision approach": "reference/not-an-ils/",
    "LPV gone": "now/lpv-gone/",
    "lost LPV": ("now/lpv-gone/", "modes/loss/", "plan/unavailable/"),
    "wrong source": ("now/wrong-source/", "modes/wrong-source/"),
    "nav source": "now/wrong-source/",
    "nothing armed": "now/nothing-armed/",
    "won't arm": ("now/nothing-armed/", "intercept/arming/"),
    "one dot": ("now/one-dot/", "final/deviation/"),
    "went around": "now/went-around/",
    "next is an ILS": "now/next-is-an-ils/",
    "when to arm": "intercept/arming/",
    "arm the approach": "intercept/arming/",
    "approach button": "intercept/arming/",
    "flaps": "intercept/configuration/",
    "gear": "intercept/configuration/",
    "Vref": "intercept/configuration/",
    "speed brakes": "intercept/configuration/",
    "dots": "final/deviation/",
    "full scale": "final/deviation/",
    "CDI": "final/deviation/",
    "dots at 4 NM": "final/deviation/",
    "loss of guidance": "modes/loss/",
    "jamming": "modes/loss/",
    "GPS failure": "modes/loss/",
    "glideslope flag": "modes/loss/",
    "channel": "verify/identity/",
    "WAAS channel": "verify/identity/",
    "where is the channel": "verify/identity/",
    "reference path identifier": "verify/identity/",
    "CRC": "verify/data-block/",
    "final course": "verify/course/",
    "magnetic variation": "verify/course/",
    "TCH": "verify/path/",
    "threshold crossing height": "verify/path/",
    "glidepath angle": "verify/path/",
    "step-down": "verify/fixes/",
    "IAF": "verify/fixes/",
    "snowflake": "plan/temperature/",
    "cold temperature": "plan/temperature/",
    "NOTAM": "plan/notices/",
    "alternate": "plan/alternate/",
    "alternate minimums": "plan/alternate/",
    "no LPV": "plan/unavailable/",
    "RAIM": "plan/integrity/",
    "HPL": "plan/integrity/",
    "protection level": "plan/integrity/",
    "localizer": "set-up/localizer/",
    "ILS frequency": "set-up/localizer/",
    "set up": "set-up/",
    "briefing": ("approaches/", "set-up/"),
    "rearm": "modes/rearm/",
    "glossary": "reference/glossary/",
    "offline": "reference/offline/",
    "quiz": "practice/",
    "calculator": "calculate/",
    "GPX": "debrief/own/",
    "vertical before lateral": "intercept/vertical-first/",
    "glidepath before localizer": "intercept/vertical-first/",
    "simulator": ("practice/", "modes/scenarios/"),
    "glideslope": ("intercept/vertical/", "intercept/vertical-first/"),
    "sequencing": "decide/missed/",
    "wrong course": "verify/course/",
    "wrong approach": "verify/identity/",
    "fog": "decide/see/",
    "solar storm": "plan/integrity/",
    "headwind": "final/rate/",
    "install app": "reference/offline/",
    "checklist": ("tasks/", "set-up/"),
    "winter": ("plan/temperature/", "now/cold/"),
    "HSI": "final/deviation/",
    "ILS after LPV": ("now/next-is-an-ils/", "reference/not-an-ils/"),
    "lost glidepath inside FAF": "now/lpv-gone/",
    "statute miles": "decide/see/",
    "radio altimeter": ("final/altimeter/", "decide/minimum/"),
    "FMA": "modes/",
    "needles dead": ("now/lpv-gone/", "modes/loss/"),
    "gs flag": "modes/loss/",
    "ils freq still in": "set-up/localizer/",
    "localiser": "set-up/localizer/",
    "why no lpv today": "plan/unavailable/",
    "loa": "plan/minima/",
    "missed early turn": "decide/missed/",
    "how many feet is one dot": ("final/deviation/", "now/one-dot/"),
    "too hot": "plan/temperature/",
    "magenta": ("modes/", "modes/wrong-source/"),
    "cdi button": "modes/wrong-source/",
    "fd bars gone": "modes/loss/",
    "no vertical guidance": "modes/loss/",
    "pdop": "plan/sky/",
    "database wrong": "verify/",
    "where do i find the channel": "verify/identity/",
    "direct to faf": "intercept/lateral/",
    "kept high by atc": "intercept/vertical/",
    "too fast": ("intercept/configuration/", "final/gates/"),
    "what cycle is it": "plan/currency/",
    "after we land": "after-landing/",
    "is lpv like ils": "reference/not-an-ils/",
    "lesson plan": "teach/",
    "checkride": ("teach/", "practice/"),
    "eye height": "decide/see/",
    "side step": "plan/minima/",
    "gpws": "final/gates/",
    "vtf": "intercept/lateral/",
}
# Each query put to the theme's own worker, which says "Invalid query" where its index has come out broken.
ASK = """async ([worker, index, queries]) => {
  const asked = new Worker(worker);
  const ask = (message) => new Promise((resolve) => {
    asked.onmessage = ({ data }) => resolve(data);
    asked.postMessage(message);
  });
  await ask({ type: 0, data: { ...index, options: { suggest: false } } });
  const found = [];
  for (const query of queries) found.push((await ask({ type: 2, data: query })).data.items.length);
  return found;
}"""
LINKS = """(items, first) => items.slice(0, first).map((item) =>
  [...item.querySelectorAll("a")].map((link) => link.href))"""


@pytest.fixture(scope="module")
def search(browser, address):
    """A page whose search is open; gives the links found for words typed, one list for each page found."""
    context = browser.new_context(
        viewport={"width": 360, "height": 740}, reduced_motion="reduce", service_workers="block")
    page = context.new_page()
    page.set_default_timeout(10_000)
    page.goto(address)
    page.locator("label[for=__search]").first.click()
    box, told = page.locator(".md-search__input"), page.locator(".md-search-result__meta")

    def found(words):
        box.fill("")
        box.press("Backspace")
        expect(told).to_have_text("Type to start searching")
        box.fill(words)
        box.press("Shift")
        expect(told).to_have_text(re.compile("matching document"))
        links = page.locator(".md-search-result__item").evaluate_all(LINKS, FIRST)
        return [[link.removeprefix(address) for link in item] for item in links], told.inner_text()

    yield found
    context.close()


@pytest.mark.parametrize(("words", "answer"), ANSWERS.items(), ids=ANSWERS)
def test_the_answer_is_among_the_first(search, words, answer):
    found, told = search(words)
    flat = [link for item in found for link in item]
    assert answer in flat, f"{told}: {flat}"


@pytest.mark.parametrize(("words", "entry"), HAPPENED.items(), ids=HAPPENED)
def test_what_happened_is_among_the_first_three(search, words, entry):
    found, told = search(words)
    flat = [link for item in found[:FIRST_OF_THESE] for link in item]
    assert entry in flat, f"{told}: {flat}"


@pytest.mark.parametrize(("words", "pages"), FIRST_HIT.items(), ids=FIRST_HIT)
def test_the_right_page_comes_first(search, words, pages):
    found, told = search(words)
    assert found, f"{words!r}: {told}"
    assert found[0][0].partition("#")[0] in ((pages,) if isinstance(pages, str) else pages), found


@pytest.mark.parametrize(
    ("words", "first"),
    [("99902", "approaches/zzhc-rnav-33/"), ("W09A", "approaches/zzak-rnav-09/"), ("ZZHC", "approaches/zzhc-rnav-33/")],
)
def test_an_approach_is_found_by_what_identifies_it(search, words, first):
    found, _ = search(words)
    assert first in found[0]


@pytest.mark.parametrize("words", ["qqxyzzy", "not", "did not"])
def test_what_is_nowhere_finds_nothing(search, words):
    found, told = search(words)
    assert found == []
    assert told == "No matching documents"


def test_no_beginning_of_a_word_breaks_the_search(browser, site, address):
    """The theme's index joins endings that words share, and once joined two that differ: "da" found nothing.

    Which words those are changes with any text of the handbook, so all beginnings of two and three letters are tried.
    """
    index = json.loads((site / "search" / "search_index.json").read_text("utf-8"))
    texts = [re.sub(r"<[^>]+>", " ", " ".join(map(str, entry.values()))) for entry in index["docs"]]
    words = {word for text in texts for word in re.findall(r"[a-z]{2,}", text.lower())}
    beginnings = sorted({word[:length] for word in words for length in (2, 3)})
    worker = next((site / "assets" / "javascripts" / "workers").glob("search.*.js"))
    page, said = browser.new_page(service_workers="block"), []
    page.on("console", lambda message: said.append(message.text) if "Invalid query" in message.text else None)
    page.goto(address)
    found = page.evaluate(ASK, [address + worker.relative_to(site).as_posix(), index, beginnings])
    page.close()
    assert said == []
    assert sum(map(bool, found)) > len(beginnings) / 2


def test_enter_opens_the_first(browser, address):
    page = browser.new_page(service_workers="block")
    page.goto(address)
    page.keyboard.press("/")
    page.keyboard.type("guidance vanished")
    page.locator(".md-search-result__link").first.wait_for()
    page.keyboard.press("Enter")
    page.wait_for_url("**/modes/loss/**")
    page.close()
