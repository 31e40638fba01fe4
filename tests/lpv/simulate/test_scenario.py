"""Scenario files: every fault at once, and what the demo's files hold."""

import pytest

from flight_files import NAMES, SCENARIOS
from lpv.core.errors import DataError
from lpv.modes.machine import EVENTS
from lpv.simulate import scenario

GOOD = (SCENARIOS / "ils-left-on.toml").read_text("utf-8")


def faults(text):
    with pytest.raises(DataError) as caught:
        scenario.read_text(text, "made.toml")
    return {fault.key: fault for fault in caught.value.faults}


def changed(old, new, text=GOOD):
    assert old in text
    return text.replace(old, new)


def test_all_demo_scenarios_read():
    scenarios = scenario.read_all(SCENARIOS)
    assert [each.slug for each in scenarios] == NAMES
    assert all(each.story.approach.startswith("zz") for each in scenarios)
    assert scenario.read(SCENARIOS / "normal.toml").winds[1].speed_kt == 25


def test_good_text_reads():
    story = scenario.read_text(GOOD, "some-name.toml")
    assert story.slug == "some-name"
    assert story.ils.offset_deg == 1.5
    assert story.events[0].does == "arm approach"
    assert set(scenario.CREW) < set(EVENTS)


@pytest.mark.parametrize(
    ("old", "new", "key"),
    [
        ("longest_s = 900", "longest_s = 9", "scenario.longest_s"),
        ("longest_s = 900", 'longest_s = 900\nlongest = "x"', "scenario.longest"),
        ('kind = "source"', 'kind = "strange"', "scenario.kind"),
        ('kind = "source"\n', "", "scenario.kind"),
        ('activation = "vectors"', 'activation = "direct"', "scenario.activation"),
        ("temperature_c = 15", "temperature_c = nan", "scenario.temperature_c"),
        ("distance_nm = 17", "distance_nm = 0", "start.distance_nm"),
        ('"tune localizer"', '"tune the localizer"', "start.set_up"),
        ("across_nm = -2.5", "across_nm = -2.5\ntime_s = 10", "event[1]"),
        ("across_nm = -2.5\n", "", "event[1]"),
        ("across_nm = -2.5\n", "after_s = 3\n", "event[1].after_s"),
        ('does = "arm approach"', "", "event[1].does"),
        ('does = "arm approach"', 'does = "land"', "event[1].does"),
        ('does = "arm approach"', 'does = "arm approach"\nrate_fpm = 800', "event[1].rate_fpm"),
        ('does = "arm approach"', "level_ft = 1500", "event[1].rate_fpm"),
        ("glide_slope_deg = 3.0", "glide_slope_deg = 30", "ils.glide_slope_deg"),
        ("longest_s = 900", 'longest_s = 900\nafterwards = ["fly home"]', "scenario.afterwards"),
    ],
)
def test_each_fault_names_its_place(old, new, key):
    assert list(faults(changed(old, new))) == [key]


def test_tuned_localizer_needs_ils():
    begin, end = GOOD.index("[ils]"), GOOD.index("[[event]]")
    assert list(faults(GOOD[:begin] + GOOD[end:])) == ["ils"]


def test_winds_rise():
    rows = "".join(f"\n[[wind]]\nheight_ft = {h}\nfrom_deg = 90\nspeed_kt = 10\n" for h in (3000, 0))
    assert list(faults(GOOD + rows)) == ["wind"]
    same = "".join(f"\n[[wind]]\nheight_ft = {h}\nfrom_deg = 90\nspeed_kt = 10\n" for h in (0, 0))
    assert "wind[2].height_ft" in faults(GOOD + same)


def test_several_faults_reported_together():
    text = changed("longest_s = 900", "longest_s = 9", changed("distance_nm = 17", "distance_nm = 99"))
    assert set(faults(text)) == {"scenario.longest_s", "start.distance_nm"}


def test_file_names_form_addresses(tmp_path):
    path = tmp_path / "Not a slug.toml"
    path.write_text(GOOD, "utf-8")
    with pytest.raises(DataError, match="page address"):
        scenario.read(path)
