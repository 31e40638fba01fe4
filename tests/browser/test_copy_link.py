"""What stands beside a heading copies its short address, with permission or without; the address leads there."""

import json

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser
ENTRY = "modes/wrong-source/#deviation-was-the-ils"
SHORT = "r/mo-11/"
NO_CLIPBOARD = "Object.defineProperty(navigator, 'clipboard', { value: undefined })"
REFUSED = "navigator.clipboard.writeText = () => Promise.reject(new DOMException('no', 'NotAllowedError'))"
NO_COMMAND = "document.execCommand = () => false"
SELECTED = "((box) => box.value.slice(box.selectionStart, box.selectionEnd))(document.activeElement)"
KEPT = "document.addEventListener('copy', () => { window.kept = String(document.activeElement.value); })"


@pytest.fixture
def opened(browser, address):
    """Opens an address with scripts run first and permissions given."""
    contexts = []

    def open_page(path, *scripts, permissions=()):
        context = browser.new_context(viewport={"width": 360, "height": 740}, permissions=list(permissions))
        contexts.append(context)
        page = context.new_page()
        page.errors = []
        page.on("pageerror", lambda error: page.errors.append(str(error)))
        for script in scripts:
            page.add_init_script(script)
        page.goto(address + path)
        return page

    yield open_page
    for context in contexts:
        context.close()


def press(page, heading="deviation-was-the-ils"):
    page.locator(f"#{heading} button.hb-code").click()


def test_copies_short_heading_address(opened, address):
    page = opened("modes/wrong-source/", permissions=["clipboard-read", "clipboard-write"])
    press(page)
    expect(page.locator(".hb-copied")).to_have_text("Link copied.")
    assert page.evaluate("navigator.clipboard.readText()") == address + SHORT
    assert not page.errors


@pytest.mark.parametrize("scripts", [(NO_CLIPBOARD, KEPT), (REFUSED, KEPT)], ids=["no clipboard", "refused"])
def test_copies_older_way_without_permission(opened, address, scripts):
    page = opened("modes/wrong-source/", *scripts)
    press(page)
    expect(page.locator(".hb-copied")).to_have_text("Link copied.")
    assert page.evaluate("window.kept") == address + SHORT
    assert not page.errors


def test_link_selected_when_copying_not_allowed(opened, address):
    page = opened("modes/wrong-source/", NO_CLIPBOARD, NO_COMMAND)
    press(page)
    box = page.get_by_role("textbox", name="Link to copy")
    assert box.input_value() == address + SHORT
    assert page.evaluate(SELECTED) == address + SHORT
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    assert not page.errors


def test_index_copies_link_to_target(opened, address):
    page = opened("debrief/", NO_CLIPBOARD, NO_COMMAND)
    line = page.locator("li:has(> #mo-11), li:has(#mo-11)").last
    line.locator("button.hb-code").click()
    assert page.get_by_role("textbox", name="Link to copy").input_value() == address + SHORT


def test_works_by_keyboard_and_announces_action(opened):
    page = opened("modes/wrong-source/", NO_CLIPBOARD, NO_COMMAND)
    button = page.locator("#deviation-was-the-ils button.hb-code")
    code = button.inner_text()
    assert button.get_attribute("aria-label") == f"{code}: copy the link"
    button.press("Enter")
    assert page.get_by_role("status").locator("input").count() == 1
    size = button.bounding_box()
    assert min(size["width"], size["height"]) >= 24


def test_code_changes_neither_id_nor_contents(opened):
    page = opened("modes/wrong-source/")
    heading = page.locator("h3#deviation-was-the-ils")
    assert heading.count() == 1
    assert heading.inner_text().startswith("The deviation was the ILS's")
    words = page.locator('.md-nav--secondary a[href$="#deviation-was-the-ils"]').first.text_content()
    assert words.strip() == "The deviation was the ILS's"


def test_code_is_plain_text_without_scripts(browser, address):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(address + "modes/wrong-source/")
    code = page.locator("#deviation-was-the-ils .hb-code")
    assert code.inner_text().startswith("MO-")
    assert code.evaluate("element => element.tagName") == "SPAN"
    context.close()


def test_any_heading_copies_short_address(opened, address, site):
    page = opened("modes/wrong-source/", permissions=["clipboard-read", "clipboard-write"])
    page.locator("h2#do .headerlink").click()
    expect(page.locator(".hb-copied")).to_have_text("Link copied.")
    copied = page.evaluate("navigator.clipboard.readText()")
    assert page.url == address + "modes/wrong-source/#do"
    assert copied == f"{address}r/{page.locator('h2#do').get_attribute('data-r')}/"
    page.goto(copied)
    expect(page).to_have_url(address + "modes/wrong-source/#do")


@pytest.mark.parametrize("scripts", [True, False])
def test_short_address_leads_to_place(browser, address, scripts):
    context = browser.new_context(java_script_enabled=scripts)
    page = context.new_page()
    page.goto(address + SHORT)
    expect(page).to_have_url(address + ENTRY)
    context.close()


def test_every_short_address_leads_to_existing_place(site):
    listed = json.loads((site / "assets" / "short.json").read_text("utf-8"))
    assert len(listed) > 500
    assert {path.parent.name for path in site.glob("r/*/index.html")} == set(listed)
    for code, place in listed.items():
        assert "Content-Security-Policy" in (site / "r" / code / "index.html").read_text("utf-8")
        folder, _, part = place.partition("#")
        assert f'id="{part}"' in (site / folder / "index.html").read_text("utf-8"), code


def test_typed_code_leads_to_same_place(opened, address):
    page = opened("r/MO-11/")
    expect(page).to_have_url(address + ENTRY)


def test_chat_shows_place_name(opened, address):
    page = opened("modes/wrong-source/")
    text = page.evaluate("fetch('../../r/mo-11/').then((answer) => answer.text())")
    assert "<title>The deviation was the ILS&#x27;s · " in text
    assert 'property="og:title" content="The deviation was the ILS&#x27;s · ' in text
