"""`python -m lpv.path_point`: the path points of an ARINC 424 file."""

import sys

from lpv.command.main import run

if __name__ == "__main__":
    sys.exit(run("path-point", sys.argv[1:]))
