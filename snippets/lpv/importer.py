"""`python -m lpv.importer`: approach files from ARINC 424 records."""

import sys

from lpv.arinc.importer import main

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
