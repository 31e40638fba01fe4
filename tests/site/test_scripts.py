"""Every page script runs by itself, warnings being errors, and prints clean numbers."""

import re
import runpy

import pytest

from lpv_site.build.scripts import SNIPPETS, page_scripts
from lpv_site.figures import figure

UNCLEAN = re.compile(r"(?<![\w.])(?:nan|inf|-0(?:\.0*)?)(?![\w.])", re.I)


@pytest.mark.parametrize("script", page_scripts(), ids=lambda path: str(path.relative_to(SNIPPETS)))
def test_script_runs_and_prints_clean(script, capsys):
    before = set(figure._drawings)
    values = runpy.run_path(str(script), run_name="page").get("values", {})
    printed = capsys.readouterr().out
    assert printed.strip() or values, "a page script prints something or offers values"
    drawn = [figure._drawings[key] for key in set(figure._drawings) - before]
    for text in (printed, *map(str, values.values()), *(re.sub(r"<[^>]*>", " ", svg) for svg in drawn)):
        assert not UNCLEAN.search(text), UNCLEAN.search(text)[0]


def test_script_sizes_stay_small():
    long = [path.name for path in page_scripts() if len(path.read_text("utf-8").splitlines()) > 60]
    assert not long, "split them: page scripts are short"
