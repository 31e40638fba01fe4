"""The palette: legible in both themes, and told apart by eyes that miss one kind of cone."""

import re
from itertools import combinations

import numpy as np
import pytest

from lpv_site.department.colours import contrast
from lpv_site.figures.svg import COLOURS
from support import ROOT

STYLES = (ROOT / "docs" / "assets" / "handbook.css").read_text("utf-8")
TEXT = ("ink", "muted", "first", "second", "third", "answer", "stop", "resolve", "note", "ok")
LINES = ("first", "second", "third", "answer")
# Machado, Oliveira and Fernandes 2009, one kind of cone missing, linear RGB; from memory.
EYES = {
    "all cones": np.eye(3),
    "no red": [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]],
    "no green": [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]],
    "no blue": [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.303900]],
}
TO_XYZ = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])  # sRGB, from memory
APART = 15.0  # distance in CIELAB at which two lines are told apart beside their words and dashes


def scheme(name):
    """Role -> colour, of one theme."""
    body = re.search(rf'\[data-md-color-scheme="{name}"\] \{{(.*?)\}}', STYLES, re.S)[1]
    return dict(re.findall(r"--hb-(\w+): (#[0-9a-f]{6});", body))


def lab(colour, eye):
    """CIELAB of a colour as an eye sees it."""
    values = np.array([int(colour[start : start + 2], 16) for start in (1, 3, 5)]) / 255
    linear = np.where(values <= 0.04045, values / 12.92, ((values + 0.055) / 1.055) ** 2.4)
    seen = TO_XYZ @ np.clip(np.array(EYES[eye]) @ linear, 0, 1) / TO_XYZ.sum(axis=1)
    root = np.where(seen > 0.008856, np.cbrt(seen), 7.787 * seen + 16 / 116)
    return np.array([116 * root[1] - 16, 500 * (root[0] - root[1]), 200 * (root[1] - root[2])])


def test_contrast_measure():
    assert lab("#ffffff", "all cones") == pytest.approx([100, 0, 0], abs=0.02)
    assert lab("#ff0000", "all cones") == pytest.approx([53.24, 80.09, 67.20], abs=0.05)
    red, green = lab("#b00000", "no green"), lab("#5a5a00", "no green")
    assert np.linalg.norm(red - green) < 0.5 * np.linalg.norm(lab("#b00000", "all cones") - lab("#5a5a00", "all cones"))


@pytest.mark.parametrize("theme", ["default", "slate"])
@pytest.mark.parametrize("ground", ["paper", "shade"])
@pytest.mark.parametrize("role", TEXT)
def test_text_readable(theme, ground, role):
    colours = scheme(theme)
    assert contrast(colours[role], colours[ground]) >= 4.5


@pytest.mark.parametrize("theme", ["default", "slate"])
@pytest.mark.parametrize("eye", EYES)
@pytest.mark.parametrize(("first", "other"), [*combinations(LINES, 2)])
def test_lines_distinguishable(theme, eye, first, other):
    colours = scheme(theme)
    assert np.linalg.norm(lab(colours[first], eye) - lab(colours[other], eye)) >= APART


def test_figures_use_only_these_roles():
    assert set(COLOURS) <= {*TEXT, "grid", "shade", "paper"}
