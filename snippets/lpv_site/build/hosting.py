"""What a server should send with the pages: headers, kinds of files, how long a browser may keep them.

    python -m lpv_site.build.hosting [--plain PORT] [--root FOLDER] > handbook.conf

--plain  no https of its own: for a container behind something that has it
--root   the folder with the site
"""

import argparse
import re
import sys
from pathlib import Path
from urllib.parse import urlsplit

from lpv.command.runner import run
from lpv_site.build.policy import header
from lpv_site.department.department import department
from lpv_site.text.convert import config

NGINX = Path(__file__).with_name("nginx.conf")
DEEPEST = 4  # folders below the root of the site that pages stand in, with one to spare
A_YEAR = "public, max-age=31536000, immutable"
# What stands in an address -> kind of file, and how long it may be kept.
KINDS = (
    ("folders, *.html", "text/html; charset=utf-8", "no-cache"),
    ("assets/javascripts/*, assets/stylesheets/*", "text/javascript, text/css", A_YEAR),
    ("assets/*.<8 signs>.json, *.wasm", "application/json, application/wasm", A_YEAR),
    ("other *.js, *.css", "text/javascript, text/css", "no-cache"),
    ("other *.json", "application/json", "no-cache"),
    ("*.webmanifest", "application/manifest+json", "no-cache"),
    ("*.svg, *.png, *.jpg", "image/svg+xml, image/png, image/jpeg", "no-cache"),
    ("*.pdf", "application/pdf", "no-cache"),
)


HIGHEST_PORT = 65535


def root_of_site() -> str:
    """The site's path on its host: of the department's address, or of site_url; "/" where there is neither."""
    owner = department()
    address = owner.address if owner and owner.address else config().get("site_url")
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


def nginx_plain(port: int, root: str) -> str:
    """The same without https, for a server that something with https stands in front of."""
    text = re.sub(r"^    ssl_certificate.*\n", "", nginx(), flags=re.M)
    names = {"listen 443 ssl;": f"listen {port};", "handbook.department.example": "_", "/srv/handbook/site": root}
    for ours, theirs in names.items():
        text = text.replace(ours, theirs)
    return text


def _port(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text) <= HIGHEST_PORT:
        raise argparse.ArgumentTypeError(f"found {text}; allowed: 1 to {HIGHEST_PORT}")
    return int(text)


def main(arguments: list[str] | None = None) -> int:
    parser = argparse.ArgumentParser(prog="python -m lpv_site.build.hosting", description=__doc__)
    parser.add_argument("--plain", type=_port, metavar="PORT")
    parser.add_argument("--root", default="/srv/handbook/site")
    options = parser.parse_args(arguments)
    text = (nginx_plain(options.plain, options.root) if options.plain
            else nginx().replace("/srv/handbook/site", options.root))
    print(text, end="")
    return 0


if __name__ == "__main__":
    sys.exit(run(main, sys.argv[1:]))
