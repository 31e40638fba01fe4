"""What axe finds on a page, in both themes: what colour has no part in is asked once."""

from typing import Any

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

ALL_RULES = {
    "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    "resultTypes": ["violations"],
}
COLOUR_RULES = {"runOnly": ["color-contrast", "link-in-text-block"], "resultTypes": ["violations"]}
# Those that depend on where things come to lie; they take as long as all others together.
LAYOUT_RULES = ("target-size", "scrollable-region-focusable")
SCHEMES = {"light": "default", "dark": "slate"}


def without(rules: tuple[str, ...] | list[str]) -> dict[str, Any]:
    """All rules but these."""
    return {**ALL_RULES, "rules": {rule: {"enabled": False} for rule in rules}}


OTHER_RULES = without(COLOUR_RULES["runOnly"])
TEXT_RULES = without([*COLOUR_RULES["runOnly"], *LAYOUT_RULES])


def axe_faults(page: Page, options: dict[str, Any] = ALL_RULES, within: str | None = None) -> list[str]:
    """What axe finds on a page as it is now, or in a part of it, in words."""
    return [
        f"{violation['id']} ({violation['impact']}) {[node['target'] for node in violation['nodes']][:3]}"
        for violation in Axe().run(page, context=within, options=options).response["violations"]
    ]


def show(page: Page, scheme: str) -> None:
    """Let the device change to a theme, and the open page follow it."""
    page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
    expect(page.locator("body")).to_have_attribute("data-md-color-scheme", SCHEMES[scheme])


def faults_in_both_themes(page: Page, within: str | None = None) -> list[str]:
    """All rules in the light theme, those on colour in the dark one; the page is left in the light theme."""
    show(page, "dark")
    faults = [f"dark: {fault}" for fault in axe_faults(page, COLOUR_RULES, within)]
    show(page, "light")
    return faults + axe_faults(page, ALL_RULES, within)
