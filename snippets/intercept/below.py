"""Level flight below the path: how far and how long until it comes down."""

from lpv.core.text import quantity
from lpv.decide.final_path import descent_angle_deg
from lpv.intercept.glidepath import level_to_path_nm, level_to_path_s
from lpv.motion.kinematics import gradient_ft_per_nm
from lpv_site.department.data import example
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table

BELOW_FT, SPEEDS_KT = (100, 300, 500, 1000), (140, 180)


def show() -> Shown:
    """A row for each height below the path."""
    gpa_deg = descent_angle_deg(example())
    rows = [(
        quantity(below_ft, "ft"), f"**{quantity(level_to_path_nm(below_ft, gpa_deg), 'NM', 0.1)}**",
        *(quantity(level_to_path_s(below_ft, gpa_deg, speed_kt), "s") for speed_kt in SPEEDS_KT),
    ) for below_ft in BELOW_FT]
    heads = ["below the glidepath", "level for", *(f"at {quantity(speed_kt, 'kt')}" for speed_kt in SPEEDS_KT)]
    return Shown(table(heads, rows), {
        "gradient": Value.of(gradient_ft_per_nm(gpa_deg), "ft/NM"), "gpa": Value.of(gpa_deg, "°", 2)})
