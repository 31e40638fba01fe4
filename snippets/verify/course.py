"""The final course of each demo approach: true, of record, charted, and by today's model."""

from lpv.core import airac
from lpv.core.course import magnetic_deg
from lpv.core.text import course, number, signed
from lpv.geodesy.magnetic import decimal_year, model_variation_deg
from lpv_site.department.data import examples
from lpv_site.text.table import stacked
from lpv_site.text.text import escape

entries = []
for approach in examples():
    segment, chart = approach.segment, approach.chart
    year = decimal_year(airac.cycle(approach.identity.cycle).effective)
    model = model_variation_deg(
        segment.ltp_latitude_deg,
        segment.ltp_longitude_deg,
        segment.ltp_height_m,
        year,
    )
    of_record = chart.variation_deg
    entries.append(
        (
            f"{escape(approach.identity.airport)} {escape(approach.identity.title)}",
            [
                ("<b>charted, to set</b>", f"<b>{course(chart.course_deg)} {chart.course_reference}</b>"),
                ("true, LTP to FPAP", course(approach.true_course_deg, 0.01)),
                ("variation of record", signed(of_record, "°", 0.1)),
                ("magnetic with it", course(magnetic_deg(approach.true_course_deg, of_record), 0.1)),
                (f"variation by model, {number(year, 0.1)}", signed(model, "°", 0.1)),
                ("magnetic with it", course(magnetic_deg(approach.true_course_deg, model), 0.1)),
            ],
        )
    )
print("Variation: east is positive.\n")
print(stacked(entries))
