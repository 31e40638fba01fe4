"""The build: aside and swapped in; faulty data stop it with every fault named, and change nothing."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from lpv_site.build.build import BUSY
from lpv_site.build.build import build as build_aside
from lpv_site.build.exchange import locked
from lpv_site.build.store import FOLDER
from support import copy_of_project

FAULTY = """
[identity]
airport = "ZZAK"
airport_name = "Bank <b>bold</b>"
runway = "09"
title = "RNAV (GPS) RWY 09"
level_of_service = "LPV"
channel = "99901"
path_id = "W09A"
cycle = "2612"
rule = "FAA"
colour = "blue"

[chart]
course_reference = "magnetic"
variation_deg = 12
glidepath_deg = 3.0
tch_ft = 52
threshold_elevation_m = 7
tdze_ft = 24
airport_elevation_ft = 31
runway_length_ft = 10000

[[chart.fix]]
name = "GULLY"
role = "PFAF"
latitude = 91.0
longitude = -148.1

[[chart.fix]]
name = "RW09"
role = "MAP"
latitude = 34.02
longitude = -148.04

[[chart.minima]]
line = "LPV"
kind = "DA"
categories = "ABCD"
altitude_ft = 224

[database]
block = "{block}"
"""
NAMED = [
    "identity.airport_name", "identity.channel", "identity.colour", "chart.course_deg", "chart.threshold_elevation_m",
    "chart.threshold_elevation_ft", "chart.fix[1].latitude", "database.block",
]


@pytest.fixture
def project(tmp_path):
    return copy_of_project(tmp_path / "project")


def build(project, **environment):
    return subprocess.run(
        [sys.executable, "-m", "lpv_site.build", "--site-dir", str(project / "site")], cwd=project,
        capture_output=True, text=True,
        env={**os.environ, "PYTHONPATH": str(project / "snippets"), "SOURCE_DATE_EPOCH": "0", **environment},
    )


def test_faulty_files_stop_build_and_keep_last_site(project):
    (project / "site").mkdir()
    (project / "site" / "index.html").write_text("the last good build")
    folder = project / "docs" / "approaches"
    (folder / "zz-faulty.toml").write_text(FAULTY.replace("{block}", "00" * 39), "utf-8")
    (folder / "zz-empty.toml").write_text("", "utf-8")
    (folder / "zz-latin.toml").write_bytes("title = 'é'".encode("latin-1"))
    (folder / "zz-large.toml").write_bytes(b"#" * 10_000_000)
    (folder / "zz-wrong-hex.toml").write_text(FAULTY.replace("{block}", "XY" * 40), "utf-8")
    with (project / "docs" / "aircraft" / "light-jet.toml").open("a") as file:
        file.write("\n[surprise]\n")
    (folder / "index.toml").write_bytes((folder / "zzak-rnav-09.toml").read_bytes())
    run = build(project)
    assert run.returncode != 0
    output = run.stdout + run.stderr
    assert "light-jet.toml: surprise" in output
    for key in NAMED:
        assert f"zz-faulty.toml: {key}" in output, key
    for name in ("zz-empty.toml", "zz-latin.toml", "zz-large.toml", "zz-wrong-hex.toml: database.block"):
        assert name in output, name
    assert "Traceback" not in output
    assert (project / "site" / "index.html").read_text() == "the last good build"
    assert sorted(path.name for path in project.glob("site*")) == ["site"]


def test_wrong_inline_expression_stops_build(project, site):
    """With what the build of `site` kept: only the page is another one, and no heading."""
    page = project / "docs" / "index.md"
    page.write_text(page.read_text("utf-8") + "\n{{ fact('nope') }}\n", "utf-8")
    run = build(project, HANDBOOK_STORE=str(FOLDER))
    assert run.returncode != 0
    assert "index.md: {{ fact('nope') }}" in run.stdout + run.stderr
    assert not (project / "site").exists()


def test_name_linked_to_edition_stays_link(tmp_path, monkeypatch):
    def ran(command, **_):
        if "lpv_site.build.make" in command:
            (Path(command[-1]) / "index.html").write_text("new")
        return subprocess.CompletedProcess(command, 0, "")

    monkeypatch.setattr("lpv_site.build.build.subprocess.run", ran)
    monkeypatch.setattr("lpv_site.build.build.store.tidy", lambda: None)
    (tmp_path / "2613").mkdir()
    (tmp_path / "current").symlink_to("2613")
    for _ in range(2):
        assert build_aside(tmp_path / "current") == 0
    assert (tmp_path / "current").is_symlink()
    assert (tmp_path / "2613" / "index.html").read_text() == "new"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["2613", "current"]


def test_failed_swap_keeps_last_site_and_leaves_nothing(tmp_path, monkeypatch):
    def ran(command, **options):
        (Path(command[-1]) / "index.html").write_text("new")
        assert options["umask"] == 0o022
        assert command[-2] == str(os.getpid()), "a killed build is to take it along"
        return subprocess.CompletedProcess(command, code, "")

    monkeypatch.setattr("lpv_site.build.build.subprocess.run", ran)
    monkeypatch.setattr("lpv_site.build.build.store.tidy", lambda: None)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "0")
    (tmp_path / "site").mkdir()
    (tmp_path / "site" / "index.html").write_text("last")
    for ended, expected in ((2, 2), (-9, 137)):
        code = ended
        assert build_aside(tmp_path / "site") == expected
        assert (tmp_path / "site" / "index.html").read_text() == "last"
        assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_concurrent_build_names_running_process(tmp_path, capfd):
    with locked(tmp_path / "site"):
        assert build_aside(tmp_path / "site") == BUSY
    assert f"process {os.getpid()} builds there" in capfd.readouterr().err
    assert list(tmp_path.iterdir()) == []
