"""The kinds of data file, each with its JSON Schema."""

from lpv.command.json_schema import file_name
from lpv_site.department.json_schemas import RECORDS
from lpv_site.text.shown import Shown
from lpv_site.text.table import ALL_LEFT, table


def show() -> Shown:
    """A table of the kinds."""
    rows = [(what, f"`{file_name(kind)}`") for kind, (_, _, what) in RECORDS.items()]
    return Shown(table(["file", "schema"], rows, left=ALL_LEFT))
