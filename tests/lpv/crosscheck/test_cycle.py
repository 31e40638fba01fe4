"""Two cycles compared: new, gone, changed, unchanged; graded; as text, JSON, page and exit code."""

import json
import re
import shutil

import pytest

from demo import approaches as make_demo
from lpv.core.errors import DataError
from lpv.core.findings import SEVERITY
from lpv.core.text import NARROW_SPACE
from lpv.crosscheck import cycle
from lpv.crosscheck.changes import MEANING, grade_at
from lpv.crosscheck.cycle import (
    Comparison,
    Entry,
    as_json,
    as_text,
    change_words,
    compare_folders,
    headline,
    main,
    name,
)
from lpv_site.briefing.briefings import files
from lpv_site.pages.cycle_page import build_cycle_page, build_empty_page, compared_version, cycle_pages
from lpv_site.pages.cycle_page import main as page_main
from lpv_site.text.convert import to_html
from lpv_site.text.findings import MARKS

OLD, NEW = make_demo.FOLDER / "previous", make_demo.FOLDER


@pytest.fixture(scope="module")
def demo():
    return compare_folders(OLD, NEW)


@pytest.fixture
def folders(tmp_path):
    """Two copies of the new set."""
    for which in ("old", "new"):
        (tmp_path / which).mkdir()
        for path in NEW.glob("*.toml"):
            shutil.copy(path, tmp_path / which)
    return tmp_path / "old", tmp_path / "new"


def edited(path, *pairs):
    text = path.read_text("utf-8")
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new)
    path.write_text(text, "utf-8")


def test_demo_cycle_comparison(demo):
    assert (demo.old_cycles, demo.new_cycles, demo.unchanged, demo.remarks) == (["2611"], ["2612"], 2, [])
    assert [(entry.slug, entry.state, entry.grade, len(entry.reported)) for entry in demo.entries] == [
        ("zzak-rnav-09", "changed", "stop", 13), ("zzak-rnav-27", "changed", "stop", 2),
        ("zzak-rnav-y-16", "gone", "stop", 0), ("zzeg-rnp-24", "new", "resolve", 0)]
    assert headline(demo) == "Cycle 2611 to 2612: 1 gone, 1 new, 2 changed, 2 unchanged."
    assert demo.has_stop


def test_changes_by_severity_then_cockpit_order(demo):
    for entry in demo.entries:
        grades = [SEVERITY.index(change.grade) for change in entry.changes]
        assert grades == sorted(grades)
    first = demo.entries[0]
    assert [change_words(change) for change in first.reported[:4]] == [
        "threshold crossing height: 50\u202fft, now 52\u202fft",
        "threshold crossing height, in the data block: 50\u202fft, now 52\u202fft",
        "LPV, the minimum: 264\u202fft, now 224\u202fft",
        "FOMEY, altitude printed at the fix: 780\u202fft, now 800\u202fft"]
    assert [change_words(change) for change in demo.entries[1].reported] == [
        "SBAS channel number: 99913, now 99903", "SBAS channel number, in the database: 99913, now 99903"]


def test_channel_identifier_course_angle_tch_minimum_first(folders):
    old, new = folders
    edited(new / "zzak-rnav-09.toml", ("channel = 99901", "channel = 99907"), ('path_id = "W09A"', 'path_id = "W09B"'),
           ("course_deg = 92\ncourse_reference", "course_deg = 93\ncourse_reference"),
           ("glidepath_deg = 3.0", "glidepath_deg = 3.1"), ("tch_ft = 52", "tch_ft = 55"),
           ("altitude_ft = 224", "altitude_ft = 250"), ('name = "MALSR"', 'name = "ALSF"'))
    [entry] = compare_folders(old, new).entries
    assert [change.place for change in entry.reported] == [
        "identity.channel", "database.channel", "identity.path_id", "database.path_id", "chart.course_deg",
        "chart.glidepath_deg", "chart.tch_ft", "chart.minima.altitude_ft", "chart.lights.name"]


def test_no_changes(folders):
    comparison = compare_folders(*folders)
    assert (comparison.entries, comparison.unchanged, comparison.has_stop) == ([], 5, False)
    assert comparison.remarks == ["Both sets are of the same cycle."]


def test_renamed_file_matched_by_airport_and_title(folders):
    old, new = folders
    (new / "zzak-rnav-09.toml").rename(new / "zzak-nine.toml")
    comparison = compare_folders(old, new)
    [entry] = comparison.entries
    assert (entry.slug, entry.before, entry.state, entry.grade, entry.reported) == (
        "zzak-nine", "zzak-rnav-09", "changed", "note", [])
    assert "(file was zzak-rnav-09)" in as_text(comparison)
    assert "0 changes. Its file was zzak-rnav-09. [Briefing](zzak-nine.md)." in build_cycle_page(comparison)


def test_two_removed_files_with_same_title_both_reported(folders):
    old, new = folders
    shutil.copy(old / "zzak-rnav-09.toml", old / "zzak-rnav-09-copy.toml")
    (new / "zzak-rnav-09.toml").unlink()
    assert [entry.slug for entry in compare_folders(old, new).graded("stop")] == ["zzak-rnav-09", "zzak-rnav-09-copy"]


def test_minima_to_be_filled_are_no_stop(folders, capsys):
    old, new = folders
    path = new / "zzak-rnav-09.toml"
    text = re.sub(r"\[\[chart\.minima\]\].*?(?=\n\[)", "", path.read_text("utf-8"), flags=re.S)
    path.write_text(re.sub(r"\[\[chart\.minima\]\].*?(?=\n\[)", "", text, flags=re.S).replace(
        "[chart]\n", '[chart]\nto_be_filled = ["minima"]\n'), "utf-8")
    assert main([str(old), str(new)]) == 0
    printed = capsys.readouterr().out
    assert "resolve: ZZAK RNAV (GPS) RWY 09: changed" in printed
    assert "  resolve LPV, line of minima: there, now to be filled from the chart\n" in printed
    assert "to be filled from the chart" in build_cycle_page(compare_folders(old, new))


def test_mixed_cycles_and_swapped_folders_reported():
    back = compare_folders(NEW, OLD)
    assert back.remarks == ["The old set is of a later cycle than the new one: are the folders swapped?"]
    assert [entry.slug for entry in back.entries if entry.state == "gone"] == ["zzeg-rnp-24"]


def test_set_mixing_cycles_reported(folders):
    old, new = folders
    edited(new / "zzak-rnav-09.toml", ('"2612"', '"2613"'), ("2026-11-26", "2026-12-24"),
           ("expires = 2026-12-24", "expires = 2027-01-21"))
    comparison = compare_folders(old, new)
    assert (comparison.unchanged, comparison.new_cycles) == (5, ["2612", "2613"])
    assert comparison.remarks == ["The new set mixes cycles: 2612, 2613."]


def test_bad_files_all_named_together(folders):
    old, new = folders
    edited(old / "zzak-rnav-09.toml", ("channel = 99901", "channel = 0.5"))
    edited(new / "zzeg-rnp-24.toml", ('rule = "EASA"', 'rule = "EAS"'))
    (new / "Bad Name.toml").write_text("")
    with pytest.raises(DataError) as caught:
        compare_folders(old, new)
    assert {fault.file.rpartition("/")[2] for fault in caught.value.faults} == {
        "zzak-rnav-09.toml", "zzeg-rnp-24.toml", "Bad Name.toml"}
    with pytest.raises(DataError, match="no approach file"):
        compare_folders(old / "none", new)


def test_cycle_command(folders, capsys):
    assert main([str(OLD), str(NEW)]) == 1
    printed = capsys.readouterr().out
    assert "stop: ZZAK RNAV (GPS) RWY 09: changed" in printed
    assert "resolve: ZZEG RNP RWY 24: new\n  not in the old set" in printed
    assert main([str(path) for path in folders]) == 0
    assert main([str(OLD), str(NEW / "none")]) == 2
    assert "no approach file" in capsys.readouterr().err


def test_cycle_comparison_as_json(demo):
    data = json.loads(as_json(demo))
    assert set(data) == {"old_cycles", "new_cycles", "entries", "unchanged", "remarks", "stop"}
    assert data["stop"] is True
    assert "\\u" not in as_json(demo), "texts stand as they are read"
    first = data["entries"][0]
    assert (first["slug"], first["grade"], first["changes"][0]["place"]) == ("zzak-rnav-09", "stop", "chart.tch_ft")
    assert {change["place"] for change in first["changes"]} >= cycle.ONLY_DATES


def test_page_links_every_existing_briefing(demo):
    page = build_cycle_page(demo)
    assert page.count("[Briefing](") == 3
    for entry in demo.entries:
        assert f"{{ #{entry.slug} data-search-exclude }}" in page
        assert (f"[Briefing]({entry.slug}.md)" in page) == (entry.state != "gone")
    assert page.index("Do not fly the old one") < page.index("Brief anew") < page.index("Unchanged")
    assert page.count("in force from 2026-11-26 to 2026-12-23.") == 4  # page and card, each with its notice
    assert build_cycle_page(demo, "../approaches/").count("](../approaches/zz") == 3


def test_page_names_what_each_change_is_about(demo):
    page = build_cycle_page(demo)
    about = [change.about for entry in demo.entries for change in entry.reported]
    assert page.count("<br>**") == sum(map(bool, about)) > 0
    assert "****" not in page
    assert all(f"<br>**{name}**" in page for name in about if name)
    assert "" in about


def card_of(comparison):
    return build_cycle_page(comparison).partition('id="card"')[2]


def test_long_bulletin_stays_on_page_and_counts_rest(demo):
    many = Comparison(["2611"], ["2612"], [demo.entries[0]] * 40)
    card = card_of(many)
    assert card.count("<br>") + card.count('class="hb-card-row"') < 75
    left = re.search(r"<b>And (\d+) more</b>: on this page of the site\.", card)
    assert int(left[1]) == 40 - card.count(f"<b>{MARKS['stop']} stop: ") < 38


def test_crew_visible_changes_first_and_once(folders):
    old, new = folders
    edited(new / "zzak-rnav-09.toml", ("channel = 99901", "channel = 99907"),
           ("course_deg = 92\ncourse_reference", "course_deg = 93\ncourse_reference"),
           ("glidepath_deg = 3.0", "glidepath_deg = 3.1"), ("altitude_ft = 224", "altitude_ft = 250"))
    [entry] = compare_folders(old, new).entries
    lines = [words.replace(NARROW_SPACE, " ") for words in entry.asks]
    assert lines[0] == "the old one must not be flown"
    assert [line.partition(":")[0] for line in lines[1:6]] == [
        "altimeter on the glidepath at the FAF, standard day", "rate of descent at 140 kt", "course", "minimum",
        "channel"]
    assert lines[2] == "rate of descent at 140 kt: 743 ft/min, now 768 ft/min"  # 140 kt * 6076.1/60 * tan
    assert lines[3] == "course: 092° magnetic, now 093° magnetic"
    assert lines[4] == "minimum: LPV DA 224 ft, now LPV DA 250 ft"
    assert lines[5] == "channel: 99901, now 99907"
    assert not [line for line in lines if line.startswith(("final approach course", "SBAS channel", "glidepath angle"))]


def test_database_only_change_not_hidden(folders):
    old, new = folders
    path = new / "zzak-rnav-09.toml"
    chart, heading, database = path.read_text("utf-8").partition("[database]")
    path.write_text(chart + heading + database.replace('"W09A"', '"W09B"', 1), "utf-8")
    [entry] = compare_folders(old, new).entries
    assert any("path identifier" in words and "W09B" in words for words in entry.asks)


@pytest.mark.parametrize("file", ["zzak-rnav-09.toml", "zzak-rnav-10.toml"])
def test_renumbered_runway_and_title_match_same_approach(folders, file):
    old, new = folders
    edited(new / "zzak-rnav-09.toml", ('runway = "09"', 'runway = "10"'),
           ('title = "RNAV (GPS) RWY 09"', 'title = "RNAV (GPS) RWY 10"'))
    (new / "zzak-rnav-09.toml").rename(new / file)
    [entry] = compare_folders(old, new).entries
    assert (entry.state, entry.grade) == ("changed", "stop")
    assert [each.words for each in entry.seen] == [
        "runway: 09, now 10", "title: RNAV (GPS) RWY 09, now RNAV (GPS) RWY 10"]


def test_chart_note_graded_alike_everywhere(folders):
    old, new = folders
    edited(new / "zzak-rnav-09.toml", ("notes = [\n", 'notes = [\n    "Another note of the chart.",\n'))
    [entry] = compare_folders(old, new).entries
    assert entry.grade == grade_at("chart.notes") == "resolve"
    assert "notes" not in MEANING["note"]
    assert "resolve: ZZAK RNAV (GPS) RWY 09" in as_text(compare_folders(old, new))
    assert "? resolve: ZZAK RNAV" in card_of(compare_folders(old, new))


def test_bulletin_lists_stops_and_briefing_items_counts_notes(demo):
    card = card_of(demo)
    assert "Minimum: LPV DA 264 ft, now LPV DA 224 ft" in card.replace(NARROW_SPACE, " ")
    assert "ZZEG RNP RWY 24" in card
    assert "Read by" in card
    assert "Caution." in card


def test_data_text_inert_on_page():
    entry = Entry("a", "ZZAA", "Name", "RNAV [x](y) *RWY* 09", "changed", "b", (
        cycle.Change("chart.notes", "notes", "", "", "_new_ [a](b)", "resolve"),))
    page = build_cycle_page(Comparison(["2611"], ["2612"], [entry], 0, ["odd <b>"]))
    html = to_html(page.partition("---\n\n")[2].replace("(a.md)", "()"))
    assert "<em>" not in html
    assert "<b>odd" not in html
    assert name(entry) == "ZZAA RNAV [x](y) *RWY* 09"


def test_page_present_with_and_without_previous_set(tmp_path):
    pages = cycle_pages(make_demo.FOLDER.parent)
    assert list(pages) == ["approaches/changes.md"]
    assert pages["approaches/changes.md"]().startswith('---\ntitle: "What changed this cycle"\n')
    (tmp_path / "approaches").mkdir()
    assert cycle_pages(tmp_path)["approaches/changes.md"]() == build_empty_page()
    assert all(path.parent.name == "approaches" for path in files(make_demo.FOLDER.parent))


def test_page_names_faulty_files_once_by_docs_path(tmp_path):
    for place in ("approaches/zz.toml", "approaches/previous/zz.toml"):
        (tmp_path / place).parent.mkdir(exist_ok=True)
        (tmp_path / place).write_text("x = 1\n")
    with pytest.raises(DataError) as stopped:
        cycle_pages(tmp_path)
    rows = [(fault.file, fault.key) for fault in stopped.value.faults]
    assert len(rows) == len(set(rows))
    assert {file for file, _ in rows} == {"zz.toml", "approaches/previous/zz.toml"}


def test_changed_file_changes_version(folders, tmp_path):
    old, new = folders
    docs = tmp_path / "docs"
    docs.mkdir()
    new.rename(docs / "approaches")
    before = compared_version(docs)
    assert before == ""
    old.rename(docs / "approaches" / "previous")
    first = compared_version(docs)
    assert first
    edited(docs / "approaches" / "zzak-rnav-09.toml", ("tch_ft = 52", "tch_ft = 55"))
    assert compared_version(docs) not in ("", first)
    assert "1 changed, 4 unchanged" in cycle_pages(docs)["approaches/changes.md"]()


def test_page_command(capsys):
    assert page_main([str(OLD), str(NEW)]) == 0
    assert "# What changed this cycle" in capsys.readouterr().out
    assert page_main([str(OLD)]) == page_main([str(OLD), "none"]) == 2
