"""`python -m lpv.cycle`: one data cycle against the next."""

import sys

from lpv.crosscheck.cycle import main

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
