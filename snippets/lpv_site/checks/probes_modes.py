"""Behaviour of the modes that a source describes, put together for the check values."""

from lpv.modes.annunciation import announce
from lpv.modes.machine import run
from lpv.modes.rules import SBAS, USUAL_SOURCES, Source, usual_rules


def source_with_localizer_inhibiting(events: list[str]) -> str:
    """The source shown after these events in an installation in which any tuned localizer inhibits SBAS."""
    sbas = Source(SBAS, (), ("no localizer tuned on either side",), ("its control",), ("its control",))
    rules = usual_rules(sources=(sbas, *USUAL_SOURCES[1:]))
    return announce(run(events, rules), rules)[0]
