"""Looking things up among the records of one airport, and remembering which records an approach was made from."""

import hashlib
import re

from lpv.arinc.columns import RUNWAY, WAYPOINT, angle_deg, columns_of
from lpv.arinc.legs import Leg
from lpv.arinc.reader import AirportRecords, Record, Source
from lpv.core.errors import DataError, Fault
from lpv.fas.path_point_columns import Column

PRIMARY = ("0", "1")
PLACES = {"PA": slice(6, 10), "PC": slice(13, 18), "PF": slice(13, 19), "PG": slice(13, 18), "PN": slice(13, 18),
          "PP": slice(13, 19), "PS": slice(13, 18)}
FILE_NUMBER = slice(123, 128)  # counts the lines of one file: another one every cycle, for the same record
NEAR_YEARS = 10  # a record's year this little after the file's is a later one; more is a year of the century before


class Lookup:
    """The records of one airport, by kind and name.

    used:   those that were asked for
    placed: positions that were asked for of fixes beyond the airport, by name; "" for one that is not in the file
    """

    def __init__(self, airport: AirportRecords, source: Source) -> None:
        self.airport = airport
        self.source = source
        self.used: dict[int, Record] = {}
        self.placed: dict[str, str] = {}

    def named(self, kind: str, name: str) -> list[Record]:
        """The records of a kind ("PF") whose columns spell a name."""
        columns = PLACES[kind]
        found = [record for record in self.airport.records[kind] if record.text[columns].rstrip() == name]
        self.used |= {record.number: record for record in found}
        return found

    def one(self, kind: str, name: str, columns: tuple[Column, ...]) -> dict[str, str]:
        """The texts of the one primary record of this name; {} if there is none.

        DataError for several, and with every fault of its columns.
        """
        records = [record for record in self.named(kind, name) if record.text[21:22] in PRIMARY]
        if not records:
            return {}
        if len(records) > 1:
            raise self.refused(f"{len(records)} records of {name}", "one", f"line {records[1].number}")
        texts, faults = columns_of(records[0].text, columns, self.source.name, f"line {records[0].number}")
        if faults:
            raise DataError(faults)
        return texts

    def needed(self, kind: str, name: str, columns: tuple[Column, ...], *keys: str) -> dict[str, str]:
        """The same; DataError also where there is none or one of the columns is blank."""
        texts = self.one(kind, name, columns)
        missing = [key for key in keys if not texts.get(key)]
        if missing:
            raise self.refused(f"no {', '.join(missing)} of {name}", "a complete record")
        return texts

    def refused(self, found: str, allowed: str, where: str = "") -> DataError:
        """What is raised for want of something that an approach file needs."""
        return DataError([Fault(self.source.name, where, found, allowed, "Write this approach by hand.")])

    def position(self, leg: Leg) -> tuple[float, float] | None:
        """Where a leg's fix is, in degrees; None if the file does not say; DataError for a record with faults."""
        section = leg.fix_section.strip()
        if section in ("PC", "PN", "PG"):
            texts = self.one(section, leg.fix, RUNWAY if section == "PG" else WAYPOINT)
            return (angle_deg(texts["latitude"]), angle_deg(texts["longitude"])) if texts else None
        where = self.placed[leg.position_key] = self.source.positions.get(leg.position_key, "")
        if not re.fullmatch(r"[NS]\d{8}[EW]\d{9}", where, re.ASCII):
            return None
        return angle_deg(where[:9]), angle_deg(where[9:])

    def later_than(self, cycle: str) -> list[Fault]:
        """A fault for each record used that was changed after the file's cycle: two cycles are mixed."""
        later = [record for record in self.used.values()
                 if record.text[128:132] > cycle and int(record.text[128:130]) - int(cycle[:2]) < NEAR_YEARS]
        return [
            Fault(self.source.name, f"line {record.number}", f"a record changed in cycle {record.text[128:132]}",
                  f"at most {cycle}, the cycle of the file", "Cycles are mixed: get the file again.")
            for record in later
        ]

    def hash(self, gaps: int) -> str:
        """A hash of what an approach was made from, whatever its order and place in the file.

        It is that of the records without their running number in the file, of the positions from elsewhere in the
        file, and of how many gaps the numbers have.
        """
        texts = [record.text[: FILE_NUMBER.start] + record.text[FILE_NUMBER.stop :] for record in self.used.values()]
        placed = [f"{key} {where}" for key, where in self.placed.items()]
        text = "\n".join([*sorted(texts), *sorted(placed), f"{gaps}"])
        return hashlib.sha256(text.encode()).hexdigest()
