"""Every kind of mistake that a drill may have, in words."""

from textwrap import indent

from lpv.drill.drills import MISTAKES
from lpv_site.text.shown import Shown
from lpv_site.text.table import table


def show() -> Shown:
    """A folded table of the kinds."""
    rows = [
        (f"<code>{key}</code>", mistake.what, "subtle" if mistake.subtle else "plain")
        for key, mistake in MISTAKES.items()
    ]
    listed = table(["name", "what is planted", "grade"], rows, left=3)
    return Shown(f'??? note "The kinds, by name"\n\n{indent(listed, "    ")}')
