import re
from dataclasses import replace

import pytest

from lpv.notices import kinds
from lpv.plan import sheet as plan
from lpv.plan.schema import NoticeText
from lpv_site.pages import plan_sheet
from lpv_site.pages.notice_pages import name_words
from lpv_site.pages.plan_sheet import (
    answers,
    build_plan_sheet_page,
    cases,
    line_words,
    sheet_pages,
    verdict,
)
from shown import plain

CASES = {case.scenario.slug: case for case in cases()}
COLD, NOTICE, EXPIRED = (
    CASES[slug] for slug in ("zzhc-rnav-33-cold", "zzak-rnav-09-notice", "zzak-rnav-16-expired"))


def answered(case):
    return {name: plain(text) for name, text in answers(case, plan.plan(case))}


@pytest.mark.parametrize("case", CASES.values(), ids=list(CASES))
def test_every_sheet_has_parts_and_one_card(case):
    page = build_plan_sheet_page(case)
    for anchor in ("top", "answer", "findings", "data", "print"):
        assert f"{{ #{anchor}" in page
    assert page.count('id="card"') == page.count('class="hb-card"') == 1
    assert page.count("does not predict") == 2  # on the sheet and on the card
    assert plan_sheet.day(case) in page
    assert f"(../approaches/{case.approach.slug}.md)" in page
    assert not re.search(r"(?<![\w.])(?:nan|inf|None)(?![\w.])", page)


def test_cold_day_answers():
    answers = answered(COLD)
    assert answers["plan on"] == "LPV DA 6835 ft, 3/4 SM"
    assert answers["cold"] == "correct altitudes: intermediate, final segments"
    assert answers["alternate"] == "needed; ZZAK may be listed"
    assert answers["notices"] == "none, as the file states"
    rows = {row.name: row for row in plan_sheet.cold_rows(COLD)}
    assert rows["GLAZO"].corrected_ft == 9100
    assert rows["missed approach"].addition_ft is None
    page = build_plan_sheet_page(COLD)
    assert "{ #cold }" in page
    assert "Corrected altitudes</b> GLAZO 9100" in page


def test_notice_day_answers():
    answers = answered(NOTICE)
    assert answers["plan on"].startswith("no line")
    assert answers["only if annunciated"] == "LPV DA 274 ft, 3/4 SM"
    assert answers["notices"].startswith("SBAS may not be available (destination: LPV, LP, LNAV/VNAV by SBAS in doubt")
    assert answers["cold"].startswith("to settle: -4 °C: The chart prints no temperature")
    assert plan_sheet.cold_rows(NOTICE) == []
    assert "{ #cold }" not in build_plan_sheet_page(NOTICE)


def test_unworkable_day_answers():
    answers = answered(EXPIRED)
    assert answers["data"] == "cycle 2612 not in force"
    assert answers["plan on"].startswith("nothing from this chart")
    assert answers["alternate"] == "needed; ZZHC mark for alternate minima not compared; ZZHC may not be listed"
    assert verdict(plan.plan(EXPIRED)).startswith("Not as planned: 2 stop, ")
    assert "✕ stop</b> data cycle at the ETA: Get chart and database" in build_plan_sheet_page(EXPIRED)


def test_all_segments_without_marks_and_nothing_when_warm():
    flight = COLD.scenario.flight
    every = replace(COLD, scenario=replace(COLD.scenario, flight=replace(flight, cold_segments=())))
    assert answered(every)["cold"] == "correct altitudes: all segments"
    assert all(row.addition_ft is not None for row in plan_sheet.cold_rows(every))
    warm = replace(COLD, scenario=replace(COLD.scenario, flight=replace(flight, temperature_c=5.0)))
    assert answered(warm)["cold"].startswith("no correction: 5 °C is warmer")


def test_verdict_follows_findings():
    assert verdict(plan.plan(COLD)).startswith("May be planned: 0 stop, 0 resolve, 4 note, ")
    assert verdict(plan.plan(NOTICE)).startswith("Settle first: 0 stop, 2 resolve, ")
    assert verdict([]).startswith("Not everything was compared: 0 stop, ")


def test_file_text_stays_text():
    hostile = "<b onclick=x>*a* [b](c) {{ fact('x') }} `d`"
    identity = replace(NOTICE.approach.identity, airport_name=hostile, title=hostile)
    scenario = replace(NOTICE.scenario, notices=(NoticeText(text=hostile),))
    page = build_plan_sheet_page(replace(
        NOTICE, approach=replace(NOTICE.approach, identity=identity), scenario=scenario))
    body = page.split("---\n", 2)[2]
    for sign in ("<b onclick", "{{", "[b]", "*a*"):
        assert sign not in body


def test_sheet_addresses(tmp_path):
    pages = sheet_pages(plan_sheet.DOCS)
    assert "plan/zzhc-rnav-33-cold-sheet.md" in pages
    assert pages["plan/zzhc-rnav-33-cold-sheet.md"]() == build_plan_sheet_page(COLD)
    assert sheet_pages(tmp_path) == {}
    assert plan_sheet.sheet_name(plan_sheet.example_case()) in "".join(pages)


def test_line_and_notice_text():
    assert plain(line_words(COLD, plan_sheet.usable(COLD)[2])) == "LNAV MDA 7180 ft, 1 1/2 SM"
    assert name_words(kinds.NOT_AVAILABLE) == "SBAS not available"
