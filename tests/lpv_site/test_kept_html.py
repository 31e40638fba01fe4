"""A page's HTML that was kept is what MkDocs makes; nothing is kept of a page that MkDocs warns about."""

import logging

import pytest
from mkdocs.config.base import load_config
from mkdocs.structure.files import get_files
from mkdocs.structure.pages import Page

from lpv_site.build import kept_html, scripts
from lpv_site.figures import figure

FIRST = """---
title: One
---
# One { #top }

[two](b.md#there) and <b id="raw">raw</b>

## Part & *more* { #part }

### Deeper { #deeper }
"""
CONFIG = """site_name: T
docs_dir: docs
markdown_extensions: [attr_list, {toc: {permalink: true}}]
validation: {links: {not_found: warn, anchors: warn}}
"""


@pytest.fixture
def docs(tmp_path, monkeypatch):
    """Two pages, and an empty place to keep HTML in."""
    monkeypatch.setattr(kept_html, "FOLDER", tmp_path / "kept")
    (tmp_path / "docs").mkdir()
    (tmp_path / "mkdocs.yml").write_text(CONFIG, "utf-8")
    (tmp_path / "docs" / "a.md").write_text(FIRST, "utf-8")
    (tmp_path / "docs" / "b.md").write_text("# Two\n\n## There { #there }\n", "utf-8")
    return tmp_path / "docs"


def rendered(docs, keep=True, extra=""):
    """The page a.md as a build makes it, and the files of that build."""
    config = load_config(str(docs.parent / "mkdocs.yml"))
    files = get_files(config)
    page = Page(None, files.get_file_from_path("a.md"), config)
    page.read_source(config)
    page.markdown += extra
    if keep:
        kept_html.keep(page)
    page.render(config, files)
    return page, files


def told(page):
    """All that the rest of a build asks of a page's HTML."""
    links = {file.src_uri: anchors for file, anchors in page.links_to_anchors.items()}
    return page.content, str(page.toc), [item.level for item in page.toc], page.title, page.present_anchor_ids, links


def kept(docs):
    return sorted(path.name for path in (docs.parent / "kept").glob("*"))


def test_what_is_kept_is_what_mkdocs_makes(docs, monkeypatch):
    by_mkdocs = told(rendered(docs, keep=False)[0])
    assert by_mkdocs[4] == {"top", "part", "deeper", "raw"}
    assert by_mkdocs[5]["b.md"] == {"there": "b.md#there"}
    assert told(rendered(docs)[0]) == by_mkdocs
    monkeypatch.setattr("markdown.Markdown.convert", lambda *_: pytest.fail("made again"))
    assert told(rendered(docs)[0]) == by_mkdocs
    assert len(kept(docs)) == 1


def test_drawings_of_a_kept_page_are_remembered(docs, monkeypatch):
    monkeypatch.setattr(figure, "_drawings", {})
    drawing = f"\n\n<div>{figure.set_aside('<p>drawn</p>')}</div>\n"
    rendered(docs, extra=drawing)
    figure.forget()
    page, _ = rendered(docs, extra=drawing)
    assert "<p>drawn</p>" in figure.fill(page.content)


@pytest.mark.parametrize("faulty", ["[gone](gone.md)", "[gone](gone.md#x)"])
def test_a_page_with_a_warning_warns_each_time(docs, caplog, faulty):
    for _ in range(2):
        caplog.clear()
        with caplog.at_level(logging.WARNING, "mkdocs"):
            rendered(docs, extra=f"\n\n{faulty}\n")
        assert "gone.md" in caplog.text
    assert kept(docs) == []


def test_a_lost_anchor_is_found_on_a_kept_page_too(docs, caplog):
    rendered(docs)
    page, files = rendered(docs)
    target = Page(None, files.get_file_from_path("b.md"), load_config(str(docs.parent / "mkdocs.yml")))
    target.present_anchor_ids = {"elsewhere"}
    with caplog.at_level(logging.WARNING, "mkdocs"):
        page.validate_anchor_links(files=files, log_level=logging.WARNING)
    assert "does not contain an anchor '#there'" in caplog.text


def test_another_text_or_another_file_is_another_key(docs):
    rendered(docs)
    rendered(docs, extra="\n\nmore\n")
    assert len(kept(docs)) == 2
    (docs / "c.md").write_text("# Three\n", "utf-8")
    kept_html.addresses_version.cache_clear()
    rendered(docs)
    assert len(kept(docs)) == 3


def test_an_edited_script_or_configuration_is_another_key(tmp_path, monkeypatch):
    before = kept_html.sources_version()
    for place in ("CONFIG", "SNIPPETS"):
        with monkeypatch.context() as patch:
            (tmp_path / "one").mkdir(exist_ok=True)
            (tmp_path / "one" / "a.py").write_text("x = 1", "utf-8")
            patch.setattr(kept_html.store, place, tmp_path / "one" / "a.py" if place == "CONFIG" else tmp_path)
            kept_html.sources_version.cache_clear()
            assert kept_html.sources_version() != before
    kept_html.sources_version.cache_clear()
    assert kept_html.sources_version() == before


def test_nothing_is_kept_while_mkdocs_is_told_to_be_quiet(docs):
    """A page whose warning nobody hears would pass the next strict build."""
    logger = logging.getLogger("mkdocs")
    level = logger.level
    logger.setLevel(logging.ERROR)
    try:
        rendered(docs, extra="\n\n[gone](gone.md)\n")
    finally:
        logger.setLevel(level)
    assert kept(docs) == []


def test_what_a_script_prints_is_in_the_key(docs, monkeypatch):
    fence = scripts.with_printed('```python exec="on" id="a"\n--8<-- "debrief/own.py"\n```\n')
    for text in ("one", "two"):
        monkeypatch.setattr(scripts, "run", lambda name, text=text: scripts.Printed(f"{name} {text}", {}))
        assert scripts.printed_on(fence) == [f"debrief/own {text}"]
        rendered(docs, extra=f"\n\n<!-- {fence} -->\n")
    assert len(kept(docs)) == 2
