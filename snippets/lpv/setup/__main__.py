"""`python -m lpv.setup`: a cockpit set-up against its approach."""

import sys

from lpv.command.main import run

if __name__ == "__main__":
    sys.exit(run("setup", sys.argv[1:]))
