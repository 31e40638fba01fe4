"""`python -m lpv.new`: a blank data file with a comment above every key."""

import sys

from lpv.command.main import run

if __name__ == "__main__":
    sys.exit(run("new", sys.argv[1:]))
