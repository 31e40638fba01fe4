"""At the PFAF of each demo approach: charted altitude, and both paths at that distance."""

from lpv.core.text import nautical_miles, number
from lpv.decide.final_path import glidepath, has_glidepath, pfaf_distance_nm
from lpv.path.profile import barometric_path_height_ft, straight_path_height_ft
from lpv_site.department.data import examples
from lpv_site.text.shown import Shown
from lpv_site.text.table import table
from lpv_site.text.text import escape


def show() -> Shown:
    """A row for each approach with a glidepath."""
    rows = []
    for approach in filter(has_glidepath, examples()):
        distance_nm, path = pfaf_distance_nm(approach), glidepath(approach)
        name = f"{escape(approach.identity.airport)} {escape(approach.pfaf.name)}"
        rows.append((
            f"{name}<br>{nautical_miles(distance_nm)} out",
            "none" if approach.pfaf.altitude_ft is None else number(approach.pfaf.altitude_ft),
            number(barometric_path_height_ft(distance_nm, *path)),
            f"**{number(straight_path_height_ft(distance_nm, *path))}**",
        ))
    listed = table(["FAF", "charted", "barometric path", "SBAS path"], rows)
    return Shown(f"At the FAF, in feet, on a standard day:\n\n{listed}")
