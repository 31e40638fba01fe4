"""`python -m lpv.merge`: see `lpv.fill.merge`."""

import sys

from lpv.fill.merge import main

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
