"""Every kind of mistake that a drill may have, in words."""

from lpv.drill.drills import MISTAKES
from lpv_site.text.table import table

rows = [
    (f"<code>{key}</code>", mistake.what, "subtle" if mistake.subtle else "plain")
    for key, mistake in MISTAKES.items()
]
print('??? note "The kinds, by name"\n')
for line in table(["name", "what is planted", "grade"], rows, left=3).splitlines():
    print("    " + line)
