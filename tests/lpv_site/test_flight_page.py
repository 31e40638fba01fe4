"""The pages of the flown scenarios: what they tell is what was flown, and faulty scenarios are named."""

import re
import shutil
from html import unescape

import pytest

from lpv.modes.state import FLYING
from lpv.simulate.replay import replay_text
from lpv.simulate.simulation import summary
from lpv_site.build import jobs
from lpv_site.department.data import DOCS
from lpv_site.figures.figure import fill
from lpv_site.figures.flight_figures import LANES, flight_figure, in_words
from lpv_site.figures.flight_views import _to_scale, plan_of_flight, profile_of_flight
from lpv_site.figures.mode_figures import source_on
from lpv_site.pages.flight_page import _fault, build_flight_page, ended, flight_pages, flown, scenarios
from words_apart import covered


def by_name(slug):
    return next(flown(DOCS, of) for of in scenarios() if of.slug == slug)


@pytest.mark.parametrize("slug", sorted(path.stem for path in (DOCS / "modes" / "scenarios").glob("*.toml")))
def test_every_flight_event_on_its_page(slug):
    story = by_name(slug)
    page = build_flight_page(story)
    for moment in story.flight.moments:
        if moment.changes:
            assert moment.what in page
    numbers = summary(story.flight)
    assert numbers.ending in page
    of = story.flight.scenario
    assert (ended(DOCS, of).ending, ended(DOCS, of).stable) == (numbers.ending, not numbers.unstable)
    assert f"modes/scenario-{slug}.md" in flight_pages(DOCS)
    assert page.count("{ #top }") == 1


def test_page_plays_whole_flight():
    story = by_name("go-around-at-da")
    html = fill(build_flight_page(story))
    end_s = story.flight.samples[-1].time_s
    dial = re.search(r'<input id="own-live-flight-time_s"[^>]* max="(\d+)" step="1" value="(\d+)"', html)
    assert 0 < int(dial[2]) < end_s <= int(dial[1]) < end_s + 1.0
    assert replay_text(story.flight) in unescape(html)
    assert html.count('class="hb-jump"') == 2
    assert 'data-plays="time_s"' in html
    assert html.count("data-of-page") == 1


def test_text_names_captured_source():
    assert "captured on the ILS" in in_words(by_name("ils-left-on").flight)
    assert "on the" not in in_words(by_name("normal").flight).replace("before the", "")
    assert "glidepath never captured" in in_words(by_name("path-from-above-not-captured").flight)
    assert "It overshot the course by" in in_words(by_name("armed-late").flight)


def test_dashed_line_only_where_display_differs():
    drawn = {slug: fill(flight_figure(by_name(slug).flight, by_name(slug).aircraft.rules))
             for slug in ("normal", "ils-left-on")}
    dashed = {slug: len(re.findall(r'stroke-dasharray="[^<>]*stroke="var\(--hb-second\)"', svg))
              for slug, svg in drawn.items()}
    assert dashed["ils-left-on"] > dashed["normal"]


def test_lanes_match_flying_side():
    story = by_name("source-off-and-on")
    labels = {source_on(FLYING)(sample.state, story.aircraft.rules).words for sample in story.flight.samples}
    assert {"SBAS", "FMS\nlateral"} <= labels
    assert [name for name, _ in LANES] == ["source", "course", "glidepath"]


def test_unflyable_scenario_is_file_fault(tmp_path):
    for name in ("approaches", "aircraft"):
        shutil.copytree(DOCS / name, tmp_path / name)
    folder = tmp_path / "modes" / "scenarios"
    folder.mkdir(parents=True)
    text = (DOCS / "modes" / "scenarios" / "normal.toml").read_text("utf-8")
    (folder / "elsewhere.toml").write_text(text.replace('"zzak-rnav-09"', '"no-such-approach"'), "utf-8")
    (folder / "heavy.toml").write_text(re.sub(r"weight_lb = \d+", "weight_lb = 900000", text), "utf-8")
    faults = jobs.make(jobs.maker_jobs("lpv_site.pages.flight_page.flight_pages", tmp_path))
    assert {fault.file for fault in faults} == {"no-such-approach.toml", "heavy.toml"}
    heavy = next(fault for fault in faults if fault.file == "heavy.toml")
    assert str(heavy).count("found") == str(heavy).count("allowed") == 1
    assert heavy.key == "scenario.weight_lb"


@pytest.mark.parametrize(("message", "key", "value", "allowed"), [
    ("landing weight: found 90.0 lb; allowed: 1.0 to 2.0 lb.", "scenario.weight_lb", "90.0 lb",
     "1.0 to 2.0 lb, where the type has reference speeds"),
    ("path: found none with ILS; allowed: a source with a path.", "", "path: none with ILS", "a source with a path"),
    ("zzak: found no LPV minimum.", "", "zzak: found no LPV minimum.", "a flight that can be computed"),
])
def test_uncomputable_flight_gives_one_fault(message, key, value, allowed):
    fault = _fault("a.toml", message)
    assert (fault.file, fault.key, fault.found, fault.allowed) == ("a.toml", key, value, allowed)


def test_plan_and_profile_share_scale():
    story = by_name("whole-procedure")
    plan, profile = plan_of_flight(story.flight), profile_of_flight(story.flight)
    # 8 NM in to the base leg, 11.5 to the threshold less the corner, 9 to the hold, and 200 s round it at 135 kt.
    assert 34.0 < float(re.search(r"([\d.]+)\u202fNM flown", plan)[1]) < 37.0
    assert "Dashed: the coded legs" in plan
    assert "Dashed: the coded legs" not in plan_of_flight(by_name("normal").flight)
    assert "3 gates passed" in profile
    frame = _to_scale("plan", [(0.0, 0.0), (-8.0, 10.0)])
    across, up = frame.across(1.0) - frame.across(0.0), frame.down(0.0) - frame.down(1.0)
    assert across == pytest.approx(up)


@pytest.mark.parametrize("slug", ["whole-procedure", "missed-turn", "normal", "armed-late"])
def test_plan_and_profile_labels_do_not_overlap(slug):
    story = by_name(slug)
    for drawn in (fill(plan_of_flight(story.flight)), fill(profile_of_flight(story.flight))):
        assert 'font-size="8"' in drawn
        assert covered(drawn) == []


def test_each_gate_lists_items_and_losses_below():
    page = build_flight_page(by_name("lateral-lost"))
    gates = page.partition("{ #gates }")[2].partition("{ #numbers }")[0]
    assert gates.count("hb-row-head") == len(by_name("lateral-lost").flight.gates) > 0
    assert "✕ course and glidepath lost" in gates
    assert "✓ both captured (course and glidepath captured)" in gates
    assert "not simulated, taken as done" in gates
    assert "✓ yes (yes)" in gates  # the landing configuration, which is flown
