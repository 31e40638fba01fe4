"""Words and examples for pages about notices."""

from functools import cache

from lpv.notices.kinds import Kind
from lpv.notices.reading import read_notice
from lpv_site.checks.checks import load_cases

ABBREVIATIONS = ("sbas", "gps", "raim", "vdp")
READER = "lpv.notices.reading.kind_name"


def name_words(kind: Kind) -> str:
    """The name of a kind of notice as a reader writes it: "SBAS may not be available"."""
    return " ".join(word.upper() if word in ABBREVIATIONS else word for word in kind.name.split("-"))


@cache
def published_forms() -> dict[Kind, str]:
    """Kind -> its published form, out of the check values."""
    texts = [str(case.arguments["text"]) for case in load_cases() if case.function == READER]
    return {read_notice(text).kind: text for text in texts}
