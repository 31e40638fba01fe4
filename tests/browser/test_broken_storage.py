"""Broken values in the browser's own storage: no script stops on them, and the page is as without them."""

import json

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser
BROKEN = ["{", "null", "5", '"text"', '{"a":1}', "[null]", "[[1,2]]", '[["approach"]]', '{"color":null}', '{"color":5}']
# Everything that a script asks the storage for holds the value, whatever its key.
ANSWER = """(() => {
  const set = new Map();
  Storage.prototype.getItem = function (key) { return set.has(key) ? set.get(key) : %s; };
  Storage.prototype.setItem = function (key, value) { set.set(key, String(value)); };
  Storage.prototype.removeItem = function (key) { set.delete(key); };
})()"""
PLACES = {"": "h1", "set-up/check/": ".hb-setup", "final/rate/": "[data-calculator]", "practice/drill-1/": "h1",
          "debrief/flights/": "h1", "reference/offline/": ".hb-keep-state"}


@pytest.mark.parametrize("value", BROKEN)
def test_no_script_stops_on_a_broken_value(phone_page, value):
    phone_page.add_init_script(ANSWER % json.dumps(value))
    for place, box in PLACES.items():
        phone_page.goto(phone_page.root + place)
        expect(phone_page.locator(box).first).to_be_visible()
        assert phone_page.locator("body").get_attribute("data-md-color-media"), "colours follow the device"


@pytest.mark.parametrize("value", BROKEN[:6])
def test_forms_open_with_their_own_figures(phone_page, value):
    phone_page.add_init_script(ANSWER % json.dumps(value))
    phone_page.goto(phone_page.root + "final/rate/#own-descent-rate")
    expect(phone_page.locator("#own-descent-rate fieldset")).to_be_enabled()
    expect(phone_page.locator("#own-descent-rate .hb-sentence")).to_contain_text("ft/min")
