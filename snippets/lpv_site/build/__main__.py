"""`python -m lpv_site.build`: builds the site; see `lpv_site.build.build`."""

import sys

from lpv.command.runner import run
from lpv_site.build.build import main

if __name__ == "__main__":
    sys.exit(run(main, sys.argv[1:]))
