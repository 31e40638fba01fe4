"""Time zone, locale and year change nothing but what they should."""

import io
import os
import subprocess
import sys
import time

import pytest

from lpv.approach.record import read_all
from lpv.command.runner import prepare
from lpv.crosscheck.check import crosscheck
from lpv.plan import sheet
from support import ROOT

IN_FORCE, YEARS_ON = "2026-12-01", "2031-01-15"
DOCS = ROOT / "docs"


def prepared(text):
    """A text as a stream of ASCII gets it."""
    stream = io.TextIOWrapper(io.BytesIO(), "ascii", newline="")
    prepare(stream)
    stream.write(text)
    stream.flush()
    return stream.buffer.getvalue().decode("ascii")


def answers():
    """What cross-check and planning sheet say of the demo, with every word."""
    findings = [vars(finding) for approach in read_all(DOCS / "approaches")
                for finding in crosscheck(approach, IN_FORCE)]
    return findings + [vars(finding) for path in sorted((DOCS / "plan").glob("*.toml"))
                    for finding in sheet.plan(sheet.read(path))]


@pytest.fixture
def zone(monkeypatch):
    """A function that moves this process into a time zone; it comes back at the end."""
    def move(name):
        monkeypatch.setenv("TZ", name)
        time.tzset()

    yield move
    monkeypatch.undo()
    time.tzset()


def test_answers_independent_of_time_zone(zone):
    zone("UTC")
    here = answers()
    for name in ("Pacific/Kiritimati", "Pacific/Pago_Pago"):  # 14 hours ahead, 11 behind: never the same day
        zone(name)
        assert answers() == here, name


def test_command_output_independent_of_locale():
    """Where the terminal takes ASCII alone, its spaces and signs are written in it; nothing else differs."""
    command = [sys.executable, "-m", "lpv", "crosscheck", "docs/approaches/zzak-rnav-09.toml", "--on", IN_FORCE]
    bare = {"LC_ALL": "C", "PYTHONCOERCECLOCALE": "0", "PYTHONUTF8": "0", "TZ": "Pacific/Kiritimati"}
    printed = [subprocess.run(command, cwd=ROOT, env=os.environ | places, capture_output=True, check=True).stdout
               for places in ({"LC_ALL": "C.UTF-8", "TZ": "UTC"}, bare)]
    assert "\u202fft".encode() in printed[0]
    assert prepared(printed[0].decode()) == printed[1].decode("ascii")


def test_years_later_only_cycle_and_magnetic_model_expired():
    """2031: the model ends with 2029; positions, altitudes and minima compare as they did."""
    for approach in read_all(DOCS / "approaches"):
        now, then = ({finding.name(): vars(finding) for finding in crosscheck(approach, day)}
                     for day in (IN_FORCE, YEARS_ON))
        changed = {name: finding["grade"] for name, finding in then.items() if finding != now.get(name)}
        assert changed == {"variation": "not compared", "cycle-in-force": "stop"}, approach.slug
        assert now.keys() == then.keys()
