"""The columns of a recorded flight that are read."""

from lpv.track.readers import ALTITUDES, POSITION, TIMES
from lpv.track.records import IN_WORDS

columns = {
    TIMES[0]: "time as `2026-12-01T10:00:00Z`, or with an offset",
    TIMES[1]: "or, in its place: seconds from any beginning",
    POSITION[0]: "decimal degrees, north positive",
    POSITION[1]: "decimal degrees, east positive",
}
for name, (reference, factor) in ALTITUDES.items():
    if factor == 1.0:
        columns[name] = IN_WORDS[reference]
print("\n".join(f"- `{name}`: {what}" for name, what in columns.items()) + "\n")
others = ", ".join(f"`{name}`" for name, (_, factor) in ALTITUDES.items() if factor != 1.0)
print(f"In metres: {others}.")
