"""The theme's search with one fault mended, which made words vanish from it.

Its index joins beginnings and endings that words share.  To know two that are alike it writes each as letters and
numbers one after the other, and so takes "1, 23" for "12, 3": with figures among the words, some words find nothing any
more, others with any change of a text.  A sign after each number keeps them apart.
"""

import re
from functools import cache
from pathlib import Path

from lpv_site.build.digests import NAME_DIGITS, digest
from lpv_site.build.output import without_map
from lpv_site.build.policy import theme_folder

FOLDER = Path("assets") / "javascripts" / "workers"
JOINED = re.compile(r"(\b(\w)=\2\+\w\+\w\.id)(?=}return \2})")


@cache
def mended() -> tuple[str, str, str]:
    """Name of the theme's script, name of the mended one, and its text; ValueError if the theme has changed there."""
    theirs = next((theme_folder() / FOLDER).glob("search.*.min.js"))
    text, count = JOINED.subn(r'\1+";"', without_map(theirs.read_text("utf-8")))
    if count != 1:
        raise ValueError(f"{theirs.name}: the place that is mended stands there {count} times")
    return theirs.name, f"search.{digest(text.encode()).sha256[:NAME_DIGITS]}.min.js", text


def with_mended(html: str) -> str:
    """A page that names the mended script."""
    theirs, ours, _ = mended()
    return html.replace(theirs, ours)


def write(site: Path) -> None:
    """The mended script in the place of the theme's, where a site has that."""
    theirs, ours, text = mended()
    if (site / FOLDER / theirs).is_file():
        (site / FOLDER / theirs).unlink()
        (site / FOLDER / ours).write_text(text, "utf-8")
