"""The theme around briefings: what it gives is what MkDocs and the theme give for each page by itself."""

import os
import shutil
import subprocess
import sys

import pytest

from generate_approaches import write_approaches
from lpv_site.briefing.briefing import IndexEntry
from lpv_site.briefing.briefings import Briefing
from lpv_site.build import shell, store
from support import copy_of_project

ADDRESS = "https://handbook.example/crew/"
# Only briefings, and what leads to them; and what a build without shells does: each briefing is a page like any other.
PLAIN = """
from lpv_site.build import site
from lpv_site.briefing.briefings import EDITION
from lpv_site.build.pages import Page
from lpv_site.build.site import Site
from lpv_site.build.store import body


def whole(key):
    return body(key).decode().replace(f" {EDITION}", "")


site.MAKERS, site.CHECKED = {}, "lpv_site.pages.glossary.glossary_pages"


class SharedSite(Site):
    def _check_links(self):
        pass

class PlainSite(SharedSite):
    def _briefings(self):
        found = super()._briefings()
        self.pages |= {
            f"approaches/{slug}.md": Page(each.head, whole(each.key), {}, each.toc, [], [], [])
            for slug, each in found.items()}
        self.kept = found
        return {}
"""


def briefing(key, *headings, title="A & <b>", body=b"<h1>x</h1>"):
    store.keep(key, {}, body)
    children = [{"level": 2, "id": name, "name": name, "children": []} for name in headings]
    toc = [{"level": 1, "id": "top", "name": "Own &amp; heading", "children": children}]
    entry = IndexEntry("ZZAA", "Name", title, "LPV", "1", "W09A", "2612")
    return Briefing({"title": title, "description": "About"}, toc, [], [], [], entry, "{}", "", key)


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.setattr(store, "FOLDER", tmp_path)
    return tmp_path


def test_briefings_with_same_headings_share_shell(folder):
    made = shell.shells({"a": briefing("1", "x", "y"), "b": briefing("2", "x"), "c": briefing("3", "x", "y")})
    assert [list(each.briefings) for each in made] == [["a", "c"], ["b"]]
    assert len({each.address for each in made}) == 2


def test_texts_filled_in_escaped(folder):
    link = b'<h1>x</h1><a href="docs:reference/facts.md#f">f</a>'
    (made,) = shell.shells({"a": briefing("1", "x", body=link)})
    theme = f"<t>{shell.TITLE}|{shell.DESCRIPTION}|{shell.HEADING}|/{shell.ADDRESS}0/|{made.content}</t>"
    made.take(theme, folder / "page" / "index.html")
    assert dict(shell.finished(made, True)) == {"a": "<t>A &amp; &lt;b&gt;|About|Own &amp; heading|/a/|"
                                                "<h1>x</h1><a href=\"../../reference/facts/#f\">f</a></t>"}


def test_page_of_marks_not_in_site(folder):
    (made,) = shell.shells({"a": briefing("1", "x")})
    page = folder / "hb-mark-address-0" / "index.html"
    page.parent.mkdir()
    page.write_text("x")
    made.take("x", page)
    made.remove()
    assert not page.parent.exists()


def test_sitemap_names_briefings_instead_of_marks(folder):
    made = shell.shells({"a": briefing("1", "x"), "b": briefing("2", "y"), "c": briefing("3", "x")})
    entry = "<url><loc>https://a.example/{}/</loc></url>"
    urls = "\n".join(entry.format(name) for name in ("p", "hb-mark-address-0", "hb-mark-address-1"))
    text = shell.in_sitemap(f"<urlset>{urls}</urlset>", made)
    assert [name in text for name in ("/p/", "/a/", "/b/", "/c/", "hb-mark")] == [True, True, True, True, False]
    assert text.count("<url>") == 4


def content(folder):
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_briefings_equal_mkdocs_and_theme_output(tmp_path):
    project = copy_of_project(tmp_path / "project")
    shutil.rmtree(project / "docs" / "approaches" / "previous")
    for page in [*(project / "docs").glob("[!a]*/**/*.md")]:  # they lead nowhere here, and take their time
        page.unlink()
    debrief = project / "docs" / "debrief"
    kept = [line for line in (debrief / "codes.toml").read_text("utf-8").splitlines() if '{ code = "AL-' in line]
    (debrief / "codes.toml").write_text("entry = [\n" + "\n".join(kept) + "\n]\n", "utf-8")
    for lists in (debrief / "words.toml", project / "docs" / "moved.toml"):
        lists.unlink()
    write_approaches(project / "docs" / "approaches", 6, seed=4)
    with (project / "mkdocs.yml").open("a", encoding="utf-8") as config:
        config.write(f"\nsite_url: {ADDRESS}\n")

    def built(name, **more):
        run = subprocess.run(
            [sys.executable, "-m", "mkdocs", "build", "--site-dir", str(tmp_path / name)], cwd=project,
            capture_output=True, text=True,
            env={**os.environ, "PYTHONPATH": str(project / "snippets"), "SOURCE_DATE_EPOCH": "0",
                 "HANDBOOK_STORE": str(tmp_path / "store"), **more},
        )
        assert run.returncode == 0, run.stdout + run.stderr
        return content(tmp_path / name)

    hooks = project / "snippets" / "hooks.py"
    text = hooks.read_text("utf-8")
    assert text.count("SITE = Site(") == 1
    text = text.replace("SITE = Site(", "SITE = (plain.PlainSite if os.environ.get('PLAIN') else plain.SharedSite)(")
    text = text.replace("    global SITE\n", "    global SITE\n    import os\n    import plain\n")
    hooks.write_text(text, "utf-8")
    (project / "snippets" / "plain.py").write_text(PLAIN, "utf-8")
    shared, plain = built("shared"), built("plain", PLAIN="1")  # of one edition: the sources are the same
    pages = [name for name in shared if name.startswith("approaches/zz") and name.endswith("index.html")]
    assert len(pages) >= 11
    for name in pages:
        assert shared[name] == plain[name], name
    page = shared["approaches/zz-scale-00003/index.html"].decode()
    assert f'<link rel="canonical" href="{ADDRESS}approaches/zz-scale-00003/">' in page
    assert f'aria-label="Code for: {ADDRESS}approaches/zz-scale-00003/#card"' in page
    assert "zz-scale-00003" in shared["search/search_index.json"].decode()
    assert f"{ADDRESS}approaches/zz-scale-00003/" in shared["sitemap.xml"].decode()
    assert not any("hb-mark-" in text.decode("utf-8", "replace") for text in shared.values())
