"""The kinds of data file, each with its JSON Schema."""

from lpv.json_schema import RECORDS, file_name
from render.table import table

rows = [(what, f"[{kind}](schemas/{file_name(kind)})") for kind, (_, _, what) in RECORDS.items()]
print(table(["file", "schema"], rows, left=2))
