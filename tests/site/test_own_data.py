"""A department's own folder: strict, all faults at once, never written to, and visible wherever it acts."""

import json
import os
import re
import subprocess
import sys

import pytest

from lpv.core.errors import DataError
from lpv.facts import FACTS
from lpv.files import toml_reader as tomlfile
from lpv_site.build.moves import moves
from lpv_site.build.site import BEGIN, MAKERS
from lpv_site.department import department, drawings
from lpv_site.department import files as department_files
from lpv_site.department.colours import Colours, contrast, grounds
from support import EXAMPLE, ROOT, fingerprint, html_pages

GOOD = 'name = "Example"\n'
OWN_FACT = "limit_tch_stop_ft"


def read(text):
    return tomlfile.read_text(text, department.FILE, department.Department)


def faults_of(text):
    with pytest.raises(DataError) as caught:
        read(text)
    return {fault.key: fault for fault in caught.value.faults}


def python(code, **environment):
    """What a fresh Python prints: figures of a department act from the first import on."""
    run = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, env={**os.environ, **environment})
    assert run.returncode == 0, run.stderr
    return run.stdout


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """An empty department's folder that the modules take as the one of this build."""
    monkeypatch.setenv("HANDBOOK_DATA", str(tmp_path / "own"))
    monkeypatch.setattr("lpv_site.build.store.FOLDER", tmp_path / "store")
    (tmp_path / "own").mkdir()
    for cached in (department.folder, department._read):
        cached.cache_clear()
    yield tmp_path / "own"
    for cached in (department.folder, department._read):
        cached.cache_clear()


def write(folder, name, text=GOOD):
    (folder / name).parent.mkdir(parents=True, exist_ok=True)
    (folder / name).write_text(text, "utf-8")


# department.toml


def test_example_valid():
    example = tomlfile.read_file(EXAMPLE / department.FILE, department.Department)
    assert example.site_name == "LPV handbook, Example Flight Department"
    assert example.facts[0].key == OWN_FACT


def test_only_name_required():
    own = read(GOOD)
    assert (own.cautions, own.terms, own.facts, own.colours) == ((), (), (), None)
    assert own.site_name == "LPV handbook, Example"


def test_all_faults_reported_together():
    reported = faults_of(
        'named = "x"\naddress = "handbook.example"\nlogo = "../logo.svg"\ncautions = ["<b>"]\n'
        '[colours]\nheader = "blue"\n[[fact]]\nkey = "limit_tch"\nvalue = "5"\nsource = "Manual"\nstatus = "sure"\n'
    )
    keys = {"named", "name", "address", "logo", "cautions", "colours.header", "fact[1].value", "fact[1].status"}
    assert keys == set(reported)


@pytest.mark.parametrize("address", ["https://a.example/", "http://10.1.2.3:8080/lpv/", "https://a.example/x/y/"])
def test_taken_addresses(address):
    assert read(GOOD + f'address = "{address}"').address == address


@pytest.mark.parametrize("address", ["https://a.example", "ftp://a.example/", "https://a.example/x", "//a.example/"])
def test_refused_addresses(address):
    assert "address" in faults_of(GOOD + f'address = "{address}"')


def fact(key, value="5"):
    return GOOD + f'[[fact]]\nkey = "{key}"\nvalue = {value}\nsource = "Manual"\nstatus = "common practice"\n'


def test_mistyped_fact_gets_suggestion():
    assert faults_of(fact("limit_tch_stop"))["fact[1].key"].action == "Did you mean limit_tch_stop_ft?"


@pytest.mark.parametrize("key", ["rvr_1600_ft_as_sm", "fas_crc_polynomial_hex"])
def test_text_facts_and_published_rows_not_overridable(key):
    assert key in FACTS
    assert "belongs to a text or a table" in faults_of(fact(key))["fact[1].key"].found


BIG = "a number, \u22121000000000 to 1000000000"


@pytest.mark.parametrize(("key", "value", "allowed"), [
    (OWN_FACT, '"5"', f"a number in ft in the place of ours, {FACTS[OWN_FACT].value:g}\u202fft"),
    (OWN_FACT, "2e9", f"a number in ft in the place of ours, {FACTS[OWN_FACT].value:g}\u202fft"),
    ("limit_tch", "2e9", BIG), ("fas_crc_polynomial_hex", "2e9", BIG),
])
def test_invalid_override_shows_default(key, value, allowed, folder):
    write(folder, department.FILE, fact(key, value))
    [fault] = [fault for fault in department.file_faults() if fault.key == "fact[1].value"]
    assert fault.allowed == allowed


# Colours


def test_contrast_of_known_pairs():
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#ffffff", "#ffffff") == 1.0
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)


def test_grounds_match_style_sheet():
    assert grounds("light") == {"shade": "#e4edf4", "paper": "#ffffff"}
    assert grounds("dark") == {"shade": "#1d2426", "paper": "#0e1213"}


def test_unreadable_colour_refused_with_contrast():
    reported = faults_of(GOOD + '[colours]\nheader = "#ffff00"\nlink = "#888888"\nlink_dark = "#101010"\n')
    assert reported["colours.header"].found == "#ffff00, contrast 1.07 with white text #ffffff"
    assert reported["colours.link"].found.startswith("#888888, contrast ")
    assert reported["colours.link_dark"].action == "Take a lighter one."


def test_style_sheet_names_only_given_colours():
    assert Colours().style_sheet() == ""
    sheet = Colours(link_dark="#d0b3ff").style_sheet()
    assert sheet.count("#d0b3ff") == 2
    assert "slate" in sheet
    assert "default" not in sheet


# Files of the folder


def test_unused_files_named(folder):
    write(folder, "department.toml")
    write(folder, "aproaches/zz.toml")
    write(folder, "approaches/notes.txt")
    write(folder, "stray.csv")
    write(folder, "pages/deeper/x.md")
    write(folder, "pages/no-head.md", "# Nothing\n")
    write(folder, "pages/own-data.md", "---\ntitle: x\ndescription: y\n---\n# x\n")
    write(folder, "README.md", "kept by the department")
    write(folder, ".git/config", "")
    message = "\n".join(map(str, department_files.faults()))
    for name in ("aproaches/zz.toml", "approaches/notes.txt", "stray.csv", "pages/deeper/x.md"):
        assert f"{name}: found a file that makes no page" in message
    assert "Did you mean approaches?" in message
    assert "pages/no-head.md: title" in message
    assert "pages/no-head.md: description" in message
    assert "pages/own-data.md: found a name that a handbook page has" in message
    assert "README" not in message
    assert ".git" not in message


def test_file_manager_leftovers_skipped_with_note(folder):
    write(folder, "department.toml")
    for name in ("approaches/Thumbs.db", "desktop.ini", "pages/~$brief.md", "approaches/own.toml~", ".DS_Store"):
        write(folder, name, "junk")
    assert department_files.faults() == []
    assert department_files.left_behind() == [
        "approaches/Thumbs.db", "approaches/own.toml~", "desktop.ini", "pages/~$brief.md"]


def test_hint_never_names_current_folder(folder):
    write(folder, "department.toml")
    write(folder, "approaches/notes.txt")
    [fault] = department_files.faults()
    assert fault.action == "Move it, or take it out."


@pytest.mark.parametrize("name", ["aircraft/light-jet.toml", "approaches/zzak-rnav-09.toml"])
def test_file_named_like_demo_is_fault(folder, name):
    write(folder, "department.toml")
    write(folder, name, "x = 1")
    [fault] = department_files.faults()
    assert fault.file == name
    assert f"docs/{name}" in fault.found
    write(folder, "department.toml", GOOD + "without_demo = true\n")
    department._read.cache_clear()
    [fault] = department_files.faults()
    assert (fault.file, fault.key) == ("department.toml", "without_demo")
    assert "practice" in fault.found, "pages need one of each kind"


def test_links_and_pipes_in_folder_told_and_left(folder):
    write(folder, "department.toml")
    write(folder.parent, "outside.md", PAGE)
    (folder / "pages").mkdir()
    (folder / "pages" / "out.md").symlink_to(folder.parent / "outside.md")
    (folder / "pages" / "gone.png").symlink_to(folder / "gone")
    (folder / "plan").mkdir()
    os.mkfifo(folder / "plan" / "pipe.toml")
    assert [(fault.file, fault.found) for fault in department_files.faults()] == [
        ("pages/gone.png", "a link that leads nowhere, or what is no file"),
        ("pages/out.md", "a link to a file outside of this folder"),
        ("plan/pipe.toml", "a link that leads nowhere, or what is no file")]
    assert docs_of(department_files.put_together()) == docs_of(ROOT / "docs")


def test_drill_list_has_fixed_name(folder):
    write(folder, "department.toml")
    write(folder, "practice/drills.toml", "x = 1")
    assert department_files.faults() == []


PAGE = "---\ntitle: a\ndescription: b\n---\n# a\n"


@pytest.mark.parametrize("fence", ['```python exec="on"', "~~~ bash exec=1", '    ```{.python exec="on"}'])
def test_page_running_code_refused_with_line(folder, fence):
    write(folder, "department.toml")
    write(folder, "pages/a.md", f"{PAGE}\n{fence}\nprint(1)\n```\n")
    [fault] = department_files.faults()
    assert (fault.file, fault.line, fault.text) == ("pages/a.md", 7, repr(fence.strip()))
    write(folder, "department.toml", GOOD + "pages_are_code = true\n")
    department._read.cache_clear()
    assert department_files.faults() == []


def test_page_showing_code_accepted(folder):
    write(folder, "department.toml")
    write(folder, "pages/a.md", f"{PAGE}\n```python\nexec = 1\n```\n")
    assert department_files.faults() == []


@pytest.mark.parametrize("active", [
    "<script>alert()</script>", '<path onclick="x"/>', '<a href="https://elsewhere.example/">x</a>',
    "<foreignObject/>", '<image href="other.png"/>', '<a xlink:href="javascript:x">x</a>',
    '<s:script xmlns:s="http://www.w3.org/2000/svg">x</s:script>', '<use href="&#104;ttps://elsewhere.example/#a"/>',
    "<style>@import 'https://elsewhere.example/a.css';</style>", '<path fill="url(https://elsewhere.example/#a)"/>',
    '<path style="fill: url( &#34;//elsewhere.example&#34; )"/>', '<animate attributeName="href" to="#"/>',
    '<?xml-stylesheet href="a.css"?>', '<b xmlns="http://www.w3.org/1999/xhtml">x</b>', "<path", "<g>&hidden;</g>",
    '<image href="data:image/svg+xml;base64,PHN2Zy8+"/>', "<style>p{background:u\\72l(//a)}</style>",
])
def test_drawing_with_script_or_fetch_refused(folder, active):
    write(folder, "department.toml", GOOD + 'logo = "logo.svg"\n')
    text = ('<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink">'
            f"\n{active}\n</svg>\n")
    write(folder, "logo.svg", text)
    [fault] = department_files.faults()
    assert (fault.file, fault.line in (2, 3), fault.allowed) == ("logo.svg", True, "a drawing alone")
    assert drawings.active(text.encode("utf-16")), "an encoding hides nothing"


def test_drawing_entities_refused():
    assert drawings.active(b"<!DOCTYPE svg [<!ENTITY a 'x'>]>\n<svg xmlns='http://www.w3.org/2000/svg'/>").what == (
        "entities")
    assert drawings.active(b"<svg xmlns='http://www.w3.org/2000/svg'><title>C:\\a url(b)</title></svg>") is None
    assert drawings.active(b"\x1f\x8b\x08").what.startswith("no SVG")
    assert drawings.active(b"<svg/>").what == "<svg> in place of <svg>"


def test_plain_drawing_accepted(folder):
    write(folder, "department.toml", GOOD + 'logo = "logo.svg"\n')
    write(folder, "logo.svg", (EXAMPLE / "logo.svg").read_text("utf-8").replace("</svg>", '<use href="#a"/></svg>'))
    assert department_files.faults() == []


def test_version_put_aside_by_importer_recognised(folder):
    write(folder, "department.toml")
    write(folder, "approaches/changed/zzab-rnav-28.toml")
    [fault] = department_files.faults()
    assert fault.file == "approaches/changed/zzab-rnav-28.toml"
    assert "importer put aside" in fault.found
    assert "then remove this one" in fault.action


def test_own_moves_accepted_with_faults_reported_together(folder):
    write(folder, "department.toml", GOOD + 'logo = "logo.svg"\n')
    write(folder, "moved.toml", 'moved = [{ from = "department/a.md", to = "b" }]\n')
    assert {(fault.file, fault.key) for fault in department_files.faults()} == {
        ("department.toml", "logo"), ("moved.toml", "moved[1].to")}
    write(folder, "moved.toml", 'moved = [{ from = "department/a.md", to = "index.md" }]\n')
    assert [fault.key for fault in department_files.faults()] == ["logo"]
    ours = moves(department_files.OURS)
    assert moves(department_files.put_together()) == ours | {"department/a.md": "index.md"}


def test_missing_file_or_logo_is_fault(folder):
    assert [fault.file for fault in department_files.faults()] == ["department.toml"]


def test_missing_logo(folder):
    write(folder, "department.toml", GOOD + 'logo = "logo.svg"\n')
    assert [fault.key for fault in department_files.faults()] == ["logo"]


def test_missing_folder(folder):
    folder.rmdir()
    assert [fault.found for fault in department_files.faults()] == ["no folder"]
    assert department_files.docs() == department_files.put_together() == department_files.OURS


def docs_of(folder):
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


def test_empty_folder_leaves_demo_whole(folder):
    write(folder, "department.toml")
    assert docs_of(department_files.put_together()) == docs_of(ROOT / "docs")


def test_own_files_replace_demo_except_referenced_ones(folder):
    write(folder, "department.toml")
    write(folder, "plan/own.toml", "x = 1")
    write(folder, "approaches/own.toml", "x = 1")
    docs = docs_of(department_files.put_together())
    assert {"plan/own.toml", "approaches/own.toml", "approaches/zzak-rnav-09.toml"} <= docs
    assert [name for name in docs if name.startswith("plan/") and name.endswith(".toml")] == ["plan/own.toml"]
    assert not [name for name in docs if name.startswith("approaches/previous/")]


def test_unreferenced_demo_removed_whole(folder):
    write(folder, "department.toml")
    for kind in ("approaches", "aircraft", "plan", "set-up", "modes/scenarios", "debrief/flights"):
        write(folder, f"{kind}/own.toml", "x = 1")
    write(folder, "practice/drills.toml", "x = 1")
    docs = docs_of(department_files.put_together())
    data = {name for name in docs if name.startswith(("approaches/", "aircraft/")) and "drafts" not in name}
    assert data == {"approaches/own.toml", "aircraft/own.toml"}


def test_demo_removed_on_department_request(folder):
    write(folder, "department.toml", GOOD + "without_demo = true\n")
    write(folder, "approaches/own.toml", "x = 1")
    docs = docs_of(department_files.put_together())
    data = {name for name in docs for kind in department_files.KINDS
            if name.rpartition("/")[0] == kind and name.endswith(department_files.KINDS[kind])}
    assert data == {"approaches/own.toml"}


def test_folder_with_spaces_and_umlauts_accepted(tmp_path, monkeypatch):
    monkeypatch.setattr("lpv_site.build.store.FOLDER", tmp_path / "store")
    where = tmp_path / "Übungen der Flotte"
    write(where, "department.toml")
    write(where, "plan/own.toml", "x = 1")
    monkeypatch.setenv("HANDBOOK_DATA", str(where))
    for cached in (department.folder, department._read):
        cached.cache_clear()
    try:
        assert department_files.faults() == []
        assert "plan/own.toml" in docs_of(department_files.put_together())
    finally:
        for cached in (department.folder, department._read):
            cached.cache_clear()


def test_make_passes_on_folder_with_space(tmp_path):
    run = subprocess.run(
        ["make", "--no-print-directory", f"DATA={tmp_path}/a b",
         "--eval", "show-data: ; @echo $$HANDBOOK_DATA", "show-data"],
        cwd=ROOT, capture_output=True, text=True)
    assert run.stdout.strip() == f"{tmp_path}/a b", run.stderr


def test_removed_file_gone_from_next_build(folder):
    write(folder, "department.toml")
    write(folder, "pages/a.md", "---\ntitle: a\ndescription: b\n---\n# a\n")
    assert "department/a.md" in docs_of(department_files.put_together())
    (folder / "pages" / "a.md").unlink()
    assert "department/a.md" not in docs_of(department_files.put_together())


# Figures


def test_override_acts_in_code_and_is_stated():
    code = (
        "import lpv_site\nfrom lpv.crosscheck.limits import grade_difference\nfrom lpv.facts import fact, value\n"
        f"print(grade_difference('tch', 6.0), value('{OWN_FACT}'), fact('{OWN_FACT}').ours.value)\n"
        f"from lpv_site.text.inline import expand\nprint(expand('{{{{ fact(\"{OWN_FACT}\") }}}}', 'x.md'))\n"
    )
    plain = python(code.replace(".ours.value", ".ours"), HANDBOOK_DATA="")
    own = python(code, HANDBOOK_DATA=str(EXAMPLE))
    assert plain.splitlines()[0] == "resolve 10.0 None"
    assert own.splitlines()[0] == "stop 5.0 10.0"
    assert "overridden" not in plain
    assert "(common practice, overridden by Example Flight Department)" in own


def test_override_acts_on_phone_too():
    code = (
        "import json, types\nfrom lpv_site.forms import phone\n"
        "text = json.loads(phone.code('calculators')[1])['lpv/facts/own.py']\n"
        f"own = types.ModuleType('own'); exec(text, own.__dict__)\nprint(own.FACTS['{OWN_FACT}'][0], own.SOURCES)\n"
    )
    assert python(code, HANDBOOK_DATA=str(EXAMPLE)).startswith("5.0 {'own-1': ('Example Flight Department'")


def test_override_changes_store_key():
    code = "from lpv_site.build import store\nprint(store.surroundings())"
    assert python(code, HANDBOOK_DATA="") != python(code, HANDBOOK_DATA=str(EXAMPLE))


def test_override_breaking_published_value_stops_build(tmp_path):
    write(tmp_path, "department.toml", fact("isa_lapse_rate_k_per_m", "0.007"))
    code = (
        "from lpv_site.checks.checks import results\nfrom lpv_site.pages.reference_pages import require_all_hold\n"
        "from lpv.core.errors import DataError\n"
        "try:\n    require_all_hold(results())\nexcept DataError as error:\n    print(error)"
    )
    assert "withdraw it: isa_lapse_rate_k_per_m." in python(code, HANDBOOK_DATA=str(tmp_path))


@pytest.mark.parametrize("cycle", ["2003", "3105"])
def test_course_page_states_model_limits_in_time(tmp_path, cycle):
    text = (ROOT / "docs" / "approaches" / "zzak-rnav-09.toml").read_text("utf-8")
    write(tmp_path, "department.toml")
    write(tmp_path, "approaches/own-09.toml", text.replace('"2612"', f'"{cycle}"'))
    code = (
        "from lpv_site.department import files\nfiles.put_together()\n"
        "from verify import course\nprint([course.by_model(one) for one in course.examples()])"
    )
    output = python(code, HANDBOOK_DATA=str(tmp_path), HANDBOOK_STORE=str(tmp_path / "store"))
    assert "not known: the model holds from 2025 to 2030" in output
    assert "magnetic with it" not in output.splitlines()[-1]


# The whole


@pytest.fixture(scope="module")
def built(own_site):
    """The example folder, built strictly as its department would."""
    return own_site


def test_every_page_has_name_logo_colours_and_caution(built):
    pages = [built / name for name in html_pages(built) if name != "404.html"]
    assert len(pages) > 50
    for page in pages:
        text = page.read_text("utf-8")
        for part in ("Example Flight Department", "logo.svg", "colours.css",
                     "Caution.</strong>", "Company procedure: an LPV below 250 feet"):
            assert part in text, (page, part)


def test_own_pages_have_short_addresses(built):
    listed = json.loads((built / "assets" / "short.json").read_text("utf-8"))
    own = {place: code for code, place in listed.items() if place.startswith("department/brief/")}
    assert own
    assert all((built / "r" / code / "index.html").is_file() for code in own.values())


def test_department_moves_redirect(built):
    for old, new in (("department/procedures", "department/brief"),
                     ("approaches/zzab-rnav-y-28", "approaches/zzab-rnav-28")):
        assert f'data-to="../../{new}/"' in (built / old / "index.html").read_text("utf-8")
        assert (built / new / "index.html").is_file()


def test_withdrawn_briefing_announced_at_address_and_not_found_page(built):
    page = (built / "approaches" / "zzab-rnav-10" / "index.html").read_text("utf-8")
    assert "<h1>Withdrawn on 2026-12-24</h1>" in page
    wrong = (built / "404.html").read_text("utf-8")
    assert "<code>approaches/zzab-rnav-10/</code> withdrawn on 2026-12-24. The runway is closed &amp; its" in wrong


def test_own_scenarios_replace_unneeded_ones(built):
    text = (built / "modes" / "scenarios" / "index.html").read_text("utf-8")
    assert 'href="../scenario-line-flight/"' in text
    assert "each says what it is about" in text
    assert not (built / "modes" / "scenario-normal").exists()
    assert (built / "plan" / "fine-day-sheet" / "index.html").is_file()


def test_generated_page_addresses_match_makers(built):
    """By this a link of an own page to one of them is looked at before they are made."""
    docs = ROOT / "docs"
    files = (path.relative_to(docs).as_posix() for path in docs.rglob("*.md"))
    written = {name.removesuffix("index.md").replace(".md", "/") for name in files}
    made = {name.removesuffix("index.html") for name in html_pages(built)} - written - {"404.html"}
    begin = tuple(begins.removesuffix("index") for begins in {**MAKERS, **BEGIN}.values())
    apart = ("department/", "approaches/zza", "approaches/zze", "approaches/zzh", "reference/build-record/")
    assert {page for page in made - {"approaches/"} if not page.startswith((*begin, *apart))} == set()
    assert len(made) > 30


def test_own_pages_in_nav_below_name(built):
    text = (built / "index.html").read_text("utf-8")
    assert 'href="department/"' in text
    assert (built / "department" / "hold.svg").is_file()
    assert (built / "department" / "brief" / "index.html").is_file()


def test_index_lists_own_approaches_first_demo_apart(built):
    text = (built / "approaches" / "index.html").read_text("utf-8")
    assert text.index("ZZAB") < text.index("Invented, for practice") < text.index("ZZAK")


def test_pages_use_own_approach_as_example(built):
    text = (built / "verify" / "identity" / "index.html").read_text("utf-8")
    assert "W31D" in text
    assert "W09A" not in text


def test_page_marks_own_content(built):
    text = (built / "department" / "own-data" / "index.html").read_text("utf-8")
    for part in ("Operations manual of the example, part B", "approaches: 3 own, 5 of the demo, invented", "EFD"):
        assert part in text
    facts = (built / "reference" / "facts" / "index.html").read_text("utf-8")
    assert "This figure is overridden by Example Flight Department" in facts
    assert "EFD" in (built / "reference" / "glossary" / "index.html").read_text("utf-8")


def test_build_record_covers_whole_folder(built):
    hashes = json.loads((built / "build-record.json").read_text("utf-8"))["data"]
    own = fingerprint(EXAMPLE)
    assert {path.relative_to(EXAMPLE).as_posix(): digest for path, digest in own.items()}.items() <= hashes.items()


def test_changes_reported_for_own_approaches_only(built):
    text = (built / "approaches" / "changes" / "index.html").read_text("utf-8")
    assert "0 gone, 0 new, 1 changed, 2 unchanged" in text
    assert "ZZAB" in text
    assert "ZZAK" not in text
    assert json.loads((built / "build-record.json").read_text("utf-8"))["cycles"] == {"2612": 3}


def test_address_in_site(built):
    sitemap = (built / "sitemap.xml").read_text("utf-8")
    assert "https://handbook.example/lpv/verify/course/" in sitemap
    own = "https://handbook.example/lpv/approaches/zzab-rnav-28/"
    assert f"<loc>{own}</loc>" in sitemap
    briefing = (built / "approaches" / "zzab-rnav-28" / "index.html").read_text("utf-8")
    assert f'<link rel="canonical" href="{own}">' in briefing
    assert f'aria-label="Code for: {own}#card"' in briefing
    assert json.loads((built / "manifest.webmanifest").read_text())["name"] == "LPV handbook, Example Flight Department"


def test_folder_and_data_faults_in_one_list(tmp_path):
    write(tmp_path, "own/department.toml", 'named = "x"\n')
    write(tmp_path, "own/approaches/own.toml", "x = 1")
    write(tmp_path, "own/aircraft/own.toml", "x = 1")
    write(tmp_path, "own/teach/own.toml", "x = 1")
    write(tmp_path, "own/pages/own.md", f"{PAGE}\n<script>alert(1)</script>\n")
    write(tmp_path, "own/moved.toml", 'moved = [{ from = "department/old.md", to = "department/own.md" }]\n')
    write(tmp_path, "own/pages/links.md", f"{PAGE}\n[a](own.md) [b](../verify/nope.md) [c](other.md) [d](own.md#none)"
          ' ![e](none.png) [f](../verify/index.md#do) <a href="x/y.html">g</a> [h](../approaches/zzaa.md)\n'
          "[i](../verify/course.md#doo) [j](../practice/index.md#grades) [k](../reference/facts.md#none)\n"
          "[l](../reference/from-memory.md) [m](../reference/facts.md#fact-limit-tch-stop-ft)\n"
          "[n](../approaches/index.md) [o](../verify/curse.md#do) [p](old.md) [q](javascript:alert())\n")
    run = subprocess.run(
        [sys.executable, "-m", "lpv_site.build", "--data", str(tmp_path / "own"), "--site-dir", str(tmp_path / "site")],
        cwd=ROOT, capture_output=True, text=True)
    output = run.stdout + run.stderr
    assert run.returncode != 0
    for part in ("department.toml: named", "department.toml: name", "approaches/own.toml: identity",
                 "aircraft/own.toml: x: found an unknown key", "teach/own.toml: x", "Line 1: x = 1",
                 "pages/own.md: found a script written into the page, which would not run ('alert(1)')"):
        assert part in output, output
    links = dict(re.findall(r"pages/links\.md: link: found (\S+);.*\. (.*?) Line \d+: ", output))
    assert links == {
        "approaches/zzaa.md": "Correct the link.", "department/none.png": "Correct the link.",
        "department/other.md": "Correct the link.", "verify/nope.md": "Correct the link.",
        "department/own.md#none": "Correct the link, or give the heading this id.",
        "department/old.md": "It is now department/own.md.",
        "reference/facts.md#none": "Correct the link.", "verify/course.md#doo": "Did you mean verify/course.md#do?",
        "verify/curse.md#do": "Did you mean verify/course.md?", "'x/y.html'": "Write it as [words](page.md).",
        "'javascript:alert()'": "Take it out.",
    }
    assert "Traceback" not in output
    assert not (tmp_path / "site").exists()
