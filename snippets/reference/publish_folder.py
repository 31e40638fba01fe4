"""What a department's folder may hold, and the keys of department.toml, from the lines that validate them."""

from lpv.files.schema import entries
from lpv_site.build.moves import FILE as MOVED
from lpv_site.department.department import FILE, Department
from lpv_site.department.files import KINDS, PAGES, PAGES_ENDINGS
from lpv_site.text.table import table
from lpv_site.text.text import escape

WHAT = {
    "approaches": "one file for each approach", "approaches/previous": "the files of the cycle before",
    "aircraft": "one file for each type", "plan": "planning scenarios", "set-up": "set-ups to compare",
    "modes/scenarios": "flights to be flown in simulation", "debrief/flights": "recorded flights",
    "practice": "the drills, drills.toml",
}
rows = [(FILE, "name, looks, cautions, words, figures")]
rows += [(f"{kind}/", f"{WHAT[kind]}: {', '.join(endings)}") for kind, endings in KINDS.items()]
rows.append((MOVED, "where pages and briefings of yours have gone"))
rows.append((f"{PAGES}/", f"pages of your own, pictures: {', '.join(PAGES_ENDINGS)}"))
print(table(["in the folder", "what"], rows, left=2))
keys = [
    (f"**{key}**", escape(entry.what) + (" (must be there)" if entry.required else ""))
    for key, (_, entry) in entries(Department).items()
]
print(f"\nIn `{FILE}`:\n\n{table(['key', 'what'], keys, left=2)}")
