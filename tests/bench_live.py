"""How fast live figures answer, and what they cost to bring: printed, never asserted.

`python tests/bench_live.py SITE` measures a built site in Chromium with the CPU slowed four times, as a phone is: from
the tap to the first own drawing with nothing kept, and each redraw from the move of a dial until the page is laid out.
"""

import gzip
import os
import random
import re
import statistics
import sys
from pathlib import Path

from lpv.figures.run import names
from lpv_site.forms import phone
from support import Compressing, chromium, html_pages, served

SLOWED, MOVES, FIRSTS = 4, 25, 5
FIRST = """async (name) => {
  const box = document.getElementById("own-" + name), begun = performance.now();
  box.open = true;
  while (box.querySelector("fieldset").disabled) await new Promise(requestAnimationFrame);
  box.closest("figure").getBoundingClientRect();
  return performance.now() - begun;
}"""
REDRAWS = """async ([name, moves]) => {
  const figure = document.getElementById(name), found = [];
  for (const [key, part] of moves) {
    const field = figure.querySelector(`[name=${key}]`);
    if (field.type === "range") field.value = Number(field.min) + part * (field.max - field.min);
    else field.selectedIndex = Math.floor(part * field.options.length);
    const before = figure.querySelector("svg"), begun = performance.now();
    field.dispatchEvent(new Event("input", { bubbles: true }));
    while (figure.querySelector("svg") === before) await new Promise(requestAnimationFrame);
    figure.getBoundingClientRect();
    found.push(performance.now() - begun);
  }
  return found;
}"""


def kilobytes(data: bytes) -> float:
    return len(gzip.compress(data, 9)) / 1000.0


def bytes_brought(site: Path) -> None:
    files = [phone.runtime("js"), phone.runtime("wasm"), phone.code("figures")[0], "assets/live.js"]
    sizes = {name: kilobytes((site / name).read_bytes()) for name in files}
    for name, size in sizes.items():
        print(f"{size:8.1f} kB gzip  {name}")
    print(f"{sum(sizes.values()):8.1f} kB gzip  the first figure in all; each further one brings nothing more")


def places(site: Path) -> dict[str, str]:
    """Figure -> the address of its page."""
    return {
        live: page.removesuffix("index.html") for page in html_pages(site)
        for live in re.findall(r' data-live="([a-z0-9-]+)"', (site / page).read_text("utf-8"))
    }


def opened(browser, address: str, name: str):
    """A page with nothing kept, slowed, and the time from the tap to the first own drawing."""
    context = browser.new_context(viewport={"width": 360, "height": 740}, service_workers="block")
    page = context.new_page()
    page.goto(address)
    context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
    return context, page, page.evaluate(FIRST, name)


def measured(browser, address: str, name: str) -> tuple[list[float], list[float]]:
    """The first drawing, several times, each in a browser that has nothing; and redraws of the last one."""
    firsts = []
    for _ in range(FIRSTS - 1):
        context, _, first = opened(browser, address, name)
        firsts.append(first)
        context.close()
    context, page, first = opened(browser, address, name)
    source = random.Random(name)
    keys = page.eval_on_selector_all(f"#{name} .hb-dial [name]:not([type=hidden])", "all => all.map((e) => e.name)")
    redraws = page.evaluate(REDRAWS, [name, [[source.choice(keys), source.random()] for _ in range(MOVES)]])
    context.close()
    return [*firsts, first], redraws


def main(site: Path) -> None:
    from playwright.sync_api import sync_playwright

    bytes_brought(site)
    print(f"\nCPU slowed {SLOWED} times, {os.getloadavg()[0]:.1f} waiting for {os.cpu_count()} processors, ms:")
    print(f"the first drawing, median and best of {FIRSTS}; {MOVES} redraws: median, nine in ten, longest")
    all_firsts = []
    with sync_playwright() as playwright, served(site, Compressing) as address:
        browser = playwright.chromium.launch(executable_path=chromium(whole=True), args=["--no-sandbox"])
        for name, page in places(site).items():
            firsts, times_ms = measured(browser, address + page, name)
            all_firsts += firsts
            ordered = sorted(times_ms)
            redraws = statistics.median(times_ms), ordered[int(0.9 * MOVES)], ordered[-1]
            times = statistics.median(firsts), min(firsts), *redraws
            print(f"{name:20}", *(f"{each:7.0f}" for each in times))
        print(f"the first drawing of all, median: {statistics.median(all_firsts):.0f} ms")
        browser.close()
    assert len(places(site)) == len(names()), "a figure is on no page"


if __name__ == "__main__":
    main(Path(sys.argv[1]))
