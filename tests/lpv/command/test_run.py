"""Every command ends with words and an exit code of its own, whatever its terminal, its reader and its files do."""

import json
import os
import re
import subprocess
import sys

import pytest

from lpv.command import runner
from lpv.command.runner import BAD_INPUT, CLOSED_PIPE, run
from lpv.files.json_form import printed
from lpv.plan import sheet as plan
from support import ROOT

END = "sys.exit(run(main, []))"
BEGIN = "import sys\nfrom lpv.command.runner import run\n"


def started(code, *, stdout=subprocess.PIPE, **environment):
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "snippets"), **environment}
    return subprocess.run([sys.executable, "-c", BEGIN + code], cwd=ROOT, stdout=stdout, stderr=subprocess.PIPE,
                          text=True, errors="replace", env=environment)


@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "latin-1"])
def test_unsupported_signs_replaced_on_terminal(encoding):
    run = started("def main(_):\n print('\\u22121.5\\u202f\\u00b0C')\n return 1\n" + END, PYTHONIOENCODING=encoding)
    assert run.returncode == 1, run.stderr
    assert run.stdout.startswith("-1.5")


def test_closed_reader_ends_quietly():
    code = "def main(_):\n for _ in range(100000): print('x' * 100)\n return 1\n" + END
    with subprocess.Popen([sys.executable, "-c", BEGIN + code], cwd=ROOT, stdout=subprocess.PIPE,
                          stderr=subprocess.PIPE, env={**os.environ, "PYTHONPATH": str(ROOT / "snippets")}) as command:
        command.stdout.read(10)
        command.stdout.close()
        errors = command.stderr.read()
    assert (command.returncode, errors) == (CLOSED_PIPE, b"")


def test_output_left_to_null_device(monkeypatch):
    given = []
    monkeypatch.setattr(os, "dup2", lambda source, target: given.append((os.fstat(source).st_rdev, target)))
    monkeypatch.setattr(sys, "stdout", sys.__stdout__)
    runner._leave_output()
    assert given == [(os.stat(os.devnull).st_rdev, 1)]


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="no device that is always full")
@pytest.mark.parametrize("lines", [1, 100_000])
def test_output_without_space_reported(lines):
    with open("/dev/full", "w") as full:
        run = started(f"def main(_):\n for _ in range({lines}): print('x')\n return 0\n" + END, stdout=full)
    assert run.returncode == BAD_INPUT
    assert "a disk that is full" in run.stderr
    assert "Traceback" not in run.stderr


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="no device that is always full")
def test_file_without_space_named(capsys):
    def main(_):
        with open("/dev/full", "w") as file:
            file.write("x" * 100_000)
            file.flush()
        return 0

    assert run(main, []) == BAD_INPUT
    assert capsys.readouterr().err.startswith("/dev/full: found a disk that is full")


def test_every_site_command_uses_runner():
    """A module that is run by its name calls `run`, so that none of them ends in another way."""
    begun = [path for path in (ROOT / "snippets" / "lpv_site").rglob("*.py")
             if 'if __name__ == "__main__"' in path.read_text("utf-8")]
    assert len(begun) > 5
    for path in begun:
        last = path.read_text("utf-8").rpartition('if __name__ == "__main__":')[2]
        assert re.fullmatch(r"\n    sys\.exit\(run\(.+, sys\.argv\[1:\]\)\)\n", last), path


def test_json_has_no_negative_zero():
    assert json.loads(printed({"a": [-0.0, (0.0,)], "b": -1.5, "c": None, "d": True})) == {
        "a": [0.0, [0.0]], "b": -1.5, "c": None, "d": True}
    assert "-0" not in printed([-0.0, {"x": -0.0}, (-0.0,)])


@pytest.mark.parametrize("eta", ["9999-12-31T23:59:59-12:00", "0001-01-01T00:00:00+12:00"])
def test_impossible_utc_time_is_fault(tmp_path, capsys, eta):
    text = next((ROOT / "docs" / "plan").glob("*.toml")).read_text("utf-8")
    path = tmp_path / "zz-flight.toml"
    path.write_text(re.sub("^eta = .*", f"eta = {eta}", text, count=1, flags=re.M), "utf-8")
    assert run(plan.main, [str(path)]) == BAD_INPUT
    errors = capsys.readouterr().err
    assert "zz-flight.toml: flight.eta: found" in errors
    assert "Internal error" not in errors


def test_output_that_nobody_takes_goes_nowhere(monkeypatch):
    given = []
    monkeypatch.setattr(runner.os, "dup2", lambda opened, stream: given.append((opened, stream)))
    runner._leave_output()
    [(opened, stream)] = given
    try:
        assert os.fstat(opened).st_rdev == os.stat(os.devnull).st_rdev
        assert os.write(opened, b"x") == 1
    finally:
        os.close(opened)
    assert stream == sys.stdout.fileno()
