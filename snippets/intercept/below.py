"""Level flight below the path: how far and how long until it comes down."""

from lpv.core.text import quantity
from lpv.decide.final_path import glidepath
from lpv.intercept.glidepath import level_to_path_nm, level_to_path_s
from lpv.motion.kinematics import gradient_ft_per_nm
from lpv_site.department.data import example
from lpv_site.text.table import table

BELOW_FT, SPEEDS_KT = (100, 300, 500, 1000), (140, 180)
_, _, gpa_deg = glidepath(example())

print(
    table(
        ["below the path", "level for", *(f"at {quantity(speed, 'kt')}" for speed in SPEEDS_KT)],
        [
            (
                quantity(below, "ft"),
                f"**{quantity(level_to_path_nm(below, gpa_deg), 'NM', 0.1)}**",
                *(quantity(level_to_path_s(below, gpa_deg, speed), "s") for speed in SPEEDS_KT),
            )
            for below in BELOW_FT
        ],
    )
)
values = {"gradient": quantity(gradient_ft_per_nm(gpa_deg), "ft/NM"), "gpa": quantity(gpa_deg, "°", 0.01)}
