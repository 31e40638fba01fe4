"""The entries of the set-up check form: what may be typed or chosen, and how it is read.

Every entry begins empty: nothing that nobody has read from the cockpit counts as set.
"""

from lpv.core import airac
from lpv.core.errors import DomainError
from lpv.core.text import number, quantity
from lpv.decide.lines import LEVELS
from lpv.forms.fields import Choice, Day, Field, Number, Word, read_decimal, shown_text
from lpv.setup import radio
from lpv.setup.records import ALTIMETER_RANGE, KINDS, NAMES, SOURCES, UNITS

TO_CHOOSE = (("", "choose"),)
LONGEST_TITLE = 80


class OneOf(Choice):
    """One of a few words; none is chosen to begin with."""

    def __init__(self, key: str, label: str, words: "tuple[str, ...]") -> None:
        super().__init__(key, label, TO_CHOOSE + tuple([(word, word) for word in words]), "")


class Figure(Number):
    """A number that begins empty, with at most `places` decimals."""

    def __init__(
        self, key: str, label: str, unit: str, low: float, high: float, places: int = 0, source: str = "",
    ) -> None:
        super().__init__(key, label, unit, low, high, 1, low, source)
        self.places = places
        self.default = ""

    def read(self, text: str) -> float:
        """As `Number`; DomainError for more decimals than can be set."""
        value = super().read(text)
        if not self.places and value != int(value):
            raise DomainError(f"Found {shown_text(text)}; allowed: a whole number, {self.hint}.")
        return value


class Altimeter(Figure):
    """An altimeter setting, in the unit that both sides use."""

    def __init__(self, key: str, label: str) -> None:
        low, high = ALTIMETER_RANGE["inHg"][0], ALTIMETER_RANGE["hPa"][1]
        super().__init__(key, label, "", low, high, 2)
        self.hint = "as set"

    def read_in(self, unit: str, text: str) -> float:
        """The setting in inHg or hPa, in either where neither is set; DomainError outside the range of the unit."""
        if unit not in ALTIMETER_RANGE:
            return self.read(text)
        low, high = ALTIMETER_RANGE[unit]
        allowed = f"{number(low)} to {quantity(high, unit)}"
        value = read_decimal(text, 2, allowed)
        if not low <= value <= high:
            raise DomainError(f"Found {shown_text(text)}; allowed: {allowed}.")
        return value


class Frequency(Figure):
    """A navigation channel in megahertz."""

    def __init__(self, key: str, label: str) -> None:
        super().__init__(key, label, "MHz", 108, 118, 2)

    def read(self, text: str) -> float:
        """As `Number`; DomainError for what is neither a localizer nor a VOR channel."""
        value = super().read(text)
        if radio.kind(value) == "neither":
            raise DomainError(f"Found {shown_text(text)}; allowed: a localizer or VOR channel, such as 113.40.")
        return value


class Identifier(Word):
    """A reference path identifier: four capital letters or digits."""

    def __init__(self, key: str, label: str) -> None:
        super().__init__(key, label, 4, "")
        self.hint = "four letters or digits"

    def read(self, text: str) -> str:
        """As `Word`; DomainError for fewer than four."""
        value = super().read(text)
        if len(value) < self.most:
            raise DomainError(f"Found {shown_text(text)}; allowed: {self.hint}.")
        return value


class Cycle(Field):
    """The number of a data cycle."""

    kind = "text"
    hint = "four digits"

    def read(self, text: str) -> str:
        """The number; DomainError for one that its year does not have."""
        try:
            return airac.cycle(text.strip()).ident
        except DomainError:
            raise DomainError(f"Found {shown_text(text)}; allowed: four digits of a cycle, such as 2612.") from None


class Title(Field):
    """The title of a procedure; the page offers those of the airport."""

    kind = "title"

    def read(self, text: str) -> str:
        """The title; DomainError for what no title looks like."""
        plain = text.strip()
        if len(plain) > LONGEST_TITLE or any(ord(c) < 32 or 126 < ord(c) < 160 for c in plain):
            raise DomainError(f"Found {shown_text(text)}; allowed: a title of up to {LONGEST_TITLE} characters.")
        return plain


COMMON = (
    Day("day", "Day of the flight", ""),
    Cycle("cycle", "Data cycle in the aircraft", ""),
    OneOf("flying", "Who flies", NAMES),
    OneOf("altimeter_unit", "Altimeters are set in", UNITS),
    Altimeter("reported", "Altimeter setting reported"),
    Figure("temperature_c", "Temperature reported", "deg C", -50, 60, 1, "day.temperature_c"),
    Figure("previous_course_deg", "Course of the previous approach", "deg", 0, 360, 1),
)  # type: tuple[Field, ...]
ARMING = (
    OneOf("armed", "Approach armed", ("no", "yes")),
    Figure("across_nm", "Distance from the course", "NM", 0, 200, 1),
    OneOf("across_side", "Side of the course", NAMES),
    Figure("track_deg", "Track flown", "deg", 0, 360, 1),
)  # type: tuple[Field, ...]

PLANNED = (
    Figure("speed_kt", "Speed, if above VREF", "kt", 60, 250),
    Figure("remote_addition_ft", "Remote altimeter adds", "ft", 0, 2000),
    OneOf("zone_not_clear", "Obstacle free zone not clear", ("no", "yes")),
    OneOf("cold_segments", "Corrected in cold", ("final and missed", "final", "missed", "neither")),
)  # type: tuple[Field, ...]


def side_fields(side: str) -> "tuple[Field, ...]":
    """The entries of one side, left or right, in the order of the cockpit; a key begins with the side."""
    fields = (
        Title("title", "Procedure loaded", ""),
        Figure("channel", "Channel", "", 0, 99999),
        Identifier("path_id", "Path identifier"),
        OneOf("source", "Source selected", SOURCES),
        Frequency("tuned", "Frequency tuned"),
        Frequency("tuned_2", "Second or standby"),
        Figure("course_deg", "Course", "deg", 0, 360, 1),
        Altimeter("altimeter", "Altimeter"),
        OneOf("level", "Level annunciated", LEVELS),
        OneOf("minimum_kind", "Kind of minimum", KINDS),
        Figure("minimum_ft", "Minimum", "ft", -1500, 20000),
        Figure("missed_altitude_ft", "Missed approach altitude", "ft", -1500, 30000),
    )  # type: tuple[Field, ...]
    for field in fields:
        field.key = side + "_" + field.key
    return fields


LEFT, RIGHT = side_fields("left"), side_fields("right")
FIELDS = COMMON + PLANNED + LEFT + RIGHT + ARMING
