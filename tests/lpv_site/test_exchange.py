"""The published site is there at every moment: two builds at once, an error, a process killed between two names."""

import multiprocessing
import os

import pytest

from lpv_site.build import exchange


@pytest.fixture
def place(tmp_path):
    """A published site."""
    (tmp_path / "site").mkdir()
    (tmp_path / "site" / "index.html").write_text("last")
    return tmp_path


def made(place, words="new"):
    folder = place / f"made {words}"
    folder.mkdir(mode=0o700)
    (folder / "index.html").write_text(words)
    return folder


def published(place):
    return (place / "site" / "index.html").read_text()


def not_here(*_):
    return False


@pytest.mark.parametrize("at_once", [True, False])
def test_finished_folder_replaces_site(place, monkeypatch, at_once):
    if not at_once:
        monkeypatch.setattr(exchange, "exchanged", not_here)
    exchange.put(made(place), place / "site")
    assert published(place) == "new"
    assert (place / "site").stat().st_mode & 0o777 == 0o755, "everybody can read what is published"
    assert not (place / ".site.last").exists()


def test_names_exchanged_atomically_where_supported(place):
    other = made(place)
    if not exchange.exchanged(other, place / "site"):
        pytest.skip("this disk cannot exchange two names")
    assert (published(place), (other / "index.html").read_text()) == ("new", "last")


def test_first_site_needs_no_exchange(tmp_path):
    exchange.put(made(tmp_path), tmp_path / "site")
    assert published(tmp_path) == "new"


def test_error_between_renames_restores_last_site(place, monkeypatch):
    monkeypatch.setattr(exchange, "exchanged", not_here)
    gone = made(place)
    (gone / "index.html").unlink()
    real = type(gone).rename

    def refused(path, target):
        if path == gone:
            raise OSError(30, "read-only", str(path))
        return real(path, target)

    monkeypatch.setattr(type(gone), "rename", refused)
    with pytest.raises(OSError, match="read-only"):
        exchange.put(gone, place / "site")
    assert published(place) == "last"


def test_next_build_restores_folder_moved_by_killed_build(place):
    (place / "site").rename(place / ".site.last")
    (place / ".site.next-half").mkdir()
    assert exchange.mend(place / "site")
    assert published(place) == "last"
    assert [path.name for path in place.iterdir()] == ["site"]


def test_existing_site_never_overwritten(place):
    (place / ".site.last").mkdir()
    assert not exchange.mend(place / "site")
    assert published(place) == "last"
    assert [path.name for path in place.iterdir()] == ["site"]


def _hold(target, ready, end):
    with exchange.locked(target):
        ready.set()
        end.wait(20)


def test_single_build_and_killed_build_holds_no_lock(place):
    context = multiprocessing.get_context("fork")
    ready, end = context.Event(), context.Event()
    other = context.Process(target=_hold, args=(place / "site", ready, end))
    other.start()
    assert ready.wait(20)
    with pytest.raises(exchange.Busy, match=f"process {other.pid} builds there"), exchange.locked(place / "site"):
        pass
    other.kill()
    other.join()
    with exchange.locked(place / "site"):
        assert (place / ".site.lock").read_text() == str(os.getpid())
    assert not (place / ".site.lock").exists()


def test_temporary_folder_unique_and_always_removed(place):
    def cut_off():
        with exchange.aside(place / "site") as first, exchange.aside(place / "site") as two:
            assert first != two
            assert first.parent == two.parent == place
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        cut_off()
    assert [path.name for path in place.iterdir()] == ["site"]
