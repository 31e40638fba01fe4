"""Is this the right approach: SBAS channel, reference path identifier, runway number.

Runs in the browser too.  What the structure of an identifier rests on is carried as a status with
every answer, since its letters are from memory.
"""

from lpv.core.errors import in_range
from lpv.core.units import degrees_180, degrees_360
from lpv.facts import FACTS, fact, value

CAPITALS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
PROVIDERS = 16
RUNWAYS = 36


class Provider:
    """One SBAS provider identifier: its name, the letter of its path identifiers, and a status for each.

    name and letter are "" where none is known.
    """

    def __init__(self, number: int) -> None:
        self.number = number
        self.name, self.name_status = _text_and_status(f"sbas_provider_{number}")
        self.letter, self.letter_status = _text_and_status(f"reference_path_id_letter_{number}")


class PathIdPart:
    """One part of a reference path identifier, compared with what it should be.

    part:     "length", "provider", "runway" or "suffix"
    actual:   what stands there
    expected: what should, in a few words; "" if nobody knows
    holds:    True or False, None if it cannot be told
    status:   what the rule rests on
    """

    def __init__(self, part: str, actual: str, expected: str, holds: "bool | None", status: str) -> None:
        self.part = part
        self.actual = actual
        self.expected = expected
        self.holds = holds
        self.status = status


def _text_and_status(key: str) -> "tuple[str, str]":
    return (str(fact(key).value), fact(key).status) if key in FACTS else ("", "")


def providers() -> "list[Provider]":
    """All sixteen SBAS provider identifiers in order, the unassigned ones without a name."""
    return [Provider(number) for number in range(PROVIDERS)]


def provider_name(number: int) -> str:
    """Name of the SBAS provider with this identifier (0 to 15), "" if unassigned; else DomainError."""
    return _provider(number).name


def _provider(number: int) -> Provider:
    return Provider(int(in_range("SBAS provider", number, 0, PROVIDERS - 1)))


def is_sbas_channel(channel: int) -> bool:
    """Whether the number can be an SBAS channel, 40000 to 99999.  Source: UK CAA, SBAS channel allocation."""
    return value("sbas_channel_lowest") <= channel <= value("sbas_channel_highest") and channel == int(channel)


def path_id_parts(path_id: str, provider: int, runway_number: int) -> "list[PathIdPart]":
    """How an identifier such as W28A fits its provider (0 to 15) and runway (0 to 36), part by part.

    First the length; then, if it has its four characters, the provider's letter, the two digits of the
    runway, and the closing letter.  DomainError for another provider or runway.
    """
    letter = _provider(provider)
    runway = int(in_range("runway number", runway_number, 0, RUNWAYS))
    characters = fact("reference_path_id_characters")
    length = int(value("reference_path_id_characters"))
    parts = [PathIdPart("length", str(len(path_id)), str(length), len(path_id) == length, characters.status)]
    if len(path_id) == length:
        barred = fact("reference_path_id_barred_letters")
        known = path_id[0] == letter.letter if letter.letter else None
        digits = f"{runway:02d}"
        barred_letters = list(str(barred.value))
        suffix_holds = path_id[3] in CAPITALS and path_id[3] not in barred_letters
        suffixes = "a letter but " + ", ".join(barred_letters)
        parts += [
            PathIdPart("provider", path_id[0], letter.letter, known, letter.letter_status),
            PathIdPart("runway", path_id[1:3], digits, path_id[1:3] == digits, barred.status),
            PathIdPart("suffix", path_id[3], suffixes, suffix_holds, barred.status),
        ]
    return parts


def path_id_fits(path_id: str, provider: int, runway_number: int) -> bool:
    """Whether no part of the identifier contradicts its provider and runway (see `path_id_parts`)."""
    return all(part.holds is not False for part in path_id_parts(path_id, provider, runway_number))


def runway_number_of_course(course_magnetic_deg: float) -> int:
    """The runway number (1 to 36) nearest to a magnetic course, halfway upward: 5 gives 1, 0 gives 36.

    Common practice; the number painted may lag behind the drift of the variation.  Domain: -360 to 360 deg.
    """
    step_deg = value("runway_number_step_deg")
    in_range("magnetic course", course_magnetic_deg, -360, 360, "deg")
    number = int(degrees_360(course_magnetic_deg) / step_deg + 0.5)
    return number or RUNWAYS


def runway_course_difference_deg(course_magnetic_deg: float, number: int) -> float:
    """Magnetic course minus ten times the runway number (1 to 36), -180 < difference <= 180, in degrees.

    course_magnetic_deg: -360 to 360; DomainError outside
    """
    in_range("magnetic course", course_magnetic_deg, -360, 360, "deg")
    in_range("runway number", number, 1, RUNWAYS)
    return degrees_180(course_magnetic_deg - value("runway_number_step_deg") * number)
