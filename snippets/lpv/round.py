"""`python -m lpv.round`: see `lpv.fill.rounds`."""

import sys

from lpv.fill.rounds import main

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
