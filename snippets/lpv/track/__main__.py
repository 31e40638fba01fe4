"""`python -m lpv.track`: a recorded flight against an approach."""

import sys

from lpv.track.command import main

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
