"""Pages of recorded flights: every moment with its link, nothing that names a day, faults named, one sheet."""

import re
import shutil

import pytest

from demo import flights as make_flights
from lpv.core.errors import DataError
from lpv.track import report
from lpv_site.department.data import DOCS
from lpv_site.figures.figure import fill
from lpv_site.figures.track_figures import (
    deviation_figure,
    deviations_in_words,
    profile_figure,
    profile_in_words,
    profile_points,
)
from lpv_site.pages.track_page import (
    ABOUT,
    EXPLAINED,
    INDEX,
    LINKS,
    build_track_index_page,
    build_track_page,
    recorded,
    track_pages,
    wrong,
)
from lpv_site.pages.track_sheet import answers, card, gates_in_words, invented
from lpv_site.text.headings import headings
from lpv_site.text.links import relative
from lpv_site.text.text import escape

UNCLEAN = re.compile(r"(?<![\w.])(?:nan|inf|-0(?:\.0*)?)(?![\w.])", re.I)


def by_name(slug):
    return next(flight for flight in recorded() if flight.file.slug == slug)


@pytest.mark.parametrize("flight", recorded(), ids=lambda flight: flight.file.slug)
def test_every_moment_and_remark_on_page(flight):
    page = build_track_page(flight)
    for moment in flight.debrief.moments:
        assert escape(moment.what) in page
        assert moment.key in LINKS or moment.key in ("start", "end")
    for remark in flight.debrief.remarks:
        assert escape(remark.what) in page
        assert relative(f"{EXPLAINED}#{ABOUT[remark.key][0]}", flight.address) in page
    for gate in flight.debrief.gates:
        assert page.count(f"{gate.verdict or 'not judged'}") >= 1
    assert page.count("{ #top }") == 1
    assert not UNCLEAN.search(re.sub(r"<[^>]*>", " ", fill(page)))


def test_every_link_leads_to_heading():
    addresses = {address for pair in LINKS.values() for address in pair}
    addresses |= {f"{EXPLAINED}#{anchor}" for anchor, _ in ABOUT.values()}
    assert addresses <= headings().keys()
    assert "debrief/flights/x.md" not in headings()


def test_moment_links_to_explaining_section():
    page = build_track_page(by_name("late"))
    assert "[You went through the course](../../intercept/lateral.md#through-the-course)" in page
    assert "[A dot and a half at the DA](../../final/deviation.md#dot-and-half-at-da)" in page
    assert "[You meet the glidepath from above](../../intercept/vertical.md#path-from-above)" in page


@pytest.mark.parametrize("flight", recorded(), ids=lambda flight: flight.file.slug)
def test_verdict_line_first_and_every_moment_once(flight):
    page = build_track_page(flight)
    line = escape(report.verdict_line(flight.debrief))
    assert page.index(line) < page.index("## Plan") < page.index("## Profile") < page.index("## Deviations")
    listed = page[page.index("## Moments"):page.index("## The recording")]
    for moment in flight.debrief.moments:
        assert listed.count(escape(moment.what)) == sum(other.what == moment.what for other in flight.debrief.moments)
    for moment in wrong(flight.debrief):
        assert f"**✕** {escape(moment.what)}" in listed


def test_items_not_within_shown_with_figures():
    page = build_track_page(by_name("late"))
    assert escape("rate of descent 1451\u202fft/min, at most 1000\u202fft/min: outside") in page
    assert escape("above the glidepath before it was met 4.2 ± 0.1\u202fdots, at most 1.0\u202fdot: outside") in page


def test_index_begins_with_good_items():
    page = build_track_index_page(recorded())
    assert page.index("(stable.md)") < page.index("(cold.md)") < page.index("(late.md)")
    for flight in recorded():
        assert escape(report.verdict_line(flight.debrief)) in page


def test_no_page_tells_flight_date():
    for address, write in track_pages(DOCS).items():
        assert "2026" not in re.sub(r"[\w-]+\.(?:csv|gpx)", "", fill(write())), address


def test_doubtful_altitudes_reported_first():
    page = build_track_page(by_name("patchy"))
    assert page.index("The altitudes of this recording are doubtful") < page.index("## At a glance")
    assert "doubtful" in card(by_name("patchy").debrief, by_name("patchy").file.flight).lower()
    assert "are doubtful" not in build_track_page(by_name("stable"))


def test_page_states_nothing_is_sent():
    for flight in recorded():
        assert "It never left the computer" in build_track_page(flight)


def test_sheet_lists_items_outside():
    late, stable = by_name("late"), by_name("stable")
    sheet = card(late.debrief, late.file.flight)
    outside = late.debrief.with_verdict("outside")
    assert len(outside) > 5
    assert sheet.count("✕") == len(outside)
    assert escape(report.verdict_line(late.debrief)) in sheet
    assert "Within limits: 14." in card(stable.debrief, stable.file.flight)
    assert "✕" not in card(stable.debrief, stable.file.flight)
    assert 'id="card"' in sheet
    assert "Caution" in sheet
    assert invented(late.file.flight) == " The flight is invented."
    assert dict(answers(late.debrief))["minimum"] == "274\u202fft"
    assert gates_in_words(late.debrief) == "2 outside"


def test_figures_state_content_and_break_at_gaps():
    late, patchy = by_name("late").debrief, by_name("patchy").debrief
    assert deviations_in_words(late.flown).startswith(
        "Within one dot of the course from 6.4\u202fNM in; never settled within")
    assert "Lowest: 247\u202fft" in profile_in_words(late)
    assert max(point.along_nm for point in profile_points(late.flown)) < late.flown.target.pfaf_nm + 3.0
    for figure_of in (deviation_figure, profile_figure):
        lines = [svg.count("M ") for svg in (fill(figure_of(debrief)) for debrief in (late, patchy))]
        assert lines[1] > lines[0] - 5  # the broken line begins anew
    assert patchy.flown.points[-1].part == 1


def test_index_lists_every_flight():
    page = track_pages(DOCS)[INDEX]()
    for flight in recorded():
        assert f"({flight.file.slug}.md)" in page
    assert "No recording is here yet." in build_track_index_page(())


@pytest.fixture
def department(tmp_path):
    for name in ("approaches", "aircraft"):
        shutil.copytree(DOCS / name, tmp_path / name)
    shutil.copytree(make_flights.FOLDER, tmp_path / "debrief" / "flights")
    return tmp_path


def test_department_without_recordings_has_empty_list(tmp_path):
    assert track_pages(tmp_path).keys() == {INDEX}


def test_faults_of_all_flights_named_together(department):
    folder = department / "debrief" / "flights"
    (folder / "stable.csv").write_text("time_s,latitude_deg\n", "utf-8")
    late = (folder / "late.toml").read_text("utf-8")
    (folder / "late.toml").write_text(late.replace('receiver = "SBAS"', 'level = "LP"'), "utf-8")
    cold = (folder / "cold.toml").read_text("utf-8")
    (folder / "cold.toml").write_text(cold.replace("cold.csv", "none.csv"), "utf-8")
    with pytest.raises(DataError) as caught:
        recorded(department)
    assert {fault.file for fault in caught.value.faults} == {"stable.csv", "late.toml", "none.csv"}


def test_unlisted_recording_is_fault(department):
    (department / "debrief" / "flights" / "left.csv").write_text("x", "utf-8")
    with pytest.raises(DataError, match=r"left\.csv: found a recording without a file"):
        recorded(department)


def test_recording_text_inert_on_page(department):
    path = department / "debrief" / "flights" / "late.csv"
    path.write_text(path.read_text("utf-8").replace("satellites", "<b>[x](y)*{{ 1 }}"), "utf-8")
    page = build_track_page(next(flight for flight in recorded(department) if flight.file.slug == "late"), department)
    assert "&#60;b&#62;&#91;x&#93;" in page
    assert "{{" not in page
    assert "<b>[" not in page
