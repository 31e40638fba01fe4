"""The drill pages: every answer leads to a section that is there, and nothing gives it away before."""

import gzip
import html
import json
import re

import pytest

from lpv.core.findings import MEANING, Finding
from lpv.decide.remedy import REMEDIES, SIGNS
from lpv.drill.rows import DIFFICULTIES, MISTAKES
from lpv_site.figures.figure import fill
from lpv_site.pages.drill_page import answer, build_drill_page, drill_markdown, drill_pages, drills
from lpv_site.pages.numbers_page import asked, build_numbers_page, in_words
from lpv_site.pages.sequence_page import build_sequence_page, running
from lpv_site.pages.teaching import SIGN_TEACHES, TEACHES, link, section
from lpv_site.text.headings import headings
from lpv_site.text.links import relative
from lpv_site.text.text import escape

PAGE = "practice/plain.md"
PLACE = re.compile(r'<div class="hb-own-answer"[^>]*></div>')  # for the script, not to read
LINK = re.compile(r"\[[^\]]+\]\(\.\./([^)]+)\)")


@pytest.mark.parametrize("key", TEACHES)
def test_every_teaching_section_exists(key):
    assert TEACHES[key] in headings()
    mistake, _, grade = key.partition(" ")[2].partition(" ")
    assert not mistake or mistake in MISTAKES
    assert not grade or grade in MEANING


def test_mda_set_as_da_has_own_entry():
    for grade, entry in (("stop", "mda-set-as-da"), ("resolve", "da-set-as-mda")):
        finding = Finding("set-minimum-kind", grade, "minimum set as the other kind")
        assert section(finding, "wrong-kind") == f"decide/minimum.md#{entry}"


@pytest.mark.parametrize("drill", drills(), ids=lambda drill: drill.row.name)
def test_every_answer_names_mistakes_and_sections(drill):
    text = answer(drill, PAGE)
    links = LINK.findall(text)
    assert links
    assert set(links) <= set(headings())
    for planted, key in zip(drill.planted, drill.row.mistakes, strict=True):
        assert planted.words in text
        mine = [row for row in drill.findings() if (row.name(), row.grade) in planted.expected]
        assert {section(row, key) for row in mine} <= set(links)
    assert text.count('<div class="hb-row') >= len(drill.expected)
    assert ("Nothing is wrong" in text) == (not drill.planted)


@pytest.mark.parametrize("drill", drills(), ids=lambda drill: drill.row.name)
def test_answer_folded_and_not_given_away(drill):
    before, fold, _ = drill_markdown(drill, PAGE).partition('??? note hb-answer "Answer"\n')
    assert fold
    assert f"{{ #{drill.row.name} }}" in before
    for planted in drill.planted:
        assert planted.words not in before
    shown = PLACE.sub("", before)
    for word in ("hb-stop", "hb-resolve", "wrong", "mistake "):
        assert word not in shown


def test_wrong_settings_visible():
    course_drill = next(drill for drill in drills() if drill.row.mistakes == ("course-before",))
    shown = drill_markdown(course_drill, PAGE).partition("???")[0]
    row = next(line for line in shown.splitlines() if line.startswith("| course |"))
    assert len(set(row.split("|")[2:4])) == 2
    for case in (course_drill.case, course_drill.base):
        assert f"course {case.expected.course_deg:03.0f}°" in shown


@pytest.mark.parametrize("difficulty", DIFFICULTIES)
def test_page_has_drills_print_link_and_cautions(difficulty):
    page = build_drill_page(difficulty)
    mine = [drill.row.name for drill in drills() if drill.row.difficulty == difficulty]
    assert re.findall(r"\{ #(drill-\d+) \}", page) == sorted(mine)
    assert page.count("hb-answer") == len(mine)
    assert 'href="#card"' in page
    assert page.count('id="card"') == 1
    assert "never primary navigation" in page
    assert page.count("never for flight") >= len(mine)
    assert "exclude: true" in page.split("---")[1], "wrong set-ups do not belong into the search"
    assert len(gzip.compress(page.encode())) < 20_000
    assert list(drill_pages()) == [f"practice/{name}.md" for name in DIFFICULTIES]


def test_links_lead_from_page_to_page():
    assert relative("verify/index.md#do", "practice/plain.md") == "../verify/index.md#do"
    assert relative("practice/plain.md#top", "practice/plain.md") == "#top"
    assert relative("index.md#top", "practice/plain.md") == "../index.md#top"
    assert link("modes/loss.md#guidance-vanished", "index.md") == (
        "[Guidance vanished](modes/loss.md#guidance-vanished)")
    assert link("verify/identity.md#do", "verify/path.md") == "[Identity and channel: Do](identity.md#do)"


def test_finding_without_teaching_section_is_error():
    with pytest.raises(KeyError):
        section(Finding("no-such-key", "stop", "x"))


def test_sections_for_numbers_and_signs_exist():
    assert {drill.question.teaches for drill in asked()} | set(SIGN_TEACHES.values()) <= set(headings())
    assert set(SIGN_TEACHES) == {"", *SIGNS}


@pytest.mark.parametrize(("build", "made"), [(build_numbers_page, asked), (build_sequence_page, running)])
def test_numbers_and_sequences_have_drills_and_cautions(build, made):
    page = fill(build())
    assert re.findall(r"\{ #(drill-\d+) \}", page) == [drill.row.name for drill in made()]
    assert page.count("hb-answer") == page.count("hb-own-answer") == len(made())
    assert "never primary navigation" in page
    assert page.count("never for flight") >= len(made())
    assert "exclude: true" in page.split("---")[1]
    assert len(gzip.compress(page.encode())) < 30_000


def test_number_answer_states_tolerance_and_stays_hidden():
    page = build_numbers_page()
    for drill in asked():
        section = page.split(f"{{ #{drill.row.name} }}")[1].split("## Drill")[0]
        before, _, answered = PLACE.sub("", section).partition("hb-answer")
        assert escape(in_words(drill.question)) in answered
        assert escape(in_words(drill.question)) not in before


def test_timeline_shows_every_announcement_and_marks_no_row():
    page = fill(build_sequence_page())
    for drill in running():
        body = page.split(f'data-of="{drill.row.name}"')[1].split("</tbody>")[0]
        assert "hb-first-sign" not in body
        announced = []
        for row, moment in zip(re.findall(r'<tr data-words="([^"]*)"', body), drill.run.timeline, strict=True):
            announced = json.loads(html.unescape(row)) or announced
            assert announced == list(moment.words)


def test_printed_sheet_has_all_changes_and_instructor_answers():
    page = fill(build_sequence_page())
    timelines, answers = page.split('id="instructor"')
    for drill in running():
        body = timelines.split(f'data-of="{drill.row.name}"')[1].split("</tbody>")[0]
        rows = re.findall(r"<tr data-words=.*?</tr>", body)
        kept = [row for row in rows if "hb-between" not in row]
        assert all("<td>·</td>" in row for row in rows if "hb-between" in row)
        assert len(rows) / 4 <= len(kept) <= len(rows) / 4 + 12
        assert (rows[0], rows[-1]) == (kept[0], kept[-1])
        cell = answers.split(f'#{drill.row.name}"')[1].split("</tr>")[0]
        assert ("nothing" if drill.run.at is None else REMEDIES[drill.run.remedy]) in html.unescape(cell)
