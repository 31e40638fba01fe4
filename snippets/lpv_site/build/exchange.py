"""A finished folder takes the place of the published one, and no moment of it leaves nothing published.

Where the system can exchange two names at once, it does.  Elsewhere the published folder steps aside first; whatever
stops that half way, an error or the end of the process, the next call of `mend` puts it back.
"""

import ctypes
import fcntl
import os
import shutil
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

READABLE = 0o755
AT_THIS_FOLDER = -100  # AT_FDCWD of Linux
EXCHANGE = 2  # RENAME_EXCHANGE of Linux and RENAME_SWAP of macOS are the same


class Busy(Exception):
    """Another build works on the same folder."""


@contextmanager
def locked(target: Path) -> Iterator[None]:
    """Nobody else builds into a folder, or raises Busy; ends with the process, however that ends."""
    target.parent.mkdir(parents=True, exist_ok=True)
    name = target.with_name(f".{target.name}.lock")
    while True:
        file = os.open(name, os.O_CREAT | os.O_RDWR, 0o644)
        try:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            process = os.pread(file, 20, 0).decode("ascii", "replace").strip()
            os.close(file)
            raise Busy(f"{target}: process {process or 'unknown'} builds there; wait until it has ended") from None
        if _is_there(name, file):
            break
        os.close(file)  # who held it has just taken it away
    try:
        os.ftruncate(file, 0)
        os.pwrite(file, str(os.getpid()).encode(), 0)
        yield
    finally:
        name.unlink(missing_ok=True)
        os.close(file)


def _is_there(name: Path, file: int) -> bool:
    with suppress(FileNotFoundError):
        return os.stat(name).st_ino == os.fstat(file).st_ino
    return False


@contextmanager
def aside(target: Path) -> Iterator[Path]:
    """A new folder of this build's own beside another; gone at the end, whatever happens."""
    made = Path(tempfile.mkdtemp(prefix=f".{target.name}.next-", dir=target.parent))
    try:
        yield made
    finally:
        shutil.rmtree(made, ignore_errors=True)


def mend(target: Path) -> bool:
    """Put back what a killed build had moved aside, and remove what it left; whether something was put back.

    Only while `locked`: everything beside the folder that a build makes belongs to one that has ended.
    """
    last = _last(target)
    back = last.is_dir() and not target.exists()
    if back:
        last.rename(target)
    for path in [last, *target.parent.glob(f".{target.name}.next-*")]:
        shutil.rmtree(path, ignore_errors=True)
    return back


def put(made: Path, target: Path) -> None:
    """Put a finished folder in the place of the published one; where it cannot, OSError and that one stays."""
    made.chmod(READABLE)
    if not target.exists():
        made.rename(target)
    elif not exchanged(made, target):
        _one_after_another(made, target)


def exchanged(path: Path, other: Path) -> bool:
    """Exchange two names at once; False where this system or this disk cannot."""
    library = ctypes.CDLL(None, use_errno=True)
    names = os.fsencode(path), os.fsencode(other)
    if sys.platform == "darwin" and hasattr(library, "renamex_np"):
        return bool(library.renamex_np(*names, EXCHANGE) == 0)
    if hasattr(library, "renameat2"):
        return bool(library.renameat2(AT_THIS_FOLDER, names[0], AT_THIS_FOLDER, names[1], EXCHANGE) == 0)
    return False


def _one_after_another(made: Path, target: Path) -> None:
    last = _last(target)
    target.rename(last)
    try:
        made.rename(target)
    except BaseException:
        last.rename(target)
        raise
    shutil.rmtree(last, ignore_errors=True)


def _last(target: Path) -> Path:
    return target.with_name(f".{target.name}.last")
