"""`python -m lpv.setup`: a cockpit set-up against its approach."""

import sys

from lpv.setup.file import main

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
