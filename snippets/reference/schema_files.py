"""The kinds of data file, each with its JSON Schema."""

from lpv.json_schema import file_name
from render.json_schemas import RECORDS
from render.table import table

print(table(["file", "schema"], [(what, f"`{file_name(kind)}`") for kind, (_, _, what) in RECORDS.items()], left=2))
