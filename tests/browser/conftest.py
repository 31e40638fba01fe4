"""A real Chromium on the built site.  Skipped where there is none, except when CI=true."""

import pytest

from support import served


@pytest.fixture(scope="session")
def address(site):
    """Address of the built site on this machine, ending in a slash."""
    with served(site) as found:
        yield found


@pytest.fixture
def phone(browser, address):
    """A phone-sized page that fails the test on any request to another host."""
    context = browser.new_context(viewport={"width": 360, "height": 740}, reduced_motion="reduce")
    page = context.new_page()
    foreign = []
    page.on(
        "request", lambda request: foreign.append(request.url) if not local(request.url, address) else None
    )
    yield page
    context.close()
    assert not foreign, "requests to another host"


@pytest.fixture
def phone_page(phone, address):
    """The phone, with the site's address as `root`; fails the test on an error of a script or of the policy."""
    phone.root = address
    phone.faults, phone.excused = [], set()
    phone.on("pageerror", lambda error: phone.faults.append(str(error)))
    phone.add_init_script(
        "document.addEventListener('securitypolicyviolation', (e) => { throw new Error(e.violatedDirective); })"
    )
    yield phone
    assert set(phone.faults) <= phone.excused


def local(url, address):
    return url.startswith((address, "data:", "blob:"))
