"""Files from outside: devices, lines without an end, a full disk; and arguments that nothing makes use of."""

import errno
import os

import pytest

from lpv.arinc import importer
from lpv.command.main import COMMANDS, run
from lpv.core.errors import DataError
from lpv.files import outside
from support import ROOT

DOCS = ROOT / "docs"
APPROACH = str(DOCS / "approaches" / "zzak-rnav-09.toml")
FOLDER = str(DOCS / "approaches")
ENDLESS = {
    "aircraft": [], "crosscheck": [], "path-point": [], "plan": [], "setup": ["--approach", APPROACH],
    "track": ["--approach", APPROACH], "merge": [FOLDER], "worklist": [FOLDER, "--used"],
    "import": ["--airport", "ZZAK", "--out", "{out}"], "round": ["--old", FOLDER, "--out", "{out}"],
}
TAKE_NO_FILE = {"cycle", "new", "schema"}


@pytest.mark.skipif(not os.path.exists("/dev/zero"), reason="no device that never ends")
def test_command_reads_no_device_or_endless_line(tmp_path, capsys):
    assert set(ENDLESS) | TAKE_NO_FILE == set(COMMANDS)
    long = tmp_path / "long.txt"
    long.write_bytes(b"S" * (outside.LONGEST_LINE + 1))
    for name, arguments in ENDLESS.items():
        given = [each.format(out=tmp_path / "out") for each in arguments]
        for file in ("/dev/zero", str(long)):
            taken = (name, file) == ("worklist", str(long))  # its first line may hold headings
            assert run(name, [*given, file]) == (0 if taken else 2), (name, file)
            errors = capsys.readouterr().err
            assert taken or os.path.basename(file) in errors, (name, errors)
            assert "Internal" not in errors
    assert not (tmp_path / "out").exists()


def test_unclosed_quote_is_table_fault(tmp_path, capsys):
    table = tmp_path / "filled.csv"
    table.write_text("file,key,value,filled_by,filled_on,verified_by,verified_on\n\"" + "a,\n" * 60_000, "utf-8")
    assert run("merge", [FOLDER, str(table)]) == 2
    assert "Look for a quote that is not closed" in capsys.readouterr().err


def test_non_text_bytes_reported_with_line(tmp_path):
    (tmp_path / "a.csv").write_bytes(b"\xef\xbb\xbfone\n\xff\n")
    with pytest.raises(DataError, match=r"a\.csv: line 2: found bytes that are not UTF-8"):
        outside.text_of(tmp_path / "a.csv")
    (tmp_path / "b.csv").write_bytes("\ufeffé".encode())
    assert outside.text_of(tmp_path / "b.csv") == "é"


class NoRoom:
    """What opens a file on a disk that is full."""

    def __init__(self, path, *_):
        self.file = open(path, "wb")  # noqa: SIM115

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.file.close()

    def write(self, data):
        self.file.write(data[:1])
        raise OSError(errno.ENOSPC, "No space left on device")


def test_full_disk_leaves_no_partial_file_and_names_target(tmp_path, monkeypatch):
    kept = tmp_path / "kept.toml"
    kept.write_text("old", "utf-8")
    monkeypatch.setattr(outside, "open", NoRoom, raising=False)
    for path in (kept, tmp_path / "new.toml"):
        with pytest.raises(OSError, match="No space") as full:
            outside.write(path, "new text")
        assert outside.os_error_text(full.value).startswith(f"{path}: found a disk that is full; allowed: ")
    assert [path.name for path in tmp_path.iterdir()] == ["kept.toml"]
    assert kept.read_text("utf-8") == "old"


FLIGHTS = DOCS / "debrief" / "flights"
GPX = [str(FLIGHTS / "patchy.gpx"), "--approach", APPROACH, "--altitude", "msl"]
CSV = [str(FLIGHTS / "stable.csv"), "--approach", APPROACH]
UNUSED = [
    ("crosscheck", [APPROACH, "--json", "--format", "text"], "--format"),
    ("crosscheck", [APPROACH, APPROACH], "zzak-rnav-09 more than once"),
    *[("import", ["x", "--airport", "ZZAK", "--list", *more.split()], more.split()[0])
      for more in ("--out y", "--advance", "--report y", "--quiet", "--cycle 2612", "--rule FAA")],
    ("import", ["x", "--all-lpv", "--list", "--out", "y"], "--airport"),
    ("new", ["aircraft", "ZZXX"], "ZZXX"), ("schema", ["plan", "--write", "x"], "--write"),
    ("track", [*GPX, "--column", "latitude_deg=Lat"], "--column"), ("track", [*CSV, "--altitude", "msl"], "altitude"),
    ("track", [*CSV, "--qnh", "1013"], "--qnh"),
    ("track", [*CSV, "--column", "time_s=a", "--column", "time_s=b"], "more than once"),
]


def test_unused_argument_refused(capsys):
    for name, arguments, message in UNUSED:
        assert run(name, arguments) == 2, (name, arguments)
        assert message in capsys.readouterr().err, (name, arguments)


def test_pipe_input_bounded(monkeypatch, tmp_path, capsys):
    monkeypatch.setattr("lpv.arinc.lines.MAX_PIPED", 1000)
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    if os.fork() == 0:
        try:
            pipe.write_bytes(b"S" * 2000)
        finally:
            os._exit(0)
    assert importer.main([str(pipe), "--airport", "ZZAK", "--out", str(tmp_path / "out")]) == 2
    os.wait()
    assert "pipe: found more than 1000 bytes through a pipe" in capsys.readouterr().err
