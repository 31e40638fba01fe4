"""The MkDocs hook: a few lines that call `lpv_site`.  A successor of MkDocs calls the same functions."""

import sys
from pathlib import Path

from mkdocs.exceptions import Abort
from mkdocs.structure.files import File

SNIPPETS = Path(__file__).resolve().parent


def on_config(config):
    """Forget what was imported, so that an edit of snippets takes effect while serving; take a department's data."""
    packages = {path.parent.name for path in SNIPPETS.glob("*/__init__.py")}
    for name in [name for name in sys.modules if name.partition(".")[0] in packages]:
        del sys.modules[name]
    from lpv_site.build.offline import named_by_content
    from lpv_site.department.site import configure

    configure(config)
    docs = Path(config.docs_dir)
    config.extra_css = [named_by_content(address, docs) for address in config.extra_css]
    config.extra_javascript = [named_by_content(address, docs) for address in config.extra_javascript]
    return config


def on_files(files, config):
    """Add the generated pages; stop with every fault of the data files at once; leave out what is not served."""
    from lpv.core.errors import DataError
    from lpv_site.briefing.briefings import html
    from lpv_site.build.ahead import make_ahead
    from lpv_site.build.made_page import MadePage
    from lpv_site.build.output import is_served, without_map
    from lpv_site.build.site import generated_files, generated_pages

    for file in list(files):
        if not is_served(file.src_uri):
            files.remove(file)
        elif file.src_uri.endswith(".min.js"):
            file.content_string = without_map(file.content_string)
    docs = Path(config.docs_dir)
    make_ahead(docs, config.site_url or "")
    try:
        pages = {address: write() for address, write in generated_pages(docs, config.site_url or "").items()}
        others = generated_files(docs, pages, config.use_directory_urls)
    except DataError as error:
        raise Abort(f"The data files have {len(error.faults)} fault(s):\n{error}") from None
    for address, content in {**pages, **others}.items():
        files.append(file := File.generated(config, address, content=content))
        if made := html(address):
            MadePage(file, config, made)
    return files


def on_env(env, config, files):
    from lpv_site.build import made_page, nav, shell, store

    env.bytecode_cache = store.kept_templates()
    env.lstrip_blocks = True  # a tenth of each page was blanks before the theme's instructions
    nav.written_once(env)
    shell.shared(env, made_page.is_made)
    return env


def on_pre_page(page, config, files):
    from lpv_site.briefing import briefings
    from lpv_site.build import kept_html

    return page if briefings.html(page.file.src_uri) else kept_html.keep(page)


def on_page_markdown(markdown, page, config, files):
    from lpv_site.build.site import page_markdown

    try:
        return page_markdown(markdown, page.file.src_uri)
    except ValueError as error:
        raise Abort(str(error)) from None


def on_page_content(html, page, config, files):
    from lpv_site.text.fold import listings_aside

    return listings_aside(html)


def on_page_context(context, page, config, nav):
    """After search has read the page: hooks come after plugins."""
    from lpv_site.build.made_page import is_made

    if is_made(page):
        page.searched()
    return context


def on_post_page(output, page, config):
    from lpv_site.build.site import page_html

    try:
        return page_html(output, page.file.src_uri, config.use_directory_urls, config.site_url or "")
    except ValueError as error:
        raise Abort(str(error)) from None


def on_post_template(output, template_name, config):
    """The page for a wrong address belongs to the theme; it gets the same policy."""
    from lpv_site.build.policy import secured

    return secured(output, template_name) if template_name.endswith(".html") else output


def on_post_build(config):
    """The last of all steps: what it lists must not change afterwards."""
    from lpv_site.build import build_record, offline
    from lpv_site.figures import icons
    from lpv_site.text import search

    site = Path(config.site_dir)
    search.finish(site, Path(config.docs_dir), config.use_directory_urls)
    icons.write(site / "assets")
    build_record.seal(site)
    serving = str(config.site_url or "").startswith(f"http://{config.dev_addr}/")  # no copies while pages are written
    if config.use_directory_urls and not serving:
        named = [*config.extra_css, *config.extra_javascript]
        offline.write(site, config.site_name, config.site_description, named)
