"""The set-ups of the site's own data files as links: each opens the form with all that it has set."""

from lpv.setup import file as setup_file
from lpv_site.department.data import DOCS
from lpv_site.forms.setup_form import example_link, fits
from lpv_site.text.text import escape

for found in setup_file.read_all(DOCS / "set-up"):
    if fits(found):
        print(f'- <a href="{example_link(found)}">{escape(found.common.name)}</a>')
