"""What an object store must keep with each kind of file."""

from lpv_site.build.hosting import KINDS
from lpv_site.text.table import table

rows = [(f"`{what}`", f"`{kind}`", f"`{keep}`") for what, kind, keep in KINDS]
print(table(["address", "Content-Type", "Cache-Control"], rows, left=3))
