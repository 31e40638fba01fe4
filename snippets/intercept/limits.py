"""What the FAA's handbook allows a controller, put to the demo approach."""

from lpv.core.text import fact_text, quantity
from lpv.decide.final_path import charted_pfaf_ft, glidepath, pfaf_distance_nm
from lpv.facts import fact
from lpv.intercept.vectors import approach_gate_nm, nearest_vector_nm
from lpv.path.profile import straight_path_height_ft
from lpv_site.department.data import example
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import ALL_LEFT, table
from lpv_site.text.text import escape


def show() -> Shown:
    """A row for each limit: what is allowed, and what that is here."""
    approach = example()
    gate_nm = approach_gate_nm(pfaf_distance_nm(approach))
    nearest_nm = nearest_vector_nm(pfaf_distance_nm(approach))
    path_ft = straight_path_height_ft(nearest_nm, *glidepath(approach))
    rows = [
        ("meets the course outside the approach gate by", f"at least {fact_text(fact('vector_outside_gate_nm'))}",
         f"**{quantity(nearest_nm, 'NM', 0.1)}** out or more"),
        ("angle, there or farther out", f"at most {fact_text(fact('vector_angle_deg'))}", ""),
        ("angle, closer in", f"at most {fact_text(fact('vector_angle_near_gate_deg'))}", "worth a question"),
        ("altitude", "not above the glidepath", f"at most {quantity(path_ft, 'ft')} there"),
        ("altitude", "not below the lowest published intercept",
         f"at least {quantity(charted_pfaf_ft(approach), 'ft')}"),
    ]
    head = f"{escape(approach.identity.airport)} {escape(approach.identity.title)}:"
    return Shown(f"{head}\n\n{table(['vector', 'FAA limit', 'here'], rows, left=ALL_LEFT)}", {
        "gate": Value.of(gate_nm, "NM", 1), "nearest": Value.of(nearest_nm, "NM", 1),
        "path": Value.of(path_ft, "ft")})
