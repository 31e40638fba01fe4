"""`python -m lpv.track`: a recorded flight against an approach."""

import sys

from lpv.command.main import run

if __name__ == "__main__":
    sys.exit(run("track", sys.argv[1:]))
