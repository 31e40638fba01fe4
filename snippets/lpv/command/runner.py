"""How every command runs: its exit code, its streams, and what becomes of an error; in one place for all of them.

    0    nothing to stop
    1    a finding asks for attention
    2    the command was called wrongly, or a file has faults: nothing was decided
    3    an error inside the program: nothing was decided, please report it
    130  interrupted
    141  whoever read the output closed it: the rest was not written

A traceback is printed only where LPV_TRACEBACK is set.  A stream that cannot write the minus sign or the narrow
no-break space of `lpv.core.text` gets its replacements in ASCII.
"""

import codecs
import os
import sys
import traceback
from collections.abc import Callable
from typing import TextIO

from lpv.core.errors import LpvError
from lpv.core.text import to_ascii
from lpv.files.outside import os_error_text

NOTHING_TO_STOP, ATTENTION, BAD_INPUT, INTERNAL = 0, 1, 2, 3
INTERRUPTED, CLOSED_PIPE = 130, 141
REPLACEMENTS = "lpv-ascii"
TRACEBACK = "LPV_TRACEBACK"

Main = Callable[[list[str]], int]


def run(main: Main, argv: list[str]) -> int:
    """The exit code of a command, whatever happens in it."""
    prepare(sys.stdout, sys.stderr)
    try:
        code = main(argv)
        sys.stdout.flush()
    except SystemExit as stopped:  # argparse: 0 after --help, 2 after a wrong call
        return stopped.code if isinstance(stopped.code, int) else BAD_INPUT if stopped.code else NOTHING_TO_STOP
    except BrokenPipeError:
        _leave_output()
        return CLOSED_PIPE
    except KeyboardInterrupt:
        return INTERRUPTED
    except LpvError as error:
        return _fail(str(error), BAD_INPUT)
    except OSError as error:
        try:
            sys.stdout.flush()
        except OSError:
            _leave_output()
        return _fail(os_error_text(error, _written(error)), BAD_INPUT)
    except Exception as error:
        what = f"{type(error).__name__}: {error}"
        return _fail(f"Internal error, please report it: {what}\nSet {TRACEBACK}=1 to see where it happened.", INTERNAL)
    return code


def prepare(*streams: TextIO) -> None:
    """Let streams that cannot write a character write its replacement instead of failing."""
    codecs.register_error(REPLACEMENTS, _replaced)
    for stream in streams:
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors=REPLACEMENTS)


def _replaced(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    return to_ascii(error.object[error.start:error.end]), error.end


def _fail(message: str, code: int) -> int:
    if os.environ.get(TRACEBACK):
        traceback.print_exc()
    print(message, file=sys.stderr)
    return code


def _written(error: OSError) -> str:
    """The file that was being written, where the error does not name it, as that of a full disk; "" for none."""
    frames = [frame for frame, _ in traceback.walk_tb(error.__traceback__)]
    streams = (local for frame in reversed(frames) for local in frame.f_locals.values() if hasattr(local, "write"))
    return next((stream.name for stream in streams if isinstance(getattr(stream, "name", None), str)), "")


def _leave_output() -> None:
    """Keep Python from complaining once more when it ends, about output that nobody takes."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
