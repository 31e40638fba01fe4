import json
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from lpv.core.errors import DataError, DomainError
from lpv.core.findings import GRADES, worst
from lpv.decide.minimum import printed_visibility_sm, visibility
from lpv.plan import case as plan_case
from lpv.plan import lines as plan_lines
from lpv.plan import sheet as plan
from lpv.plan.schema import NoticeText, utc
from plan_cases import CASE, ETA, FILE, NOT_AVAILABLE, alternate, by_name, case, set_for, with_equipment


def row_of(line):
    """The first row of a line of the example's minima."""
    return next(row for row in CASE.approach.chart.minima if row.line == line)


def test_fine_day_has_nothing_to_settle():
    findings = plan.plan(case())
    assert worst(findings) == "not compared"
    assert {f.key for f in findings if f.grade == "not compared"} == {"chart-note", "notices"}
    keys = {"cycle", "cold", "line-usable", "line-barred", "alternate", "rules", "receivers", "chart-note", "notices"}
    assert {f.key for f in findings} == keys


def test_operator_floors_set_minimum():
    line = by_name(plan.plan(case()))["line-usable LPV (SBAS)"]
    assert line.what == "line LPV: DA 274 ft, 250 ft above touchdown, 3/4 SM"
    assert line.chart == "DA 224 ft, RVR 2400 ft"


def test_mda_addition_and_circling_height():
    findings = by_name(plan.plan(case()))
    assert "MDA 530 ft, 506 ft above touchdown" in findings["line-usable LNAV (GPS or SBAS)"].what
    assert "MDA 590 ft, 559 ft above the airport" in findings["line-usable circling (GPS or SBAS)"].what


def test_cold_added_only_at_or_below_chart_temperature():
    row = row_of("LNAV/VNAV")
    cold = {"cold_temperature_airport_c": -10.0}
    assert set_for(case(temperature_c=-9.9, chart=cold), row).altitude_ft == 374.0
    assert set_for(case(temperature_c=-10.0, chart=cold), row).altitude_ft == 374.0 + 40.0
    undecided = set_for(case(temperature_c=-30.0), row)
    assert (undecided.altitude_ft, undecided.open_ft > 0.0) == (374.0, True)


def test_higher_speed_needs_higher_category():
    usual = plan_case.category(case())
    assert usual == CASE.aircraft.type.category
    fast = case(speed_kt=150.0)
    assert plan_case.category(fast) == "D"
    assert by_name(plan.plan(fast))["category"].computed == "D for 150 kt"


def test_line_unavailable_to_category_named():
    rows = tuple(replace(row, categories="AB") if row.line == "LPV" else row for row in CASE.approach.chart.minima)
    findings = by_name(plan.plan(case(chart={"minima": rows}, speed_kt=150.0)))
    assert findings["line-category LPV (SBAS)"].chart == "not for category D"


def test_line_without_visibility_not_ignored():
    rows = tuple(replace(row, rvr_ft=None) if row.line == "LPV" else row for row in CASE.approach.chart.minima)
    findings = by_name(plan.plan(case(chart={"minima": rows})))
    assert findings["line-not-computed LPV (SBAS)"].grade == "resolve"


@pytest.mark.parametrize(
    ("given", "miles"),
    [
        ({"visibility_sm": 1.25}, 1.25),
        ({"rvr_ft": 2400.0}, 0.5),
        ({"rvr_ft": 1800.0}, 0.5),
        ({"visibility_m": 1609.344}, 1.0),
        ({"rvr_m": 550.0}, 0.5),
    ],
)
def test_every_printed_visibility_kind(given, miles):
    row = replace(row_of("LPV"), rvr_ft=None)
    assert printed_visibility_sm(replace(row, **given)) == pytest.approx(miles)
    with pytest.raises(DomainError):
        printed_visibility_sm(row)


def test_forecast_below_every_line_must_be_resolved():
    findings = by_name(plan.plan(case(weather=(5000.0, 0.7), alternate=alternate())))
    assert findings["line-visibility LPV (SBAS)"].grade == "note"
    assert (findings["line-none"].grade, findings["line-none"].computed) == ("resolve", "none")
    assert by_name(plan.plan(case(weather=(5000.0, 0.75))))["line-usable LPV (SBAS)"].grade == "ok"


LP_CASE = plan.read(FILE.with_name("zzak-rnav-27-fine.toml"))


def with_lp(approval, **equipment):
    held = replace(LP_CASE.aircraft.equipment, lp=approval, **equipment)
    return replace(LP_CASE, aircraft=replace(LP_CASE.aircraft, equipment=held))


def test_lp_planned_where_aircraft_file_allows():
    findings = by_name(plan.plan(with_lp("approved")))
    assert findings["line-usable LP (SBAS)"].what.startswith("line LP: MDA")
    assert plan_lines.usable(with_lp("approved"))[0].line == "LP"


def test_lp_refused_where_aircraft_file_does_not_allow():
    findings = by_name(plan.plan(with_lp("not approved")))
    assert findings["line-barred LP (SBAS)"].why == "The aircraft or the operator is not approved for LP."
    assert [line.line for line in plan_lines.usable(with_lp("not approved"))] == ["LNAV", "circling"]


def test_aircraft_may_have_lp_without_lpv():
    both = with_lp("approved", best_level="LNAV/VNAV")
    assert plan_case.situation(both).announced == "LP"
    assert plan_lines.usable(both)[0].line == "LP"
    lpv_only = with_lp("not approved", best_level="LNAV/VNAV")
    assert plan_case.situation(lpv_only).announced == "LNAV/VNAV"
    # On a chart with LPV an approval for LP changes nothing.
    other = replace(both, approach=CASE.approach)
    assert plan_case.situation(other).announced == "LNAV/VNAV"


def test_area_wide_loss_removes_sbas_lines():
    findings = by_name(plan.plan(case(notices=(NOT_AVAILABLE,))))
    assert findings["line-barred LPV (SBAS)"].why == "Not available by notice 1."
    assert findings["notice-sbas-not-available notice 1"].grade == "resolve"
    assert findings["line-usable LNAV (GPS or SBAS)"].grade == "ok"


def test_predicted_loss_and_marked_chart_make_sbas_uncertain():
    predicted = by_name(plan.plan(case(notices=("!FDC FDC NAV WAAS LPV MINIMA MAY NOT BE AVBL",))))
    assert predicted["line-uncertain LPV (SBAS)"].grade == "note"
    assert "line-usable LNAV/VNAV (SBAS)" in predicted
    marked = by_name(plan.plan(case(no_site_notices=True)))
    assert "line-uncertain LPV (SBAS)" in marked
    assert marked["notice-chart-without-site-notices"].grade == "note"


def test_unknown_notice_never_ignored():
    findings = by_name(plan.plan(case(notices=("WAAS trouble",))))
    assert findings["notice-unknown notice 1"].grade == "resolve"
    assert "TROUBLE" in findings["notice-unknown notice 1"].why
    assert {"line-uncertain LPV (SBAS)", "line-uncertain LNAV (GPS or SBAS)", "line-none"} <= set(findings)


def test_person_settles_unreadable_notice():
    texts = (NoticeText(text="WAAS TROUBLE", takes=("LPV",)),)
    base = case()
    findings = by_name(plan.plan(replace(base, scenario=replace(base.scenario, notices=texts))))
    assert findings["notice-unknown notice 1"].grade == "note"
    assert {"line-barred LPV (SBAS)", "line-usable LNAV (GPS or SBAS)"} <= set(findings)


def test_person_cannot_restore_clearly_removed_line():
    texts = (NoticeText(text=NOT_AVAILABLE, takes=("nothing",)),)
    base = case()
    findings = by_name(plan.plan(replace(base, scenario=replace(base.scenario, notices=texts))))
    assert "line-barred LPV (SBAS)" in findings


def test_closed_runway_stops_unrelated_notice_not_compared():
    findings = by_name(plan.plan(case(notices=("!ZZAK 12/045 ZZAK RWY 09/27 CLSD", "!ZZAK 12/046 ZZAK COM ATIS U/S"))))
    assert findings["notice-runway-closed notice 1"].grade == "stop"
    assert findings["notice-other-subject notice 2"].grade == "not compared"
    assert "line-none" in findings


def test_changed_figures_settled_by_day_or_file():
    altimeter, lights = "ALTIMETER SETTING NOT AVBL", "!ZZAK 12/040 ZZAK RWY 09 ALS U/S"
    minimum = "RNAV (GPS) RWY 09 LPV DA {}/HAT 200 ALL CATS"
    for text, settled in ((altimeter, {"remote_addition_ft": 60.0}), (lights, {"visibility_addition_sm": 0.25})):
        assert "line-changed LPV (SBAS)" in by_name(plan.plan(case(notices=(text,))))
        assert "line-noted LPV (SBAS)" in by_name(plan.plan(case(notices=(text,), **settled)))
    assert "line-changed LPV (SBAS)" in by_name(plan.plan(case(notices=(minimum.format(350),))))
    assert "line-noted LPV (SBAS)" in by_name(plan.plan(case(notices=(minimum.format(224),))))


def test_missing_notices_not_compared_until_checked():
    assert by_name(plan.plan(case()))["notices"].grade == "not compared"
    assert "notices" not in by_name(plan.plan(case(no_notices=True)))
    assert "notices" not in by_name(plan.plan(case(notices=(NOT_AVAILABLE,))))


def test_unread_chart_values_named_and_never_assumed():
    chart = {"vnav_lowest_c": None, "vnav_highest_c": None, "notes": (),
             "to_be_filled": ("vnav_lowest_c", "vnav_highest_c", "notes")}
    baro = with_equipment(case(chart=chart), baro_vnav="approved")
    findings = by_name(plan.plan(baro))
    assert findings["line-limits LNAV/VNAV (barometric)"].grade == "resolve"
    assert findings["chart-missing notes"].reason == "missing in the chart part"
    read = with_equipment(case(chart=chart | {"to_be_filled": ()}), baro_vnav="approved")
    assert "line-usable LNAV/VNAV (barometric)" in by_name(plan.plan(read))


def test_raim_counts_without_sbas():
    text = "RAIM NOT AVBL"
    assert "line-noted LNAV (GPS or SBAS)" in by_name(plan.plan(case(notices=(text,))))
    assert "line-uncertain LNAV (GPS or SBAS)" in by_name(plan.plan(case(notices=(text, NOT_AVAILABLE))))
    gps = replace(CASE.aircraft.equipment, sbas_class=None, best_level="LNAV")
    alone = replace(case(notices=(text,)), aircraft=replace(CASE.aircraft, equipment=gps))
    findings = by_name(plan.plan(alone))
    assert "line-uncertain LNAV (GPS or SBAS)" in findings
    assert findings["notice-raim-not-available notice 1"].grade == "resolve"


def test_cold_without_rule_resolved_with_amounts():
    findings = by_name(plan.plan(case(temperature_c=-20.0)))
    assert findings["cold-open"].grade == "resolve"
    assert "ft at GULLY" in findings["cold-open"].computed
    assert findings["line-cold LPV (SBAS)"].grade == "resolve"
    assert by_name(plan.plan(case(temperature_c=1.0)))["cold"].grade == "ok"


def test_remaining_lines_named():
    findings = by_name(plan.plan(CASE))
    assert findings["line-none"].computed == "none; LPV only if annunciated"


def test_note_bars_barometric_zone_and_remote_raise_minimum():
    assert plan_case.situation(case(baro_vnav_barred=True)).baro_vnav_barred
    line = by_name(plan.plan(case(remote_addition_ft=60.0)))["line-usable LPV (SBAS)"]
    assert "DA 284 ft" in line.what


@pytest.mark.parametrize(
    ("day", "name", "grade"),
    [
        (datetime(2026, 11, 25, 14, tzinfo=UTC), "cycle", "stop"),
        (datetime(2026, 11, 26, 0, tzinfo=UTC), "cycle-change", "note"),
        (datetime(2026, 11, 27, 14, tzinfo=UTC), "cycle", "ok"),
        (datetime(2026, 12, 23, 23, 59, tzinfo=UTC), "cycle-change", "note"),
        (datetime(2026, 12, 24, 0, tzinfo=UTC), "cycle-change-day", "resolve"),
        (datetime(2026, 12, 24, 9, 0, tzinfo=UTC), "cycle-change-day", "resolve"),
        (datetime(2026, 12, 24, 9, 1, tzinfo=UTC), "cycle", "stop"),
        (datetime(2026, 12, 25, 0, tzinfo=UTC), "cycle", "stop"),
    ],
)
def test_data_cycle_at_eta(day, name, grade):
    (finding,) = plan.data_cycle(case(eta=day))
    assert (finding.key, finding.grade) == (name, grade)


def test_new_cycle_starts_at_midnight_elsewhere():
    (finding,) = plan.data_cycle(case(eta=datetime(2026, 12, 24, 1, tzinfo=UTC), identity={"rule": "EASA"}))
    assert (finding.key, finding.grade) == ("cycle", "stop")


def test_notices_state_planning_consequence():
    (finding,) = plan.notices.findings(case(notices=(NOT_AVAILABLE.lower(),)))
    assert "RAIM" in finding.action


def changed(*pairs):
    text = FILE.read_text("utf-8")
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new, 1)
    return text


@pytest.mark.parametrize(
    ("old", "new", "word"),
    [
        ("end = 2026-12-08T15:00:00Z", "end = 2026-12-08T14:30:00Z", "nothing from"),
        ("eta = 2026-12-08T14:00:00Z", "eta = 2026-12-08T14:00:00", "UTC without quotes"),
        ("eta = 2026-12-08T14:00:00Z", 'eta = "2 pm"', "UTC without quotes"),
        ("visibility_sm = 1.5", "visibility_km = 2", "visibility_sm"),
        ("visibility_sm = 1.5", "visibility_sm = 1.5\nvisibility_m = 2400", "one of them"),
        ('lines = ["LPV", "LNAV"]', 'lines = ["LPV", "TACAN"]', "TACAN"),
        ('kind = "temporary"', 'kind = "TEMPO"', "temporary"),
        ("temperature_c = -4", "temperature_c = -51", "\u221250"),
        ("receivers_out = 0", "receivers_out = 0\nno_notices = true", "one of the two"),
        ('airport = "ZZHC"', 'airport = "ZZHC"\nprinted_ceiling_ft = 900', "Add the other one"),
    ],
)
def test_faulty_scenario_names_fault_and_place(old, new, word):
    with pytest.raises(DataError) as caught:
        plan.read_text(changed((old, new)), "winter.toml")
    assert word in str(caught.value)
    assert "winter.toml" in str(caught.value)


def test_times_of_other_zones_become_utc():
    text = changed(("eta = 2026-12-08T14:00:00Z", "eta = 2026-12-08T09:00:00-05:00"))
    assert plan.read_text(text, "winter.toml").flight.eta == ETA
    assert utc(ETA) == ETA


def test_missing_approach_and_aircraft_reported_together(tmp_path):
    path = tmp_path / "plan" / "winter.toml"
    path.parent.mkdir()
    path.write_text(FILE.read_text("utf-8"), "utf-8")
    with pytest.raises(DataError) as caught:
        plan.read(path)
    files = ["plan/operators/example-owner.toml", "approaches/zzak-rnav-09.toml", "aircraft/light-jet.toml"]
    assert [fault.file for fault in caught.value.faults] == files


def test_command_distinguishes_stop_from_fault(tmp_path, capsys):
    assert plan.main([str(FILE)]) == 0
    assert "zzak-rnav-09-notice: 0 stop" in capsys.readouterr().out
    assert plan.main([str(FILE), "--json"]) == 0
    rows = json.loads(capsys.readouterr().out)["zzak-rnav-09-notice"]
    assert {row["grade"] for row in rows} <= set(GRADES)
    assert plan.main([str(tmp_path / "none.toml"), str(FILE)]) == 2
    assert "none.toml" in capsys.readouterr().err


def test_command_exits_one_for_stop(tmp_path):
    docs = FILE.parents[1]
    for folder in ("approaches", "aircraft"):
        (tmp_path / folder).symlink_to(docs / folder)
    path = tmp_path / "plan" / "late.toml"
    path.parent.mkdir()
    (path.parent / "operators").symlink_to(docs / "plan" / "operators")
    path.write_text(FILE.read_text("utf-8").split("[alternate]")[0], "utf-8")
    assert plan.main([str(path)]) == 1


def test_demo_scenarios_include_days_with_and_without_stop(capsys):
    files = sorted(str(path) for path in FILE.parent.glob("*.toml"))
    assert plan.main(files) == 1
    printed = capsys.readouterr().out
    for name, stops in (("zzhc-rnav-33-cold", 0), ("zzak-rnav-09-notice", 0), ("zzak-rnav-16-expired", 2),
                        ("zzak-rnav-27-fine", 0), ("zzeg-rnp-24-airline", 0)):
        assert f"{name}: {stops} stop" in printed
    assert plan.main([name for name in files if "expired" not in name]) == 0


COLD_DAY = plan.read(FILE.with_name("zzhc-rnav-33-cold.toml"))


def cold_day(**flight):
    scenario = replace(COLD_DAY.scenario, flight=replace(COLD_DAY.scenario.flight, **flight))
    return replace(COLD_DAY, scenario=scenario)


def test_cold_day_named_with_segments():
    (finding,) = plan.cold(COLD_DAY)
    assert (finding.key, finding.grade) == ("cold-correct", "note")
    assert "segments intermediate, final" in finding.computed
    (every,) = plan.cold(cold_day(cold_segments=()))
    assert "all segments" in every.computed
    (warm,) = plan.cold(cold_day(temperature_c=-13.0))
    assert (warm.key, warm.grade) == ("cold", "ok")


def test_unmarked_final_segment_keeps_minimum():
    row = COLD_DAY.approach.chart.minima[0]
    assert set_for(COLD_DAY, row).altitude_ft == row.altitude_ft + 60
    assert set_for(cold_day(cold_segments=("intermediate",)), row).altitude_ft == row.altitude_ft


def test_corrected_minimum_keeps_true_height():
    minimum = set_for(COLD_DAY, COLD_DAY.approach.chart.minima[0])
    assert minimum.height_ft == 300.0
    assert "cold correction" in minimum.reason


def test_ceiling_below_minimum_is_note_at_it_none():
    low = by_name(plan.plan(case(weather=(249.0, 3.0), alternate=alternate())))
    assert (low["line-ceiling LPV (SBAS)"].grade, low["line-ceiling LNAV (GPS or SBAS)"].grade) == ("note", "note")
    enough = by_name(plan.plan(case(weather=(250.0, 3.0), alternate=alternate())))
    assert "line-usable LPV (SBAS)" in enough
    assert "line-ceiling LNAV/VNAV (SBAS)" in enough


def test_interference_test_makes_every_line_uncertain():
    test = "!GPS 06/001 ZAB NAV GPS (INCLUDING WAAS, GBAS, AND ADS-B) MAY NOT BE AVAILABLE WITHIN A 468NM RADIUS"
    findings = plan.plan(case(notices=(test,)))
    assert {f.key for f in findings if f.key.startswith("line")} == {"line-uncertain", "line-barred", "line-none"}


def test_usable_lines_match_findings():
    keys = [(line.line, line.key) for line in plan_lines.usable(CASE)]
    assert keys == [("LPV", "line-uncertain"), ("LNAV/VNAV", "line-visibility"), ("LNAV", "line-visibility"),
                    ("circling", "line-visibility")]
    rows = tuple(replace(row, rvr_ft=None) if row.line == "LPV" else row for row in CASE.approach.chart.minima)
    assert "LPV" not in [line.line for line in plan_lines.usable(case(chart={"minima": rows}))]


def test_printed_rvr_names_conversion_table():
    row = row_of("LPV")
    free = replace(CASE.aircraft, operator=replace(CASE.aircraft.operator, lowest_visibility_sm=0.25))
    assert "91.175(h)" in visibility(row, free.operator).reason
    assert "91.175(h)" not in visibility(replace(row, rvr_ft=None, rvr_m=550.0), free.operator, None, "EASA").reason


@pytest.mark.parametrize(
    ("old", "new", "word"),
    [
        ("eta = 2026-12-15T20:00:00Z", "eta = 2097-12-15T20:00:00Z", "1999 to 2096"),
        ('["intermediate", "final"]', '["intermediate", "approach"]', '"initial", "intermediate", "final", "missed"'),
    ],
)
def test_unknown_years_and_segments(old, new, word):
    text = FILE.with_name("zzhc-rnav-33-cold.toml").read_text("utf-8")
    assert old in text
    with pytest.raises(DataError) as caught:
        plan.read_text(text.replace(old, new), "cold.toml")
    assert word in str(caught.value)


def test_line_row_matches_category():
    first = replace(row_of("LPV"), categories="AB")
    rows = (first, replace(first, categories="CD", altitude_ft=300.0))
    assert plan_case.row_for(case(chart={"minima": rows}), "LPV").altitude_ft == first.altitude_ft
    assert plan_case.row_for(case(chart={"minima": rows}, speed_kt=130.0), "LPV").altitude_ft == 300.0
    assert plan_case.row_for(case(chart={"minima": rows}), "LNAV") is None


def test_weather_at_eta_includes_temporary_groups():
    assert plan_case.weather_at_eta(CASE).ceiling_ft == 300.0
