"""An empty page, with the site's policy, that can run the handbook's Python in a browser."""

import shutil
from pathlib import Path

from lpv_site.build.policy import policy
from lpv_site.forms import phone
from support import ROOT


def addresses(form: str) -> dict[str, str]:
    """Where the runtime and the modules of a kind of form are, from the site's root."""
    return {"runtime": phone.runtime("js"), "wasm": phone.runtime("wasm"), "code": phone.code(form)[0]}


def write_bare(folder: Path, *forms: str) -> None:
    """The runtime, the modules of some kinds of form, and the empty page in below/, since sites lie in folders too."""
    below = folder / "below"
    shutil.copytree(phone.RUNTIME, below / "assets" / "micropython")
    shutil.copy2(ROOT / "docs" / "assets" / "python.js", below / "assets" / "python.js")
    for address, text in map(phone.code, forms):
        (below / address).write_text(text, "utf-8")
    (below / "index.html").write_text(
        f'<!doctype html><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" content="{policy([])}">'
        '<title>x</title><script src="assets/python.js"></script>', "utf-8",
    )
