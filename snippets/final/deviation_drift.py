"""How soon a small heading error becomes one dot of course deviation, from the PFAF to the DA of the example."""

from lpv.core.text import quantity
from lpv.decide.final_path import distance_at_altitude_nm, pfaf_distance_nm
from lpv.decide.last_mile import seconds_to_a_dot
from lpv_site.department.data import example, example_row
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table

ERROR_DEG, GROUND_SPEED_KT = 5.0, 130.0


def show() -> Shown:
    """A row for each place on the way down."""
    approach = example()
    da_nm = distance_at_altitude_nm(approach, example_row().altitude_ft)
    places = {"FAF": pfaf_distance_nm(approach), quantity(3, "NM"): 3.0, quantity(1, "NM"): 1.0, "DA": da_nm}
    seconds = {name: Value.of(seconds_to_a_dot(approach, distance_nm, ERROR_DEG, GROUND_SPEED_KT), "s")
               for name, distance_nm in places.items()}
    head = (f"Track {quantity(ERROR_DEG, 'deg')} off the course at a ground speed of "
            f"{quantity(GROUND_SPEED_KT, 'kt')}:")
    listed = table(["at", "one dot after"], [(name, drift.text) for name, drift in seconds.items()])
    return Shown(f"{head}\n\n{listed}", {
        "error": Value.of(ERROR_DEG, "deg"), "pfaf": seconds["FAF"], "da": seconds["DA"]})
