"""Shared fixtures: the built site, and a browser where there is one."""

import os
import subprocess
import sys
import time
from pathlib import Path

import pytest
from hypothesis import settings

from lpv_site.build import explorations  # noqa: F401 - what a type gets into is explored once for all processes
from support import COMMIT, EXAMPLE, TIME, chromium, fingerprint

ROOT = Path(__file__).resolve().parents[1]
settings.register_profile("project", deadline=None, derandomize=True)
settings.load_profile("project")


@pytest.fixture(scope="session")
def site(tmp_path_factory) -> Path:
    """The demo site, built strictly once for all workers."""
    return built_once(tmp_path_factory, "built", "-m", "mkdocs", "build", "--strict", "--site-dir")


@pytest.fixture(scope="session")
def own_site(tmp_path_factory) -> Path:
    """The site of the example department, built strictly once for all workers, as its department would."""
    before = fingerprint(EXAMPLE)
    site = built_once(tmp_path_factory, "own", "-m", "lpv_site.build", "--data", str(EXAMPLE), "--site-dir")
    assert fingerprint(EXAMPLE) == before, "a build never writes into a department's folder"
    return site


def built_once(tmp_path_factory, name: str, *command: str) -> Path:
    """The folder that a command of this Python fills, its last argument; once, however many workers ask for it."""
    here = tmp_path_factory.getbasetemp()
    shared = here.parent if "PYTEST_XDIST_WORKER" in os.environ else here
    folder, done = shared / name, shared / f"{name}.done"
    try:
        (shared / f"{name}.lock").mkdir()
    except FileExistsError:
        while not done.exists():
            time.sleep(0.2)
    else:
        try:
            run = subprocess.run(
                [sys.executable, *command, str(folder)], cwd=ROOT, capture_output=True, text=True,
                env={"SOURCE_DATE_EPOCH": TIME, **os.environ, "NO_MKDOCS_2_WARNING": "1", "HANDBOOK_COMMIT": COMMIT},
            )
            done.write_text(f"{run.stdout}{run.stderr} " if run.returncode else "")
        except BaseException as error:
            done.write_text(str(error))
            raise
    if log := done.read_text():
        pytest.fail(f"the strict build failed:\n{log}")
    return folder


@pytest.fixture(scope="session")
def playwright():
    from playwright.sync_api import sync_playwright

    with sync_playwright() as driver:
        yield driver


@pytest.fixture(scope="session")
def browser(request):
    """Debian's Chromium without windows, driven by Playwright; the ordinary one where that is not installed."""
    yield from launched(request, chromium())


@pytest.fixture(scope="session")
def whole_browser(request):
    """The ordinary Chromium, for what the one without windows lacks: it shows no PDF."""
    yield from launched(request, chromium(whole=True))


def launched(request, executable):
    if not executable:
        if os.environ.get("CI") == "true":
            pytest.fail("CI needs a Chromium: install it in .ci/run")
        pytest.skip("no Chromium on this machine: the browser tests need one (Debian: apt install chromium)")
    browser = request.getfixturevalue("playwright").chromium.launch(
        executable_path=executable,
        args=[
            "--no-sandbox",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
        ],
    )
    yield browser
    browser.close()
