"""`python -m lpv.crosscheck`: approach files, chart against database."""

import sys

from lpv.command.main import run

if __name__ == "__main__":
    sys.exit(run("crosscheck", sys.argv[1:]))
