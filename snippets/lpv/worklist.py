"""`python -m lpv.worklist`: see `lpv.fill.worklist`."""

import sys

from lpv.command.main import run

if __name__ == "__main__":
    sys.exit(run("worklist", sys.argv[1:]))
