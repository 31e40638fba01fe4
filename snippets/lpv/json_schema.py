"""`python -m lpv.json_schema`: JSON Schemas of the data files."""

import sys

from lpv.command.json_schema import main

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
