"""The headers, one by one, for any server."""

from lpv_site.build.hosting import headers
from lpv_site.text.shown import Shown


def show() -> Shown:
    """A listing of name and value."""
    lines = [f"{name}: {value}" for name, value in headers().items()]
    return Shown("\n".join(["```http", *lines, "```"]))
