"""Looking things up among the records of one airport, and remembering which records an approach was made from."""

import hashlib
from collections import Counter

from lpv.arinc import codes, lines
from lpv.arinc.columns import Layout, angle_deg
from lpv.arinc.layouts import AIRPORT, LOCALIZER, NDB, RUNWAY, WAYPOINT
from lpv.arinc.lines import AirportRecords, Record
from lpv.arinc.positions import WORDS, Place, Reference, taken_from
from lpv.arinc.reader import Source
from lpv.core.errors import DataError, Fault

PRIMARY = ("0", "1")
ANNOUNCES = "1"
PLACES = {"PA": slice(6, 10), "PC": slice(13, 18), "PF": slice(13, 19), "PG": slice(13, 18), "PI": slice(13, 17),
          "PK": slice(13, 19), "PN": slice(13, 18), "PP": slice(13, 19), "PS": slice(13, 18)}
LAYOUTS = {"PA": AIRPORT, "PC": WAYPOINT, "PG": RUNWAY, "PI": LOCALIZER, "PN": NDB}
USED_TO_FIND = {"PA": ("latitude", "longitude")}
REGIONS = {"PC": slice(19, 21), "PN": slice(19, 21)}
FILE_NUMBER = slice(123, 128)  # counts the lines of one file: another one every cycle, for the same record
NEAR_YEARS = 10  # a record's year this little after the file's is a later one; more is a year of the century before


class Lookup:
    """The records of one airport, by kind and name.

    used:    those that were asked for
    placed:  positions that were asked for of fixes beyond the airport, by name; "" for one that is not known
    remarks: what was done to find places that the records do not name exactly
    left_over: (columns that are not read and not blank, what they hold) -> in how many records
    """

    def __init__(self, airport: AirportRecords, source: Source) -> None:
        self.airport = airport
        self.source = source
        self.used: dict[int, Record] = {}
        self.placed: dict[str, str] = {}
        self.remarks: dict[str, None] = {}
        self.left_over: Counter[tuple[str, str]] = Counter()
        self._known: dict[tuple[str, str, str], dict[str, str]] = {}
        self._noted: set[int] = set()
        self._near: tuple[float, float] | None = None

    def named(self, kind: str, name: str) -> list[Record]:
        """The records of a kind ("PF") whose columns spell a name; a customer's own in place of the standard ones."""
        columns = PLACES[kind]
        matching = [record for record in self.airport.records[kind] if record.text[columns].rstrip() == name]
        tailored = [record for record in matching if record.text[:1] == lines.TAILORED]
        matching = tailored or matching
        self.used |= {record.number: record for record in matching}
        return matching

    def single(self, kind: str, name: str, layout: Layout, region: str = "") -> dict[str, str]:
        """The texts of the one primary record of this name; {} if there is none.

        region: of which region it is, where several are of one name
        DataError for several, and with every fault of its columns.
        """
        if (kind, name, region) not in self._known:
            self._known[kind, name, region] = self._read(kind, name, layout, region)
        return self._known[kind, name, region]

    def _read(self, kind: str, name: str, layout: Layout, region: str) -> dict[str, str]:
        matching = self.named(kind, name)
        records = [record for record in matching if record.text[21:22] in PRIMARY]
        more = [record.text[21:22] for record in matching if record not in records]
        self.left_over.update((f"{layout.name}, continuation records", number) for number in more)
        if any(record.text[21] == ANNOUNCES for record in records) and not more:
            self.remark(f"{layout.name} {name}: announces a continuation record that is missing")
        if len(records) > 1 and region and kind in REGIONS:
            records = [record for record in records if record.text[REGIONS[kind]] == region] or records
        if not records:
            return {}
        if len(records) > 1:
            raise self.refused(f"{len(records)} records of {name}", "one", f"line {records[1].number}")
        texts, faults = layout.texts(records[0].text, self.source.name, f"line {records[0].number}")
        if faults:
            raise DataError(faults)
        if records[0].number not in self._noted:
            self._noted.add(records[0].number)
            self.leave(layout, records[0].text, *USED_TO_FIND.get(kind, ()))
        if texts.get("datum", "") not in codes.DATUMS:
            self.remark(f"{name}: datum {texts['datum']} differs from the segment's; position kept as coded")
        return texts

    def remark(self, words: str) -> None:
        """Notes what a reader of the file should know, once; nothing for ""."""
        self.remarks |= dict.fromkeys(filter(None, (words,)))

    def leave(self, layout: Layout, line: str, *used_to_find: str) -> None:
        """Notes the columns of a record that no file holds: those that are not read, and those named."""
        self.left_over.update((f"{layout.name}, {column.place()}", text.strip()) for column, text in (
            *layout.left_over(line), *((c, c.text(line)) for c in layout.columns if c.name in used_to_find)))

    def needed(self, kind: str, name: str, layout: Layout, *keys: str) -> dict[str, str]:
        """The same; DataError also where there is none or one of the columns is blank."""
        texts = self.single(kind, name, layout)
        missing = [key for key in keys if not texts.get(key)]
        if missing:
            raise self.refused(f"no {', '.join(missing)} of {name}", "a complete record")
        return texts

    def refused(self, actual: str, allowed: str, where: str = "") -> DataError:
        """What is raised for want of something that an approach file needs."""
        return DataError([Fault(self.source.name, where, actual, allowed, "Write this approach by hand.")])

    @property
    def near(self) -> tuple[float, float]:
        """Where the airport is, in degrees; DataError without its record."""
        if self._near is None:
            texts = self.needed("PA", self.airport.ident, AIRPORT, "latitude", "longitude")
            self._near = angle_deg(texts["latitude"]), angle_deg(texts["longitude"])
        return self._near

    def place(self, reference: Reference) -> Place | str:
        """Where something is that a record names, or in words why that is not known; DataError for faulty records."""
        kind = reference.section.strip()
        if kind in LAYOUTS and (texts := self.single(kind, reference.ident, LAYOUTS[kind], reference.region)):
            airport_region = texts.get("fix_region", texts["region"])
            if airport_region != reference.region:
                self.remark(taken_from(reference.ident, reference.region, airport_region, self.airport.ident))
            return Place(angle_deg(texts["latitude"]), angle_deg(texts["longitude"]), self.airport.ident)
        place = self.source.positions.find(reference, self.near)
        key = f"{reference.section:2}{reference.region:2}{reference.ident}"
        is_new = key not in self.placed
        self.placed[key] = "" if isinstance(place, str) else f"{place.latitude_deg:.7f} {place.longitude_deg:.7f}"
        if isinstance(place, str):
            return place
        if is_new:
            record_kind = WORDS.get(f"{reference.section:2}", f"record of section {reference.section}")
            self.left_over[f"{record_kind}, all but its position", reference.ident] += 1
        self.remark(place.remark)
        return place

    def later_than(self, cycle: str) -> list[Fault]:
        """A fault for each record used that was changed after the file's cycle: two cycles are mixed."""
        later = [record for record in self.used.values()
                 if record.text[128:132].isdecimal() and record.text[128:132] > cycle
                 and int(record.text[128:130]) - int(cycle[:2]) < NEAR_YEARS]
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
