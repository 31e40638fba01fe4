"""The ten visual references of the United States rule, in its order."""

from lpv.core.text import fact_text
from lpv.facts import fact
from lpv_site.text.shown import Shown

COUNT = 10


def show() -> Shown:
    """A numbered list."""
    names = [fact_text(fact(f"visual_reference_{place}")) for place in range(1, COUNT + 1)]
    return Shown("\n".join(f"{place}. {name}" for place, name in enumerate(names, 1)))
