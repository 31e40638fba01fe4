"""Whatever stands in the browser's storage, and where there is none: no script stops, and every form begins."""

import json

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser
DRILLS = "\n".join(f"drill-0{number}\t{points}\t0\t0\t0\t{own}" for number, points, own in (
    (1, 2, "5"), (2, 1, "null"), (3, 2, '{"marked": 5, "rule": {"a": 1}}'), (4, -7, "[[]]"), (5, 1e9, '"<b>"')))
# What a page may find under any of its keys: half of something, another type, what another program wrote, lines that
# are almost right, markup; None for a storage that answers nothing.
FOUND = ("{<b>", "[null, 1, [1, 2], {}]", '{"color": 5, "Elapsed;Lat;Lon;Up": [["time_s", 1]]}',
         f"{DRILLS}\ndrill-999\tx\n\t\t\t\t\t", "1 2 99999 -1 1e99 NaN", None)
STORED = """(found) => {
  const asked = [];
  Object.defineProperty(window, "askedFor", { get: () => asked });
  const written = new Map();
  Storage.prototype.getItem = (key) => {
    asked.push(key);
    if (found === null) throw new DOMException("denied", "SecurityError");
    return written.get(key) ?? found;
  };
  Storage.prototype.setItem = (key, text) => {
    if (found === null) throw new DOMException("full", "QuotaExceededError");
    written.set(key, String(text));
  };
}"""
FOR_FORMS = FOUND[1:3] + FOUND[-1:]  # what is nearly right, and nothing: a form takes a second to begin
# Pages that between them ask for every key there is, with what can be used on each whatever was found.
PAGES = {
    "practice/plain/": "main button",
    "final/rate/#own-descent-rate": "#own-descent-rate fieldset",
    "teach/initial/": ".hb-projector button",
    "debrief/own/#own-flight": "#own-flight .hb-file",
}
KEYS = {"drills", "session", "calculator", "last", "columns", "projector", "__palette"}
TABLE = {"name": "a.csv", "mimeType": "text/plain", "buffer": b"Elapsed;Lat;Lon;Up\n1;2;3;4\n"}


def test_scripts_survive_broken_or_missing_storage(browser, address):
    asked, faults = set(), []
    for stored in FOUND:
        context = browser.new_context(viewport={"width": 360, "height": 740}, service_workers="block")
        context.add_init_script(f"({STORED})({json.dumps(stored)})")
        page = context.new_page()
        page.on("pageerror", lambda error, page=page, stored=stored: faults.append((page.url, stored, str(error))))
        for place, usable in PAGES.items():
            if "#" in place and stored not in FOR_FORMS:
                continue
            page.goto(address + place)
            expect(page.locator(usable).first).to_be_visible(timeout=20_000)
            expect(page.locator(usable).first).to_be_enabled(timeout=20_000)
            if place == "practice/plain/":
                drill = page.locator("form.hb-try").last
                drill.locator(".hb-nothing input").check()
                drill.get_by_role("button", name="Show the answer").click()
                expect(drill.locator(".hb-result")).to_contain_text("points")
            if "own-flight" in place:
                page.locator(usable).set_input_files(TABLE)
                expect(page.locator("#own-flight .hb-columns")).to_be_visible(timeout=20_000)
            asked |= set(page.evaluate("window.askedFor"))
        context.close()
    assert faults == []
    assert {key for key in KEYS if any(key in each for each in asked)} == KEYS
