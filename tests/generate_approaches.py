"""Writes any number of plausible invented approaches, the same for the same seed: for benchmarks and scale tests.

    python tests/generate_approaches.py FOLDER COUNT [SEED]
"""

import random
import sys
from pathlib import Path

from demo import approaches as make_demo
from lpv.core import airac
from lpv.geodesy.magnetic import decimal_year, model_variation_deg
from lpv_site.briefing.briefing import IndexEntry

VOWELS, CONSONANTS = "AEIOU", "BCDFGLMNPRST"
SIGNS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
# Open ocean, south of every shipping lane's end: latitude and longitude ranges in degrees.
OCEAN = ((-55.0, -35.0), (-130.0, -95.0))


def fix_name(chance: random.Random) -> str:
    """Five letters that can be spoken."""
    letters = (CONSONANTS, VOWELS, CONSONANTS, VOWELS, CONSONANTS)
    return "".join(chance.choice(group) for group in letters)


def airport_name(number: int, begins: str = "ZZ") -> str:
    """The identifier of the airport of a number."""
    return begins + SIGNS[number // 36 % 36] + SIGNS[number % 36]


def index_entries(count: int, begins: str = "ZZ") -> dict[str, IndexEntry]:
    """Lines of the index for so many approaches, four to an airport: slug -> entry."""
    index = {}
    for number in range(count):
        airport, runway_name = airport_name(number // 4, begins), f"{number % 36 + 1:02}"
        index[f"{airport.lower()}-rnav-{number:05}"] = IndexEntry(
            airport, f"Invented Island {number // 4}", f"RNAV (GPS) RWY {runway_name}", "LPV", 40000 + number,
            f"W{runway_name}A", "2612",
        )
    return index


def runway(number: int, chance: random.Random) -> make_demo.Runway:
    """A runway on an invented island; four approaches share an airport."""
    airport = number // 4
    place = random.Random(airport)
    latitude, longitude = (place.uniform(*limits) for limits in OCEAN)
    elevation = round(place.uniform(5.0, 4000.0))
    true_deg = chance.uniform(0.0, 360.0)
    year = decimal_year(airac.cycle(make_demo.CYCLE.ident).effective)
    variation = round(model_variation_deg(latitude, longitude, elevation * 0.3048, year))
    magnetic = (true_deg - variation) % 360.0
    return make_demo.Runway(
        airport=airport_name(airport),
        airport_name=f"Invented Island {airport + 1}", airport_elevation_ft=elevation + 12,
        name=f"{round(magnetic / 10.0) % 36 or 36:02d}", latitude_deg=latitude + number % 4 * 0.01,
        longitude_deg=longitude, true_deg=true_deg, variation_deg=variation, variation_year=2025,
        length_ft=chance.choice((6500, 8000, 9500, 12000)), threshold_ft=elevation, tdze_ft=elevation + 2,
    )


def approach_text(number: int, seed: int) -> str:
    """The text of one approach file."""
    chance = random.Random(f"{seed} {number}")
    place = runway(number, chance)
    hat = chance.choice((200, 250, 300))
    pfaf = 100 * round((place.threshold_ft + chance.uniform(1600.0, 2600.0)) / 100.0)
    names: list[str] = []
    while len(names) < 5:
        name = fix_name(chance)
        names += [name] if name not in names else []
    procedure = make_demo.Procedure(
        runway=place, title=f"RNAV (GPS) RWY {place.name}", level="LPV", channel=40000 + number,
        path_id=f"W{place.name}{'ABDEFGH'[number % 7]}", provider=0, rule="FAA",
        gpa_deg=chance.choice((3.0, 3.0, 3.0, 3.2, 3.5)), tch=chance.choice((45.0, 50.0, 55.0)), tch_unit="ft",
        val_m=35.0 if hat < 250 else 50.0, width_m=106.75, fixes=tuple(names),
        altitudes_ft=(pfaf + 1000, pfaf + 500, pfaf, 0, pfaf + 1000), stepdown_nm=None,
    )
    tables = make_demo.approach(
        procedure,
        [make_demo.line("LPV", "ABCD", place.tdze_ft + hat, hat, visibility_sm=0.75),
         make_demo.line("LNAV", "ABCD", place.tdze_ft + 450, 450, visibility_sm=1.0)],
        chart={"notes": ["Invented for a scale test."]},
        missed={"text": f"Climb to {pfaf + 1000} direct {names[4]} and hold.", "altitude_ft": pfaf + 1000},
        lights={"name": "MALSR", "length_ft": 2400},
    )
    return make_demo.HEAD + make_demo.toml_text(make_demo.with_block(tables, make_demo.segment_of(procedure))).lstrip()


def write_approaches(folder: Path, count: int, seed: int) -> list[Path]:
    """Write `count` files into a folder and return their paths."""
    paths = []
    for number in range(count):
        paths.append(folder / f"zz-scale-{number:05d}.toml")
        paths[-1].write_text(approach_text(number, seed), "utf-8")
    return paths


if __name__ == "__main__":
    target, how_many, *rest = sys.argv[1:]
    Path(target).mkdir(parents=True, exist_ok=True)
    print(len(write_approaches(Path(target), int(how_many), int(rest[0]) if rest else 1)))
