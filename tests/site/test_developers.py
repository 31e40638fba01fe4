"""What DEVELOPERS.md lists is what there is."""

import re

from render import phone
from support import ROOT

TEXT = (ROOT / "DEVELOPERS.md").read_text("utf-8")


def test_the_list_of_browser_modules_is_what_the_phone_is_sent():
    found = re.search(r"\*\*Browser modules\*\*.*?`(errors, .*?)`", TEXT, re.S)
    listed = {name.strip().removesuffix("/*") for name in found[1].split(",")}
    sent = {address.split("/")[1].removesuffix(".py") for form in phone.ENTRIES for address in phone.modules(form)}
    assert listed | {"__init__", "calculators"} == {name for name in sent if not re.match("track_(?!own)", name)}


def test_every_file_that_it_names_is_there():
    named = set(re.findall(r"(?:tests|snippets|docs|render|lpv)/[a-z_/.-]*\.[a-z]+", TEXT))
    assert len(named) > 20
    for name in named:
        assert (ROOT / name).exists() or (ROOT / "snippets" / name).exists(), name
