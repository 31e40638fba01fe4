"""What a department's folder may hold, and the keys of department.toml, from the lines that validate them."""

from lpv.files.schema import entries
from lpv_site.build.moves import FILE as MOVED
from lpv_site.department.department import FILE, Department
from lpv_site.department.files import KINDS, PAGES, PAGES_ENDINGS
from lpv_site.text.shown import Shown
from lpv_site.text.table import ALL_LEFT, table
from lpv_site.text.text import escape

WHAT = {
    "approaches": "one file for each approach", "approaches/previous": "the files of the cycle before",
    "aircraft": "one file for each type", "plan": "planning scenarios",
    "plan/operators": "whose rules and approvals a planned flight is under", "set-up": "set-ups to compare",
    "modes/scenarios": "flights to be flown in simulation", "debrief/flights": "recorded flights",
    "practice": "the drills, drills.toml", "teach": "lessons",
}


def folder() -> list[tuple[str, str]]:
    """What may lie in the folder, in words."""
    kinds = [(f"{kind}/", f"{WHAT[kind]}: {', '.join(endings)}") for kind, endings in KINDS.items()]
    return [
        (FILE, "name, looks, cautions, words, figures"), *kinds,
        (MOVED, "where pages and briefings of yours have gone, and which were withdrawn"),
        (f"{PAGES}/", f"pages of your own, pictures: {', '.join(PAGES_ENDINGS)}"),
    ]


def keys() -> list[tuple[str, str]]:
    """The keys of department.toml, in words."""
    return [
        (f"**{key}**", escape(entry.what) + (" (must be there)" if entry.required else ""))
        for key, (_, entry) in entries(Department).items()
    ]


def show() -> Shown:
    """A table of each."""
    files = table(["in the folder", "what"], folder(), left=ALL_LEFT)
    return Shown(f"{files}\n\nIn `{FILE}`:\n\n{table(['key', 'what'], keys(), left=ALL_LEFT)}")
