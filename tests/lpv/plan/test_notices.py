import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lpv.core.errors import DomainError
from lpv.facts.sources import SOURCES
from lpv.plan import notices
from lpv.plan.notices import kind_name, read_notice

MAY = "!FDC FDC NAV WAAS VNAV/LPV/LP MINIMA MAY NOT BE AVBL 2611260800-2611261800"
NOT = "!FDC FDC NAV WAAS NOT AVBL 2611260800-2611261800"
TEST = (
    "!GPS 06/001 ZAB NAV GPS (INCLUDING WAAS, GBAS, AND ADS-B) MAY NOT BE AVAILABLE "
    "WITHIN A 468NM RADIUS OF A POINT, SURFACE TO FL400"
)


@pytest.mark.parametrize(
    ("text", "name"),
    [(MAY, "sbas-may-not-be-available"), (NOT, "sbas-not-available"), (TEST, "gps-interference-test")],
)
def test_case_and_line_ends_make_no_difference(text, name):
    assert kind_name(text) == name
    assert kind_name(text.lower()) == name
    assert kind_name("  " + text.replace(" ", "\r\n  ") + "\n") == name


def test_the_minima_that_a_notice_names():
    assert read_notice(MAY).minima == ("LNAV/VNAV", "LPV", "LP")
    assert read_notice("!FDC FDC NAV WAAS LNAV/VNAV/LPV MINIMA MAY NOT BE AVBL").minima == ("LNAV/VNAV", "LPV")
    assert read_notice("!FDC FDC NAV WAAS LP MINIMA MAY NOT BE AVBL").minima == ("LP",)
    assert read_notice(NOT).minima == ()


def test_numbers_in_the_head_do_not_matter():
    assert kind_name("!FDC 6/1234 FDC NAV WAAS NOT AVBL") == "sbas-not-available"
    assert kind_name("FDC NAV WAAS NOT AVAILABLE") == "sbas-not-available"


def test_the_radius_of_a_test():
    assert read_notice(TEST).radius_nm == 468.0
    assert read_notice(NOT).radius_nm is None


@pytest.mark.parametrize(
    "text",
    [
        "",
        "!FDC",
        "!FDC FDC NAV WAAS",
        "!FDC FDC NAV WAAS NOT",
        "!FDC FDC NAV WAAS NOT AVB",
        "!FDC FDC NAV WAAS VNAV/LPV/LP MINIMA MAY NOT BE",
        "!FDC FDC NAV WAAS VNAV/LPV/LP MINIMA MAY",
        "!FDC FDC NAV WAAS VNAV/LPV/",
        "FDC NAV WAAS AVBL",
        "!FDC FDC NAV WAAS NOT AVBLE",
        "!FDC FDC NAV WAAS GLS MINIMA MAY NOT BE AVBL",
        "!FDC FDC NAV WAAS NOT AVBL CANCELED",
        "!FDC FDC NAV WAAS NOT AVBL CNL",
        TEST[: TEST.index("RADIUS")],
        TEST[: TEST.index("NM")],
        TEST.replace("468NM", "0NM"),
        "!ZZA ZZA RWY 09/27 CLSD",
        "LPV NA",
    ],
)
def test_cut_cancelled_and_other_texts_are_unknown(text):
    notice = read_notice(text)
    assert notice.kind.name == "unknown"
    assert "Read the whole notice" in notice.kind.plan
    assert notice.minima == ()


@settings(max_examples=150)
@given(st.text(max_size=200))
def test_any_text_is_read_and_what_is_not_published_is_unknown(text):
    assert kind_name(text) == "unknown"


@settings(max_examples=60)
@given(st.integers(0, len(TEST)))
def test_a_cut_test_notice_is_never_another_kind(end):
    complete = end >= TEST.index("RADIUS") + len("RADIUS")
    assert kind_name(TEST[:end]) == ("gps-interference-test" if complete else "unknown")


def test_a_text_without_end_is_refused():
    with pytest.raises(DomainError):
        read_notice("A" * 5001)


def test_every_kind_says_what_to_plan_and_where_it_stands():
    assert len({kind.name for kind in notices.KINDS}) == len(notices.KINDS) == 5
    for kind in notices.KINDS:
        assert kind.means
        assert kind.plan
        assert (kind.place == "") == (kind.status != "published")
    assert notices.SOURCE in SOURCES
