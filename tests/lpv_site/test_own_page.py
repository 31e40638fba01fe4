"""Pages that a department writes: text and pictures, whatever stands in them."""

import os

import pytest

from lpv.core.errors import Fault
from lpv_site.build import own_pages
from lpv_site.build.pages import make_page
from lpv_site.department import department, own_page

HEAD = "---\ntitle: a\ndescription: b\n---\n# a\n\n"
CODE = "import os; os.environ['OWN_PAGE_RAN'] = '1'"
FENCES = [
    f'```python exec="on"\n{CODE}\n```\n', f'> ```python exec="on"\n> {CODE}\n> ```\n',
    f'>> ```python exec="on"\n>> {CODE}\n>> ```\n', f'!!! note\n\n    ```python exec="on"\n    {CODE}\n    ```\n',
    f'```{{.python x="\x1c" exec="on"}}\n{CODE}\n```\n', f'\x02```python exec="on"\n{CODE}\n```\n',
    f'<div markdown="1">\n```py exec="1"\n{CODE}\n```\n</div>\n', f'a\r```python exec="on"\r{CODE}\r```\r',
]


@pytest.fixture
def own(tmp_path, monkeypatch):
    """A department's folder of this build, with its department.toml."""
    monkeypatch.setenv("HANDBOOK_DATA", str(tmp_path))
    for cached in (department.folder, department._read):
        cached.cache_clear()
    (tmp_path / department.FILE).write_text('name = "Example"\n', "utf-8")
    yield tmp_path
    for cached in (department.folder, department._read):
        cached.cache_clear()


def faults_in(folder, text, name="a.md"):
    path = folder / name
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return list(own_page.faults(path, f"pages/{name}", may_run=False))


@pytest.mark.parametrize("fence", FENCES)
def test_own_page_code_refused_and_never_run(own, monkeypatch, fence):
    monkeypatch.delenv("OWN_PAGE_RAN", raising=False)
    [fault] = faults_in(own, HEAD + fence)
    assert "code that would run" in fault.found
    assert fault.line > 5
    make_page("department/a.md", HEAD + fence)
    assert "OWN_PAGE_RAN" not in os.environ


def test_own_page_code_runs_where_allowed(own, monkeypatch):
    monkeypatch.delenv("OWN_PAGE_RAN", raising=False)
    (own / department.FILE).write_text('name = "Example"\npages_are_code = true\n', "utf-8")
    make_page("department/a.md", HEAD + FENCES[0])
    assert os.environ.pop("OWN_PAGE_RAN") == "1"


@pytest.mark.parametrize(("head", "key"), [
    ("title: <script>alert(1)</script>", "title"), ('title: "a\\u202eb"', "title"), ('title: "a\\ab"', "title"),
    ("title: [a]", "title"), ("title: a\ntemplate: b.html", "template"), ("title: a: b", ""), ("", "title"),
])
def test_own_page_head_refused(tmp_path, head, key):
    [fault] = faults_in(tmp_path, f"---\n{head}\ndescription: b\n---\n# a\n")
    assert (fault.file, fault.key) == ("pages/a.md", key)


def test_own_page_head_accepted(tmp_path):
    for text in (HEAD, "---\ntitle: 'A \"B\" & C'\ndescription: b\nhide: [toc]\n---\n", HEAD.replace("\n", "\r\n")):
        assert faults_in(tmp_path, text) == []
    assert faults_in(tmp_path, b"\xef\xbb\xbf" + HEAD.encode()) == []


def test_own_page_other_encoding_refused_with_line(tmp_path):
    [fault] = faults_in(tmp_path, HEAD.encode() + b"\xe9\n")
    assert (fault.found, fault.line) == ("letters that are not UTF-8", 7)


@pytest.mark.parametrize("tag", ['<META http-equiv="refresh" content="0">', "<iframe src=x>", '<base href="//a/">'])
def test_own_page_tags_leaving_it_refused(tmp_path, tag):
    [fault] = faults_in(tmp_path, f"{HEAD}text\n{tag}\n")
    assert fault.line == 8
    assert faults_in(tmp_path, f"{HEAD}<metal> <based> <linked>\n") == []


@pytest.mark.parametrize(
    "name", ['a"b.md', "a b.md", "UP.md", "a\u202eb.md", "a--b.md", 'a".png', "a<b.pdf", "a\u200f.jpg"])
def test_own_page_name_refused(tmp_path, name):
    assert "address" in faults_in(tmp_path, HEAD, name)[0].found


def test_own_picture_name_accepted(tmp_path):
    for name in ("hold.svg", "Skizze für 09 (neu).png"):
        assert faults_in(tmp_path, b"", name) == []


def test_fault_file_name_printable():
    told = own_pages.as_written(Fault("approaches/a\u202eb\n.toml", "k", "f", "a", "d", 3, "t"))
    assert str(told).startswith(r"'approaches/a\u202eb\n.toml': k: ")
    assert (told.line, told.text) == (3, "t")
    assert own_pages.as_written(Fault("department/a.md", "", "f", "a", "d")).file == "pages/a.md"
