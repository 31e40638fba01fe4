"""The command `lpv`: what it lists, how it ends, and the forms `python -m` that do the same."""

import importlib
import os
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from lpv.command import main as command
from lpv.command import runner
from lpv.core.errors import DomainError
from support import ROOT

MODULES = {"import": "importer", "schema": "json_schema", "path-point": "path_point"}
APPROACH = str(ROOT / "docs" / "approaches" / "zzak-rnav-09.toml")


def shell(*arguments, **surroundings):
    """What a command run by itself prints, and its exit code."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "snippets"), **surroundings}
    return subprocess.run([sys.executable, *arguments], capture_output=True, env=environment, timeout=120)


@pytest.mark.parametrize("name", command.COMMANDS)
def test_help_names_command_and_exit_codes(name, capsys):
    with pytest.raises(SystemExit) as stopped:
        importlib.import_module(command.COMMANDS[name][0]).main(["--help"])
    assert stopped.value.code == 0
    printed = " ".join(capsys.readouterr().out.split())
    assert printed.startswith(f"usage: lpv {name} ")
    codes = printed.partition("Exit code: ")[2]
    assert [codes[:2], "; 2 " in codes] == ["0 ", True]


@pytest.mark.parametrize("name", command.COMMANDS)
def test_python_form_is_same_command(name, monkeypatch):
    """`python -m lpv.cycle` and its like hand their arguments to the command of that name."""
    called = []
    monkeypatch.setattr(command, "run", lambda *given: called.append(given) or 7)
    monkeypatch.setattr(sys, "argv", ["x", "--json"])
    module = f"lpv.{MODULES.get(name, name)}"
    spec = importlib.util.find_spec(module)
    path = spec.origin if spec.submodule_search_locations is None else spec.origin.replace("__init__", "__main__")
    with pytest.raises(SystemExit) as stopped:
        exec(compile(Path(path).read_text("utf-8"), path, "exec"), {"__name__": "__main__"})
    assert (stopped.value.code, called) == (7, [(name, ["--json"])])


def test_entry_point_groups_all_commands():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    module, _, function = project["scripts"]["lpv"].partition(":")
    assert getattr(importlib.import_module(module), function) is command.main
    printed = shell("-m", "lpv", "--help").stdout.decode()
    assert [name for name in command.COMMANDS if f"\n  {name} " not in printed] == []


def ends(error):
    def main(_):
        raise error

    return runner.run(main, [])


@pytest.mark.parametrize(("error", "code", "message"), [
    (DomainError("bank: found 91"), 2, "bank: found 91\n"),
    (FileNotFoundError(2, "No such file", "a.toml"), 2, "a.toml: found no such file or folder; allowed: one that is "
     "there. Check its name.\n"),
    (OSError(28, "No space left on device", "a.toml"), 2, "a.toml: found a disk that is full; allowed: room for the "
     "file. Make room.\n"),
    (OSError(5, "Input/output error", "a.toml"), 2, "a.toml: found input/output error; allowed: what can be read or "
     "written. Check its name and its rights.\n"),
    (KeyError("tch"), 3, "Internal error, please report it: KeyError: 'tch'\n"
     "Set LPV_TRACEBACK=1 to see where it happened.\n"),
    (KeyboardInterrupt(), 130, ""), (SystemExit(2), 2, ""), (SystemExit(None), 0, ""), (SystemExit("no"), 2, ""),
])
def test_error_exit_codes(error, code, message, capsys, monkeypatch):
    monkeypatch.delenv("LPV_TRACEBACK", raising=False)
    assert ends(error) == code
    assert capsys.readouterr().err == message


def test_traceback_printed_on_request(capsys, monkeypatch):
    monkeypatch.setenv("LPV_TRACEBACK", "1")
    assert ends(KeyError("tch")) == 3
    assert "Traceback" in capsys.readouterr().err


def test_stream_without_minus_sign_gets_hyphen():
    ended = shell("-m", "lpv", "crosscheck", APPROACH, "--on", "2026-12-01", PYTHONIOENCODING="ascii")
    assert (ended.returncode, ended.stderr) == (0, b"")
    assert b" deg" in ended.stdout
    assert b"?" not in ended.stdout


def test_closed_pipe_ends_quietly():
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "snippets")}
    with subprocess.Popen([sys.executable, "-m", "lpv", "schema", "approach"], stdout=subprocess.PIPE,
                          stderr=subprocess.PIPE, env=environment) as process:
        process.stdout.close()
        assert process.stderr.read() == b""
    assert process.returncode == 141


def test_unknown_command_is_usage_error():
    ended = shell("-m", "lpv", "weather")
    assert ended.returncode == 2
    assert b"No such command 'weather'" in ended.stderr
