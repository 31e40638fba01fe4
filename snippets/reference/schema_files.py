"""The kinds of data file, each with its JSON Schema."""

from lpv.command.json_schema import file_name
from lpv_site.department.json_schemas import RECORDS
from lpv_site.text.table import table

print(table(["file", "schema"], [(what, f"`{file_name(kind)}`") for kind, (_, _, what) in RECORDS.items()], left=2))
