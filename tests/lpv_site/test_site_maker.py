"""What the maker of the site does beside making pages: links checked, faults kept, addresses named."""

import hashlib
from types import SimpleNamespace as Stub

import pytest

from lpv.core.errors import DataError, Fault
from lpv_site.build import build, build_record, exchange
from lpv_site.build import site as maker
from lpv_site.build.site import Site


def page(anchors=(), links=()):
    return Stub(anchors=anchors, links=links)


@pytest.fixture
def made(tmp_path):
    """A site of which only the parts are there that a test gives it."""
    (tmp_path / "assets").mkdir()
    (tmp_path / "assets/a.pdf").write_text("x")
    bare = Site.__new__(Site)
    bare.docs, bare.faults, bare.pages, bare.briefings, bare.files = tmp_path, [], {}, {}, {}
    return bare


@pytest.mark.parametrize(("link", "leads"), [
    ("a.md", True), ("a.md#here", True), ("a.md#there", False), ("b.md", False), ("b.md#here", False),
    ("approaches/zzak.md#top", True), ("approaches/zzak.md#none", False), ("assets/a.pdf", True),
    ("assets/b.pdf", False), ("made.json", True), ("assets", False),
])
def test_link_to_page_heading_or_file(made, link, leads):
    made.pages = {"a.md": page({"here"}), "c.md": page((), [link, link])}
    made.briefings, made.files = {"zzak": page({"top"})}, {"made.json": "{}"}
    made._check_links()
    assert [(fault.file, fault.key, fault.found) for fault in made.faults] == (
        [] if leads else [("c.md", "link", link)] * 2)


def test_links_of_briefings_checked_unless_data_have_faults(made):
    made.briefings = {"zzak": page((), ["none.md"])}
    made._check_links()
    assert [fault.file for fault in made.faults] == ["approaches/zzak.md"]
    made.faults = [Fault("x.toml", "k", "f", "a", "d")]
    made._check_links()
    assert [fault.file for fault in made.faults] == ["x.toml"]


def test_faults_of_part_kept(made):
    fault = Fault("x.toml", "k", "f", "a", "d")

    def fails():
        raise DataError([fault])

    assert made._try(lambda: 5, 0) == 5
    assert made._try(fails, 7) == 7
    assert made.faults == [fault]
    assert (made._files(), made._briefings()) == ({}, {})
    made._make_rest()
    assert made.pages == {}


def test_shells_and_search_entries_of_briefings(made):
    made.shells = [Stub(address="a/"), Stub(address="b/")]
    assert made.shell_at("b/") is made.shells[1]
    assert made.shell_at("c/") is None
    made.briefings = {"zzak": Stub(toc=[{"name": "RNAV &amp; <b>"}], searched="words")}
    for directory_urls, ending in ((True, "/"), (False, ".html")):
        made.directory_urls = directory_urls
        assert list(made.searched()) == [
            {"location": f"approaches/zzak{ending}", "title": "RNAV &amp; &lt;b&gt;", "text": "words"}]


def test_file_written_into_folder_that_is_not_there(tmp_path):
    target = tmp_path / "new/file.html"
    (tmp_path / "x").mkdir()
    digest = maker._write(str(target), b"words")
    assert target.read_bytes() == b"words"
    assert digest == maker.digest(b"words")
    assert maker._write(str(target), b"more") == maker.digest(b"more")
    assert maker.head_text(Stub(head={"title": "é"})) == "---\ntitle: é\n---\n"


class Library:
    """A library of the system with some of its calls, which say whether they were called, and how."""

    def __init__(self, *names, result=0):
        self.calls = []
        for name in names:
            setattr(self, name, lambda *given, name=name: self.calls.append((name, *given)) or result)


@pytest.mark.parametrize(("platform", "names", "called"), [
    ("darwin", ("renamex_np", "renameat2"), "renamex_np"), ("darwin", ("renameat2",), "renameat2"),
    ("linux", ("renamex_np", "renameat2"), "renameat2"), ("linux", ("renamex_np",), None), ("other", (), None),
])
def test_names_exchanged_by_call_of_system(monkeypatch, tmp_path, platform, names, called):
    here, there = str(tmp_path / "a").encode(), str(tmp_path / "b").encode()
    for result, exchanged in ((0, True), (-1, False)):
        library = Library(*names, result=result)
        monkeypatch.setattr(exchange.ctypes, "CDLL", lambda *_, library=library, **__: library)
        monkeypatch.setattr(exchange.sys, "platform", platform)
        assert exchange.exchanged(tmp_path / "a", tmp_path / "b") is (exchanged and called is not None)
        calls = {"renamex_np": ("renamex_np", here, there, 2), "renameat2": ("renameat2", -100, here, -100, there, 2)}
        assert library.calls == ([calls[called]] if called else [])


def test_killed_build_mended_and_told(monkeypatch, tmp_path, capsys):
    monkeypatch.setattr(build, "_published", lambda site_dir, aside, root: 0)
    (tmp_path / "site").mkdir()
    assert build.build(tmp_path / "site") == 0
    assert capsys.readouterr().out == ""
    (tmp_path / "site").rename(tmp_path / ".site.last")
    assert build.build(tmp_path / "site") == 0
    assert capsys.readouterr().out == (
        f"{tmp_path / 'site'}: the last build stopped halfway; the last good site is back in place.\n")


def test_data_of_each_kind_counted_and_hashed(tmp_path):
    for name in ("approaches/a.toml", "approaches/b.toml", "approaches/c.txt", "aircraft/d.txt", "practice/e.toml"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(name)
    rows = build_record._kinds(tmp_path)
    assert [row[:2] for row in rows] == [("approaches", 2), ("practice", 1)]
    assert {len(start) for *_, start in rows} == {10}
    content = "practice/e.toml 15 practice/e.toml"
    assert rows[1][2] == hashlib.sha256(content.encode()).hexdigest()[:10]
    assert set(build_record.hashes(tmp_path)) >= {"approaches/a.toml", "approaches/b.toml", "practice/e.toml"}
    assert "approaches/c.txt" not in build_record.hashes(tmp_path)


def test_files_of_department_beside_data(monkeypatch, tmp_path):
    for name in ("department.toml", "logo.svg", "pages/a.md", "other.txt"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(name)
    monkeypatch.setattr(build_record, "folder", lambda: tmp_path)
    for owner, names in ((Stub(logo="logo.svg"), {"department.toml", "logo.svg", "pages/a.md"}),
                         (Stub(logo=None), {"department.toml", "pages/a.md"}), (None, set())):
        monkeypatch.setattr(build_record, "department", lambda owner=owner: owner)
        assert set(build_record._own_files()) == names
    monkeypatch.setattr(build_record, "folder", lambda: None)
    assert build_record._own_files() == {}
