"""`python -m lpv.importer`: approach files from ARINC 424 records."""

import sys

from lpv.command.main import run

if __name__ == "__main__":
    sys.exit(run("import", sys.argv[1:]))
