"""The kinds of data file with a JSON Schema: those that `lpv` reads, and those of the site alone.

    python -m lpv_site.department.json_schemas --write docs/reference/schemas

writes all of them; other arguments as for `lpv.command.json_schema`.
"""

import sys

from lpv.command import json_schema
from lpv.command.runner import run

RECORDS = json_schema.RECORDS | {
    "department": ("lpv_site.department.department", "Department", "a department, department.toml"),
    "moved": ("lpv_site.build.moves", "Moves", "pages and headings that moved, moved.toml"),
}


if __name__ == "__main__":
    sys.exit(run(lambda arguments: json_schema.main(arguments, RECORDS), sys.argv[1:]))
