"""Text of data files never becomes markup: the readers refuse what could, and the pages escape all that they print."""

import json
import re
import tomllib
from dataclasses import fields, is_dataclass, replace
from functools import cache
from html.parser import HTMLParser

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from markupsafe import Markup

from lpv.aircraft import record as aircraft
from lpv.approach import record as approach
from lpv.approach.record import Approach
from lpv.core.errors import DataError
from lpv.files import toml_reader as tomlfile
from lpv.files.schema import entries
from lpv.files.toml_writer import toml_text
from lpv.plan import sheet as plan
from lpv.plan.schema import Scenario
from lpv.setup import file as setup_file
from lpv.simulate import scenario
from lpv.track import flight_file as track_file
from lpv_site.briefing import briefing
from lpv_site.department import department
from lpv_site.department.department import Department
from lpv_site.department.site import configure, with_own
from lpv_site.figures.figure import fill
from lpv_site.pages import aircraft_page, flight_page, plan_sheet, track_page
from lpv_site.text.convert import to_html
from lpv_site.text.findings import finding_list
from support import ROOT

DOCS = ROOT / "docs"
REFUSED = {
    "script": "<script>alert(1)</script>",
    "handler": "\"><img src=x onerror=alert(1)>",
    "end of a drawing": "</text></svg><b>x</b>",
    "tag": "A <b>b</b>",
    "entity": "A &lt;b&gt;",
    "code": "`x`",
    "expression": "{{ fact('x') }}",
    "attributes": "Name { #top onclick=x }",
    "link": "[x](javascript:alert(1))",
    "table cell": "a | b",
    "mathematics": "$x$",
    "escape": "a\\b",
    "line": "a\n# b",
    "carriage return": "a\rb",
    "null": "a\x00b",
    "terminal": "\x1b[31mred",
    "C1 control": "a\x85b",
    "line separator": "a\u2028b",
    "right to left override": "a\u202eb",
    "right to left isolate": "\u2067a\u2069",
    "right to left mark": "a\u200fb",
    "byte order mark": "\ufeffa",
    "zero width": "a\u200bb",
    "10,000 characters": "W" * 10_000,
    "nothing": "",
    "spaces": " a ",
}
# What a name may look like, in all its oddity; none of it means anything to HTML, Markdown, YAML or a drawing.
ODD = "O'Hare \"b\" & co; #1 (a) _b_ !c &lt x=y on='z' %s -- : - 1. é ש م 漢 javascript:alert(1)"
# What a reader would refuse, given to the pages all the same; without a number that a comparison would read.
HOSTILE = "<script>alert()</script><b id=x onclick='y'>\"> [a](b) ![c](d) `e` **f** {{ g }} { #h } &lt;i&gt; | &#x6a;"
PLAIN = "Plain words here"
READERS = {
    "approach": (Approach, "approaches/zzak-rnav-09.toml", approach.read_text),
    "aircraft": (aircraft.Aircraft, "aircraft/large-jet.toml", aircraft.read_text),
    "set-up": (setup_file.SetupFile, "set-up/zzak-09-good.toml", setup_file.read_text),
    "plan": (Scenario, "plan/zzak-rnav-09-notice.toml", plan.read_text),
    "scenario": (scenario.Scenario, "modes/scenarios/lateral-lost.toml", scenario.read_text),
    "recorded flight": (track_file.FlightFile, "debrief/flights/stable.toml",
                        lambda text, name: tomlfile.read_text(text, name, track_file.FlightFile)),
}


def raw(name):
    return tomllib.loads((DOCS / READERS[name][1]).read_text("utf-8"))


def places(record, table, path=""):
    """(table, key, index of a list, place as a fault names it) of each text that stands in the file."""
    for key, (_, entry) in entries(record).items():
        value, place = table.get(key), f"{path}{key}"
        if entry.kind == "text" and isinstance(value, str):
            yield table, key, None, place
        elif entry.kind == "texts":
            yield from ((value, number, number, place) for number in range(len(value or [])))
        elif entry.kind == "table" and value:
            yield from places(entry.record, value, f"{place}.")
        elif entry.kind == "tables":
            for number, row in enumerate(value or [], 1):
                yield from places(entry.record, row, f"{place}[{number}].")


def faults_with(name, number, text):
    """Put a text in the place with this number; the place, and the keys that the reader finds fault with."""
    record, _, read = READERS[name]
    tables = raw(name)
    holder, key, _, place = list(places(record, tables))[number]
    holder[key] = text
    try:
        read(toml_text(tables), "zz-file.toml")
    except DataError as error:
        return place, error.faults
    return place, []


@pytest.mark.parametrize("kind", REFUSED)
@pytest.mark.parametrize("name", READERS)
def test_reader_refuses_text_with_one_located_fault(name, kind):
    count = len(list(places(READERS[name][0], raw(name))))
    assert count
    for number in range(count):
        place, faults = faults_with(name, number, REFUSED[kind])
        assert len(faults) == 1, (place, faults)
        # Of the whole file, or of a line: TOML does not take the character, or the line is too long for any file.
        assert faults[0].key in (place, "") or faults[0].key.startswith("line "), place
        message = str(faults[0])
        assert len(message) < 700, place
        assert message.isprintable(), place
        assert "Traceback" not in message


@pytest.mark.parametrize("kind", REFUSED)
def test_department_refused_too(kind):
    good = {"name": "Crew training", "cautions": ["Fly the chart."], "term": [{"short": "OPC", "meaning": "A check"}]}
    for holder, key in ((good, "name"), (good["cautions"], 0), (good["term"][0], "meaning")):
        kept, holder[key] = holder[key], REFUSED[kind]
        with pytest.raises(DataError) as raised:
            tomlfile.read_text(toml_text(good), "department.toml", Department)
        assert len(raised.value.faults) == 1
        holder[key] = kept
    assert tomlfile.read_text(toml_text(good), "department.toml", Department).name == "Crew training"


class Attributes(HTMLParser):
    """Every tag with its attributes."""

    def __init__(self, html):
        super().__init__()
        self.found = []
        self.feed(html)
        self.close()

    def handle_starttag(self, tag, attributes):
        self.found.append((tag, dict(attributes)))


@pytest.fixture
def themed(tmp_path, monkeypatch):
    """What the theme makes of a page of a department: its name, title, caution and the page's description given."""
    from mkdocs.config import load_config
    from mkdocs.structure.files import File, Files
    from mkdocs.structure.nav import get_navigation
    from mkdocs.structure.pages import Page

    import hooks

    monkeypatch.setenv("HANDBOOK_DATA", str(tmp_path))
    monkeypatch.setattr("lpv_site.build.store.FOLDER", tmp_path / "store")

    def made(text):
        for cached in (department.folder, department._read):
            cached.cache_clear()
        values = {"name": text, "title": text[:40].strip(), "cautions": [text]}
        (tmp_path / "department.toml").write_text(toml_text(values), "utf-8")
        config = load_config(str(ROOT / "mkdocs.yml"))
        configure(config)
        config.extra["edition"] = {"number": "2612-0a", "time": "2026-11-20T08:00Z"}
        config.plugins._current_plugin = "a test"
        file = File.generated(config, "index.md", content=f"---\ndescription: {json.dumps(text)}\n---\n")
        config.nav = with_own([], Markup.escape(text), [])
        nav = get_navigation(Files([file]), config)
        page = Page(None, file, config)
        page.read_source(config)
        hooks.on_page_markdown(page.markdown, page, config, Files([file]))
        page.content, page.toc = "<h1>x</h1>", []
        context = {"nav": nav, "pages": [], "base_url": ".", "extra_css": [], "extra_javascript": [], "config": config,
                   "page": page, "mkdocs_version": "", "build_date_utc": None}
        return Attributes(config.theme.get_env().get_template("main.html").render(context)).found

    yield made
    for cached in (department.folder, department._read):
        cached.cache_clear()


def test_department_name_stays_in_attributes(themed):
    plain, odd = themed("Training words"), themed('X" hidden onfocus=\'y\' & x="')
    names = [[(tag, list(attributes)) for tag, attributes in page] for page in (plain, odd)]
    assert names[0] == names[1]
    labels = [attributes["aria-label"] for tag, attributes in odd if "logo" in attributes.get("data-md-component", "")]
    assert len(labels) == 2
    assert all('X" hidden onfocus=\'y\' & x="' in label for label in labels)
    [described] = [attributes for tag, attributes in odd if attributes.get("name") == "description"]
    assert described["content"] == 'X" hidden onfocus=\'y\' & x="'


class Shape(HTMLParser):
    """Tags with the names of their attributes, ids, and where links lead: all that text must not change."""

    def __init__(self, html):
        super().__init__()
        self.tags, self.text = [], []
        self.feed(html)
        self.close()

    def handle_starttag(self, tag, attributes):
        values = dict(attributes)
        kept = tuple(values.get(name) for name in ("id", "class", "href", "src"))
        self.tags.append((tag, tuple(name for name, _ in attributes), *kept))

    def handle_comment(self, data):
        self.tags.append(("comment", data))

    handle_decl = handle_pi = unknown_decl = handle_comment

    def handle_data(self, data):
        self.text.append(data)


def shape(page):
    """Of a page as the site prints it, with what was set aside filled in."""
    _, front, body = re.split(r"^---\n", page, maxsplit=2, flags=re.M)
    front_matter = yaml.safe_load(front)
    assert all(isinstance(front_matter[key], str) for key in ("title", "description"))
    if "{{" in body.replace("{{ computed(", "").replace("{{ fact(", ""):
        raise AssertionError("a text that the site would evaluate")
    html = fill(to_html(body))
    return Shape(html)


def with_texts(record, text):
    """A record whose every free text is `text`."""
    if isinstance(record, tuple):
        return tuple(with_texts(item, text) for item in record)
    if not is_dataclass(record):
        return record
    free = {name for name, entry in entries(type(record)).values() if entry.kind == "text" and not entry.pattern}
    lists = {name for name, entry in entries(type(record)).values() if entry.kind == "texts"}
    changed = {}
    for item in fields(record):
        value = getattr(record, item.name)
        if item.name in free and value is not None:
            changed[item.name] = text
        elif item.name in lists:
            changed[item.name] = (text,) * len(value) if item.name not in KNOWN_WORDS else value
        elif "entry" in item.metadata:
            changed[item.name] = with_texts(value, text)
    return replace(record, **changed)


# Lists of words that the program knows; it refuses others also where no file is read.
KNOWN_WORDS = {"set_up", "afterwards", "announced", "cold_segments", "lines"}


@cache
def files():
    """One record of each kind that a page is made from."""
    return {
        "briefing": approach.read(DOCS / "approaches" / "zzhc-rnav-33.toml"),
        "aircraft": aircraft.read(DOCS / "aircraft" / "large-jet.toml"),
        "sheet": plan_sheet.cases()[0],
        "scenario": next(flight_page.flown(DOCS, of) for of in flight_page.scenarios() if of.slug == "normal"),
        "recorded flight": track_page.recorded()[0],
    }


def page_of(kind, text):
    record = files()[kind]
    if kind == "briefing":
        return briefing.build_briefing_page(with_texts(record, text))
    if kind == "aircraft":
        return aircraft_page.build_aircraft_page(with_texts(record, text))
    if kind == "sheet":
        parts = {part: with_texts(getattr(record, part), text) for part in ("scenario", "approach", "aircraft")}
        return plan_sheet.build_plan_sheet_page(replace(record, **parts))
    if kind == "scenario":
        renamed = replace(record.flight, scenario=with_texts(record.flight.scenario, text))
        return flight_page.build_flight_page(replace(
            record, flight=renamed, approach=with_texts(record.approach, text),
            aircraft=with_texts(record.aircraft, text)))
    return track_page.build_track_page(replace(record, file=with_texts(record.file, text)))


@cache
def plain_shape(kind):
    return shape(page_of(kind, PLAIN)).tags


KINDS = ("briefing", "aircraft", "sheet", "scenario", "recorded flight")


@pytest.mark.parametrize("text", [ODD, HOSTILE, "W" * 4_000], ids=["odd", "hostile", "long"])
@pytest.mark.parametrize("kind", KINDS)
def test_page_prints_any_text_and_builds_identically(kind, text):
    layout = shape(page_of(kind, text))
    assert layout.tags == plain_shape(kind)
    assert text[:60] in " ".join("".join(layout.text).split()), "the text itself stands on the page"


# The readers take printable texts without spaces around; markup is in HOSTILE.
NAMES = st.text(st.characters(exclude_categories=["C", "Z"]) | st.just(" "), min_size=1, max_size=60).map(str.strip)
BEGINNINGS = ["0", "1. a", "- a", "+ a", "* a", "--- a", "---", "===", ": a", "> a"]


@pytest.mark.parametrize("text", BEGINNINGS)
@pytest.mark.parametrize("kind", ["aircraft", "recorded flight"])
def test_list_or_line_markup_begins_none(kind, text):
    assert shape(page_of(kind, text)).tags == plain_shape(kind)


@given(NAMES.filter(bool))
@settings(max_examples=15)
def test_any_text_inert_on_aircraft_page(text):
    assert shape(page_of("aircraft", text)).tags == plain_shape("aircraft")


def test_set_up_findings_print_any_text():
    setup = setup_file.read(DOCS / "set-up" / "zzak-09-errors.toml")
    chart = approach.read(DOCS / "approaches" / "zzak-rnav-09.toml")
    flown = aircraft.read(DOCS / "aircraft" / "large-jet.toml")
    shapes = [
        Shape(to_html(finding_list(setup_file.findings(with_texts(setup, text), chart, flown)))).tags
        for text in (PLAIN, ODD, HOSTILE)
    ]
    assert shapes[0]
    assert shapes[0] == shapes[1] == shapes[2]
