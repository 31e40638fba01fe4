"""Links of a department's own pages: each way to lead somewhere or nowhere, and the advice for each."""

from types import SimpleNamespace as Stub

import pytest

from lpv.core.errors import DataError, Fault
from lpv_site.build import build_record, own_links
from lpv_site.build.own_links import Targets, at_link, faults


def job(about, anchors=(), kept=True, markdown=""):
    return Stub(about=about, key=about if kept else "", arguments=(about, markdown), done=lambda: {"anchors": anchors})


@pytest.fixture
def targets(tmp_path, monkeypatch):
    """Pages that are files, and pages of two makers, of which one fails."""
    (tmp_path / "department").mkdir()
    (tmp_path / "department/there.pdf").write_text("x")
    listed = "final/rate.md#table a", "final/rate.md#dots b", "final/altimeter.md#cold c", "gone.md#part d"
    (tmp_path / "ids.txt").write_text("\n".join(listed))
    made = []
    monkeypatch.setattr(own_links.jobs, "make", lambda rows: made.append([row.about for row in rows]))
    monkeypatch.setattr(own_links.store, "is_kept", bool)
    monkeypatch.setattr(own_links, "coded", lambda text, page, docs: text)
    monkeypatch.setattr(own_links.jobs, "page_job", lambda page, text, docs: job(page, ("written",)))
    monkeypatch.setattr(own_links, "known_moves", lambda docs: {"final/old.md": "final/rate.md"})
    monkeypatch.setattr(own_links, "followed", lambda moves, link: moves.get(link.partition("#")[0]))

    def refused():
        raise DataError([])

    def writers(maker, docs):
        if maker == "fails":
            refused()
        return {"plan/day.md": lambda: "text", "plan/bad.md": refused}

    monkeypatch.setattr(own_links.jobs, "writers", writers)
    of_pages = {"final/rate.md": job("final/rate.md", ("hidden",)), "department/a.md": job("department/a.md", ("own",)),
                "final/altimeter.md": job("final/altimeter.md"),
                "final/unmade.md": job("final/unmade.md", kept=False, markdown="## A { #said }")}
    made_targets = Targets(tmp_path, of_pages, {"makes": "plan/", "fails": "modes/"})
    made_targets.made = made
    return made_targets


@pytest.mark.parametrize(("link", "leads"), [
    ("final/rate.md", True), ("final/rate.md#table", True), ("final/rate.md#hidden", True), ("final/rate.md#no", False),
    ("final/none.md", False), ("final/unmade.md#said", True), ("final/unmade.md#unsaid", False),
    ("department/there.pdf", True), ("department/none.pdf", False), ("assets/none.pdf", True),
    ("department/a.md#own", True), ("department/own-data.md#any", True), ("reference/build-record.md#any", True),
    ("approaches/index.md", True), ("plan/day.md", True), ("plan/day.md#written", True), ("plan/day.md#no", False),
    ("plan/none.md", False), ("plan/bad.md#any", True), ("modes/none.md#any", True), ("gone.md#part", False),
])
def test_link_leads(targets, link, leads):
    assert targets.lead(link) is leads


def test_only_named_pages_with_unlisted_headings_made(targets):
    targets.prepare(["final/rate.md#table", "final/rate.md", "final/rate.md#new", "final/none.md#x",
                     "department/a.md#own"])
    assert targets.made == [["department/a.md", "final/rate.md"]]


@pytest.mark.parametrize(("link", "advice"), [
    ("final/old.md", "It is now final/rate.md."), ("department/a.md#none", own_links.CORRECT),
    ("final/rate.md#tabel", "Did you mean final/rate.md#table?"), ("final/altimeter.md#table", "Correct the link."),
    ("final/rat.md", "Did you mean final/rate.md?"), ("final/altimetre.md#x", "Did you mean final/altimeter.md?"),
    ("plan/rate.md", "Correct the link."), ("department/b.md", "Correct the link."),
    ("department/zzzz.md", "Correct the link."),
])
def test_advice_for_link(targets, link, advice):
    assert targets.advice(link) == advice


def test_each_fault_named_with_line(targets):
    text = "# A\n\n[x](../final/none.md) and <a href=\"raw.html\">\n<a href=\"javascript:x()\"> <a href=\"#in\">\n"
    (targets.docs / "department/a.md").write_text(text)
    html = ' href="raw.html" href="raw.html" href="#in" href="/x" href="https://x" href="docs:x" href="javascript:x()"'
    page = Stub(links=["final/none.md", "final/rate.md"], whole=html)
    rows = [(fault.found, fault.line, fault.action) for fault in faults("department/a.md", page, targets)]
    assert rows == [("final/none.md", 3, "Correct the link."), ("'raw.html'", 3, "Write it as [words](page.md)."),
                    ("'javascript:x()'", 4, "Take it out.")]


def test_fault_without_line_stays(tmp_path):
    fault = Fault("department/a.md", "link", "final/none.md", "a page", "Correct it.")
    assert at_link(fault, tmp_path) is fault
    (tmp_path / "department").mkdir()
    (tmp_path / "department/a.md").write_text("words\n  [x](../final/none.md)  \n")
    found = at_link(fault, tmp_path)
    assert (found.file, found.key, found.found, found.allowed, found.action) == (
        "department/a.md", "link", "final/none.md", "a page", "Correct it.")
    assert (found.line, found.text) == (2, "'[x](../final/none.md)'")
    assert at_link(fault, tmp_path, "absent") is fault


def test_build_record_in_words():
    contents = {"edition": "E", "time": "T", "commit": "abc", "changed_files": 0, "department": None,
                "cycles": {"2612": 5, "2613": 1}, "python": "3.11", "libraries": {"a": "1", "b": "2"}}
    rows = dict(build_record._sources(contents))
    assert rows == {"edition": "E", "its time, that of its latest commit, UTC": "T", "commit": "abc",
                    "data cycles": "2612 (5 approaches), 2613 (1 approaches)", "made with": "Python 3.11, a 1, b 2"}
    own = build_record._sources(contents | {"department": {"name": "N", "commit": "", "changed_files": 2}})
    assert [label for label, _ in own][2:5] == ["commit", "department", "commit of its folder"]
    assert dict(own)["commit of its folder"] == "not known: built outside git, with 2 changed files"
    assert dict(own)["department"] == "N"
