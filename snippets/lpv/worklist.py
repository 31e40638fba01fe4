"""`python -m lpv.worklist`: see `lpv.fill.worklist`."""

import sys

from lpv.fill.worklist import main

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
