"""What a server should send with the pages: headers, kinds of files, how long a browser may keep them."""

from pathlib import Path
from urllib.parse import urlsplit

import yaml

from render.department import department
from render.fold import CONFIG
from render.policy import header

NGINX = Path(__file__).with_name("nginx.conf")
DEEPEST = 4  # folders below the root of the site that pages stand in, with one to spare
A_YEAR = "public, max-age=31536000, immutable"
# What stands in an address -> kind of file, and how long it may be kept.
KINDS = (
    ("folders, *.html", "text/html; charset=utf-8", "no-cache"),
    ("assets/javascripts/*, assets/stylesheets/*", "text/javascript, text/css", A_YEAR),
    ("*.wasm", "application/wasm", A_YEAR),
    ("other *.js, *.css", "text/javascript, text/css", "no-cache"),
    ("*.json", "application/json", "no-cache"),
    ("*.webmanifest", "application/manifest+json", "no-cache"),
    ("*.svg, *.png", "image/svg+xml, image/png", "no-cache"),
)


def root_of_site() -> str:
    """The site's path on its host: of the department's address, or of site_url; "/" where there is neither."""
    one = department()
    address = one.address if one and one.address else yaml.safe_load(CONFIG.read_text("utf-8")).get("site_url")
    return urlsplit(address or "").path or "/"


def headers() -> dict[str, str]:
    """Name -> value of each header that is the same for all files."""
    return {
        "Content-Security-Policy": header(DEEPEST, root_of_site()),
        "X-Content-Type-Options": "nosniff",
        "Referrer-Policy": "same-origin",
        "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
        "Strict-Transport-Security": "max-age=31536000",
    }


def nginx() -> str:
    """An example of a configuration of nginx, ready but for the names."""
    lines = "\n".join(f'    add_header {name} "{value}" always;' for name, value in headers().items())
    return NGINX.read_text("utf-8").replace("@HEADERS@", lines)
