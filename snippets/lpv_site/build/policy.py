"""What a page may load and run, said in the page itself: its Content-Security-Policy.

Scripts and styles come from the site's own files only.  The few scripts that the theme writes into each page are
allowed by their hashes, and only because they are the theme's: a script that came in with a text or a data file
is no part of the theme, gets no hash, and stops the build.
"""

import base64
import hashlib
import importlib.util
import re
from collections.abc import Iterable
from functools import cache
from pathlib import Path

OWN_THEME = Path(__file__).resolve().parents[1] / "theme"
RULES = {
    "default-src": "'self'",
    "script-src": "'self' 'wasm-unsafe-eval'",  # the calculators are WebAssembly
    "style-src": "'self'",
    "img-src": "'self' data:",
    "connect-src": "'self'",
    "worker-src": "'self'",
    "object-src": "'none'",
    "base-uri": "'none'",
    "form-action": "'none'",
}
CHARSET = '<meta charset="utf-8">'
SCRIPT = re.compile(r"<script([^>]*)>(.*?)</script>", re.S | re.I)
IS_DATA = re.compile(r'type="application/(?:ld\+)?json"')
# The one script that differs from page to page: it names the way up to the site's root.
ROOT_OF_SITE = re.compile(r'new URL\("(\{\{[^}]*\}\}|[\w./%~-]*)",location\)')
TAG = re.compile(r"<[a-zA-Z][^\s>]*(?:\s[^<>]*)?>")
# Searched for where blanks are all spaces: what begins with a fixed text is found at once.
STYLED = ("<style", ' style="')
HANDLER = re.compile(r' on[a-z]+="')
BLANKS = "\t\n\f\r\v"
VALUE = re.compile(r'="[^"]*"')


def secured(html: str, address: str, more_sources: str = "") -> str:
    """A finished page with its policy, before anything that the policy speaks of.

    more_sources: allowed beside the site itself, such as "file:" for a site that is opened without a server.
    Raises ValueError for a script, style or handler written into the page that the policy would keep from working.
    """
    if CHARSET not in html:
        return html
    scripts = inline_scripts(html)
    if faults := [*foreign_scripts(scripts), *styles(html)]:
        raise ValueError(f"{address}: {'; '.join(faults)}")
    rules = policy(map(hashed, scripts), more_sources)
    return html.replace(CHARSET, f'{CHARSET}<meta http-equiv="Content-Security-Policy" content="{rules}">', 1)


def inline_scripts(html: str) -> list[str]:
    """The scripts that stand in a page and run."""
    return [script for attributes, script in SCRIPT.findall(html) if is_inline(attributes)]


def kept_from_working(content: str) -> list[str]:
    """What the policy would keep from working in a page's own content, in words, before the theme is around it."""
    scripts = inline_scripts(content) if "<script" in content.lower() else []
    return [*(foreign_scripts(scripts) if scripts else []), *styles(content)]


def policy(hashes: Iterable[str], more_sources: str = "") -> str:
    """The policy as one line, with the hashes of the scripts that a page may have written into it."""
    allowed = "".join(f" '{source}'" for source in dict.fromkeys(hashes))
    more = f"'self' {more_sources}" if more_sources else "'self'"
    rules = RULES | {"script-src": RULES["script-src"] + allowed}
    return "; ".join(f"{name} {sources}".replace("'self'", more) for name, sources in rules.items())


def header(depth: int, root: str = "/") -> str:
    """The policy for all pages of a site at once, to be sent by its server.

    depth: of the deepest page, in folders below the site's root
    root:  path of the site on its host; the page shown for a wrong address names it
    """
    ways_up = [".", *("/".join([".."] * folders) for folders in range(1, depth + 1)), root]
    scripts = inline_scripts(page_scripts())
    filled = (ROOT_OF_SITE.sub(f'new URL("{up}",location)', script) for script in scripts for up in ways_up)
    return f"{policy(map(hashed, filled))}; frame-ancestors 'none'"


def hashed(script: str) -> str:
    return "sha256-" + base64.b64encode(hashlib.sha256(script.encode()).digest()).decode()


def is_inline(attributes: str) -> bool:
    """Whether a script element runs what stands in it."""
    return "src=" not in attributes and not IS_DATA.search(attributes)


def foreign_scripts(scripts: Iterable[str]) -> list[str]:
    """Scripts written into a page that are not the theme's, in words."""
    theirs = theme_scripts()
    return [
        f"a script written into the page, which would not run ({script.strip()[:40]!r})"
        for script in scripts
        if ROOT_OF_SITE.sub("", script) not in theirs
    ]


def styles(html: str) -> list[str]:
    """Styles and handlers written into a page, in words."""
    text = SCRIPT.sub("", html)
    for blank in BLANKS:
        text = text.replace(blank, " ")
    if not any(sign in text for sign in STYLED) and not HANDLER.search(text):
        return []
    tags = [tag for tag in TAG.findall(text) if "style" in tag or " on" in tag]
    return [
        f"a style or handler written into the page, which would do nothing ({tag[:60]!r})"
        for tag in tags
        if any(sign in tag for sign in STYLED) or HANDLER.search(VALUE.sub('=""', tag))
    ]


@cache
def theme_scripts() -> str:
    """All templates of the theme that hold scripts, ours on top of it."""
    return ROOT_OF_SITE.sub("", _templates(theme_folder() / "partials" / "javascripts", OWN_THEME))


@cache
def page_scripts() -> str:
    """The templates whose scripts stand in every page of this site."""
    folder = theme_folder() / "partials" / "javascripts"
    named = "\n".join((folder / f"{name}.html").read_text("utf-8") for name in ("base", "palette", "content"))
    return named + _templates(OWN_THEME)


def _templates(*folders: Path) -> str:
    return "\n".join(path.read_text("utf-8") for folder in folders for path in sorted(folder.rglob("*.html")))


def theme_folder() -> Path:
    """The templates of the theme that the site is built on."""
    spec = importlib.util.find_spec("material")
    if spec is None or spec.origin is None:
        raise ModuleNotFoundError("the theme is not installed: pip install -r requirements.txt")
    return Path(spec.origin).parent / "templates"
