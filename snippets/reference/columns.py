"""The columns of a recorded flight that are read."""

from lpv.track.records import IN_WORDS
from lpv.track.tables import ALTITUDES, POSITION, TIMES
from lpv_site.text.shown import Shown

TIME_AND_PLACE = {
    TIMES[0]: "time as `2026-12-01T10:00:00Z`, or with an offset",
    TIMES[1]: "or, in its place: seconds from any beginning",
    TIMES[2]: "or milliseconds",
    TIMES[3]: "or a clock as `10:00:00`, without a day",
    POSITION[0]: "decimal degrees, north positive",
    POSITION[1]: "decimal degrees, east positive",
}


def show() -> Shown:
    """A list of the columns with what each holds, altitudes in feet; then the names of those in metres."""
    in_feet = {name: IN_WORDS[reference] for name, (reference, factor) in ALTITUDES.items() if factor == 1.0}
    in_metres = [name for name, (_, factor) in ALTITUDES.items() if factor != 1.0]
    listed = "".join(f"- `{name}`: {what}\n" for name, what in (TIME_AND_PLACE | in_feet).items())
    return Shown(f"{listed}\nIn meters: {', '.join(f'`{name}`' for name in in_metres)}.")
