"""The calculators in a real Chromium: the phone's answers are the build's, to the last character printed."""

import gzip
import json

import pytest

from accessible import faults_in_both_themes
from calculator_cases import as_json, cases
from lpv.calculators.run import calculator, names, run
from lpv.forms.fields import shown_part
from lpv_site.forms import phone
from lpv_site.forms.calculators import calculator_link
from phone_pages import addresses, write_bare
from support import opened_twice, served

pytestmark = pytest.mark.browser
CASES = 200
# So many of the cases must have an answer for the test to say anything; half of all headings lead away from a course.
ANSWERED = 0.4
OPENING_BYTES = 350_000
SMALL = """[...document.querySelectorAll(".hb-calculator :is(input, select, textarea, button, summary)")]
  .filter((e) => e.getBoundingClientRect().height < 44 || e.getBoundingClientRect().width < 44)
  .map((e) => e.id || e.className)"""
READY = "id => !document.getElementById(id).querySelector('fieldset').disabled"
SAID = "([id, words]) => document.querySelector(`#${id} .hb-state`).textContent.includes(words)"
RUN = """async ([addresses, asked]) => {
  const call = await handbookPython(addresses);
  return asked.map(([name, entries]) => call("lpv.calculators.run", "run", name, entries));
}"""
IMPORT = """async ([addresses, names]) => {
  const call = await handbookPython(addresses);
  return names.map((name) => {
    try { return call(name, "no_such_name") ?? ""; } catch (error) { return `${error.type} ${error.message}`; }
  });
}"""


@pytest.fixture(scope="module")
def bare(tmp_path_factory):
    """A folder with a site that can run the calculators and has nothing else."""
    folder = tmp_path_factory.mktemp("bare")
    write_bare(folder, "calculators")
    return folder


@pytest.fixture
def page(browser, bare):
    context = browser.new_context()
    with served(bare) as address:
        page = context.new_page()
        page.goto(address + "below/")
        yield page
    context.close()


def test_phone_answers_match_build_exactly(page):
    asked = [(name, as_json(texts)) for name in names() for texts in cases(calculator(name), CASES)]
    here = [json.loads(run(*each)) for each in asked]
    for name in names():
        answers = [answer for (asked_for, _), answer in zip(asked, here, strict=True) if asked_for == name]
        assert sum("outputs" in answer for answer in answers) >= ANSWERED * CASES, name
    there = [json.loads(text) for text in page.evaluate(RUN, [addresses("calculators"), asked])]
    differ = [(each, a, b) for each, a, b in zip(asked, here, there, strict=True) if a != b]
    assert not differ, f"{len(differ)} of {len(asked)}, first: {differ[0]}"


def test_every_file_compiles_and_imports_on_phone(page):
    files = phone.modules("calculators")
    modules = [address.removesuffix(".py").removesuffix("/__init__").replace("/", ".") for address in files]
    answers = page.evaluate(IMPORT, [addresses("calculators"), modules])
    imported = "has no attribute 'no_such_name'"
    wrong = {name: answer for name, answer in zip(modules, answers, strict=True) if imported not in answer}
    assert not wrong


def test_opening_form_costs_little(bare):
    files = [*(bare / "below" / "assets").rglob("*.*")]
    sizes = {path.name: len(gzip.compress(path.read_bytes(), 9)) for path in files}
    assert sum(sizes.values()) < OPENING_BYTES, sizes


def test_nothing_loaded_before_opening(phone_page):
    asked = []
    phone_page.on("request", lambda request: asked.append(request.url))
    phone_page.goto(phone_page.root + "final/rate/")
    phone_page.wait_for_load_state("networkidle")
    assert not [url for url in asked if "micropython" in url or "/lpv." in url]
    opened(phone_page, "descent-rate")
    assert {url.removeprefix(phone_page.root) for url in asked} >= set(addresses("calculators").values())


def opened(page, name):
    """The box of a calculator, opened and ready."""
    box = page.locator(f"#own-{name}")
    if box.get_attribute("open") is None:
        box.locator("summary").click()
    page.wait_for_function(READY, arg=f"own-{name}")
    return box


def field(box, key):
    return box.locator(f"[name={key}]")


def answer(box, key):
    return box.locator(f"[data-output={key}] dd").first.text_content()


def test_every_form_opens_with_built_answer(new_phone_page):
    """On the day that the build printed for: a form with a date begins with today's."""
    page = new_phone_page
    page.clock.set_fixed_time(f"{calculator('cycle').field('day').default}T12:00:00Z")
    page.goto(page.root + "calculate/")
    for name in names():
        printed = page.locator(f"#own-{name} :is(.hb-sentence, dd, tbody td)").all_text_contents()
        assert printed
        box = opened(page, name)
        assert box.locator(":is(.hb-sentence, dd, tbody td)").all_text_contents() == printed, name
        assert box.locator(".hb-state").text_content() == ""


def test_figure_changes_answer_and_stays_on_phone(phone_page):
    phone_page.goto(phone_page.root + "final/rate/")
    box = opened(phone_page, "descent-rate")
    field(box, "ground_speed_kt").fill("137,5")
    assert box.locator(".hb-sentence").text_content() == run_sentence("descent-rate", ground_speed_kt="137.5")
    phone_page.goto(phone_page.root + "calculate/")
    box = opened(phone_page, "descent-rate")
    assert field(box, "ground_speed_kt").input_value() == "137,5"
    box.locator("button[type=reset]").click()
    phone_page.reload()
    box = opened(phone_page, "descent-rate")
    assert field(box, "ground_speed_kt").input_value() == field(box, "ground_speed_kt").get_attribute("value")


def run_sentence(name, **changed):
    from lpv_site.forms.calculators import begin_with

    return json.loads(run(name, as_json(begin_with(calculator(name)) | changed)))["sentence"]


def test_wrong_figure_reported_beside_field_without_answer(phone_page):
    phone_page.goto(phone_page.root + "calculate/")
    box = opened(phone_page, "descent-rate")
    speed = field(box, "ground_speed_kt")
    for wrong in ("", "x", "1e3", "59", "251", "1,500", "NaN"):
        speed.fill(wrong)
        assert box.locator("#own-descent-rate-ground_speed_kt-error").text_content(), wrong
        assert speed.get_attribute("aria-invalid") == "true"
        assert answer(box, "rate_fpm") == "\u2013"
        assert box.locator("tbody tr").count() == 0
    speed.fill("120")
    assert speed.get_attribute("aria-invalid") is None
    assert answer(box, "rate_fpm") == "640\u202fft/min"


def test_approach_and_sign_button_fill_fields(phone_page):
    phone_page.goto(phone_page.root + "final/altimeter/")
    box = opened(phone_page, "altimeter")
    approaches = box.locator("#own-altimeter-approach")
    figures = json.loads(approaches.locator("option").nth(3).get_attribute("data-figures"))
    approaches.select_option(index=3)
    assert {key: field(box, key).input_value() for key in figures} == {
        key: shown_part(text) for key, text in figures.items()}
    field(box, "temperature_c").fill("18")
    box.locator(".hb-sign").first.click()
    assert field(box, "temperature_c").input_value() == "-18"
    assert "\u221218" in box.locator(".hb-sentence").text_content()
    field(box, "distance_nm").fill("4.4")
    assert approaches.locator("option:checked").text_content() == "your own figures"


def test_link_carries_figures(phone_page):
    context = phone_page.context
    context.grant_permissions(["clipboard-read", "clipboard-write"])
    phone_page.goto(phone_page.root + "calculate/")
    box = opened(phone_page, "wind")
    field(box, "wind_kt").fill("33,5")
    box.locator(".hb-send").click()
    phone_page.wait_for_function(SAID, arg=["own-wind", "Link copied."])
    link = phone_page.evaluate("navigator.clipboard.readText()")
    phone_page.evaluate("localStorage.clear()")
    phone_page.goto(link)
    box = opened(phone_page, "wind")
    assert field(box, "wind_kt").input_value() == "33,5"
    assert box.evaluate("box => box.getBoundingClientRect().top < innerHeight")
    kept = phone_page.evaluate("Object.keys(localStorage).filter((key) => key.includes('calculator'))")
    assert not kept, "a link alone is not remembered"


def test_build_link_carries_figures(phone_page):
    link = calculator_link("descent-rate", "calculate/", {"approach.glidepath_deg": 3.5})
    phone_page.goto(phone_page.root + link)
    assert field(opened(phone_page, "descent-rate"), "gpa_deg").input_value() == "3.50"


HOSTILE = (
    "<img src=x onerror=alert(1)>", "\"'><script>alert(1)</script>", "9" * 5000, "1;2", "\x00\t\r\n",
    "__import__('os')", "%F0%9F%9B%A9", "-1", "١٢٠", "{0}", "constructor",
)


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_link_changes_only_field_error(phone_page, text):
    from urllib.parse import quote

    link = f"?own=dip&category={quote(text)}&reaction_s={quote(text)}&form=x&__proto__=x&{quote(text)}=1#own-dip"
    phone_page.goto(phone_page.root + "decide/missed/" + link)
    box = opened(phone_page, "dip")
    wrong = box.locator(".hb-error").all_text_contents()
    assert len([words for words in wrong if words]) == 2
    assert answer(box, "loss_ft") == "\u2013"
    assert box.locator("img, script").count() == 0
    assert field(box, "decision_ft").input_value() == field(box, "decision_ft").get_attribute("value")


def test_form_explains_and_shows_answer_without_scripts(browser, address):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(address + "final/rate/")
    page.locator("#own-descent-rate summary").click()
    assert page.locator("#own-descent-rate .hb-state").is_visible()
    assert "JavaScript and WebAssembly" in page.locator("#own-descent-rate .hb-state").text_content()
    assert page.locator("#own-descent-rate [name=ground_speed_kt]").is_disabled()
    assert "ft/min" in page.locator("#own-descent-rate .hb-sentence").text_content()
    context.close()


@pytest.mark.parametrize(
    ("hinder", "words"),
    [
        ("delete window.WebAssembly", "has no WebAssembly"),
        ("window.fetch = () => Promise.reject(new TypeError('no network'))", "does not give them whole"),
    ],
)
def test_explains_and_retries_where_runtime_fails(phone, address, hinder, words):
    phone.add_init_script(hinder)
    phone.goto(address + "final/rate/")
    box = phone.locator("#own-descent-rate")
    for _ in range(2):
        box.locator("summary").click()
        phone.wait_for_function(SAID, arg=["own-descent-rate", words])
        assert field(box, "ground_speed_kt").is_disabled()
        box.locator("summary").click()


def test_explains_when_opened_as_file(browser, site):
    context = browser.new_context()
    page = context.new_page()
    page.goto((site / "final" / "rate" / "index.html").as_uri())
    page.locator("#own-descent-rate summary").click()
    page.wait_for_function(SAID, arg=["own-descent-rate", "opened as a file"])
    assert page.locator("#own-descent-rate [name=ground_speed_kt]").is_disabled()
    context.close()


def test_open_forms_accessible_and_fit(phone_page):
    page = phone_page
    page.goto(page.root + "calculate/")
    for name in names():
        opened(page, name)
    field(page.locator("#own-dip"), "reaction_s").fill("x")
    assert not page.evaluate("document.documentElement.scrollWidth > innerWidth")
    assert not faults_in_both_themes(page, ".hb-calculator")
    assert not page.evaluate(SMALL)


def test_opened_calculator_works_offline(browser, address):
    page = opened_twice(browser, address, "final/rate/")
    opened(page, "descent-rate")
    page.wait_for_function(
        "async names => (await Promise.all(names.map(name => caches.match(new URL('../../' + name, location.href)))))"
        ".every(Boolean)", arg=list(addresses("calculators").values()),
    )
    page.context.set_offline(True)
    page.reload()
    box = opened(page, "descent-rate")
    field(box, "ground_speed_kt").fill("150")
    assert "150" in box.locator(".hb-sentence").text_content()
    page.context.close()
