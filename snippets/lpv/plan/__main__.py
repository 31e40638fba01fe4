"""`python -m lpv.plan`: the planning sheet of scenario files."""

import sys

from lpv.plan.sheet import main

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
