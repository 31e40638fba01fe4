"""The commands say in their help what their exit codes mean."""

import pytest

from lpv.arinc import importer
from lpv.crosscheck import cycle
from lpv.plan import sheet as plan
from lpv.setup import file as setup_file
from lpv.track import command as track

COMMANDS = {"importer": importer, "cycle": cycle, "track": track, "plan": plan, "setup": setup_file}


@pytest.mark.parametrize("name", COMMANDS)
def test_the_help_names_the_exit_codes(name, capsys):
    with pytest.raises(SystemExit) as stopped:
        COMMANDS[name].main(["--help"])
    assert stopped.value.code == 0
    printed = " ".join(capsys.readouterr().out.split())
    assert printed.startswith(f"usage: python -m lpv.{name} ")
    codes = printed.partition("Exit code: ")[2]
    assert [codes[:2], "; 1 " in codes, "; 2 " in codes] == ["0 ", True, True]
