"""The DA to use on the LPV line: what the chart prints for a type's category, not under what its operator allows.

The one home of this rule for simulated and for recorded flights, on the phone too.
"""

from lpv.core.errors import DomainError


def charted_da_ft(slug: str, minima: "list[tuple[str, float]]", category: "str | None") -> "float | None":
    """The DA in ft of the first LPV line for a category, without a category of the first one; None without a line.

    slug: name of the approach's file, for the error;  minima: (categories, DA in ft) of each LPV line
    DomainError if there are lines, and none is for the category.
    """
    rows = [altitude_ft for categories, altitude_ft in minima if category is None or category in categories]
    if minima and not rows:
        raise DomainError(f"{slug}: found no LPV minimum for category {category}.")
    return rows[0] if rows else None


def da_to_use_ft(altitude_ft: float, floor_from_ft: float, lowest_height_ft: float) -> float:
    """A DA in ft, not under the operator's lowest height above the touchdown zone.

    floor_from_ft: elevation that this height counts from
    """
    return max(altitude_ft, floor_from_ft + lowest_height_ft)
