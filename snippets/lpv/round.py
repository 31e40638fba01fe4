"""`python -m lpv.round`: see `lpv.fill.rounds`."""

import sys

from lpv.command.main import run

if __name__ == "__main__":
    sys.exit(run("round", sys.argv[1:]))
