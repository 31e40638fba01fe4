"""What the scripts of docs/intercept/configuration.md show, by hand from the demo's files and in another way.

The large jet at its maximum landing weight on a path of 3.00 degrees: VREF 133 kt, PFAF 6.048 NM out at 2000 ft,
airport 31 ft, threshold 22 ft with 52 ft over it; true over indicated airspeed at 2000 ft about 1.03.
"""

import math

import pytest

from intercept import can_slow, fastest, steps
from lpv_site.department.data import example_aircraft
from shown import cell, row, rows

G_KT = 9.80665 * 3600 / 1852
GRAVITY = G_KT * math.sin(math.radians(3.0))
# 1031 ft lies 957 ft over the crossing height; within 3 NM the Earth curves away by 8 ft.
PFAF_NM, GATE_NM, FT_PER_NM = 6.048, 2.98, 1852 / 0.3048
SINE_AIR = math.tan(math.radians(3.0))


@pytest.mark.parametrize(("name", "speed_kt", "level"), [
    ("clean", 230, 0.9), ("Flaps one", 190, 0.75 + 40 / 50 * 0.25), ("Flaps half", 170, 1.0 + 30 / 40 * 0.3),
    ("Gear down", 160, 1.4 + 25 / 35 * 0.4), ("Flaps full", 138, 1.6 + 18 / 50 * 0.6),
])
def test_what_each_configuration_loses(name, speed_kt, level):
    (found,) = [cells for cells in rows(can_slow.show()) if cells[0].startswith(name)]
    left = level - G_KT * SINE_AIR
    assert found[0] == f"{name}{speed_kt} kt"
    assert float(found[1]) == pytest.approx(level, abs=0.051)
    word, number = ("✕ gains ", -left) if left < 0 else ("loses ", left)
    assert found[2].startswith(word)
    assert float(found[2].removeprefix(word)) == pytest.approx(number, abs=0.0051)
    assert float(found[3].rstrip("°")) == pytest.approx(math.degrees(math.asin(level / G_KT)), abs=0.051)


def test_gravity_on_the_path():
    shown = can_slow.show()
    assert shown.number("gravity") == pytest.approx(GRAVITY, abs=1e-6)
    assert (shown.text("clean_does"), shown.number("clean")) == ("gains", pytest.approx(GRAVITY - 0.9, abs=0.002))
    assert shown.number("landing_per_nm") == pytest.approx((1.816 - GRAVITY) * 3600 / 138, abs=0.1)
    assert shown.number("landing") == pytest.approx(1.816 - GRAVITY, abs=0.002)


def test_what_is_said_beside_the_tables():
    slow, fast, first = can_slow.show(), fastest.show(), steps.show()
    assert (slow.text("angle"), slow.text("clean_speed")) == ("3.0°", "230\u202fkt")
    assert (fast.text("tailwind"), fast.text("lowest"), fast.text("settled"), fast.text("brake")) == (
        "10\u202fkt", "1000\u202fft", "7\u202fs", "0.7\u202fkt")
    assert first.text("tailwind") == "10\u202fkt"
    # 8 NM at about 183 kt through the air; 3 NM at 138 kt, true airspeed 3 % more.
    assert first.number("to_pfaf") == pytest.approx(8.0 / (178 * 1.03) * 60, rel=0.05)
    assert first.number("pfaf_to_gate") == pytest.approx((PFAF_NM - GATE_NM) / (138.1 * 1.03) * 3600, rel=0.01)


def test_the_whole_schedule_may_come_as_much_later_as_the_search_says():
    """2.2 NM later the sum of the steps is just in time: a tenth of a mile more, and it is not."""
    from lpv.intercept.planned import planned
    from lpv.motion.energy import ready
    from lpv_site.department.data import example

    spare = steps.show().number("spare")
    jet = example_aircraft()
    for late_nm, expected in ((spare - 0.1, True), (spare + 0.1, False)):
        late = planned(example(), jet, jet.landing.max_weight_lb, 0.0, late_nm)
        assert ready(late.flown(), late.steps, late.gate_nm, late.settled_s) is expected


def test_steps_begin_where_the_file_says():
    shown = steps.show()
    for name, before_nm in (("Flaps one", 8), ("Flaps half", 4), ("Gear down", 2), ("Flaps full", 0.5)):
        assert float(cell(shown, name, 1)) == pytest.approx(PFAF_NM + before_nm, abs=0.051)
    assert float(cell(shown, "gate", 1)) == pytest.approx(GATE_NM, abs=0.051)
    assert [cells[2] for cells in rows(shown)] == ["190 kt", "170 kt", "160 kt", "138 kt", "138 kt"]


def test_latest_place_of_the_last_step():
    """From 160 kt: 7 s to move, with the drag of the gear; slowed to 138.5 kt on the path; held for 7 s."""
    kt, time_s, gone_nm, step_s = 160.0, 0.0, 0.0, 0.01
    while kt > 138.5:
        level = 1.4 + (kt - 135) / 35 * 0.4 if time_s < 7.0 else 1.6 + (kt - 120) / 50 * 0.6
        kt -= (level - G_KT * SINE_AIR) / 1.03 * step_s
        gone_nm += kt * 1.03 * step_s / 3600
        time_s += step_s
    gone_nm += 7.0 * 138.5 * 1.03 / 3600
    assert steps.show().number("latest") == pytest.approx(GATE_NM + gone_nm, abs=0.05)
    assert steps.show().number("latest_tail") > steps.show().number("latest") + 0.1


def slowest_from(kt, brake):
    """Speed after the gate's distance less the time held, clean at the PFAF and every lever at its limit."""
    clean, one = [(150, 0.6), (230, 0.9)], [(150, 0.75), (200, 1.0)]
    half, gear, full = [(140, 1.0), (180, 1.3)], [(135, 1.4), (170, 1.8)], [(120, 1.6), (170, 2.2)]
    limits, takes, drags, ends = [230, 210, 200, 175], [5, 7, 10, 7], [clean, one, half, gear, full], []
    time_s, nm, step_s, ready_s = 0.0, PFAF_NM, 0.02, None
    while nm > GATE_NM:
        if len(ends) < 4 and kt <= limits[len(ends)]:
            ends.append(max([time_s, *ends[-1:]]) + takes[len(ends)])
        moved = sum(end <= time_s for end in ends)
        (v0, a0), (v1, a1) = drags[moved]
        level = a0 + min(1.0, max(0.0, (kt - v0) / (v1 - v0))) * (a1 - a0) + brake
        kt = max(138.0, kt - (level - G_KT * SINE_AIR) / 1.03 * step_s)
        if ready_s is None and moved == 4 and kt <= 138.5:
            ready_s = time_s
        nm, time_s = nm - kt * 1.03 * step_s / 3600, time_s + step_s
    return ready_s is not None and ready_s <= time_s - 7.0


@pytest.mark.parametrize(("key", "brake"), [("clean", 0.0), ("clean_brake", 0.7)])
def test_fastest_at_the_pfaf_by_integration_in_time(key, brake):
    found = fastest.show().number(key)
    assert slowest_from(found - 1.5, brake)
    assert not slowest_from(found + 1.5, brake)


def test_fastest_is_within_the_limit_of_what_is_set_and_less_with_a_tailwind():
    limits = {"clean": 300, "Flaps one": 230, "Flaps half": 210, "Gear down": 200, "Flaps full": 175}
    for name, limit in limits.items():
        calm, tail, brake = (float(kt) for kt in row(fastest.show(), name)[1:])
        assert tail <= calm <= brake <= limit
