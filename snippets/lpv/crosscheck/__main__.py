"""`python -m lpv.crosscheck`: approach files, chart against database."""

import sys

from lpv.crosscheck.check import main

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
