"""`python -m lpv.plan`: the planning sheet of scenario files."""

import sys

from lpv.command.main import run

if __name__ == "__main__":
    sys.exit(run("plan", sys.argv[1:]))
