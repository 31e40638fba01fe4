"""`python -m lpv.json_schema`: JSON Schemas of the data files."""

import sys

from lpv.command.main import run

if __name__ == "__main__":
    sys.exit(run("schema", sys.argv[1:]))
