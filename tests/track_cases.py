"""Recordings and entries for the form that reads them on the phone, and what CPython answers to them."""

import json
from pathlib import Path

from flight_files import files
from flight_files import flown as flight
from lpv.aircraft import record as aircraft
from lpv.approach import record as approach
from lpv.files.json_form import as_text, to_json
from lpv.track import form as track_own
from track_files import csv_of

DOCS = Path(__file__).resolve().parents[1] / "docs"
FLIGHTS = DOCS / "debrief" / "flights"
ENTRIES = {"altitude": "", "joined": "procedure", "temperature_c": "", "minimum_ft": "", "number": "",
           "altimeter_unit": "hPa", "setting": "", "level": "", "receiver": "GNSS", "limit_dots": "", "limit_fpm": ""}
# Recording, approach, type ("" for none), entries
DEMO = [
    ("stable.csv", "zzak-rnav-09", "light-jet", {"temperature_c": "5"}),
    ("stable.csv", "zzak-rnav-09", "", {}),
    ("stable.csv", "zzak-rnav-09", "large-jet", {"temperature_c": "-12.5", "minimum_ft": "500"}),
    ("stable.csv", "zzak-rnav-09", "light-jet", {"temperature_c": "5", "minimum_ft": "-1000"}),
    ("late.csv", "zzak-rnav-09", "light-jet", {"temperature_c": "15", "joined": "vectors"}),
    ("late.csv", "zzak-rnav-09", "large-jet", {"number": "1"}),
    ("cold.csv", "zzhc-rnav-33", "light-jet", {"temperature_c": "-30", "setting": "1002"}),
    ("cold.csv", "zzhc-rnav-33", "", {"setting": "29.59", "altimeter_unit": "inHg"}),
    ("patchy.gpx", "zzeg-rnp-24", "large-jet", {"temperature_c": "8", "altitude": "msl"}),
    ("patchy.gpx", "zzeg-rnp-24", "", {"altitude": "ellipsoid"}),
    ("patchy.gpx", "zzeg-rnp-24", "light-jet", {"altitude": "indicated", "temperature_c": "30"}),
]
SIMULATED = ("normal", "armed-far-outside", "armed-late", "intercept-too-steep", "vectors-tailwind", "cold-uncorrected",
             "path-from-above-not-captured", "vertical-lost-inside", "go-around-at-da")


def of_approach(record):
    return as_text(to_json(record))


def of_type(record):
    return as_text(to_json(record))


def entered(**values):
    return json.dumps(ENTRIES | values)


def asked(name, data, to, by=None, columns="", **values):
    """What the page hands to `lpv.track.form.begin`."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = ""
    head = " ".join(f"{byte:02x}" for byte in data[:8])
    return [of_approach(to), of_type(by) if by else "", entered(**values), columns, name, str(len(data)), head, text]


def judged_here(arguments):
    """What CPython answers."""
    answer = track_own.begin(*arguments)
    while answer.startswith("working\t"):
        answer = track_own.step()
    return answer


def demo():
    """(name, bytes, approach, type, entries) of the demo's recordings."""
    for name, to, by, values in DEMO:
        yield (name, (FLIGHTS / name).read_bytes(), approach.read(DOCS / "approaches" / f"{to}.toml"),
               aircraft.read(DOCS / "aircraft" / f"{by}.toml") if by else None, values)


def simulated():
    """The same of simulated flights, written as recorders write them."""
    for name in SIMULATED:
        of, to, by = files(name)
        values = {"temperature_c": f"{of.story.temperature_c:g}", "joined": of.story.activation}
        if of.story.minimum_ft is not None:
            values["minimum_ft"] = f"{of.story.minimum_ft:g}"
        yield f"{name}.csv", csv_of(flight(name).samples, to).encode(), to, by, values
