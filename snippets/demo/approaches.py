"""Makes the invented demo approaches: three airports in open water, five approaches, one draft with errors.

    python -m demo.approaches

writes docs/approaches/*.toml, and there drafts/*.toml and previous/*.toml.  Segments are encoded, positions
computed and courses and distances rounded as charts round them, by the project itself; a test compares the committed
files with what this script gives.  Nothing here is a real place, procedure or channel.
"""

import math
from collections.abc import Mapping, Sequence
from copy import deepcopy
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any

from lpv.core import airac
from lpv.core.course import magnetic_deg
from lpv.core.text import latitude, longitude
from lpv.core.units import FT_PER_NM, M_PER_FT, degrees_360
from lpv.crosscheck.runway import length_offset_m
from lpv.fas.block import FinalApproachSegment, encode, remainder_hex
from lpv.fas.layout import LAYOUT, STEPS_PER_DEG
from lpv.fas.path_point import PathPoint, write
from lpv.files.toml_writer import toml_text
from lpv.geodesy import earth
from lpv.geodesy.geoid import geoid_height_m
from lpv.path.profile import barometric_path_distance_nm, straight_path_distance_nm

FOLDER = Path(__file__).parents[2] / "docs" / "approaches"
CYCLE = airac.cycle("2612")
Table = dict[str, Any]  # a table of a TOML file


@dataclass(frozen=True)
class Runway:
    """The landing direction that an approach leads to; positions of the threshold in degrees."""

    airport: str
    airport_name: str
    airport_elevation_ft: float
    name: str
    latitude_deg: float
    longitude_deg: float
    true_deg: float
    variation_deg: float
    variation_year: int
    length_ft: float
    threshold_ft: float
    tdze_ft: float
    displaced_ft: float = 0.0


@dataclass(frozen=True)
class Procedure:
    """What the designer of an approach decides; the rest follows."""

    runway: Runway
    title: str
    level: str
    channel: int
    path_id: str
    provider: int
    rule: str
    gpa_deg: float
    tch: float
    tch_unit: str
    val_m: float
    width_m: float
    fixes: tuple[str, str, str, str, str]
    altitudes_ft: tuple[float, float, float, float, float]
    stepdown_nm: float | None
    straight: bool = False


def on_grid(angle_deg: float) -> float:
    """The angle on the data block's grid of 0.0005 arc second."""
    return round(angle_deg * STEPS_PER_DEG) / STEPS_PER_DEG


def title_letter(title: str) -> str:
    """The letter that tells this procedure from others to the same runway, "" if the title has none."""
    word = title.rpartition(" RWY")[0].rpartition(" ")[2]
    return word if len(word) == 1 else ""


def segment_of(procedure: Procedure) -> FinalApproachSegment:
    """The final approach segment: FPAP at the runway's end or 9023 ft from the threshold, whichever is farther."""
    runway = procedure.runway
    ahead_ft = runway.length_ft - runway.displaced_ft
    fpap_ft = max(ahead_ft, 9023.0)
    latitude, longitude = on_grid(runway.latitude_deg), on_grid(runway.longitude_deg)
    fpap = earth.destination(latitude, longitude, runway.true_deg, fpap_ft / FT_PER_NM)
    return FinalApproachSegment(
        operation_type=0, sbas_provider=procedure.provider, airport=runway.airport,
        runway_number=int(runway.name[:2]), runway_letter=runway.name[2:], performance_designator=0,
        route_indicator=title_letter(procedure.title), reference_path_data_selector=0,
        reference_path_id=procedure.path_id,
        ltp_latitude_deg=latitude, ltp_longitude_deg=longitude,
        ltp_height_m=round(runway.threshold_ft * M_PER_FT + geoid_height_m(latitude, longitude), 1),
        delta_fpap_latitude_deg=on_grid(fpap.latitude_deg - latitude),
        delta_fpap_longitude_deg=on_grid(fpap.longitude_deg - longitude),
        tch=procedure.tch, tch_unit=procedure.tch_unit, gpa_deg=procedure.gpa_deg,
        course_width_m=procedure.width_m, length_offset_m=8.0 * round(length_offset_m(fpap_ft, ahead_ft) / 8.0),
        hal_m=40.0, val_m=procedure.val_m,
    )


def fixes_of(procedure: Procedure, segment: FinalApproachSegment) -> list[Table]:
    """IAF, IF, PFAF, step-down, threshold and missed approach hold, with courses and distances as printed."""
    runway, (iaf, if_, pfaf, stepdown, hold) = procedure.runway, procedure.fixes
    altitudes = procedure.altitudes_ft
    reach = straight_path_distance_nm if procedure.straight else barometric_path_distance_nm
    pfaf_nm = reach(altitudes[2], runway.threshold_ft, segment.tch_ft, procedure.gpa_deg)
    back = degrees_360(runway.true_deg + 180.0)
    threshold = segment.ltp_latitude_deg, segment.ltp_longitude_deg
    at = {
        if_: earth.destination(*threshold, back, pfaf_nm + 5.5),
        pfaf: earth.destination(*threshold, back, pfaf_nm),
        f"RW{runway.name}": earth.Position(*threshold),
        hold: earth.destination(*threshold, runway.true_deg, 9.0),
    }
    at[iaf] = earth.destination(*at[if_], degrees_360(runway.true_deg - 90.0), 6.0)
    rows: list[tuple[str, str, float | None]] = [
        (iaf, "IAF", altitudes[0]), (if_, "IF", altitudes[1]), (pfaf, "PFAF", altitudes[2]),
    ]
    if procedure.stepdown_nm is not None:
        at[stepdown] = earth.destination(*threshold, back, procedure.stepdown_nm)
        rows.append((stepdown, "step-down", altitudes[3]))
    rows += [(f"RW{runway.name}", "MAP", None), (hold, "missed hold", altitudes[4])]
    return chained(rows, at, runway.variation_deg)


def chained(
    rows: Sequence[tuple[str, str, float | None]], at: Mapping[str, earth.Position], variation_deg: float,
) -> list[Table]:
    """The fixes as tables of the file, each with the leg that leads to it."""
    tables: list[Table] = []
    before = None
    for name, role, altitude_ft in rows:
        place = at[name]
        row: Table = {"name": name, "role": role, "latitude": latitude(place.latitude_deg, 0.01),
               "longitude": longitude(place.longitude_deg, 0.01)}
        if altitude_ft is not None:
            row |= {"altitude_ft": altitude_ft, "altitude_rule": "at" if role == "missed hold" else "at or above"}
        if before:
            leg = earth.inverse(*at[before], *place)
            course = magnetic_deg(leg.course_deg, variation_deg)
            row |= {"leg_course_deg": math.floor(course + 0.5), "leg_distance_nm": round(leg.distance_nm, 1)}
        tables.append(row)
        before = name
    return tables


def approach(
    procedure: Procedure, minima: list[Table], *, chart: Table, missed: Table, lights: Table | None = None,
) -> Table:
    """One approach file as nested tables, the database not yet in it."""
    runway, segment = procedure.runway, segment_of(procedure)
    course_deg = math.floor(magnetic_deg(runway.true_deg, runway.variation_deg) + 0.5)
    printed = {
        "course_deg": course_deg, "course_reference": "magnetic", "variation_deg": runway.variation_deg,
        "variation_year": runway.variation_year,
    }
    if procedure.level == "LPV":
        printed |= {"glidepath_deg": procedure.gpa_deg, "tch_ft": math.floor(segment.tch_ft + 0.5)}
    printed |= {
        "threshold_elevation_ft": runway.threshold_ft, "tdze_ft": runway.tdze_ft,
        "airport_elevation_ft": runway.airport_elevation_ft, "runway_length_ft": runway.length_ft,
    }
    if runway.displaced_ft:
        printed["displaced_threshold_ft"] = runway.displaced_ft
    printed |= chart | {"missed": missed} | ({"lights": lights} if lights else {})
    fixes = fixes_of(procedure, segment)
    printed |= {"fix": [charted(row) for row in fixes], "minima": minima, "msa": safe_altitudes(runway)}
    identity = {
        "airport": runway.airport, "airport_name": runway.airport_name, "runway": runway.name,
        "title": procedure.title, "level_of_service": procedure.level, "channel": procedure.channel,
        "path_id": procedure.path_id, "cycle": CYCLE.ident, "rule": procedure.rule, "invented": True,
    }
    return {"identity": identity, "chart": printed, "runway": surveyed(runway, segment),
            "database": database(procedure, printed, fixes)}


def safe_altitudes(runway: Runway) -> list[Table]:
    """One minimum safe altitude all round: 1000 ft above the airport, up to the next hundred."""
    return [{"centre": f"RW{runway.name}", "from_deg": 180, "to_deg": 180,
             "altitude_ft": 100 * math.ceil(runway.airport_elevation_ft / 100.0) + 1000, "radius_nm": 25}]


def surveyed(runway: Runway, segment: FinalApproachSegment) -> Table:
    """The runway as its airport's data give it."""
    return {
        "threshold_latitude_deg": latitude(segment.ltp_latitude_deg, 0.01),
        "threshold_longitude_deg": longitude(segment.ltp_longitude_deg, 0.01),
        "bearing_true_deg": runway.true_deg, "length_ft": runway.length_ft,
        "displaced_threshold_ft": runway.displaced_ft, "threshold_elevation_ft": runway.threshold_ft,
        "source": "the airport's runway data, invented",
    }


def database(procedure: Procedure, printed: Table, fixes: list[Table]) -> Table:
    """What the aircraft shows: the chart's own numbers, and the cycle dates."""
    return {
        "channel": procedure.channel, "path_id": procedure.path_id, "course_deg": printed["course_deg"],
        "cycle": CYCLE.ident, "effective": date.fromisoformat(airac.iso(CYCLE.effective)),
        "expires": date.fromisoformat(airac.iso(CYCLE.expiry)),
        "lines": [row["line"] for row in printed["minima"] if row["line"] != "circling"],
        "fix": [shown(row) for row in fixes],
    }


def charted(row: Table) -> Table:
    """A fix as the chart prints it: no course or length of a leg that leads direct to the hold."""
    direct = ("leg_course_deg", "leg_distance_nm") if row["role"] == "missed hold" else ()
    return {key: value for key, value in row.items() if key not in direct}


def shown(row: Table) -> Table:
    """A fix as the aircraft lists it."""
    names = {"name": "name", "leg_course_deg": "course_deg", "leg_distance_nm": "distance_nm",
             "altitude_ft": "altitude_ft", "altitude_rule": "altitude_rule"}
    return {key: row[name] for name, key in names.items() if name in row}


def grouped_hex(block: bytes) -> str:
    """The block in hex, four bytes to a group."""
    return " ".join(block[at : at + 4].hex().upper() for at in range(0, len(block), 4))


def with_block(tables: Table, segment: FinalApproachSegment) -> Table:
    return tables | {"database": {"block": grouped_hex(encode(segment))} | tables["database"]}


def with_fields(tables: Table, segment: FinalApproachSegment) -> Table:
    fields = {row.name: getattr(segment, row.name) for row in LAYOUT}
    fields["ltp_latitude_deg"] = latitude(segment.ltp_latitude_deg, 0.0001)
    fields["ltp_longitude_deg"] = longitude(segment.ltp_longitude_deg, 0.0001)
    for name in ("delta_fpap_latitude_deg", "delta_fpap_longitude_deg"):
        fields[name] = round(fields[name], 9)
    return tables | {"database": tables["database"] | {"segment": fields}}


def with_path_point(tables: Table, segment: FinalApproachSegment, procedure: Procedure) -> Table:
    runway = procedure.runway
    record = PathPoint(
        segment=segment, airport=runway.airport, icao_region="ZZ", approach=f"R{runway.name}",
        runway=f"RW{runway.name}", level_of_service=procedure.level, sbas_channel=procedure.channel,
        printed_remainder=remainder_hex(encode(segment)), fpap_orthometric_height_m=None,
        ltp_orthometric_height_m=round(runway.threshold_ft * M_PER_FT, 1), cycle=CYCLE.ident, line_number=1,
        continuation_cycle=CYCLE.ident, area="ZZZ", record_number="00001", continuation_record_number="00002",
    )
    lines = write(record).splitlines()
    return tables | {"database": {"path_point": lines} | tables["database"]}


# The three airports. Positions: open ocean, hundreds of miles from land.

BANK = Runway(
    airport="ZZAK", airport_name="Kittiwake Bank", airport_elevation_ft=31, name="09",
    latitude_deg=34.0211, longitude_deg=-148.0405, true_deg=103.6, variation_deg=12, variation_year=2025,
    length_ft=10000, threshold_ft=22, tdze_ft=24,
)
BANK_27 = replace(
    BANK, name="27", latitude_deg=34.0146, longitude_deg=-148.0084, true_deg=283.6, threshold_ft=28, tdze_ft=31,
)
BANK_16 = replace(
    BANK, name="16", latitude_deg=34.0287, longitude_deg=-148.0312, true_deg=170.8, length_ft=5900,
    displaced_ft=600, threshold_ft=19, tdze_ft=21,
)
FELL = Runway(
    airport="ZZHC", airport_name="High Fell", airport_elevation_ft=6498, name="33",
    latitude_deg=50.0124, longitude_deg=-144.9861, true_deg=348.2, variation_deg=17, variation_year=1995,
    length_ft=11500, threshold_ft=6460, tdze_ft=6475,
)
SHOAL = Runway(
    airport="ZZEG", airport_name="Halfway Shoal", airport_elevation_ft=161, name="24",
    latitude_deg=45.0071, longitude_deg=-29.9812, true_deg=231.9, variation_deg=-9, variation_year=2025,
    length_ft=7874, threshold_ft=148, tdze_ft=150,
)


def line(name: str, categories: str, altitude_ft: float, hat_ft: float, **visibility: object) -> Table:
    """One line of minima."""
    kind = "DA" if name in ("LPV", "LNAV/VNAV") else "MDA"
    return {"line": name, "kind": kind, "categories": categories, "altitude_ft": altitude_ft, "hat_ft": hat_ft,
            **visibility}


PLAIN = Procedure(
    runway=BANK, title="RNAV (GPS) RWY 09", level="LPV", channel=99901, path_id="W09A", provider=0, rule="FAA",
    gpa_deg=3.0, tch=52.0, tch_unit="ft", val_m=35.0, width_m=106.75,
    fixes=("BRYNA", "SWELO", "GULLY", "FOMEY", "KELPO"), altitudes_ft=(3000, 2500, 2000, 800, 3000), stepdown_nm=2.4,
)
COLD = Procedure(
    runway=FELL, title="RNAV (GPS) RWY 33", level="LPV", channel=99902, path_id="W33A", provider=0, rule="FAA",
    gpa_deg=3.5, tch=55.0, tch_unit="ft", val_m=50.0, width_m=106.75,
    fixes=("RIMEA", "FROZT", "GLAZO", "ICYLE", "SNOEY"), altitudes_ft=(10200, 9400, 8700, 7300, 10000),
    stepdown_nm=2.3,
)
LATERAL = Procedure(
    runway=BANK_27, title="RNAV (GPS) RWY 27", level="LP", channel=99903, path_id="W27A", provider=0, rule="FAA",
    gpa_deg=3.0, tch=50.0, tch_unit="ft", val_m=0.0, width_m=106.75,
    fixes=("TERNA", "PUFIN", "SKUAH", "PETRO", "MOLEE"), altitudes_ft=(3000, 2500, 2000, 860, 3000), stepdown_nm=2.5,
)
DISPLACED = Procedure(
    runway=BANK_16, title="RNAV (GPS) RWY 16", level="LPV", channel=99904, path_id="W16A", provider=0, rule="FAA",
    gpa_deg=3.0, tch=45.0, tch_unit="ft", val_m=50.0, width_m=106.75,
    fixes=("CORLA", "LIMPO", "WINKL", "", "DULSE"), altitudes_ft=(3000, 2500, 1700, 0, 3000), stepdown_nm=None,
)
EUROPEAN = Procedure(
    runway=SHOAL, title="RNP RWY 24", level="LPV", channel=99905, path_id="E24A", provider=1, rule="EASA",
    gpa_deg=3.0, tch=15.25, tch_unit="m", val_m=50.0, width_m=105.0,
    fixes=("MERLU", "SOLMA", "TURBO", "", "BRILO"), altitudes_ft=(4000, 3000, 2500, 0, 4000), stepdown_nm=None,
    straight=True,
)


def demo() -> dict[str, Table]:
    """File name -> nested tables, for the five approaches."""
    return {
        "zzak-rnav-09": with_block(approach(
            PLAIN,
            [line("LPV", "ABCD", 224, 200, rvr_ft=2400), line("LNAV/VNAV", "ABCD", 374, 350, visibility_sm=1.0),
             line("LNAV", "ABCD", 480, 456, visibility_sm=1.0),
             line("circling", "ABC", 540, 509, visibility_sm=1.75),
             line("circling", "D", 600, 569, visibility_sm=2.0)],
            chart={"vnav_lowest_c": -15, "vnav_highest_c": 54,
                   "notes": ["Lights of runway 16 on request."]},
            missed={"text": "Climb to 3000 direct KELPO and hold.", "altitude_ft": 3000},
            lights={"name": "MALSR", "length_ft": 2400},
        ), segment_of(PLAIN)),
        "zzhc-rnav-33": with_path_point(approach(
            COLD,
            [line("LPV", "ABC", 6775, 300, visibility_sm=0.75),
             line("LNAV/VNAV", "ABC", 6901, 426, visibility_sm=1.25),
             line("LNAV", "ABC", 7020, 545, visibility_sm=1.5), line("circling", "ABC", 7200, 702, visibility_sm=2.0)],
            chart={"vnav_lowest_c": -23, "vnav_highest_c": 38, "cold_temperature_airport_c": -14,
                   "notes": ["Procedure not authorized for category D."]},
            missed={"text": "Climb to 10000 direct SNOEY and hold.", "altitude_ft": 10000,
                    "climb_gradient_ft_per_nm": 260},
            lights={"name": "MALSR", "length_ft": 2400},
        ), segment_of(COLD), COLD),
        "zzak-rnav-27": with_fields(approach(
            LATERAL,
            [line("LP", "ABCD", 420, 389, visibility_sm=1.0), line("LNAV", "ABCD", 480, 449, visibility_sm=1.25),
             line("circling", "ABC", 540, 509, visibility_sm=1.75),
             line("circling", "D", 600, 569, visibility_sm=2.0)],
            chart={"notes": ["Straight-in minima at night not authorized."]},
            missed={"text": "Climb to 3000 direct MOLEE and hold.", "altitude_ft": 3000},
        ), segment_of(LATERAL)),
        "zzak-rnav-16": with_block(approach(
            DISPLACED,
            [line("LPV", "ABC", 321, 300, visibility_sm=1.0), line("LNAV", "ABC", 480, 459, visibility_sm=1.25)],
            chart={"notes": ["Threshold displaced 600 ft."]},
            missed={"text": "Climb to 3000 direct DULSE and hold.", "altitude_ft": 3000},
        ), segment_of(DISPLACED)),
        "zzeg-rnp-24": with_block(approach(
            EUROPEAN,
            [line("LPV", "ABCD", 398, 250, rvr_m=600), line("LNAV/VNAV", "ABCD", 498, 350, rvr_m=1000),
             line("LNAV", "ABCD", 560, 412, rvr_m=1500)],
            chart={"vnav_lowest_c": -10, "notes": ["Heights of minima count from the threshold."]},
            missed={"text": "Climb to 4000 direct BRILO and hold.", "altitude_ft": 4000},
            lights={"name": "full approach lights", "length_ft": 2953},
        ), segment_of(EUROPEAN)),
    }


def draft() -> dict[str, Table]:
    """The plain approach as a careless draft: chart and database disagree in eleven ways."""
    tables = deepcopy(demo()["zzak-rnav-09"])
    identity, chart, coded = tables["identity"], tables["chart"], tables["database"]
    damaged = bytearray(encode(replace(segment_of(PLAIN), val_m=50.0)))  # a limit too loose for 200 ft
    damaged[13] ^= 0x01  # one bit of the threshold's latitude
    coded["block"] = grouped_hex(bytes(damaged))
    identity["channel"] = 99911  # a digit wrong
    identity["runway"], identity["title"] = "09L", "RNAV (GPS) RWY 09L"  # a letter that the segment lacks
    chart["course_deg"] = math.floor(BANK.true_deg + BANK.variation_deg + 0.5)  # easterly variation added
    chart["tch_ft"] = 55
    chart["minima"][0]["altitude_ft"] = 234  # touchdown zone and height give 224
    chart["fix"][2]["leg_distance_nm"] = 5.9
    coded["fix"][3]["altitude_ft"] = 780  # charted 800
    coded["fix"][1]["altitude_ft"] = 2400  # charted 2500
    coded["course_deg"] = 94
    coded["cycle"], coded["effective"] = "2610", date.fromisoformat(airac.iso(airac.effective_ordinal("2610")))
    coded["expires"] = date.fromisoformat(airac.iso(airac.expiry_ordinal("2610")))
    return {"zzak-rnav-09-draft": tables}


def previous() -> dict[str, Table]:
    """Four approaches as they were one cycle before, and one that is gone since."""
    now = demo()
    now["zzak-rnav-09"] = lower_missed(now["zzak-rnav-09"])
    other = replace(DISPLACED, title="RNAV (GPS) Y RWY 16", channel=99906, path_id="W16B")
    minima, notes, missed = (now["zzak-rnav-16"]["chart"][key] for key in ("minima", "notes", "missed"))
    gone = with_block(approach(other, minima, chart={"notes": notes}, missed=missed), segment_of(other))
    now["zzak-rnav-27"]["identity"]["channel"] = now["zzak-rnav-27"]["database"]["channel"] = 99913
    kept = {slug: now[slug] for slug in ("zzak-rnav-09", "zzak-rnav-16", "zzak-rnav-27", "zzhc-rnav-33")}
    return {slug: one_cycle_earlier(tables) for slug, tables in (kept | {"zzak-rnav-y-16": gone}).items()}


def lower_missed(tables: Table) -> Table:
    """The plain approach with another crossing height, minimum, step-down and missed approach."""
    chart, coded = tables["chart"], tables["database"]
    coded["block"] = grouped_hex(encode(replace(segment_of(PLAIN), tch=50.0)))
    chart["tch_ft"], chart["notes"] = 50, ["Lights of runway 16 out of service."]
    chart["missed"] = {"text": "Climb to 2500 direct KELPO and hold.", "altitude_ft": 2500}
    chart["minima"][0] = line("LPV", "ABCD", 264, 240, rvr_ft=4000)
    chart["fix"][3]["altitude_ft"] = coded["fix"][3]["altitude_ft"] = 780
    chart["fix"][5]["altitude_ft"] = coded["fix"][5]["altitude_ft"] = 2500
    return tables


def one_cycle_earlier(tables: Table) -> Table:
    """The same with the cycle before the demo's, in the dates and in a path point record too."""
    cycle, coded = airac.cycle(airac.cycle_ident(CYCLE.effective - 1)), tables["database"]
    tables["identity"]["cycle"] = coded["cycle"] = cycle.ident
    coded["effective"], coded["expires"] = date.fromordinal(cycle.effective), date.fromordinal(cycle.expiry)
    if "path_point" in coded:
        coded["path_point"] = [line.removesuffix(CYCLE.ident) + cycle.ident for line in coded["path_point"]]
    return tables


HEAD = "# Invented for the demo: no real place, procedure or channel. Made by snippets/demo/approaches.py.\n\n"
PREVIOUS_HEAD = "# Invented for the demo: the set of the cycle before. Made by snippets/demo/approaches.py.\n\n"
DRAFT_HEAD = "# Invented, and wrong on purpose: a draft to show findings with. Made by snippets/demo/approaches.py.\n\n"


def files() -> dict[Path, str]:
    """Path -> text of every file that this script makes."""
    good = {FOLDER / f"{slug}.toml": HEAD + toml_text(tables).lstrip() for slug, tables in demo().items()}
    bad = {FOLDER / "drafts" / f"{slug}.toml": DRAFT_HEAD + toml_text(tables).lstrip()
           for slug, tables in draft().items()}
    before = {FOLDER / "previous" / f"{slug}.toml": PREVIOUS_HEAD + toml_text(tables).lstrip()
              for slug, tables in previous().items()}
    return good | bad | before


if __name__ == "__main__":
    for path, text in files().items():
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
