"""The final course of each demo approach: true, of record, charted, and by the model at the start of its cycle."""

from lpv.approach.record import Approach
from lpv.core import airac
from lpv.core.course import magnetic_deg
from lpv.core.errors import DomainError
from lpv.core.text import course, number, signed
from lpv.geodesy.magnetic import FIRST_YEAR, LAST_YEAR, decimal_year, model_variation_deg
from lpv_site.department.data import examples
from lpv_site.text.shown import Shown
from lpv_site.text.table import stacked
from lpv_site.text.text import escape


def by_model(approach: Approach) -> list[tuple[str, str]]:
    """Variation and course by the model; outside its years, that nobody can tell them from it."""
    segment = approach.segment
    year = decimal_year(airac.cycle(approach.identity.cycle).effective)
    place = (segment.ltp_latitude_deg, segment.ltp_longitude_deg, segment.ltp_height_m)
    try:
        model_deg = model_variation_deg(*place, year)
    except DomainError:
        text = f"not known: the model holds from {number(FIRST_YEAR)} to {number(LAST_YEAR)}"
        return [(f"variation by model, {number(year, 0.1)}", text)]
    return [
        (f"variation by model, {number(year, 0.1)}", signed(model_deg, "°", 0.1)),
        ("magnetic with it", course(magnetic_deg(approach.true_course_deg, model_deg), 0.1)),
    ]


def entry(approach: Approach) -> list[tuple[str, str]]:
    """The lines of one approach, what to set first."""
    chart, true_deg = approach.chart, approach.true_course_deg
    return [
        ("<b>charted, to set</b>", f"<b>{course(chart.course_deg)} {chart.course_reference}</b>"),
        ("true, LTP to FPAP", course(true_deg, 0.01)),
        ("variation of record", signed(chart.variation_deg, "°", 0.1)),
        ("magnetic with it", course(magnetic_deg(true_deg, chart.variation_deg), 0.1)),
        *by_model(approach),
    ]


def show() -> Shown:
    """The lines of every approach."""
    entries = [(f"{escape(approach.identity.airport)} {escape(approach.identity.title)}", entry(approach))
               for approach in examples()]
    return Shown(f"Variation: east is positive.\n\n{stacked(entries)}")
