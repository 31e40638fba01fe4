"""What axe finds on a page, in both themes: what colour has no part in is asked once."""

from typing import Any

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

ALL_RULES = {
    "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    "resultTypes": ["violations"],
}
COLOUR_RULES = {"runOnly": ["color-contrast", "link-in-text-block"], "resultTypes": ["violations"]}
SCHEMES = {"light": "default", "dark": "slate"}


def without(rules: tuple[str, ...] | list[str]) -> dict[str, Any]:
    """All rules but these."""
    return {**ALL_RULES, "rules": {rule: {"enabled": False} for rule in rules}}


# Those on what a page says rather than on how it is made: they may fail on one of many pages of the same elements.
CONTENT_RULES = {**ALL_RULES, "runOnly": {"type": "rule", "values": [
    "aria-valid-attr-value", "button-name", "definition-list", "dlitem", "document-title", "duplicate-id-aria",
    "empty-heading", "empty-table-header", "heading-order", "image-alt", "label", "landmark-one-main", "link-name",
    "list", "page-has-heading-one", "select-name", "summary-name", "svg-img-alt", "table-duplicate-name",
    "td-headers-attr", "th-has-data-cells"]}}
OTHER_RULES = without(COLOUR_RULES["runOnly"])


# The violations alone: what holds is a long list, and takes as long to come over as the rules take to run.
RUN = """async ([within, options]) => (await axe.run(within ?? document, options)).violations.map(
    ({ id, impact, nodes }) => [id, impact, nodes.slice(0, 3).map((node) => node.target)])"""


def axe_faults(page: Page, options: dict[str, Any] = ALL_RULES, within: str | None = None) -> list[str]:
    """What axe finds on a page as it is now, or in a part of it, in words."""
    if not page.evaluate("'axe' in window"):
        page.evaluate(Axe().axe_script)
    return [f"{rule} ({impact}) {targets}" for rule, impact, targets in page.evaluate(RUN, [within, options])]


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
