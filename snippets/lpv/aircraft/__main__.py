"""`python -m lpv.aircraft`: check aircraft files."""

import sys

from lpv.command.main import run

if __name__ == "__main__":
    sys.exit(run("aircraft", sys.argv[1:]))
