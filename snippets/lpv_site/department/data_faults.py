"""Every fault of the data files but the approaches, found by reading them: before any page is made from them."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

from lpv.aircraft import record as aircraft
from lpv.approach import record as approach
from lpv.core.errors import Fault, with_folder
from lpv.drill import drills
from lpv.files.toml_reader import Reading
from lpv.plan import operator, sheet
from lpv.setup import file as setup
from lpv.simulate import scenario
from lpv.teach import lesson
from lpv.track import flight_file

READERS: dict[str, Callable[[Path], Any]] = {
    "aircraft": aircraft.read, "plan": sheet.read, "plan/operators": operator.read, "set-up": setup.read,
    "modes/scenarios": scenario.read, "debrief/flights": flight_file.read, "practice": drills.read,
    "teach": lesson.read,
}


def data_faults(docs: Path) -> list[Fault]:
    """The faults of every file of these kinds, named with their folders."""
    return [fault for kind, read in READERS.items() for fault in with_folder(kind, _faults(docs / kind, read))]


def previous_faults(docs: Path) -> list[Fault]:
    """Those of the approaches of the cycle before, which may be thousands."""
    place = "approaches/previous"
    return with_folder(place, _faults(docs / place, approach.read))


def _faults(folder: Path, read: Callable[[Path], Any]) -> list[Fault]:
    reading = Reading()
    for path in sorted(folder.glob("*.toml")):
        reading.read(read, path)
    return reading.faults
