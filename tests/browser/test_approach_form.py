"""The form of an approach file in a real Chromium: what it saves and finds is what the command line reads and finds."""

import json

import pytest
from playwright.sync_api import expect

from accessible import faults_in_both_themes
from lpv.approach import record
from lpv.compose import form
from lpv.core.errors import NotOnThisDevice
from lpv.core.text import capitalized
from lpv.crosscheck.check import main as crosscheck_main
from lpv_site.forms.approach_form import BOX, paths
from lpv_site.forms.setup_figures import LIST
from phone_pages import addresses, write_bare
from support import ROOT, opened_twice, served, until_kept, with_hash

pytestmark = pytest.mark.browser
PLACE = "reference/write/"
STORE = "handbook {} approach file"
FILES = [*sorted((ROOT / "docs" / "approaches").glob("*.toml")),
         *sorted((ROOT / "tests" / "mismatches").rglob("*.toml"))]
ASK = """async ([addresses, texts, day]) => {
  const call = await handbookPython(addresses);
  return texts.map((text) => {
    const opened = JSON.parse(call("lpv.compose.form", "opened", text));
    if (opened.error) return [opened];
    const entries = JSON.stringify(opened.entries);
    return [opened, JSON.parse(call("lpv.compose.form", "run", entries, opened.carried, "zzak", day))];
  });
}"""
DAY = "2026-12-01"
SMALL = f"""[...document.querySelectorAll("#{BOX} :is(input:not([type=checkbox]), select, button, summary, textarea)")]
  .filter((e) => e.checkVisibility())
  .filter((e) => e.getBoundingClientRect().height < 44 || e.getBoundingClientRect().width < 44)
  .map((e) => e.id || e.className)"""


HOSTILE = (
    ("[chart]", "[chart\n"), ("[chart]", "[chart]\nx = " + "[" * 9 + "]" * 9), ('"N34 09 48.94"', "89.9999"),
    ("Kittiwake", "\u202f\u00ad\u2028é\U0001F600"), ("displaced_threshold_ft = 0.0", "displaced_threshold_ft = 1e999"),
    ("variation_deg = 12", "variation_deg = -0.0"), ("tch_ft = 52", "tch_ft = nan"),
    ('cycle = "2612"', 'cycle = "2599"'),
    ("altitude_ft = 2000", "altitude_ft = 29000.05"), ('runway = "09"', 'runway = "27L"'), ("block = ", "blocks = "),
    ("[identity]", "a = 2026-02-30"), ("glidepath_deg = 3.0", "glidepath_deg = 8.9"),
    ('block = "000B', 'block = "0FFB'),
    ("altitude_ft = 224", "altitude_ft = -1500"), ("hat_ft = 200", "hat_ft = 4999.99"), ("2026-12-24", '"2026-12-24"'),
    ('"N34 01 15.96"', '"S34 01 15.96"'), ("course_deg = 92", "course_deg = 271.25"), ('"W148 09 30.26"', "32.0"),
    ("length_ft = 2400", "length_ft = 0"), ('text = "Climb', 'text = "Turn'), ('"magnetic"', '"true"'),
)  # each puts something into a file that is wrong, or at the end of a range


@pytest.fixture
def without_geoid(monkeypatch):
    """The cross-check as on a device without the table of the geoid."""
    def missing(_latitude_deg, _longitude_deg):
        raise NotOnThisDevice("This device has no table of the geoid.")
    monkeypatch.setattr("lpv.crosscheck.runway.geoid_height_m", missing)


def expected(text, day=DAY):
    opened = json.loads(form.opened(text))
    if "error" in opened:
        return [opened]
    return [opened, json.loads(form.run(json.dumps(opened["entries"]), opened["carried"], "zzak", day))]


def test_files_faults_and_findings_match_computer(browser, tmp_path, without_geoid):
    """In MicroPython under the policy of the site, without the page around it; numbers and texts to the last sign."""
    write_bare(tmp_path, "approach")
    texts = [path.read_text("utf-8") for path in FILES]
    wrong = texts[0].replace("course_deg = 92", 'course_deg = "x"')
    texts.append(wrong.replace("[chart]", "# lost\n[chart]\nelevation = 3"))
    texts.append(texts[0].replace("course_deg = 92", "course_deg = 92.123456789012345"))
    texts += [texts[0].replace(*each, 1) for each in HOSTILE]
    context = browser.new_context()
    with served(tmp_path) as here:
        page = context.new_page()
        page.goto(f"{here}below/")
        there = page.evaluate(ASK, [addresses("approach"), texts, DAY])
    context.close()
    for text, answer in zip(texts, there, strict=True):
        wanted = expected(text)
        assert ("error" in answer[0]) == ("error" in wanted[0])
        assert answer == wanted or "error" in answer[0], text[:200]  # the words of TOML's readers differ
    answers = [outcome[1] for outcome in there if len(outcome) > 1]
    assert sum(bool(answer["faults"]) for answer in answers) > 8
    assert sum(len(answer["findings"]) for answer in answers) > 1200


def ready(page):
    box = page.locator(f"#{BOX}")
    if box.get_attribute("open") is None:
        box.locator("summary").first.click()
    expect(box.locator("form > fieldset:not([disabled])")).to_be_attached(timeout=30_000)
    return box


def opened(page):
    page.goto(f"{page.root}{PLACE}")
    return ready(page)


def entry(page, path):
    return page.locator(f'[id="{BOX}-{path}"]')


def section(box, path):
    box.locator(f'[data-section="{path}"] > summary').click()


def saved(page, box):
    with page.expect_download() as download:
        box.locator(".hb-save").click()
    return download.value


def test_site_approach_changed_checked_and_saved(phone_page, tmp_path, capsys):
    page, path = phone_page, FILES[0]
    box = opened(page)
    expect(box.locator(".hb-sentence")).to_contain_text("Not checked yet: ")
    box.locator(".hb-from > summary").click()
    box.locator("select[name=approach]").select_option(path.stem)
    expect(box.locator(".hb-sentence")).to_contain_text("0 stop, 0 resolve")
    expect(box.locator(".hb-name")).to_have_value(path.stem)
    section(box, "chart")
    course = entry(page, "chart.course_deg")
    course.fill("9x")
    expect(box.locator(".hb-found .hb-stop")).to_contain_text("chart.course_deg")
    expect(course).to_have_attribute("aria-invalid", "true")
    expect(page.locator(f'[id="{BOX}-chart.course_deg-error"]')).to_have_text(
        "Found '9x'; allowed: a number, 0 to 360°. Write a number, without quotes.")
    course.fill("95")
    expect(box.locator(".hb-sentence")).to_contain_text("Do not fly it: ")
    expect(box.locator(".hb-found .hb-stop").first).to_contain_text("course")
    section(box, "chart.minima")
    rows = box.locator('.hb-rows[data-list="chart.minima"] > .hb-pair')
    count = rows.count()
    rows.last.locator(".hb-remove").click()
    expect(rows).to_have_count(count - 1)
    saved_file = saved(page, box)
    assert saved_file.suggested_filename == path.name
    target = tmp_path / path.name
    saved_file.save_as(target)
    text = target.read_text("utf-8")
    source = path.read_text("utf-8")
    assert record.read(target).chart.course_deg == 95
    assert len(record.read(target).chart.minima) == count - 1
    assert text == expected(text)[1]["toml"]
    at_once = expected(source.replace("course_deg = 92", "course_deg = 95", 1))[1]["toml"]
    assert text == at_once.replace(last_minima(at_once), "")
    assert crosscheck_main([str(target), "--on", DAY]) == 1
    assert "Do not fly it" in capsys.readouterr().out


def last_minima(text):
    """The last row of minima as it stands in the text."""
    start = text.rindex("\n[[chart.minima]]")
    return text[start:text.index("\n\n", start + 1) + 1]


def test_approach_written_from_nothing(phone_page, tmp_path):
    """Typed and chosen key by key, the second fix added with its button: the saved text is CPython's."""
    page = phone_page
    box = opened(page)
    source = expected(FILES[1].read_text("utf-8"))
    for path in ("identity", "chart", "chart.fix", "chart.minima", "chart.missed", "chart.msa", "runway", "database",
                 "database.fix", "filled", "chart.lights", "database.segment"):
        box.locator(f'[data-section="{path}"]').evaluate("(one) => { one.open = true; }")
    wanted = dict(map(tuple, source[0]["entries"]))
    for name in ("chart.fix", "chart.minima", "chart.msa", "database.fix", "filled"):
        rows = box.locator(f'.hb-rows[data-list="{name}"] > .hb-pair')
        needed = len({path.partition("]")[0] for path in wanted if path.startswith(f"{name}[")})
        while rows.count() < needed:
            box.locator(f'[data-add="{name}"]').click()
        expect(rows).to_have_count(max(needed, rows.count()))
    for path, text in wanted.items():
        place = box.locator(f'[data-path="{path}"]')
        if place.get_attribute("role") == "group":
            for word in text.split("\n"):
                place.locator(f'input[value="{word}"]').check()
        elif place.locator("select").count():
            place.locator("select").select_option(text)
        else:
            place.locator(":is(input, textarea)").fill(text)
    box.locator(".hb-name").fill("zzak-new")
    expect(box.locator(".hb-missing")).to_be_hidden()
    target = tmp_path / "zzak-new.toml"
    saved(page, box).save_as(target)
    assert target.read_text("utf-8") == source[1]["toml"].partition("\n\n")[2]  # but for the comment at its head
    expect(box.locator(".hb-state")).to_contain_text("Saved as zzak-new.toml. ")


def test_missing_key_named_and_linked_to_entry(phone_page):
    page = phone_page
    box = opened(page)
    missing = box.locator(".hb-missing")
    missing.locator("summary").click()
    row = missing.locator("li").filter(has_text="identity.airport:")
    expect(row).to_contain_text("Add airport: location identifier of the airport.")
    row.locator("a").click()
    expect(entry(page, "identity.airport")).to_be_focused()
    expect(entry(page, "identity.airport")).to_be_visible()
    with page.expect_download() as download:
        box.locator(".hb-save").click()
    assert download.value.suggested_filename == "new-approach.toml"
    expect(box.locator(".hb-state")).to_contain_text("not finished")


def test_file_opened_or_pasted_and_draft_kept(phone_page, tmp_path):
    page = phone_page
    box = opened(page)
    broken = tmp_path / "broken.toml"
    broken.write_text("[chart\n", "utf-8")
    box.locator(".hb-from > summary").click()
    box.locator(".hb-file").set_input_files(broken)
    expect(page.locator(f"#{BOX}-file-error")).to_contain_text("line 1")
    text = FILES[2].read_text("utf-8")
    (tmp_path / "zzak-own.toml").write_text(text.replace('line = "LNAV"', 'line = "LNAVX"'), "utf-8")
    box.locator(".hb-file").set_input_files(tmp_path / "zzak-own.toml")
    expect(box.locator(".hb-found")).to_contain_text("Found 'LNAVX'; allowed:")
    expect(box.locator(".hb-name")).to_have_value("zzak-own")
    box.locator(".hb-paste").fill(text)
    expect(box.locator(".hb-sentence")).to_contain_text("0 stop")
    page.reload()
    box = ready(page)
    expect(box.locator(".hb-state")).to_have_text("Your draft, as this device kept it.")
    expect(box.locator(".hb-sentence")).to_contain_text("0 stop")
    box.locator("button[type=reset]").click()
    expect(box.locator(".hb-sentence")).to_contain_text("Not checked yet")
    expect(box.locator(".hb-name")).to_have_value("")


@pytest.mark.parametrize("held", [
    "", "{", "3", "null", '{"entries": 3}', '{"entries": [[1, 2]], "carried": "", "name": ""}',
    '{"entries": [["chart.fix[900000].name", "X"], ["a", "b"]], "carried": "", "name": "x"}',
    '{"entries": [], "carried": "[[", "name": ""}',
])
def test_broken_draft_discarded(phone_page, held):
    page = phone_page
    page.goto(page.root)
    key = STORE.format(page.evaluate("new URL(location.href).pathname"))
    page.evaluate("([key, held]) => localStorage.setItem(key, held)", [key, held])
    box = opened(page)
    expect(box.locator(".hb-sentence")).to_contain_text("Not checked yet: ")
    section(box, "identity")
    entry(page, "identity.airport").fill("ZZAA")
    expect(entry(page, "identity.airport")).not_to_have_attribute("aria-invalid", "true")


def test_works_offline_after_first_use(browser, address, site):
    page = opened_twice(browser, address, PLACE)
    opened(page)
    until_kept(page, [*addresses("approach").values(), with_hash(site, LIST),
                      with_hash(site, "assets/approach-form.js")])
    page.context.set_offline(True)
    box = opened(page)
    box.locator(".hb-from > summary").click()
    box.locator(".hb-paste").fill(FILES[0].read_text("utf-8"))
    expect(box.locator(".hb-sentence")).to_contain_text("0 stop")
    page.context.close()


def test_open_form_accessible_and_fits(phone_page):
    page = phone_page
    page.goto(f"{page.root}{PLACE}")
    box = ready(page)
    box.locator(".hb-from > summary").click()
    box.locator("select[name=approach]").select_option(FILES[0].stem)
    expect(box.locator(".hb-sentence")).to_contain_text("0 stop")
    page.evaluate(f"document.querySelectorAll('#{BOX} details').forEach((one) => {{ one.open = true; }})")
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    assert page.evaluate(SMALL) == []
    assert not faults_in_both_themes(page, f"#{BOX}")
    shown = page.evaluate(f"[...document.querySelectorAll('#{BOX} [data-key]')].map((one) => one.dataset.path)")
    assert len({path for path in shown if path}) > len(paths()) - 20
    assert capitalized("final approach course") in box.inner_text()
