"""`python -m lpv.cycle`: one data cycle against the next."""

import sys

from lpv.command.main import run

if __name__ == "__main__":
    sys.exit(run("cycle", sys.argv[1:]))
