"""What the scripts of docs/intercept/configuration.md show, by hand from the demo's files and in another way.

The large jet at its maximum landing weight on a path of 3.00 degrees: VREF 133 kt, PFAF 6.048 NM out at 2000 ft,
airport 31 ft, threshold 22 ft with 52 ft over it; true over indicated airspeed at 2000 ft about 1.03.
"""

import math
from dataclasses import replace

import pytest

from intercept import can_slow, fastest, steps
from lpv_site.department.data import example_aircraft
from shown import SPACES, about, printed

G_KT = 9.80665 * 3600 / 1852
GRAVITY = G_KT * math.sin(math.radians(3.0))
# 1031 ft lies 957 ft over the crossing height; within 3 NM the Earth curves away by 8 ft.
PFAF_NM, GATE_NM, FT_PER_NM = 6.048, 2.98, 1852 / 0.3048
SINE_AIR = math.tan(math.radians(3.0))


# By the drag of large-jet.toml between its two speeds, at the speed that each is slowed down from.
LEVEL = {
    "clean": (230, 0.9), "Flaps one": (190, 0.75 + 40 / 50 * 0.25), "Flaps half": (170, 1.0 + 30 / 40 * 0.3),
    "Gear down": (160, 1.4 + 25 / 35 * 0.4), "Flaps full": (138, 1.6 + 18 / 50 * 0.6),
}


def test_deceleration_of_each_configuration():
    def row(name, speed_kt, level):
        left = level - G_KT * SINE_AIR
        return [f"**{name}** / {speed_kt} kt", about("{:.1f}", level, off=0.051),
                about("✕ gains {:.2f}" if left < 0 else "loses {:.2f}", abs(left), off=0.0055),
                about("{:.1f}°", math.degrees(math.asin(level / G_KT)), off=0.051)]

    assert printed(can_slow.show()) == [[
        ["set, at", "> level", "> on the glidepath", "> holds"],
        *(row(name, speed_kt, level) for name, (speed_kt, level) in LEVEL.items())]]


def test_gravity_on_path():
    shown = can_slow.show()
    assert shown.number("gravity") == pytest.approx(GRAVITY, abs=1e-6)
    assert (shown.text("clean_does"), shown.number("clean")) == ("gains", pytest.approx(GRAVITY - 0.9, abs=0.002))
    assert shown.number("landing_per_nm") == pytest.approx((1.816 - GRAVITY) * 3600 / 138, abs=0.1)
    assert shown.number("landing") == pytest.approx(1.816 - GRAVITY, abs=0.002)
    assert {key: shown.text(key).translate(SPACES) for key in shown.values} == {
        "gravity": f"{GRAVITY:.2f} kt", "angle": "3.0°", "clean": f"{GRAVITY - 0.9:.2f} kt", "clean_does": "gains",
        "landing": f"{1.816 - GRAVITY:.1f} kt", "landing_per_nm": f"{(1.816 - GRAVITY) * 3600 / 138:.0f} kt/NM",
        "clean_speed": "230 kt"}


def test_text_beside_tables():
    fast, first = fastest.show(), steps.show()
    assert [fast.text(key).translate(SPACES) for key in ("tailwind", "lowest", "settled", "brake")] == [
        "10 kt", "1000 ft", "7 s", "0.7 kt"]
    assert (first.text("tailwind"), first.text("last")) == ("10\u202fkt", "Flaps full")
    # 8 NM at about 183 kt through the air; 3 NM at 138 kt, true airspeed 3 % more.
    assert first.number("to_pfaf") == pytest.approx(8.0 / (178 * 1.03) * 60, rel=0.05)
    assert first.text("to_pfaf") == f"{first.number('to_pfaf'):.1f}\u202fmin"
    assert first.number("pfaf_to_gate") == pytest.approx((PFAF_NM - GATE_NM) / (138.1 * 1.03) * 3600, rel=0.01)


def test_latest_whole_schedule_matches_search():
    """2.2 NM later the sum of the steps is just in time: a tenth of a mile more, and it is not."""
    from lpv.intercept.planned import planned
    from lpv.motion.energy import ready
    from lpv_site.department.data import example

    spare = steps.show().number("spare")
    jet = example_aircraft()
    for late_nm, expected in ((spare - 0.1, True), (spare + 0.1, False)):
        late = planned(example(), jet, jet.landing.max_weight_lb, 0.0, late_nm)
        assert ready(late.flown(), late.steps, late.gate_nm, late.settled_s) is expected


DRAG = ([(150, 0.6), (230, 0.9)], [(150, 0.75), (200, 1.0)], [(140, 1.0), (180, 1.3)], [(135, 1.4), (170, 1.8)],
        [(120, 1.6), (170, 2.2)])
LIMITS_KT, TAKES_S, AIR = [230, 210, 200, 175], [5, 7, 10, 7], 1.03


def level_kt_per_s(moved, kt):
    (v0, a0), (v1, a1) = DRAG[moved]
    return a0 + min(1.0, max(0.0, (kt - v0) / (v1 - v0))) * (a1 - a0)


def reached_nm():
    """Where each step's speed is reached: flown in time, a lever at each place, its drag once it has moved."""
    kt, nm, step_s, places_nm = 230.0, PFAF_NM + 8.0, 0.02, []
    for moved, (begins_nm, target_kt) in enumerate(STEPS.values()):
        nm = min(nm, PFAF_NM + begins_nm)
        time_s = 0.0
        while kt > target_kt:
            less = level_kt_per_s(moved + (time_s >= TAKES_S[moved]), kt)
            kt -= (less - (G_KT * SINE_AIR if nm < PFAF_NM else 0.0)) / AIR * step_s
            nm, time_s = nm - kt * AIR * step_s / 3600, time_s + step_s
        places_nm.append(nm)
    return places_nm


STEPS = {"Flaps one": (8, 190), "Flaps half": (4, 170), "Gear down": (2, 160), "Flaps full": (0.5, 138)}


def test_schedule_step_by_step():
    assert printed(steps.show()) == [
        "Large demo jet at its maximum landing weight, calm; distances to the threshold in NM:",
        [["step", "> begins", "> speed", "> reached"],
         *([f"**{name}**", about("{:.1f}", PFAF_NM + before_nm), f"{kt} kt", about("{:.1f}", there_nm, off=0.12)]
           for (name, (before_nm, kt)), there_nm in zip(STEPS.items(), reached_nm(), strict=True)),
         ["gate", about("{:.1f}", GATE_NM), "138 kt", ""]]]


def test_speed_never_reached():
    (step, *_) = STEPS
    assert steps._by([], type("Step", (), {"target_kt": STEPS[step][1]})) == "not reached"
    assert steps._place(None) == "no place of it"


def test_latest_last_step_place():
    """From 160 kt: 7 s to move, with the drag of the gear; slowed to 138.5 kt on the path; held for 7 s."""
    kt, time_s, gone_nm, step_s = 160.0, 0.0, 0.0, 0.01
    while kt > 138.5:
        kt -= (level_kt_per_s(3 + (time_s >= 7.0), kt) - G_KT * SINE_AIR) / AIR * step_s
        gone_nm += kt * AIR * step_s / 3600
        time_s += step_s
    gone_nm += 7.0 * 138.5 * AIR / 3600
    shown = steps.show()
    assert shown.number("latest") == pytest.approx(GATE_NM + gone_nm, abs=0.05)
    assert shown.number("latest_tail") > shown.number("latest") + 0.1
    assert [shown.text(key) for key in ("latest", "latest_tail", "spare")] == [
        f"{shown.number(key):.1f}\u202fNM" for key in ("latest", "latest_tail", "spare")]


def slowed_in_time(kt, moved=0, brake=0.0, tail_kt=0.0):
    """Whether idle is ready at the gate for as long as it must hold, every lever moved at its limit."""
    ends, time_s, nm, step_s, ready_s = [0.0] * moved, 0.0, PFAF_NM, 0.05, None
    while nm > GATE_NM:
        if len(ends) < 4 and kt <= LIMITS_KT[len(ends)]:
            ends.append(max([time_s, *ends[-1:]]) + TAKES_S[len(ends)])
        now, ground_kt = sum(end <= time_s for end in ends), kt * AIR + tail_kt
        less = level_kt_per_s(now, kt) + brake - G_KT * SINE_AIR * ground_kt / (kt * AIR)
        kt = max(138.0, kt - less / AIR * step_s)
        if ready_s is None and now == 4 and kt <= 138.5:
            ready_s = time_s
        nm, time_s = nm - ground_kt * step_s / 3600, time_s + step_s
    return ready_s is not None and ready_s <= time_s - 7.0


def test_fastest_at_pfaf_by_integration_in_time():
    """A little slower is in time and a little faster is not, but where the limit of what is set comes first."""
    heads, *table = printed(fastest.show())[0]
    assert heads == ["set at the FAF", "> calm", "> tailwind", "> brake"]
    assert [name for name, *_ in table] == [f"**{name}**" for name in LEVEL]
    ways = ({}, {"tail_kt": 10.0}, {"brake": 0.7})
    for moved, ((_, *cells), limit_kt) in enumerate(zip(table, (300, *LIMITS_KT), strict=True)):
        for text, way in zip(cells, ways, strict=True):
            assert slowed_in_time(float(text) - 2.5, moved, **way), (moved, text, way)
            assert float(text) == limit_kt or not slowed_in_time(float(text) + 2.5, moved, **way), (moved, text, way)
    for key, cell in (("clean", table[0][1]), ("clean_brake", table[0][3])):
        assert fastest.show().text(key) == f"{fastest.show().number(key):.0f}\u202fkt" == f"{cell}\u202fkt"


def test_fastest_without_brake_and_where_none_fits():
    jet = replace(example_aircraft(), speed_brake=None)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(fastest, "example_aircraft", lambda: jet)
        shown = fastest.show()
    assert {cells[3] for cells in printed(shown)[0][1:]} == {"none"}
    assert [shown.text(key) for key in ("brake", "lowest", "clean_brake")] == ["none", "no height", "no speed"]
