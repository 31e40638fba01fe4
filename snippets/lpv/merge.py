"""`python -m lpv.merge`: see `lpv.fill.merge`."""

import sys

from lpv.command.main import run

if __name__ == "__main__":
    sys.exit(run("merge", sys.argv[1:]))
