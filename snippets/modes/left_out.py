"""What the simulation leaves out."""

from lpv.simulate.simulation import SIMPLIFICATIONS
from lpv_site.text.shown import Shown


def show() -> Shown:
    return Shown("".join(f"- {line}\n" for line in SIMPLIFICATIONS))
