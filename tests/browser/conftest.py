"""A real Chromium on the built site.  Skipped where there is none, except when CI=true."""

from contextlib import contextmanager

import pytest

from support import served

PHONE = {"width": 360, "height": 740}


@pytest.fixture(scope="session")
def address(site):
    """Address of the built site on this machine, ending in a slash."""
    with served(site) as root:
        yield root


@contextmanager
def phone_context(browser, address, **more):
    """A phone-sized page that notes requests to another host, and fails where there were any."""
    context = browser.new_context(viewport=PHONE, reduced_motion="reduce", **more)
    page = context.new_page()
    foreign = []
    page.on(
        "request", lambda request: foreign.append(request.url) if not local(request.url, address) else None
    )
    yield page
    context.close()
    assert not foreign, "requests to another host"


def watched(page, address):
    """A page with the site's address as `root`; notes dialogs, script errors and breaches of the policy in `faults`."""
    page.root = address
    page.faults, page.excused = [], set()

    def dismiss(dialog):
        page.faults.append(f"dialog: {dialog.message}")
        dialog.dismiss()

    page.on("dialog", dismiss)
    page.on("pageerror", lambda error: page.faults.append(str(error)))
    page.add_init_script(
        "document.addEventListener('securitypolicyviolation', (e) => { throw new Error(e.violatedDirective); })"
    )
    return page


@pytest.fixture
def phone(browser, address):
    """A new phone."""
    with phone_context(browser, address) as page:
        yield page


@pytest.fixture
def new_phone_page(phone, address):
    """A new phone that fails the test on a dialog, on an error of a script or of the policy.

    For tests that change the page for good: a script that runs first, another clock, no network, a slow processor.
    """
    page = watched(phone, address)
    yield page
    assert set(page.faults) <= page.excused


@pytest.fixture(scope="module")
def module_phone(browser, address):
    with phone_context(browser, address, service_workers="block") as page:  # a worker's keeping takes a third of it
        page = watched(page, address)
        page.devtools = page.context.new_cdp_session(page)
        yield page


@pytest.fixture
def used_phone(module_phone):
    """One phone for all tests of a module that ask for it: what one leaves behind, the next one finds."""
    module_phone.faults.clear()
    module_phone.excused.clear()
    module_phone.set_viewport_size(PHONE)
    module_phone.emulate_media(media="screen", color_scheme="light", reduced_motion="reduce")
    yield module_phone
    assert set(module_phone.faults) <= module_phone.excused


@pytest.fixture
def phone_page(used_phone):
    """The same with nothing kept on it, in half the time that a new one takes."""
    used_phone.goto("about:blank")
    used_phone.devtools.send("Storage.clearDataForOrigin", {"origin": used_phone.root[:-1], "storageTypes": "all"})
    return used_phone


def local(url, address):
    return url.startswith((address, "data:", "blob:"))
