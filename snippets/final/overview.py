"""The final of the example at a glance: altimeter, one dot and time to go."""

from lpv.decide.final_path import glidepath, pfaf_distance_nm
from lpv.motion.kinematics import descent_rate_fpm, flying_time_s
from lpv.path.deviation import from_two_dots_ft
from lpv.path.profile import straight_path_distance_nm, straight_path_height_ft
from lpv.path.scale import lpv_full_scale_ft, origin_distance_nm
from lpv_site.department.data import example
from lpv_site.text.table import table
from lpv_site.text.text import escape, number, quantity

approach = example()
elevation_ft, tch_ft, gpa_deg = arguments = glidepath(approach)
da_ft = next(line.altitude_ft for line in approach.chart.minima if line.line == "LPV")
da_nm = straight_path_distance_nm(da_ft, *arguments)
GROUND_SPEED_KT = 130.0


def row(name: str, distance_nm: float) -> tuple[str, str, str, str]:
    full_ft = lpv_full_scale_ft(origin_distance_nm(distance_nm, tch_ft, gpa_deg), gpa_deg)
    minutes, seconds = divmod(round(flying_time_s(distance_nm - da_nm, GROUND_SPEED_KT)), 60)
    altitude = number(straight_path_height_ft(distance_nm, *arguments))
    return name, f"**{altitude}**", number(from_two_dots_ft(1.0, full_ft)), f"{minutes}:{seconds:02d}"


rows = [row(f"PFAF {escape(approach.pfaf.name)}", pfaf_distance_nm(approach))]
rows += [row(quantity(d, "NM"), float(d)) for d in (5, 4, 3, 2, 1) if da_nm < d < pfaf_distance_nm(approach)]
rows.append(row("DA", da_nm))
rate = quantity(round(descent_rate_fpm(GROUND_SPEED_KT, gpa_deg), -1), "ft/min")
print(
    f"{escape(approach.identity.title)}, {escape(approach.identity.airport)}, on a standard day; time to the DA "
    f"at a ground speed of {quantity(GROUND_SPEED_KT, 'kt')}, {rate} down:\n"
)
print(table(["to threshold", "altimeter, ft", "one path dot, ft", "to go, min:s"], rows))
