"""`python -m lpv.aircraft`: check aircraft files."""

import sys

from lpv.aircraft.command import main

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
