"""What the FAA's handbook allows a controller, put to the demo approach."""

from lpv.core.text import fact_text, quantity
from lpv.decide.final_path import glidepath, pfaf_distance_nm
from lpv.facts import fact, value
from lpv.intercept.vectors import approach_gate_nm
from lpv.path.profile import straight_path_height_ft
from lpv_site.department.data import example
from lpv_site.text.table import table
from lpv_site.text.text import escape

approach = example()
pfaf_nm = round(pfaf_distance_nm(approach), 1)
gate_nm = approach_gate_nm(pfaf_nm)
nearest_nm = gate_nm + value("vector_outside_gate_nm")
path_ft = straight_path_height_ft(nearest_nm, *glidepath(approach))
lowest_ft = approach.pfaf.altitude_ft

print(f"{escape(approach.identity.airport)} {escape(approach.identity.title)}:\n")
print(
    table(
        ["vector", "FAA limit", "here"],
        [
            (
                "meets the course outside the approach gate by",
                f"at least {fact_text(fact('vector_outside_gate_nm'))}",
                f"**{quantity(nearest_nm, 'NM', 0.1)}** out or more",
            ),
            ("angle, there or farther out", f"at most {fact_text(fact('vector_angle_deg'))}", ""),
            ("angle, closer in", f"at most {fact_text(fact('vector_angle_near_gate_deg'))}", "worth a question"),
            ("altitude", "not above the glidepath", f"at most {quantity(path_ft, 'ft')} there"),
            ("altitude", "not below the lowest published intercept", f"at least {quantity(lowest_ft, 'ft')}"),
        ],
        left=3,
    )
)
values = {"gate": quantity(gate_nm, "NM", 0.1), "nearest": quantity(nearest_nm, "NM", 0.1)}
