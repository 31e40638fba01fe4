"""A department's folder in this process: what it changes in the site, which files are its own, and what is told."""

import hashlib
from pathlib import Path
from types import SimpleNamespace as Stub

import pytest

from lpv.facts import FACTS, Fact
from lpv_site.department import data, department, files, site

NAMED = 'name = "Example"\n'
FULL = NAMED + """title = "Book"
address = "https://a.example/b/"
logo = "logo.svg"
cautions = ["One & only."]
[[term]]
short = "ZED"
meaning = "last"
[[term]]
short = "ABC"
meaning = "first"
[[fact]]
key = "limit_tch_stop_ft"
value = 5
source = "Manual"
place = "2.4"
status = "common practice"
"""


@pytest.fixture
def own(tmp_path, monkeypatch):
    """A department's folder of this build, empty but for its file."""
    monkeypatch.setenv("HANDBOOK_DATA", str(tmp_path / "own"))
    monkeypatch.setattr("lpv_site.build.store.FOLDER", tmp_path / "store")
    (tmp_path / "own").mkdir()
    write(tmp_path / "own", department.FILE, NAMED)
    forget()
    yield tmp_path / "own"
    forget()


def forget():
    for cached in (department.folder, department._read):
        cached.cache_clear()


def write(folder, name, text="x"):
    (folder / name).parent.mkdir(parents=True, exist_ok=True)
    (folder / name).write_text(text, "utf-8")
    forget()


def told(folder):
    return {fault.file: (fault.key, fault.found, fault.action) for fault in files.faults()}


def config(**other):
    made = {"docs_dir": "docs", "watch": ["mkdocs.yml"], "site_name": "LPV handbook", "site_url": "https://x/",
            "extra": {}, "theme": {}, "extra_css": ["a.css"], "dev_addr": "h:1",
            "nav": [{"Home": "index.md"}, {"Reference": []}]}
    return Stub(**(made | other))


def test_nothing_changes_without_folder(monkeypatch):
    monkeypatch.delenv("HANDBOOK_DATA", raising=False)
    forget()
    before = config()
    site.configure(before)
    assert vars(before) == vars(config())
    assert department.department() is None
    assert (department.file_faults(), files.faults(), files.left_behind()) == ([], [], [])
    assert (department.terms(), department.cautions()) == ({}, ())
    assert (department.fact_rows(), department.fact_sources()) == ({}, {})
    assert [department.runs_code(address) for address in ("final/rate.md", "department/a.md")] == [True, False]
    assert site.department_pages(files.OURS) == {}
    assert (files.docs(), files.put_together(), files.without_demo()) == (files.OURS, files.OURS, False)
    assert files.demo_approaches(files.OURS) == set()
    forget()


def test_edition_configured_from_folder(own):
    write(own, department.FILE, FULL)
    write(own, "logo.svg", '<svg xmlns="http://www.w3.org/2000/svg"/>')
    for name in ("b.md", "a.md", "index.md"):
        write(own, f"pages/{name}", "---\ntitle: A\ndescription: B.\n---\n")
    made = config()
    site.configure(made)
    assert made.docs_dir == str(files.docs())
    assert made.watch == ["mkdocs.yml", str(files.OURS), str(own)]
    assert (made.site_name, made.site_url) == ("Book, Example", "https://a.example/b/")
    assert made.extra == {"department": {"name": "Example", "cautions": ("One & only.",)}}
    assert made.theme == {"logo": "department/logo.svg"}
    assert made.extra_css == ["a.css"]
    pages = ["department/index.md", "department/a.md", "department/b.md", "department/own-data.md"]
    assert made.nav == [{"Home": "index.md"}, {"Example": pages}, {"Reference": []}]
    served = config(site_url="http://h:1/")
    site.configure(served)
    assert served.site_url == "http://h:1/", "where it is served while one edits"
    assert site.with_own([{"Home": "index.md"}], "N", ["p"]) == [{"Home": "index.md"}, {"N": ["p"]}]
    write(own, department.FILE, NAMED + '[colours]\nheader = "#3b2a5c"\nlink = "#5b2a86"\nlink_dark = "#d0b3ff"\n')
    coloured = config()
    site.configure(coloured)
    assert coloured.extra_css == ["a.css", "department/colours.css"]
    assert (coloured.site_url, coloured.theme) == ("https://x/", {})
    assert (Path(coloured.docs_dir) / "department/colours.css").is_file()


def test_own_figures_terms_and_cautions_read(own):
    write(own, department.FILE, FULL)
    assert department.cautions() == ("One & only.",)
    assert department.terms() == {"ZED": "last", "ABC": "first"}
    fact = FACTS["limit_tch_stop_ft"].ours or FACTS["limit_tch_stop_ft"]
    assert department.fact_rows() == {
        "limit_tch_stop_ft": (5, fact.unit, fact.what, "own-1", "2.4", "common practice", "")}
    assert department.fact_sources() == {"own-1": ("Example", "Manual", "", "")}
    assert department.overridden(Stub(ours=fact)) == "overridden by Example"
    assert department.overridden(Stub(ours=None)) == ""
    assert '"""Figures of the department\'s own."""' in department.facts_module()
    scope = {}
    exec(department.facts_module(), scope)
    assert (scope["FACTS"], scope["SOURCES"]) == (department.fact_rows(), department.fact_sources())
    assert [department.runs_code(address) for address in ("final/rate.md", "department/a.md")] == [True, False]
    write(own, department.FILE, NAMED + "pages_are_code = true\n")
    assert [department.runs_code(address) for address in ("final/rate.md", "department/a.md")] == [True, True]


@pytest.mark.parametrize(("key", "fault"), [
    ("limit_tch_stop_f", ("fact[1].key", "limit_tch_stop_f", "Did you mean limit_tch_stop_ft?")),
    ("zzz", ("fact[1].key", "zzz", "Look it up on the facts page.")),
])
def test_own_figure_without_ours_told(own, key, fault):
    write(own, department.FILE, FULL.replace("limit_tch_stop_ft", key))
    assert told(own)[department.FILE] == fault


def test_each_stray_told(own):
    for name in ("other.toml", "approach/a.toml", "approaches/a.txt", "zzz/b.md", "approaches/changed/c.toml",
                 "pages/a.zip", ".git/config", "README.md", "plan/x.toml~"):
        write(own, name)
    write(own, "pages/large.pdf", "#" * (files.LARGEST_BYTES + 1))
    write(own, "pages/exact.pdf", "#" * files.LARGEST_BYTES)
    write(own, "debrief/flights/long.csv", "#" * (files.LARGEST_BYTES + 1))
    (own / "plan" / "gone.toml").symlink_to(own / "nowhere.toml")
    strays = {fault.file: (fault.found, fault.action) for fault in files._strays(own)}
    no_page = "a file that makes no page"
    assert strays == {
        "other.toml": (no_page, "Move it, or take it out."), "approach/a.toml": (no_page, "Did you mean approaches?"),
        "approaches/a.txt": (no_page, "Move it, or take it out."), "zzz/b.md": (no_page, "Move it, or take it out."),
        "pages/a.zip": (no_page, "Move it, or take it out."),
        "approaches/changed/c.toml": (
            "a new version that the importer put aside",
            "Carry what is new over into your file, with the chart in hand, then remove this one."),
        "pages/large.pdf": ("1000001 bytes", "Make it smaller."),
        "plan/gone.toml": ("a link that leads nowhere, or what is no file", "Take it out."),
    }
    assert files.left_behind() == ["plan/x.toml~"]
    (own / department.FILE).unlink()
    forget()
    assert "other.toml" not in {fault.file for fault in files._strays(own)}, "no file says which others may stand there"
    assert "zzz/b.md" in {fault.file for fault in files._strays(own)}


def test_lacking_kinds_and_logo_told(own):
    write(own, department.FILE, NAMED + 'without_demo = true\nlogo = "logo.svg"\n')
    write(own, "aircraft/a.toml")
    lacking = {fault.key: fault.found for fault in files.faults()}
    assert lacking["logo"] == "logo.svg, which is not there"
    assert lacking["without_demo"].startswith("nothing of your own in approaches, plan, set-up, ")
    assert "aircraft" not in lacking["without_demo"]
    write(own, "logo.svg", '<svg xmlns="http://www.w3.org/2000/svg"/>')
    assert "logo" not in {fault.key for fault in files.faults()}


def test_own_files_first_and_counted(own, monkeypatch):
    write(own, department.FILE, FULL)
    write(own, "logo.svg", '<svg xmlns="http://www.w3.org/2000/svg"/>')
    write(own, "aircraft/zz-own.toml")
    write(own, "approaches/zzzz-rnav-01.toml")
    docs = files.put_together()
    demo = next(path for path in sorted((docs / "aircraft").glob("*.toml")) if path.name != "zz-own.toml")
    mine = docs / "aircraft/zz-own.toml"
    assert (files.is_own(mine), files.is_own(demo), files.is_own(own / "aircraft/zz-own.toml")) == (True, False, False)
    assert files.own_first([demo, mine]) == [mine, demo]
    assert "zzzz-rnav-01" not in files.demo_approaches(docs)
    stems = {path.stem for path in (docs / "approaches").glob("*.toml")}
    assert files.demo_approaches(docs) == stems - {"zzzz-rnav-01"}
    assert (docs / "department/logo.svg").is_file()
    count = len(list((docs / "aircraft").glob("*.toml"))) - 1
    assert site._kind(docs, "aircraft") == f"- aircraft: 1 own, {count} of the demo, invented\n"
    assert site._kind(docs / "none", "aircraft") == "- aircraft: none\n"
    page = site.build_department_page(docs)
    headings = [line for line in page.splitlines() if line.startswith("## ")]
    assert headings == ["## Cautions { #own-cautions }", "## Figures { #own-figures }", "## Words { #own-words }",
                        "## Files { #own-files }"]
    assert page.index("- **ABC** first\n- **ZED** last\n") < page.index("## Files")
    assert "- One &#38; only.\n" in page or "- One &amp; only.\n" in page
    assert page.endswith(site._kind(docs, "teach"))
    write(own, department.FILE, NAMED)
    plain = site.build_department_page(docs)
    assert [line for line in plain.splitlines() if line.startswith("## ")] == headings[1::2]
    (own / "logo.svg").unlink()
    assert site.department_pages(docs).keys() == {"department/own-data.md"}


def test_figure_told_beside_ours():
    ours = Fact("key", (10.0, "ft", "what it is", "phak", "ch 1", "published", ""))
    own_fact = Fact("key", (5.0, "ft", "what it is", "phak", "ch 2", "common practice", ""), ours)
    name, rows = site._figure(own_fact)
    assert name == '<a href="../reference/facts.md#fact-key">what it is</a>'
    assert [label for label, _ in rows] == ["own", "its source", "its status", "ours", "status of ours"]
    assert (rows[0][1], rows[2:]) == ("5\u202fft", [
        ("its status", "common practice"), ("ours", "10\u202fft"), ("status of ours", "published")])
    assert "ch 2" in rows[1][1]


def test_examples_are_own_filled_and_at_most_five(own):
    lpv = 'level_of_service = "LPV"\n'
    for number in range(7):
        text = {0: "", 1: "to_be_filled = []\n" + lpv}.get(number, lpv)
        write(own, f"approaches/zzaa-rnav-0{number}.toml", text)
    docs = files.put_together()
    shown, example = data.example_files(docs)
    assert [path.stem[-1] for path in shown] == ["0", "2", "3", "4", "5"]
    assert [path.stem[-1] for path in example] == ["2"], "the first LPV one that is filled"
    assert data.example_files(docs / "none") == ([], [])
    assert len(data.aircraft(files.OURS)) == data.MAX_EXAMPLES == len(data.examples(files.OURS))
    assert data.example().slug == data.example_files(files.OURS)[1][0].stem
    with pytest.raises(LookupError, match="holds no LPV approach"):
        data._example(docs / "none")


def test_hash_of_files_made_from_names_and_bytes(tmp_path):
    for name, text in (("a/b.toml", "x = 1\n"), ("c.csv", "é")):
        write(tmp_path, name, text)
    paths = [tmp_path / "a/b.toml", tmp_path / "c.csv"]
    expected = hashlib.sha256("a/b.toml 6 x = 1\nc.csv 2 é".encode()).hexdigest()
    assert data.hash_of(paths, tmp_path) == expected
    assert data.hash_of(reversed(paths), tmp_path) != expected
