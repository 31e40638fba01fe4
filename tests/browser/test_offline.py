"""Offline copies in a real Chromium: kept, shown as copies, brought up to date, never broken by half a download."""

import json
import re
import shutil

import pytest
from playwright.sync_api import expect

from lpv_site.build.offline import PAGE
from small_site import ANSWERS, BRIEF, BRIEFINGS, FILE, PICTURE, build, hosted, until
from support import html_pages

pytestmark = pytest.mark.browser
DONE = re.compile("^Done")
MARKED = "document.documentElement.hasAttribute('data-copy')"

# Every page in a frame of its own that runs no scripts: the worker answers as it does for a window.
OPEN_ALL = """async (addresses) => {
  const open = (address) => new Promise((resolve) => {
    const frame = document.createElement("iframe");
    frame.sandbox = "allow-same-origin";
    frame.hidden = true;
    frame.src = address;
    frame.addEventListener("load", () => {
      const { documentElement: root, URL: url } = frame.contentDocument;
      resolve({
        address,
        copy: url === address && root.hasAttribute("data-copy"),
        title: root.querySelector("h1")?.textContent.trim(),
        whole: root.querySelector(".hb-caution") !== null,
      });
      frame.remove();
    });
    document.body.append(frame);
  });
  const found = [];
  while (addresses.length) found.push(...await Promise.all(addresses.splice(0, 8).map(open)));
  return found;
}"""


# Which of these pages have no copy, or one that is not whole: its last line is the hash of all before it.
ALL_KEPT = """async (addresses) => {
  const hex = (bytes) => Array.from(new Uint8Array(bytes), (byte) => byte.toString(16).padStart(2, "0")).join("");
  const isWhole = async (address) => {
    const body = await (await caches.match(address))?.arrayBuffer();
    const seal = body && /<!-- sha256 ([0-9a-f]{32}) -->\\n$/.exec(new TextDecoder().decode(body.slice(-80)));
    return seal && hex(await crypto.subtle.digest("SHA-256", body.slice(0, -seal[0].length))).startsWith(seal[1]);
  };
  const whole = await Promise.all(addresses.map(isWhole));
  return addresses.filter((_, number) => !whole[number]);
}"""


@pytest.fixture(scope="module")
def editions(tmp_path_factory):
    """Three editions of a small site."""
    folder = tmp_path_factory.mktemp("editions")
    return {name: build(folder / name, f"edition {name}", day) for day, name in enumerate("ABC", start=1)}


@pytest.fixture
def host(editions):
    with hosted(editions["A"]) as host:
        yield host


@pytest.fixture
def page(browser):
    yield from new_page(browser)


@pytest.fixture
def page_with_documents(whole_browser):
    yield from new_page(whole_browser)

# Notes that a page looked up which edition was put off: what it then does, it does at once.
ASKED = """const get = Storage.prototype.getItem;
Storage.prototype.getItem = function (key) {
  window.asked ||= key.endsWith(" later");
  return get.call(this, key);
};"""


def new_page(browser):
    context = browser.new_context(viewport={"width": 360, "height": 740}, reduced_motion="reduce")
    page = context.new_page()
    page.set_default_timeout(10_000)
    yield page
    context.close()


def controlled(page):
    """Wait until the worker answers for the page and has kept the page itself."""
    until(page, "navigator.serviceWorker.controller?.scriptURL === handbookCopies.at('sw.js')")
    seen(page, 1)


def seen(page, pages):
    until(page, f"handbookCopies.state().then((found) => found.pages >= {pages})")


def keep_all(page, host, place=""):
    page.goto(host.address + place + PAGE)
    controlled(page)
    page.get_by_role("button", name="Keep it on this device").click()
    expect(state(page)).to_have_text(DONE)


def state(page):
    return page.locator(".hb-keep-state")


def words(page):
    return page.locator("#words").inner_text()


def caches(page):
    return sorted(page.evaluate("caches.keys()"))


def open_copy(page, address):
    page.goto(address)
    assert "missing=" not in page.url
    assert page.evaluate(MARKED), f"{address} does not say that it is a copy"


def test_opened_page_available_offline_and_says_so(page, host):
    page.goto(host.address + "verify/")
    controlled(page)
    assert not page.evaluate(MARKED)
    assert not page.locator(".hb-copy").is_visible()
    page.goto(host.address + "final/rate/")
    seen(page, 2)
    host.down = True
    for address in ("verify/", "final/rate/", "verify/index.html?from=card#words", "final/rate"):
        open_copy(page, host.address + address)
        expect(page.locator(".hb-copy")).to_contain_text("2026-03-01T12:00Z")
        assert words(page) == "This is edition A."
    page.emulate_media(media="print")
    assert page.locator(".hb-copy").is_visible()


def test_device_offline_mode(page, host):
    page.goto(host.address + "verify/")
    controlled(page)
    page.context.set_offline(True)
    open_copy(page, host.address + "verify/")
    index = page.evaluate("fetch('../search/search_index.json').then((found) => found.json())")
    assert index == {"edition": "edition A"}


@pytest.mark.parametrize("address", ["r/fi-01/", "r/fi-01"])
def test_short_address_leads_to_page_offline(page, host, address):
    page.goto(host.address + "final/rate/")
    controlled(page)
    host.down = True
    open_copy(page, host.address + address)
    assert page.url == host.address + "final/rate/#words"
    assert words(page) == "This is edition A."


@pytest.mark.parametrize("code", ["re-01", "zz-99", "constructor"])
def test_short_address_of_missing_page_says_so(page, host, code):
    page.goto(host.address)
    controlled(page)
    host.down = True
    page.goto(f"{host.address}r/{code}/")
    expect(page.locator(".hb-copy[data-shown]")).to_contain_text("not on this device")


def test_missing_page_named_in_words(page, host):
    page.goto(host.address)
    controlled(page)
    host.down = True
    page.goto(host.address + BRIEFINGS[0])
    note = page.locator(".hb-copy[data-shown]")
    expect(note).to_contain_text("not on this device")
    expect(note).to_contain_text(BRIEFINGS[0])
    host.down = False
    page.get_by_role("link", name="Try it again").click()
    page.wait_for_url(host.address + BRIEFINGS[0])
    page.goto(host.address + PAGE + "?missing=javascript:alert(1)")
    assert page.locator("a", has_text="Try it again").count() == 0


def test_opening_pages_loads_no_list(page, host):
    for place in ("", "verify/", *BRIEFINGS):
        page.goto(host.address + place)
        controlled(page)
    assert not [path for path in host.asked if path.startswith("/offline/")]


def test_correction_never_hidden_by_copy(page, host, editions):
    keep_all(page, host)
    host.folder = editions["B"]
    page.goto(host.address + "verify/")
    assert words(page) == "This is edition B."
    assert not page.evaluate(MARKED)
    seen(page, 1)
    host.down = True
    open_copy(page, host.address + "verify/")
    assert words(page) == "This is edition B."


def test_slow_network_gives_copy_then_correction(page, host, editions):
    page.goto(host.address + "verify/")
    controlled(page)
    host.folder, host.slow = editions["B"], {"verify/": 4.6, "search_index.json": 60}
    host.answered.clear()
    open_copy(page, host.address + "verify/")
    assert words(page) == "This is edition A."
    assert page.evaluate("fetch('../search/search_index.json').then((found) => found.json())")["edition"] == "edition A"
    assert "/search/search_index.json" not in host.answered, "the files of a copy do not wait again"
    expect(page.locator(".hb-bar", has_text="newer version of this page")).to_be_visible()
    host.slow = {}
    page.get_by_role("button", name="Show it").click()
    expect(page.locator("#words")).to_have_text("This is edition B.")
    assert not page.evaluate(MARKED)


@pytest.mark.parametrize("fault", ["errors", "half", "altered"])
def test_faulty_answer_gives_copy_and_keeps_it(page, host, fault):
    page.goto(host.address + "verify/")
    controlled(page)
    getattr(host, fault).add("verify/")
    open_copy(page, host.address + "verify/")
    assert words(page) == "This is edition A."
    host.down = True
    open_copy(page, host.address + "verify/")
    assert page.locator("script").count() == 3


def test_wrong_address_reported_and_deletes_no_copy(page, host, editions, tmp_path):
    page.goto(host.address + "verify/")
    controlled(page)
    host.folder = tmp_path
    assert page.goto(host.address + "verify/").status == 404
    host.down = True
    open_copy(page, host.address + "verify/")
    assert words(page) == "This is edition A."


def test_withdrawal_shown_on_copy_after_list_arrives(page, host, editions, tmp_path):
    page.goto(host.address + "verify/")
    controlled(page)
    page.goto(host.address)
    host.folder = shutil.copytree(editions["B"], tmp_path / "site")
    row = ["verify/", "2026-03-02", "Withdrawn by <the> authority."]
    (host.folder / "withdrawn.json").write_text(json.dumps({"withdrawn": [row]}), "utf-8")
    page.reload()
    worker_stops(page)  # it asks for the list at most once in a while
    page.reload()
    until(page, "caches.match(handbookCopies.at('withdrawn.json'), {cacheName: 'handbook / seen'})"
                ".then((found) => found?.text()).then((text) => text?.includes('2026-03-02') ?? false)")
    host.down = True
    open_copy(page, host.address + "verify/")
    assert page.locator(".hb-withdrawn").inner_text() == (
        "Withdrawn on 2026-03-02. Do not use it. Withdrawn by <the> authority.")
    assert words(page) == "This is edition A."
    open_copy(page, host.address)
    assert page.locator(".hb-withdrawn").count() == 0


@pytest.mark.parametrize("answer", ["portal", "half page", "padded"])
def test_broken_withdrawal_list_keeps_last_one(page, host, answer):
    page.goto(host.address)
    controlled(page)
    host.answers["withdrawn.json"] = answer
    worker_stops(page)
    page.reload()
    until(page, "fetch(handbookCopies.at('withdrawn.json'), {cache: 'no-store'}).then(() => true)")
    assert page.evaluate(
        "caches.match(handbookCopies.at('withdrawn.json')).then((found) => found.json())") == {"withdrawn": []}


def worker_stops(page):
    """The worker is put to sleep, as a phone does, and starts again with the next page."""
    session = page.context.new_cdp_session(page)
    session.send("ServiceWorker.enable")
    session.send("ServiceWorker.stopAllWorkers")


SAYS = {"429": "takes no more requests",
        **dict.fromkeys(("204", "503", "empty", "half page", "padded", "start"), "not the whole of it")}


@pytest.mark.parametrize("answer", ANSWERS)
def test_other_answers_never_hide_copy(page, host, answer):
    page.goto(host.address + "verify/")
    controlled(page)
    host.answers["verify/"] = answer
    open_copy(page, host.address + "verify/")
    assert words(page) == "This is edition A."
    expect(page.locator(".hb-copy")).to_contain_text(SAYS.get(answer, "asks you to sign in"))
    link = page.get_by_role("link", name="Show what the site answers")
    assert link.get_attribute("href") == host.address + "verify/?answer=site"
    if answer == "portal":
        link.click()
        expect(page.locator("h1")).to_have_text("Sign in")
        assert not page.evaluate(MARKED)
    host.answers.clear()
    page.goto(host.address + "verify/")
    assert not page.evaluate(MARKED)
    host.down = True
    open_copy(page, host.address + "verify/")
    expect(page.locator(".hb-copy")).to_contain_text("gave no answer in time")


def test_handbook_redirect_followed_despite_copy(page, host, editions):
    page.goto(host.address + "verify/")
    controlled(page)
    host.folder, host.answers = editions["B"], {"verify": "within"}
    page.goto(host.address + "verify")
    assert page.url == host.address + "verify/"
    assert words(page) == "This is edition B."
    assert not page.evaluate(MARKED)


GET = "(address) => fetch(address).then((found) => found.ok ? found.text() : 'nothing', () => 'nothing')"


@pytest.mark.parametrize("answer", ["portal", "padded", "half page", "empty", "503", "403"])
@pytest.mark.parametrize("kind", ["named", "listed"])
def test_wrong_file_not_kept_and_refetched(page, host, editions, kind, answer):
    file = named_file(editions["A"]) if kind == "named" else "manifest.webmanifest"
    right = (editions["A"] / file).read_text("utf-8")
    page.goto(host.address)
    controlled(page)
    page.evaluate("(address) => caches.delete(address)", file)
    host.answers[file] = answer
    got = page.evaluate(GET, file)
    assert got == right or (kind == "named" and "Sign in" not in got and "edition A\"}" not in got)
    host.answers.clear()
    assert page.evaluate(GET, file) == right
    host.answers[file] = answer
    assert page.evaluate(GET, file) == right, "the whole one stands, and no other hides it"
    host.down = True
    assert page.evaluate(GET, file) == right


@pytest.mark.parametrize("wrong", ["<!doctype html>Sign in", '{"edition": "edi'])
def test_wrong_kept_file_repaired(page, host, editions, wrong):
    file = named_file(editions["A"])
    right = (editions["A"] / file).read_text("utf-8")
    page.goto(host.address)
    controlled(page)
    page.evaluate(PUT, [file, wrong])
    worker_stops(page)
    assert page.evaluate(GET, file) == right
    host.down = True
    assert page.evaluate(GET, file) == right


def test_new_edition_removes_wrong_files(page, host, editions):
    page.goto(host.address)
    controlled(page)
    page.evaluate(PUT, ["verify/", "<html>Sign in</html>"])
    page.evaluate(PUT, ["reference/none.json", '{"half'])
    host.folder = editions["B"]
    page.reload()
    with page.expect_navigation():
        page.get_by_role("button", name="Take it now").click()
    controlled(page)
    kept = page.evaluate("caches.open(`handbook / seen`).then((seen) => seen.keys()).then("
                         "(all) => all.map(({ url }) => new URL(url).pathname))")
    assert not {"/reference/none.json", "/verify/"} & set(kept)


PUT = """([address, text]) => caches.open("handbook / seen").then((seen) => seen.put(address, new Response(text)))"""


def named_file(folder):
    """Address of the file that is named by its content."""
    [path] = folder.glob(FILE.format("*"))
    return path.relative_to(folder).as_posix()


@pytest.mark.parametrize(("place", "kind"), [(PICTURE, "image/png"), (BRIEF, "application/pdf")])
def test_kept_pictures_and_documents_open_correctly(page_with_documents, host, editions, place, kind):
    page = page_with_documents
    keep_all(page, host)
    host.down = True
    opened = page.goto(host.address + place)
    assert opened.headers["content-type"] == kind
    if kind == "image/png":  # the browser puts a page of its own around a document
        assert opened.body() == (editions["A"] / place).read_bytes()
    page.goto(host.address)
    got = page.evaluate("(place) => fetch(place).then((found) => found.arrayBuffer()).then("
                        "(body) => [...new Uint8Array(body)])", place)
    assert bytes(got) == (editions["A"] / place).read_bytes()


def test_broken_stored_values_stop_nothing(page, host):
    faults = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    keep_all(page, host)
    page.evaluate("""async () => {
      for (const name of await caches.keys()) if (name.includes("kept")) {
        const cache = await caches.open(name);
        for (const place of ["whole", "part"])
          await cache.put(handbookCopies.at(`offline/${place}`), new Response("{"));
      }
      sessionStorage.setItem("handbook / later", "{");
    }""")
    page.goto(host.address + PAGE)
    expect(state(page)).to_contain_text("Kept so far")
    host.down = True
    open_copy(page, host.address + PAGE)
    assert faults == []


def test_choice_states_size_beforehand(page, host):
    page.goto(host.address + PAGE)
    controlled(page)
    expect(page.get_by_label("Everything")).to_be_checked()
    assert page.locator("label", has_text=re.compile(r"Everything.*\d kB")).count() == 1
    page.get_by_label("With briefings of these airports").check()
    page.locator("#keep-words").fill("ZZHC")
    page.locator("#keep-words").blur()
    expect(page.locator(".hb-keep-count")).to_contain_text("kB on this device")
    page.get_by_role("button", name="Keep it on this device").click()
    expect(state(page)).to_have_text(DONE)
    host.down = True
    open_copy(page, host.address + BRIEFINGS[2])
    page.goto(host.address + BRIEFINGS[0])
    expect(page.locator(".hb-copy[data-shown]")).to_be_visible()


def test_successive_editions_announced_and_taken_with_tap(page, host, editions):
    keep_all(page, host)
    for before, name in ("AB", "BC"):
        host.folder = editions[name]
        page.goto(host.address + "verify/")
        announced = f"Edition {name} of this handbook is ready for this device, in place of {before}."
        bar = page.locator(".hb-bar", has_text=announced)
        with page.expect_navigation():
            bar.get_by_role("button", name="Take it now").click()
        controlled(page)
        assert page.locator(".hb-bar").count() == 0
        assert len(caches(page)) == 3, "one frame, one kept edition, and what was opened"
        host.down = True
        for place in ("", "verify/", BRIEFINGS[1], PAGE):
            open_copy(page, host.address + place)
            assert words(page) == f"This is edition {name}."
        host.down = False


def test_postponed_edition_not_announced_at_once(page, host, editions):
    keep_all(page, host)
    host.folder = editions["B"]
    page.goto(host.address + "verify/")
    page.get_by_role("button", name="Later").click()
    page.add_init_script(ASKED)
    page.goto(host.address + "final/rate/")
    until(page, "window.asked")
    assert page.locator(".hb-bar").count() == 0
    page.close()


def test_interrupted_update_keeps_old_copy_and_resumes(page, host, editions):
    keep_all(page, host)
    host.folder, host.slow = editions["B"], {"approaches/": 6}
    page.goto(host.address + PAGE)
    page.get_by_role("button", name="Bring it up to date").click()
    all_but_the_slow_one = "handbookCopies.state().then(({ part }) => part && part.total - part.done === 1)"
    until(page, all_but_the_slow_one)
    context = page.context
    page.close()
    page = context.new_page()
    host.down, host.slow = True, {}
    open_copy(page, host.address + BRIEFINGS[0])
    assert words(page) == "This is edition A."
    page.goto(host.address + PAGE)
    expect(state(page)).to_contain_text("cut short at")
    expect(state(page)).to_contain_text("built 2026-03-01")
    host.down = False
    page.goto(host.address + PAGE)
    host.asked.clear()
    page.get_by_role("button", name="Go on").click()
    expect(state(page)).to_have_text(DONE)
    assert "/approaches/" in host.asked
    assert "/final/rate/" not in host.asked, "what had come is not fetched again"
    host.down = True
    open_copy(page, host.address + BRIEFINGS[0])
    assert words(page) == "This is edition B."


@pytest.mark.parametrize(
    ("fault", "message"),
    [("half", "broke off"), ("altered", "arrived damaged"), ("errors", "did not give approaches/zzak-27/ (503)")],
)
def test_broken_file_never_replaces_good_copy(page, host, editions, fault, message):
    keep_all(page, host)
    host.folder = editions["B"]
    page.goto(host.address + PAGE)
    getattr(host, fault).add(BRIEFINGS[1])
    page.get_by_role("button", name="Bring it up to date").click()
    expect(state(page)).to_contain_text(message)
    expect(state(page)).to_contain_text("built 2026-03-01")
    host.down = True
    open_copy(page, host.address + BRIEFINGS[1])
    assert words(page) == "This is edition A."


# Ask for the new edition's worker, and wait for what becomes of it; "" where it was refused at once.
UPDATED = """async () => {
  const found = await navigator.serviceWorker.getRegistration();
  await found.update().catch(() => undefined);
  const worker = found.installing;
  while (worker && worker.state === "installing") await new Promise((done) => setTimeout(done, 50));
  return worker ? worker.state : "";
}"""


def test_edition_with_broken_frame_refused(page, host, editions):
    page.goto(host.address)
    controlled(page)
    before = caches(page)
    host.folder, host.altered = editions["B"], {"search_index.json"}
    assert page.evaluate(UPDATED) != "installed"
    assert caches(page) == before
    host.down = True
    open_copy(page, host.address)


def test_refused_storage_reported_before_changes(page, host, editions):
    keep_all(page, host)
    host.folder = editions["B"]
    page.goto(host.address + PAGE)
    page.evaluate("() => { StorageManager.prototype.estimate = async () => ({ quota: 50000, usage: 40000 }); }")
    page.get_by_role("button", name="Bring it up to date").click()
    expect(state(page)).to_contain_text("this device gives the site 10 kB more. Nothing was changed.")
    expect(state(page)).to_contain_text("built 2026-03-01")


def test_storage_refused_midway_reported_and_released(page, host):
    page.goto(host.address + PAGE)
    controlled(page)
    session = page.context.new_cdp_session(page)
    session.send("Storage.overrideQuotaForOrigin", {"origin": host.address.rstrip("/"), "quotaSize": 1000})
    page.get_by_role("button", name="Keep it on this device").click()
    expect(state(page)).to_contain_text("refused the room")
    assert not [name for name in caches(page) if "kept" in name]


def test_page_without_storage_shown_with_notice(page, host):
    page.goto(host.address)
    controlled(page)
    session = page.context.new_cdp_session(page)
    session.send("Storage.overrideQuotaForOrigin", {"origin": host.address.rstrip("/"), "quotaSize": 1000})
    page.goto(host.address + "verify/")
    assert words(page) == "This is edition A."
    expect(page.locator(".hb-bar")).to_contain_text("no room left")


def test_handbooks_in_folders_of_host_independent(page, tmp_path):
    for place, name, day in (("crew/", "one", 1), ("crew/training/handbook/", "two", 2)):
        build(tmp_path / place, f"edition {name}", day)
    with hosted(tmp_path) as host:
        for place in ("crew/", "crew/training/handbook/"):
            keep_all(page, host, place)
        page.get_by_role("button", name="Remove all copies").click()
        expect(state(page)).to_contain_text("Removed.")
        host.down = True
        page.goto(host.address + "crew/training/handbook/verify/")
        expect(page.locator(".hb-copy[data-shown]")).to_contain_text("not on this device")
        for place in ("", "verify/", BRIEFINGS[1], PAGE):
            open_copy(page, host.address + "crew/" + place)
            assert words(page) == "This is edition one."


def test_installable(page, host):
    page.goto(host.address)
    controlled(page)
    session = page.context.new_cdp_session(page)
    manifest = session.send("Page.getAppManifest")
    assert manifest["errors"] == []
    assert '"start_url":"./"' in manifest["data"]
    errors = session.send("Page.getInstallabilityErrors")["installabilityErrors"]
    assert [error for error in errors if error["errorId"] != "in-incognito"] == []


def test_whole_handbook_offline_every_page_and_search(page, site):
    pages = [name for name in html_pages(site) if name.endswith("index.html")]
    with hosted(site) as host:
        page.goto(host.address + PAGE)
        controlled(page)
        page.get_by_role("button", name="Keep it on this device").click()
        expect(state(page)).to_have_text(DONE, timeout=30_000)
        addresses = [host.address + place.removesuffix("index.html") for place in pages]
        assert page.evaluate(ALL_KEPT, addresses) == []
        host.down = True
        some = addresses[::6]
        opened = page.evaluate(OPEN_ALL, some)
        assert [each for each in opened if not (each["copy"] and each["title"] and each["whole"])] == []
        assert len(opened) > 20
        page.goto(host.address)
        page.locator("label[for=__search]").first.click()
        page.locator(".md-search__input").press_sequentially("channel")
        hit = page.locator(".md-search-result__link").first
        expect(hit).to_be_visible()
        hit.click()
        page.wait_for_load_state("domcontentloaded")
        assert page.evaluate(MARKED)
