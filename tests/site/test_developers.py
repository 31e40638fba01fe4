"""What DEVELOPERS.md lists is what there is."""

import re

from support import ROOT

TEXT = (ROOT / "DEVELOPERS.md").read_text("utf-8")


def test_every_file_that_it_names_is_there():
    named = set(re.findall(r"(?:tests|snippets|docs|lpv_site|lpv)/[a-z_/.-]*\.[a-z]+", TEXT))
    assert len(named) > 20
    for name in named:
        assert (ROOT / name).exists() or (ROOT / "snippets" / name).exists(), name
