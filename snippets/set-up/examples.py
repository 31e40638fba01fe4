"""The set-ups of the site's own data files as links: each opens the form with all that it has set."""

from lpv import setup_file
from render.data import DOCS
from render.setup_form import example_link, fits
from render.text import escape

for found in setup_file.read_all(DOCS / "set-up"):
    if fits(found):
        print(f'- <a href="{example_link(found)}">{escape(found.common.name)}</a>')
