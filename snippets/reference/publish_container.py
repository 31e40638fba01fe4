"""The container file of the repository, ready to use."""

from pathlib import Path

from lpv_site.build import hosting
from lpv_site.text.shown import Shown


def show() -> Shown:
    """A listing of the file."""
    text = (Path(hosting.__file__).parent / "Containerfile").read_text("utf-8")
    return Shown(f"```text\n{text}```")
