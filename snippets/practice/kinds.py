"""Every kind of drill, in words."""

from textwrap import indent

from lpv.drill import numbers, sequence
from lpv.drill.rows import MISTAKES
from lpv_site.text.shown import Shown
from lpv_site.text.table import ALL_LEFT, table


def show() -> Shown:
    """A folded table of the kinds."""
    rows = [
        (f"<code>{key}</code>", mistake.what, "subtle" if mistake.subtle else "plain")
        for key, mistake in MISTAKES.items()
    ]
    rows += [(f"<code>{key}</code>", kind.what, "number") for key, kind in numbers.KINDS.items()]
    rows += [(f"<code>{key}</code>", kind.what, "sequence") for key, kind in sequence.KINDS.items()]
    listed = table(["name", "what is planted, asked or run", "where"], rows, left=ALL_LEFT)
    return Shown(f'??? note "The kinds, by name"\n\n{indent(listed, "    ")}')
