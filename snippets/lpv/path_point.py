"""`python -m lpv.path_point`: the path points of an ARINC 424 file."""

import sys

from lpv.fas.path_point import main

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
