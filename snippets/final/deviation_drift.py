"""How soon a small heading error becomes one dot of course deviation, from the PFAF to the DA of the example."""

import math

from lpv.decide.final_path import glidepath, pfaf_distance_nm
from lpv.fas.segment import garp_distance_ft, half_width_ft
from lpv.motion.kinematics import distance_flown_ft
from lpv.path.deviation import final_full_scale_ft, from_two_dots_ft
from lpv.path.profile import straight_path_distance_nm
from lpv_site.department.data import example
from lpv_site.text.table import table
from lpv_site.text.text import quantity

ERROR_DEG, GROUND_SPEED_KT = 5.0, 130.0
approach = example()
da_ft = next(line.altitude_ft for line in approach.chart.minima if line.line == "LPV")
da_nm = straight_path_distance_nm(da_ft, *glidepath(approach))
course = half_width_ft(approach.segment, 0.0), garp_distance_ft(approach.segment)
across_ft_per_s = distance_flown_ft(GROUND_SPEED_KT, 1.0) * math.sin(math.radians(ERROR_DEG))


def seconds(distance_nm: float) -> str:
    """Time to move one dot as wide as it is at this distance."""
    return quantity(from_two_dots_ft(1.0, final_full_scale_ft(distance_nm, *course)) / across_ft_per_s, "s")


places = (("PFAF", pfaf_distance_nm(approach)), (quantity(3, "NM"), 3.0), (quantity(1, "NM"), 1.0), ("DA", da_nm))
print(f"Track {quantity(ERROR_DEG, '°')} off the course at a ground speed of {quantity(GROUND_SPEED_KT, 'kt')}:\n")
print(table(["at", "one dot after"], [(name, seconds(distance)) for name, distance in places]))
values = {"error": quantity(ERROR_DEG, "°"), "pfaf": seconds(places[0][1]), "da": seconds(da_nm)}
