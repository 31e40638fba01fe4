"""A configuration of nginx, ready but for the names; the policy has the hashes of the pages of this build."""

from lpv_site.build.hosting import nginx
from lpv_site.text.shown import Shown


def show() -> Shown:
    """A listing of the whole configuration."""
    return Shown(f"```nginx\n{nginx()}```")
