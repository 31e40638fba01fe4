"""The build record: the same for two builds of one commit, and no copy of the site passes that differs in a byte."""

import hashlib
import json
import subprocess

import pytest

from lpv_site.build import build_record, edition
from lpv_site.build.digests import digests
from lpv_site.checks.checks import results
from support import ROOT

DOCS = ROOT / "docs"


def git(folder, *arguments):
    identity = ("-c", "user.name=Test", "-c", "user.email=test@test.example")
    subprocess.run(["git", *identity, *arguments], cwd=folder, check=True, capture_output=True)


@pytest.fixture
def repository(tmp_path):
    """A folder with one commit."""
    git(tmp_path, "init", "-q")
    (tmp_path / "docs").mkdir()
    (tmp_path / "docs" / "a.toml").write_text("x = 1\n")
    git(tmp_path, "add", ".")
    git(tmp_path, "commit", "-q", "-m", "first")
    return tmp_path


def test_commit_and_changes(repository):
    assert len(build_record.commit(repository)) == 40
    assert build_record.changed(repository, "docs") == 0
    (repository / "docs" / "a.toml").write_text("x = 2\n")
    (repository / "docs" / "new.toml").write_text("x = 2\n")
    (repository / "elsewhere.txt").write_text("x")
    assert build_record.changed(repository, "docs") == 2


def test_outside_git_reported(tmp_path, monkeypatch):
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path.parent))
    assert build_record.commit(tmp_path) == ""
    assert build_record.changed(tmp_path) == 0
    assert build_record._commit_words({"commit": "", "changed_files": 0}) == "not known: built outside git"


def test_hashes_match_files():
    hashes = build_record.hashes(DOCS)
    assert hashes["approaches/zzak-rnav-09.toml"] == hashlib.sha256(
        (DOCS / "approaches" / "zzak-rnav-09.toml").read_bytes()).hexdigest()
    kinds = {name.rpartition("/")[0] for name in hashes}
    assert kinds == {"approaches", "approaches/previous", "aircraft", "plan", "set-up", "modes/scenarios",
                     "debrief/flights", "plan/operators", "practice", "teach"}


def test_cycles_count_approaches():
    cycles = build_record.cycles(DOCS)
    assert sum(cycles.values()) == len(list((DOCS / "approaches").glob("*.toml")))
    assert all(len(cycle) == 4 for cycle in cycles)


def test_validation_counts_match_checks():
    assert sum(build_record.validation().values()) == len(results())


def test_record_independent_of_day(monkeypatch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1764000000")
    first = json.dumps(build_record.record(DOCS))
    assert json.dumps(build_record.record(DOCS)) == first
    assert json.loads(first)["time"] == "2025-11-24T16:00Z"


@pytest.fixture
def small(tmp_path):
    """A site of three files with its record."""
    (tmp_path / "a").mkdir()
    for name in ("index.html", "a/index.html", "style.css"):
        (tmp_path / name).write_text(name)
    (tmp_path / build_record.NAME).write_text(build_record.as_json(build_record.record(DOCS)))
    build_record.seal(tmp_path, digests(tmp_path))
    return tmp_path


def test_unchanged_copy_accepted(small, capsys):
    assert build_record.main([str(small)]) == 0
    assert capsys.readouterr().out.startswith(f"As recorded: edition {edition.number(DOCS)}, commit ")


@pytest.mark.parametrize("change", [
    lambda site: (site / "a" / "index.html").write_text("another"),
    lambda site: (site / "style.css").unlink(),
    lambda site: (site / "more.html").write_text("more"),
    lambda site: (site / "a" / "index.html").rename(site / "b.html"),
])
def test_changed_copy_rejected(small, capsys, change):
    change(small)
    assert build_record.main([str(small)]) == 1
    assert capsys.readouterr().out.startswith("NOT as recorded")


def test_later_files_ignored(small):
    (small / "sw.js").write_text("made of all the other files")
    assert build_record.main([str(small)]) == 0


@pytest.mark.parametrize("arguments", [[], ["a", "b"]])
def test_missing_argument_is_usage_error(arguments, capsys):
    assert build_record.main(arguments) == 2
    assert "usage: python -m lpv_site.build.build_record SITE" in capsys.readouterr().err


def test_site_without_record(tmp_path, capsys):
    assert build_record.main([str(tmp_path)]) == 2
    (tmp_path / build_record.NAME).write_text("{")
    assert build_record.main([str(tmp_path)]) == 2
    assert "no record that can be read" in capsys.readouterr().err


def test_built_site_has_page_and_record(site):
    record = json.loads((site / build_record.NAME).read_text("utf-8"))
    assert record["data"] == build_record.hashes(DOCS)
    assert record["department"] is None
    page = (site / "reference" / "build-record" / "index.html").read_text("utf-8")
    assert str(len(results())) in page
    assert 'href="../../build-record.json"' in page
    assert build_record.main([str(site)]) == 0
