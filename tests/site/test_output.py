"""The built output: nothing stray, nothing of the machine it was built on, every page whole; two builds the same."""

import functools
import gzip
import hashlib
import os
import posixpath
import re
import subprocess
import sys
from collections import Counter
from html.parser import HTMLParser
from pathlib import Path

import pytest

from lpv.aircraft.record import read_all as read_types
from support import COMMIT, ROOT, TIME, copy_of_project, html_pages

SERVED = {
    ".html", ".css", ".js", ".json", ".svg", ".png", ".wasm", ".xml", ".gz", ".webmanifest",
}
# Without a suffix of their own, or of one that is served only here.
NAMED = {"assets/micropython/LICENSE", "assets/micropython/SHA256SUMS"}
TEXTS = {".html", ".css", ".js", ".json", ".svg", ".xml", ".webmanifest"}
UNFINISHED = ('exec="', "Traceback (most recent call last)", "{{", "}}", "--8<--", "data-drawing=", "{ #", "None None")
HOME = re.compile(r"(?:/home/|/root/|/Users/|/tmp/|[A-Z]:\\\\)[\w.-]")
# Of a first view, compressed: the page itself, and everything.
OWN_BYTES, ALL_BYTES = 40_000, 150_000
VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}


class Page(HTMLParser):
    """What a page is made of: its tags with attributes, and its text outside scripts."""

    def __init__(self, text):
        super().__init__()
        self.tags, self.text, self.words, self.title, self._open = [], [], [], "", []
        self.feed(text)

    def handle_starttag(self, tag, attributes):
        self.tags.append((tag, dict(attributes), tuple(self._open)))
        if tag not in VOID:
            self._open.append(tag)

    def handle_endtag(self, tag):
        while self._open and self._open.pop() != tag:
            pass

    def handle_data(self, data):
        inside = set(self._open)
        if "script" in inside:
            return
        if "svg" not in inside and "title" in inside:
            self.title += data
        in_code = "code" in inside or "pre" in inside
        self.text.append((data, in_code))
        if not in_code and "nav" not in inside:  # the theme writes headings again in its lists, spaces as it likes
            self.words.append(data)

    def all(self, wanted):
        return [attributes for tag, attributes, _ in self.tags if tag == wanted]

    def meta(self, name):
        metas = self.all("meta")
        return [meta.get("content") for meta in metas if name in (meta.get("name"), meta.get("property"))]


@pytest.fixture(scope="module")
def files(site):
    return {path.relative_to(site).as_posix(): path for path in sorted(site.rglob("*")) if path.is_file()}


@pytest.fixture(scope="module")
def pages(files, site):
    return {name: Page(files[name].read_text("utf-8")) for name in html_pages(site)}


def faults(pages, fault_of):
    """Every page with a fault, and what it is."""
    return {name: fault for name, page in pages.items() if (fault := fault_of(page))}


def test_no_stray_files_served(files):
    allowed = re.compile(r"assets/(?:.*/)?[\w.-]+|search/search_index\.js(on)?|offline/\w+\.json|"
                         r"reference/schemas/\w+\.schema\.json|approaches/[a-z0-9-]+/set-up\.json|[\w/.-]*\.html|"
                         r"(?:sw\.js|build-record\.json|withdrawn\.json|sitemap\.xml(\.gz)?|manifest\.webmanifest|robots\.txt)")
    stray = [
        name for name, path in files.items()
        if name not in NAMED
        and (not allowed.fullmatch(name) or path.suffix not in SERVED) and not name.startswith("assets/lpv/")
    ]
    assert not stray
    assert not [name for name in files if "sourceMappingURL" in read(files[name])]
    assert not [name for name in files if "lunr/" in name]


def read(path):
    return path.read_text("utf-8") if path.suffix in TEXTS else ""


def test_no_build_machine_named(files, site):
    own = {str(ROOT), str(site), str(Path(sys.prefix)), os.uname().nodename}
    for name, path in files.items():
        content = path.read_bytes()
        assert not [each for each in own if len(each) > 6 and each.encode() in content], name
        if name.endswith(".html"):
            assert not HOME.search(content.decode()), name


def test_no_unfinished_page(pages, files):
    for name, page in pages.items():
        words = "".join(data for data, is_code in page.text if not is_code)
        assert not [each for each in UNFINISHED if each in words], name
        assert "data-drawing=" not in read(files[name]), name
        assert not [each for tag in page.tags for each in tag[1].values() if each and "{{" in each], name


def test_no_meaningless_value(pages):
    odd = re.compile(r"\b(?:nan|inf|None|undefined)\b(?! )")
    assert not faults(pages, lambda page: [
        data.strip() for data, is_code in page.text if not is_code and odd.fullmatch(data.strip())])


# A figure and its unit are parted by a narrow space, a percent sign by none; a minus sign is no hyphen.
TYPED = re.compile(r"\d[ \u00a0](?:ft/min|ft/NM|ft|NM|kt|SM|hPa|inHg|MHz|kHz|lb|km|min|dots?|°C|deg|%)(?![\w/])"
                   r"|(?<![^\s(,;])-\d")


def test_every_figure_written_one_way(pages):
    names = {gate.name for aircraft in read_types(ROOT / "docs" / "aircraft") for gate in aircraft.gates}

    def typed(page):
        listed = {" ".join(data.split()) for data in page.words if "\u202f" in data}  # headings, in lists of them
        return [data[max(0, match.start() - 30):match.end() + 10]
                for data in page.words if data not in listed
                for match in TYPED.finditer(data) if not any(name in data for name in names)]  # as a file gives them

    assert faults(pages, typed) == {}
    assert all(map(TYPED.search, ("1 NM", "a 5 % share", "(-12\u202f°C", "300 ft.", "10 -20")))
    assert not any(map(TYPED.search, ("1\u202fNM", "5%", "\u221212\u202f°C", "RWY 09-27", "LNAV-2", "9 ftx")))


def test_ids_unique(pages):
    def doubled(page):
        ids = Counter(attributes["id"] for _, attributes, _ in page.tags if "id" in attributes)
        return [name for name, count in ids.items() if count > 1]

    assert not faults(pages, doubled)


def test_every_picture_has_alternative_text(pages):
    def mute(page):
        images = [image for image in page.all("img") if not (image.get("alt") or "").strip()]
        drawings = [
            (attributes, above) for tag, attributes, above in page.tags
            if tag == "svg" and "svg" not in above
            and not attributes.get("aria-label") and attributes.get("aria-hidden") != "true"
            # An icon of the theme stands in a link, button or label, which has the words.
            and not {"a", "button", "label", "nav", "header", "footer"} & set(above)
        ]
        return images + drawings

    assert not faults(pages, mute)


def test_every_figure_states_finding_and_has_data(pages, files):
    figures = 0
    for name in pages:
        for figure in re.findall(r'<figure class="hb-figure".*?</figure>', read(files[name]), re.S):
            figures += 1
            assert re.search(r'<svg role="img" aria-label="[^"]{20,}"', figure), name
            assert re.search(r"<figcaption>[^<]{20,}", figure), name
            assert "<details><summary>The data of this figure</summary><table" in figure, name
    assert figures > 20


def test_every_page_has_title_and_description(pages):
    def unsaid(page):
        html = page.all("html")[0]
        contents = {name: page.meta(name) for name in ("description", "og:title", "og:description", "og:type")}
        missing = [name for name, content in contents.items() if len(content) != 1 or not content[0]]
        return missing + [word for word, held in {
            "lang": html.get("lang") == "en", "title": page.title.strip(), "no og:image": not page.meta("og:image"),
            "one h1": len(page.all("h1")) == 1, "viewport": page.meta("viewport"),
        }.items() if not held]

    assert not faults(pages, unsaid)


def test_titles_and_descriptions_suit_chat(pages):
    for name, page in pages.items():
        if name != "404.html":
            assert 3 <= len(page.meta("og:title")[0]) <= 70, name
            assert 20 <= len(page.meta("og:description")[0]) <= 200, name
    titles = Counter(page.title for page in pages.values())
    assert [title for title, count in titles.items() if count > 1] == [], "two pages with one title"


def test_first_view_of_any_page_small(pages, files):
    """Bytes as gzip brings them: of the page itself, and with all that it names to be shown."""
    @functools.cache
    def size(name):
        return len(gzip.compress(files[name].read_bytes()))

    def shown_with(name, page):
        named = [tag.get("src") for tag in (*page.all("script"), *page.all("img"))]
        named += [tag.get("href") for tag in page.all("link") if tag.get("rel") not in {"canonical", "prev", "next"}]
        up = posixpath.dirname(name)
        return {posixpath.normpath(posixpath.join(up, address.partition("?")[0])) for address in named if address}

    def over(name, page):
        own, others = size(name), sum(map(size, shown_with(name, page)))
        return (own, others) if own > OWN_BYTES or own + others > ALL_BYTES else None

    assert len(shown_with("index.html", pages["index.html"])) > 10
    oversized = {name: over(name, page) for name, page in pages.items() if name != "404.html"}
    assert not {name: sizes for name, sizes in oversized.items() if sizes}


def test_every_script_named_by_content(files):
    """Also on pages that only lead on: half of one on a bad network is known from the whole."""
    named = re.compile(r'(?: src| data-script)="([^"]*\.js[^"]*)"')
    by_content = re.compile(r"\.[0-9a-f]{8}\.|\?v=[0-9a-f]{8}$")
    addresses = {address for name, path in files.items() if name.endswith(".html") and name.count("/") < 3
             for each in named.findall(read(path)) for address in each.split()}
    assert len(addresses) > 10
    assert [address for address in addresses if not by_content.search(address)] == []


def test_policy_precedes_everything_it_covers(pages):
    def unkept(page):
        at = [number for number, (tag, values, _) in enumerate(page.tags)
              if tag == "meta" and values.get("http-equiv") == "Content-Security-Policy"]
        spoken_of = ("script", "link", "style", "body")
        first = next(number for number, (tag, _, _) in enumerate(page.tags) if tag in spoken_of)
        return [] if len(at) == 1 and at[0] < first else at or ["none"]

    assert not faults(pages, unkept)


def test_no_page_requests_other_hosts(pages):
    def foreign(page):
        links = [(tag, attributes.get("src") or attributes.get("href") or attributes.get("action") or "")
                 for tag, attributes, _ in page.tags if tag != "a"]
        return [link for link in links if re.match(r"(?:https?:)?//", link[1])]

    assert not faults(pages, foreign)


def test_build_elsewhere_gives_same_bytes(files, tmp_path):
    """The site of the other tests was built in the project's folder; this one is built in a copy of it."""
    project = copy_of_project(tmp_path / "elsewhere")
    run = subprocess.run(
        [sys.executable, "-m", "lpv_site.build", "--site-dir", str(project / "site")], cwd=project,
        capture_output=True, text=True,
        env={"SOURCE_DATE_EPOCH": TIME, **os.environ, "PYTHONPATH": str(project / "snippets"),
             "PYTHONHASHSEED": "1", "HANDBOOK_COMMIT": COMMIT},
    )
    assert run.returncode == 0, run.stdout + run.stderr
    other = {
        path.relative_to(project / "site").as_posix(): digest(path)
        for path in (project / "site").rglob("*") if path.is_file()
    }
    here = {name: digest(path) for name, path in files.items()}
    assert [name for name in here.keys() | other.keys() if here.get(name) != other.get(name)] == []


def test_seal_of_each_page_names_its_address(files, site):
    wrong = {}
    for name in html_pages(site):
        seal = re.search(r"<!-- at (\S+) -->\n<!-- sha256 [0-9a-f]{32} -->\n\Z", files[name].read_text("utf-8"))
        if name != "404.html" and (not seal or seal[1] != (name.removesuffix("index.html") or "./")):
            wrong[name] = seal and seal[1]
    assert not wrong


def digest(path):
    return hashlib.sha256(path.read_bytes()).hexdigest()


def test_not_found_page_leads_to_pages(files):
    text = files["404.html"].read_text("utf-8")
    body = text.partition("data-wrong-address")[2].partition("</p>")[0]
    links = re.findall(r'href="/([^"]*)"', body)
    assert len(links) == 2
    assert [link for link in links if link not in files] == []
    assert not re.search(r'href="[^"]*\.md["#]', text)
