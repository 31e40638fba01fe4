"""What a department's folder changes in the site: name, address, logo, colours, nav, and the page that says so."""

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

from markupsafe import Markup

from lpv.core.errors import DataError
from lpv.core.text import fact_text
from lpv.facts import FACTS, Fact
from lpv_site.checks.check_table import source_text
from lpv_site.department import files
from lpv_site.department.department import OWN, cautions, department, folder, terms
from lpv_site.text.table import stacked
from lpv_site.text.text import escape, fact_id, front_matter

LAST_IN_NAV = "Reference"


def configure(config: Any) -> None:
    """Make MkDocs build the department's edition; config is changed in place, and stays as it is without a folder."""
    where, owner = folder(), department()
    if where is None:
        return
    config.docs_dir = str(files.put_together())
    config.watch += [str(path) for path in (files.OURS, where) if path.is_dir()]
    if owner is None:
        return
    config.site_name = Markup.escape(owner.site_name)  # the theme puts it into attributes as it is
    config.extra["department"] = {"name": owner.name, "cautions": owner.cautions}
    config.site_url = owner.address if owner.address and not _is_served_here(config) else config.site_url
    if owner.logo:
        config.theme["logo"] = f"{OWN}/{owner.logo}"
    if owner.colours:
        config.extra_css = [*config.extra_css, files.STYLES]
    config.nav = with_own(config.nav, Markup.escape(owner.name), own_pages(Path(config.docs_dir)))


def _is_served_here(config: Any) -> bool:
    return str(config.site_url or "").startswith(f"http://{config.dev_addr}/")


def own_pages(docs: Path) -> list[str]:
    """Addresses of the department's pages in the order of their names, its index first, what is its own last."""
    pages = [f"{OWN}/{path.name}" for path in sorted((docs / OWN).glob("*.md"))]
    return [*sorted(pages, key=lambda page: (not page.endswith("/index.md"), page)), files.ABOUT]


def with_own(nav: list[Any], name: str, pages: list[str]) -> list[Any]:
    """The nav with a section of the department's name before the reference."""
    at = next((place for place, item in enumerate(nav) if LAST_IN_NAV in item), len(nav))
    return [*nav[:at], {name: pages}, *nav[at:]]


def department_pages(docs: Path) -> dict[str, Callable[[], str]]:
    """The page that says what is the department's own; DataError with every fault of its folder but the data files'."""
    if problems := files.faults():
        raise DataError(problems)
    return {files.ABOUT: partial(build_department_page, docs)} if department() else {}


def build_department_page(docs: Path) -> str:
    """What this edition has of the department's own, and what is still the demo's."""
    owner = department()
    assert owner is not None
    about = "What in this edition is the department's own, and what is still the demo's."
    page = f"{front_matter('Own data of ' + owner.name, about)}Everything else is the handbook as it comes.\n"
    if owner.cautions:
        page += "\n## Cautions { #own-cautions }\n\n" + "".join(f"- {escape(text)}\n" for text in cautions())
    own_facts = [fact for fact in FACTS.values() if fact.ours]
    page += "\n## Figures { #own-figures }\n\n" + (stacked(map(_figure, own_facts)) if own_facts else "None.\n")
    if terms():
        rows = "".join(f"- **{escape(short)}** {escape(meaning)}\n" for short, meaning in sorted(terms().items()))
        page += f"\n## Words {{ #own-words }}\n\n{rows}"
    return page + "\n## Files { #own-files }\n\n" + "".join(_kind(docs, kind) for kind in files.KINDS)


def _figure(fact: Fact) -> tuple[str, list[tuple[str, object]]]:
    link = f'<a href="../reference/facts.md#{fact_id(fact.key)}">{escape(fact.what)}</a>'
    assert fact.ours is not None
    return link, [
        ("own", fact_text(fact)), ("its source", source_text(fact.source, fact.place)), ("its status", fact.status),
        ("ours", fact_text(fact.ours)), ("status of ours", fact.ours.status),
    ]


def _kind(docs: Path, kind: str) -> str:
    """How many files of one kind are own, and how many are the demo's."""
    paths = [path for path in sorted((docs / kind).glob("*")) if path.suffix in files.KINDS[kind]]
    own_count = sum(map(files.is_own, paths))
    demo = len(paths) - own_count
    words = [f"{own_count} own" if own_count else "", f"{demo} of the demo, invented" if demo else ""]
    return f"- {kind}: {', '.join(filter(None, words)) or 'none'}\n"
