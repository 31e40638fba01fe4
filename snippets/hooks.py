"""The MkDocs hook: a few lines that call `lpv_site`.  A successor of MkDocs calls the same functions."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, cast

from markupsafe import Markup
from mkdocs.exceptions import Abort
from mkdocs.structure.files import File
from mkdocs.structure.toc import get_toc

if TYPE_CHECKING:
    from jinja2 import Environment
    from mkdocs.config.defaults import MkDocsConfig
    from mkdocs.structure.files import Files
    from mkdocs.structure.pages import Page
    from mkdocs.structure.toc import _TocToken

    from lpv_site.build.site import Site

SNIPPETS = Path(__file__).resolve().parent
SITE: Site  # the pages and files of this build


def on_config(config: MkDocsConfig) -> MkDocsConfig:
    """Forget what was imported, so that an edit of snippets takes effect while serving; take a department's data."""
    packages = {path.parent.name for path in SNIPPETS.glob("*/__init__.py")}
    for name in [name for name in sys.modules if name.partition(".")[0] in packages]:
        del sys.modules[name]
    from lpv_site.build import edition
    from lpv_site.build.named import named_by_content
    from lpv_site.department.site import configure

    configure(config)
    docs = Path(config.docs_dir)
    config.extra["edition"] = {"number": edition.number(docs), "time": edition.built()}
    config.extra_css = [named_by_content(address, docs) for address in config.extra_css]
    config.extra_javascript = [named_by_content(str(address), docs) for address in config.extra_javascript]
    return config


def on_files(files: Files, config: MkDocsConfig) -> Files:
    """Make all pages, stopping with every fault at once; add the generated ones; leave out what is not served."""
    global SITE
    from lpv.core.errors import DataError
    from lpv_site.build import edition, shell, withdrawn
    from lpv_site.build.make import FOUND, PASSED_OVER, PUBLISHING
    from lpv_site.build.output import is_served, without_map
    from lpv_site.build.site import Site, head_text
    from lpv_site.department.files import left_behind

    for file in list(files):
        if not is_served(file.src_uri):
            files.remove(file)
        elif file.src_uri.endswith(".min.js"):
            file.content_string = without_map(file.content_string)
    try:
        more = edition.faults() if config.extra.get(PUBLISHING) else []
        SITE = Site(Path(config.docs_dir), config.site_url or "", config.use_directory_urls, more)
    except DataError as error:
        raise Abort(f"The build has {len(error.faults)} fault(s):\n{error}") from None
    config.extra |= {FOUND: SITE.gate(), PASSED_OVER: left_behind(), "withdrawn": withdrawn.latest(SITE.withdrawn)}
    written = set(files.src_uris)
    heads = {address: head_text(page) for address, page in SITE.pages.items() if address not in written}
    heads |= {page_shell.address: shell.head_text() for page_shell in SITE.shells} | SITE.files
    for address, content in heads.items():
        files.append(File.generated(config, address, content=content))
    return files


def on_page_markdown(markdown: str, page: Page, config: MkDocsConfig, files: Files) -> str:
    """Nothing: the page is made already.  Its description stands in an attribute, where the theme escapes nothing."""
    if "description" in page.meta:
        page.meta["description"] = Markup.escape(page.meta["description"])
    return ""


def on_page_content(html: str, page: Page, config: MkDocsConfig, files: Files) -> str:
    """The page as it was made; search and the theme see it, but for what was set aside."""
    made = SITE.pages.get(page.file.src_uri) or SITE.shell_at(page.file.src_uri)
    assert made is not None
    page.toc = get_toc(cast("list[_TocToken]", made.toc))
    return made.content


def on_env(env: Environment, config: MkDocsConfig, files: Files) -> Environment:
    env.lstrip_blocks = True  # a tenth of each page was blanks before the theme's instructions
    return env


def on_post_page(output: str, page: Page, config: MkDocsConfig) -> str:
    from lpv_site.build.seal import sealed

    try:
        finished = SITE.finished(output, page.file.src_uri)
    except ValueError as error:
        raise Abort(str(error)) from None
    if page_shell := SITE.shell_at(page.file.src_uri):
        page_shell.take(finished, Path(page.file.abs_dest_path))
        return finished
    return sealed(finished, page.file.url or "./")


def on_post_template(output: str, template_name: str, config: MkDocsConfig) -> str:
    """The page for a wrong address belongs to the theme; it gets the same policy."""
    from lpv_site.build.named import with_names
    from lpv_site.build.policy import secured
    from lpv_site.build.shell import in_sitemap

    if template_name == "sitemap.xml":
        return in_sitemap(output, SITE.shells)
    return secured(with_names(output, SITE.docs), template_name) if template_name.endswith(".html") else output


def on_post_build(config: MkDocsConfig) -> None:
    """The last of all steps: what it lists must not change afterwards."""
    from lpv_site.build import build_record, offline, search_worker
    from lpv_site.build.digests import digests
    from lpv_site.figures import icons
    from lpv_site.text import search

    site = Path(config.site_dir)
    known = SITE.write_briefings(site)
    search.finish(site, Path(config.docs_dir), config.use_directory_urls, SITE.searched())
    search_worker.write(site)
    icons.write(site / "assets")
    files = build_record.seal(site, digests(site, known))
    serving = str(config.site_url or "").startswith(f"http://{config.dev_addr}/")  # no copies while pages are written
    if config.use_directory_urls and not serving:
        named = [*config.extra_css, *config.extra_javascript, *SITE.named()]
        name, number = Markup(config.site_name).unescape(), config.extra["edition"]["number"]
        offline.write(site, name, config.site_description or "", named, files, number)
