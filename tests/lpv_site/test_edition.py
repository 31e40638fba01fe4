"""An edition's number and time: its own, the same for the same data, another one for other data."""

import os
import shutil
import subprocess

import pytest

from lpv_site.build import edition
from lpv_site.department import department
from support import ROOT

DOCS = ROOT / "docs"


def git(folder, *arguments, at=None):
    identity = ("-c", "user.name=Test", "-c", "user.email=test@test.example")
    dates = {"GIT_AUTHOR_DATE": f"{at} +0000", "GIT_COMMITTER_DATE": f"{at} +0000"} if at else {}
    subprocess.run(["git", *identity, *arguments], cwd=folder, check=True, capture_output=True,
                   env={**os.environ, **dates})


def repository(folder, at):
    folder.mkdir()
    git(folder, "init", "-q")
    (folder / "a.toml").write_text("x = 1\n")
    git(folder, "add", ".")
    git(folder, "commit", "-q", "-m", "first", at=at)
    return folder


@pytest.fixture(autouse=True)
def plain(tmp_path, monkeypatch):
    """No time said, no department, no repository above."""
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    monkeypatch.delenv("HANDBOOK_DATA", raising=False)
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path))
    for cached in (department.folder, department._read, edition.number):
        cached.cache_clear()
    yield
    for cached in (department.folder, department._read, edition.number):
        cached.cache_clear()


def test_time_from_later_commit(tmp_path):
    older, newer = repository(tmp_path / "older", 1_700_000_000), repository(tmp_path / "newer", 1_790_000_000)
    assert edition.seconds(older, newer) == edition.seconds(newer, older) == 1_790_000_000
    assert edition.seconds(older) == 1_700_000_000


def test_folder_in_repository_uses_own_commit_time(tmp_path):
    whole = repository(tmp_path / "whole", 1_700_000_000)
    (whole / "own").mkdir()
    (whole / "own" / "b.toml").write_text("x = 1\n")
    git(whole, "add", ".")
    git(whole, "commit", "-q", "-m", "own", at=1_750_000_000)
    (whole / "a.toml").write_text("x = 2\n")
    git(whole, "commit", "-q", "-a", "-m", "other", at=1_760_000_000)
    assert edition.committed(whole / "own", ".") == 1_750_000_000
    assert edition.committed(whole) == 1_760_000_000


@pytest.mark.skipif(os.geteuid() != 0, reason="only root gives a folder to another user")
def test_folder_of_other_user_read(tmp_path):
    folder = repository(tmp_path / "theirs", 1_750_000_000)
    for path in (folder, folder / ".git"):
        os.chown(path, 65534, 65534)
    refused = subprocess.run(["git", "log", "-1"], cwd=folder, capture_output=True, text=True)
    assert "dubious ownership" in refused.stderr
    assert edition.committed(folder) == 1_750_000_000


def test_no_time_without_commit(tmp_path, monkeypatch):
    under_git = repository(tmp_path / "handbook", 1_700_000_000)
    plain = tmp_path / "plain"
    plain.mkdir()
    assert edition.seconds(plain) is None
    assert edition.seconds(under_git, plain) is None, "the handbook's own time is not that of the data"
    monkeypatch.setenv("HANDBOOK_DATA", str(plain))
    [fault] = edition.faults()
    assert fault.file == str(plain)
    assert "no commit" in fault.found
    assert "TIME=" in fault.action


@pytest.mark.parametrize(("epoch", "time"), [("1764000000", 1_764_000_000), ("0", 0), ("tomorrow", None), ("-1", None)])
def test_stated_time_counts(monkeypatch, tmp_path, epoch, time):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", epoch)
    assert edition.seconds(tmp_path, tmp_path) == time
    assert bool(edition.faults()) is (time is None)


def test_printed_time_read_back(monkeypatch):
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1764000000")
    assert edition.built() == "2025-11-24T16:00Z"
    assert edition.seconds_of(edition.built()) == 1_764_000_000
    with pytest.raises(ValueError, match="does not match"):
        edition.seconds_of("2025-11-24")


def with_cycle(tmp_path, cycle):
    docs = tmp_path / f"docs {cycle}"
    (docs / "approaches").mkdir(parents=True)
    text = (DOCS / "approaches" / "zzak-rnav-09.toml").read_text("utf-8")
    (docs / "approaches" / "a.toml").write_text(text.replace('"2612"', f'"{cycle}"'), "utf-8")
    return docs


def test_same_day_editions_have_different_numbers(tmp_path):
    numbers = [edition.number(with_cycle(tmp_path, cycle)) for cycle in ("2612", "2613")]
    assert [number[:5] for number in numbers] == ["2612-", "2613-"]
    assert numbers[0][5:] != numbers[1][5:]


def test_number_depends_on_edition_content(tmp_path):
    docs = with_cycle(tmp_path, "2612")
    copy = tmp_path / "copy"
    shutil.copytree(docs, copy)
    assert edition.number(copy) == edition.number(docs), "not of where it lies"
    (copy / ".DS_Store").write_text("junk")
    edition.number.cache_clear()
    assert edition.number(copy) == edition.number(docs)
    (copy / "approaches" / "a.toml").write_text(
        (docs / "approaches" / "a.toml").read_text("utf-8") + "# another word\n", "utf-8")
    edition.number.cache_clear()
    assert edition.number(copy) != edition.number(docs)


def test_latest_cycle_names_edition_over_year_end(tmp_path):
    docs = with_cycle(tmp_path, "2613")
    text = (docs / "approaches" / "a.toml").read_text("utf-8")
    (docs / "approaches" / "b.toml").write_text(text.replace('"2613"', '"2701"'), "utf-8")
    (docs / "approaches" / "c.toml").write_text(text.replace('"2613"', '"9999"'), "utf-8")
    assert edition.number(docs).startswith("2701-")


def test_edition_without_approaches_has_number(tmp_path):
    assert len(edition.number(tmp_path)) == edition.DIGITS
