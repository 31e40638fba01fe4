"""The set-ups of the site's own data files as links: each opens the form with all that it has set."""

from lpv.setup import file as setup_file
from lpv_site.department.data import DOCS
from lpv_site.forms.setup_form import example_link, fits
from lpv_site.text.shown import Shown
from lpv_site.text.text import escape


def show() -> Shown:
    """A link for each file that the form has room for."""
    files = [case for case in setup_file.read_all(DOCS / "set-up") if fits(case)]
    return Shown("".join(f'- <a href="{example_link(case)}">{escape(case.common.name)}</a>\n' for case in files))
