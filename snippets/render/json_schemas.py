"""The kinds of data file with a JSON Schema: those that `lpv` reads, and those of the site alone.

    python -m render.json_schemas --write docs/reference/schemas

writes all of them; other arguments as for `lpv.json_schema`.
"""

import sys

from lpv import json_schema

RECORDS = json_schema.RECORDS | {
    "department": ("render.department", "Department", "a department, department.toml"),
    "moved": ("render.moves", "Moves", "pages and headings that moved, moved.toml"),
}


if __name__ == "__main__":
    sys.exit(json_schema.main(sys.argv[1:], RECORDS))
