"""What a pilot types, in a real Chromium: the page that answers is among the first found."""

import json
import re
import tomllib
from pathlib import Path

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
PHRASES = tomllib.loads(Path(__file__).with_name("phrases.toml").read_text("utf-8"))
# Each query put to the theme's own worker, which says "Invalid query" where its index has come out broken.
ASK = """async ([worker, index, queries]) => {
  const asked = new Worker(worker);
  const ask = (message) => new Promise((resolve) => {
    asked.onmessage = ({ data }) => resolve(data);
    asked.postMessage(message);
  });
  await ask({ type: 0, data: { ...index, options: { suggest: false } } });
  const found = [];
  for (const query of queries) found.push((await ask({ type: 2, data: query })).data.items.slice(0, 3).map(
    (item) => item.map((place) => place.location)));
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
    box, message = page.locator(".md-search__input"), page.locator(".md-search-result__meta")

    def results_for(words):
        box.fill("")
        box.press("Backspace")
        expect(message).to_have_text("Type to start searching")
        box.fill(words)
        box.press("Shift")
        expect(message).to_have_text(re.compile("matching document"))
        links = page.locator(".md-search-result__item").evaluate_all(LINKS, FIRST)
        return [[link.removeprefix(address) for link in item] for item in links], message.inner_text()

    yield results_for
    context.close()


@pytest.mark.parametrize(("words", "answer"), ANSWERS.items(), ids=ANSWERS)
def test_answer_among_first(search, words, answer):
    results, message = search(words)
    flat = [link for item in results for link in item]
    assert answer in flat, f"{message}: {flat}"


@pytest.fixture(scope="module")
def ask(browser, site, address):
    """The theme's own search without its box: the places found first for each of many phrases, in one go."""
    index = json.loads((site / "search" / "search_index.json").read_text("utf-8"))
    worker = next((site / "assets" / "javascripts" / "workers").glob("search.*.js")).relative_to(site).as_posix()
    page = browser.new_page(service_workers="block")
    invalid = []
    page.on("console", lambda message: invalid.append(message.text) if "Invalid query" in message.text else None)
    page.goto(address)
    yield lambda phrases: (page.evaluate(ASK, [address + worker, index, phrases]), invalid)
    page.close()


def test_right_page_first(ask):
    listed = PHRASES["first"]
    results, _ = ask(list(listed))
    wrong = {words: [item[0] for item in items] for (words, pages), items in zip(listed.items(), results, strict=True)
             if not items or items[0][0].partition("#")[0] not in pages}
    assert len(listed) > 500
    assert wrong == {}


def test_event_among_first_three(ask):
    listed = PHRASES["happened"]
    results, _ = ask(list(listed))
    assert {words: items for (words, entry), items in zip(listed.items(), results, strict=True)
            if entry not in [place for item in items for place in item]} == {}


@pytest.mark.parametrize(
    ("words", "first"),
    [("99902", "approaches/zzhc-rnav-33/"), ("W09A", "approaches/zzak-rnav-09/"), ("ZZHC", "approaches/zzhc-rnav-33/")],
)
def test_approach_found_by_its_identifiers(search, words, first):
    results, _ = search(words)
    assert first in results[0]


@pytest.mark.parametrize("words", ["qqxyzzy", "not", "did not"])
def test_unknown_words_find_nothing(search, words):
    results, message = search(words)
    assert results == []
    assert message == "No matching documents"


def test_partial_words_never_break_search(ask, site):
    """The theme's index joins endings that words share, and once joined two that differ: "da" found nothing.

    Which words those were changed with any text of the handbook, so all beginnings of up to three signs are tried.
    """
    index = json.loads((site / "search" / "search_index.json").read_text("utf-8"))
    texts = [re.sub(r"<[^>]+>", " ", " ".join(map(str, entry.values()))) for entry in index["docs"]]
    words = {word for text in texts for word in re.findall(r"[a-z0-9]+", text.lower())}
    beginnings = sorted({word[:length] for word in words for length in (1, 2, 3)})
    results, invalid = ask(beginnings)
    assert invalid == []
    assert sum(map(bool, results)) > len(beginnings) / 2


def test_enter_opens_first_result(browser, address):
    page = browser.new_page(service_workers="block")
    page.goto(address)
    page.keyboard.press("/")
    page.keyboard.type("guidance vanished")
    page.locator(".md-search-result__link").first.wait_for()
    page.keyboard.press("Enter")
    page.wait_for_url("**/modes/loss/**")
    page.close()
