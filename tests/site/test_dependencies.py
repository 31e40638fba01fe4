"""What the project rests on: pinned with hashes, from no named place, installed as pinned, free to use."""

import importlib.metadata
import json
import re
import tomllib

import pytest

from support import ROOT

SITE, CHECKS = ROOT / "requirements.txt", ROOT / "tests" / "requirements.txt"
PIN = re.compile(r"^([a-z0-9._-]+)==(\S+?)(?: ; (.+?))? \\\n((?:    --hash=sha256:[0-9a-f]{64}(?: \\)?\n)+)", re.M)
COMMENT = re.compile(r"^ +# .*\n", re.M)
FREE = re.compile(r"\b(?:MIT|BSD|0BSD|Apache|MPL|Mozilla Public License|ISC|Zlib|PSF|Python Software Foundation)\b")
SAID_ELSEWHERE = {"axe-playwright-python": "MIT, in its README and its repository"}


def pins(path):
    """Name -> versions, of the lines of a list: another Python may get another version."""
    pinned: dict[str, set[str]] = {}
    for pin in PIN.finditer(COMMENT.sub("", path.read_text("utf-8"))):
        pinned.setdefault(pin[1], set()).add(pin[2])
    return pinned


def name(requirement):
    return re.match(r"[A-Za-z0-9._-]+", requirement)[0].lower().replace("_", "-")


@pytest.mark.parametrize("path", [SITE, CHECKS], ids=["site", "checks"])
def test_every_line_is_pin_with_hashes(path):
    left = PIN.sub("", COMMENT.sub("", path.read_text("utf-8"))).strip()
    assert left == ""
    assert len(pins(path)) > 20


def test_lists_agree_and_cover_requirements():
    site, checks = pins(SITE), pins(CHECKS)
    assert site.items() <= checks.items(), "one renewal for both: make lock"
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    assert {name(each) for each in project["dependencies"]} <= site.keys()
    assert {name(each) for each in project["optional-dependencies"]["checks"]} <= checks.keys()


def installed():
    """Name -> metadata, of the pinned packages that this system needs."""
    there = {name(distribution.metadata["Name"]): distribution for distribution in importlib.metadata.distributions()}
    return {each: there[each] for each in pins(CHECKS) if each in there}


def test_installed_versions_equal_pins():
    wanted = pins(CHECKS)
    assert len(installed()) > 0.9 * len(wanted)
    assert not {each: package.version for each, package in installed().items() if package.version not in wanted[each]}


def test_every_licence_is_free():
    def licence(distribution):
        metadata = distribution.metadata
        kinds = [each for each in metadata.get_all("Classifier") or [] if each.startswith("License ::")]
        return " ".join([metadata.get("License-Expression") or "", (metadata.get("License") or "")[:300], *kinds])

    odd = {each: licence(distribution) for each, distribution in installed().items()
           if not FREE.search(licence(distribution)) and each not in SAID_ELSEWHERE}
    assert not odd


def test_benchmark_packages_pinned_too():
    packages = json.loads((ROOT / "tests" / "lighthouse" / "package-lock.json").read_text("utf-8"))["packages"]
    others = {place: package for place, package in packages.items() if place}
    assert others["node_modules/lighthouse"]["version"] == "12.8.2"
    assert all(package["integrity"].startswith("sha512-") and "resolved" not in package for package in others.values())
