"""One folder of entries: whole or not there, read again, made again when they are harmed."""

import os
import time

import pytest

from lpv_site.build import store


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.setattr(store, "FOLDER", tmp_path)
    return tmp_path / store.MADE


def test_entry_is_record_and_finished_part():
    store.keep("a", {"x": "\n é", "y": [1]}, b"<p>\n</p>")
    assert store.is_kept("a")
    assert store.load("a") == {"x": "\n é", "y": [1]}
    assert store.body("a") == b"<p>\n</p>"
    assert store.load("b") is None


@pytest.mark.parametrize("harmed", [b"", b"half", b"[1]\n", b"\xff\n"])
def test_unreadable_entry_rebuilt(folder, harmed):
    store.keep("a", {"x": 1})
    (folder / "a").write_bytes(harmed)
    assert store.load("a") is None
    assert store.kept("a", lambda: {"x": 2}) == {"x": 2}
    assert store.kept("a", lambda: pytest.fail("made again")) == {"x": 2}


def test_killed_write_leaves_no_entry(folder, monkeypatch):
    def killed(path, target):
        raise KeyboardInterrupt

    monkeypatch.setattr("pathlib.Path.replace", killed)
    with pytest.raises(KeyboardInterrupt):
        store.keep("a", {"x": 1})
    assert not store.is_kept("a")


def test_unused_entries_removed_used_ones_kept(folder):
    for key in ("old", "used"):
        store.keep(key, {})
        os.utime(folder / key, (time.time() - 100 * 86400,) * 2)
    store.load("used")
    assert store.tidy() == 1
    assert [path.name for path in folder.iterdir()] == ["used"]


def test_parts_have_places_in_key():
    assert len({store.key_of("s", "ab", "c"), store.key_of("s", "a", "bc"), store.key_of("sa", "b", "c")}) == 3
