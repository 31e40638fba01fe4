"""ARINC 424 records for tests: those of one published approach put together from its values, and invented ones.

Columns stand here a second time, written down apart from those that the importer reads.
Values of KHWD: FAA, Coded Instrument Flight Procedures, cycle 2003, KHWD RNAV (GPS) RWY 28L.
"""

from demo import approaches as make_demo
from lpv.fas.path_point import PathPoint, write

LEG = {
    "approach": 14, "route": 20, "transition": 21, "sequence": 27, "fix": 30, "of": 35, "kind": 37,
    "continuation": 39, "description": 40, "turn": 44, "rnp": 45, "terminator": 48, "turn_valid": 50, "navaid": 51,
    "navaid_of": 55, "radius": 57, "theta": 63, "rho": 67, "course": 71, "distance": 75, "navaid_kind": 79,
    "altitude_is": 83, "atc": 84, "altitude": 85, "altitude_2": 90, "transition_altitude": 95, "speed": 100,
    "angle": 103, "centre": 107, "multiple": 112, "centre_region": 113, "centre_section": 115, "indication": 117,
    "speed_is": 118, "qualifiers": 119, "number": 124, "cycle": 129,
}
LEVELS = {**LEG, "application": 40, "fas": 41, "fas_name": 42, "vnav": 52, "vnav_name": 53, "lnav": 63, "lnav_name": 64,
          "rnp_levels": 89}
POINT = {"ident": 14, "of": 20, "continuation": 22, "use": 27, "latitude": 33, "longitude": 42, "variation": 75,
         "datum": 85, "name": 99, "number": 124, "cycle": 129}
AIRPORT = {"code": 14, "continuation": 22, "longest": 28, "latitude": 33, "longitude": 42, "variation": 52,
           "elevation": 57, "transition_altitude": 71, "transition_level": 76, "public": 81, "reference": 86,
           "datum": 87, "name": 94, "number": 124, "cycle": 129}
RUNWAY = {"ident": 14, "continuation": 22, "length": 23, "bearing": 28, "latitude": 33, "longitude": 42, "height": 61,
          "elevation": 67, "displaced": 72, "tch": 76, "width": 78, "tch_of": 81, "localizer": 82, "number": 124,
          "cycle": 129}
SAFE = {"centre": 14, "of": 19, "kind": 21, "multiple": 23, "continuation": 39, "sector": 43, "sector_2": 54,
        "reference": 120, "number": 124, "cycle": 129}
NAVAID = {"ident": 14, "of": 20, "continuation": 22, "latitude": 33, "longitude": 42, "dme": 56, "number": 124,
          "cycle": 129}
HEADER = "HDR01FAACIFP18      001P013203804972003  06-FEB-202013:41:57  U.S.A. DOT FAA"


def at(line, column, text):
    """A line with a text put at a column, counted from 1."""
    return line[: column - 1] + text + line[column - 1 + len(text) :]


def record(columns, *, airport="KHWD", region="K2", section="P", subsection="F", area="USA", **texts):
    """One record of 132 columns."""
    line = at(at(at(" " * 132, 1, "S" + area), 5, section), 7, f"{airport:4}{region}{subsection}")
    for name, text in texts.items():
        line = at(line, columns[name], text)
    assert len(line) == 132
    return line


def leg(sequence, fix, kind, description, terminator, *, columns=LEG, approach="R28L", route="R", **texts):
    """A record of the approach KHWD R28L, its number and cycle invented where they are not given."""
    texts = {"number": "10865", "cycle": "1310", "continuation": "0", "indication": "A", "qualifiers": "JS", **texts}
    if columns is LEVELS:
        del texts["indication"]
    place = {"fix": fix, "of": "K2" if fix else "  ", "kind": kind, "description": description}
    return record(columns, approach=approach, route=route, sequence=sequence, terminator=terminator, **place, **texts)


class Airport:
    """Records of one airport, by its identifier and region."""

    def __init__(self, ident, region):
        self.place = {"airport": ident, "region": region}
        self.region = region

    def leg(self, sequence, fix, kind, description, terminator, **texts):
        """A leg, of the final route where no other is given."""
        texts = {"route": "R", "continuation": "0", "of": self.region if fix else "", **texts}
        return record(LEG, sequence=sequence, fix=fix, kind=kind, description=description, terminator=terminator,
                      **self.place, **texts)

    def levels(self, sequence, fix, **texts):
        """The continuation of a leg with levels of service."""
        return record(LEVELS, sequence=sequence, fix=fix, **self.place, **{
            "route": "R", "of": self.region, "kind": "PC", "continuation": "2", "application": "W", **texts})

    def waypoint(self, ident, latitude, longitude, use, variation, **texts):
        """A terminal waypoint."""
        return record(POINT, subsection="C", ident=ident, latitude=latitude, longitude=longitude, use=use,
                      variation=variation, **self.place, **{
                          "of": self.region, "continuation": "0", "datum": "NAR", "name": ident, **texts})

    def runway(self, **texts):
        """A runway."""
        return record(RUNWAY, subsection="G", **self.place, **{"continuation": "0", **texts})

    def own(self, **texts):
        """The record of the airport."""
        return record(AIRPORT, subsection="A", **self.place, **{
            "continuation": "0", "transition_altitude": "18000", "transition_level": "18000", "public": "C",
            "reference": "M", "datum": "NAR", **texts})

    def safe(self, centre, sectors, **texts):
        """The minimum safe altitudes about a centre."""
        return record(SAFE, subsection="S", centre=centre, sector=sectors, **self.place, **{
            "of": self.region, "continuation": "0", "reference": "M", **texts})


def navaid(ident, latitude, longitude, *, section="D ", region="K2", airport="", **texts):
    """A navigation aid or an enroute waypoint (section EA)."""
    return record(NAVAID, airport=airport, region="  ", section=section, subsection=" ", ident=ident, of=region,
                  latitude=latitude, longitude=longitude, **{
                      "continuation": "0", "number": "00001", "cycle": "2002", **texts})


def waypoint(ident, latitude, longitude, **texts):
    """A terminal waypoint of KHWD."""
    return record(POINT, subsection="C", ident=ident, latitude=latitude, longitude=longitude, **{
        "of": "K2", "continuation": "0", "datum": "NAR", "name": ident, "number": "10800", "cycle": "2002", **texts})


def airport(**texts):
    """The airport KHWD."""
    return record(AIRPORT, subsection="A", **{
        "code": "HWD", "continuation": "0", "longest": "056YH", "latitude": "N37393214", "longitude": "W122071825",
        "variation": "E0150", "elevation": "00052", "transition_altitude": "18000", "transition_level": "18000",
        "public": "C", "reference": "M", "datum": "NAR", "name": "HAYWARD EXECUTIVE", "number": "10798",
        "cycle": "1608", **texts})


def runway(**texts):
    """The runway 28L of KHWD."""
    return record(RUNWAY, subsection="G", **{
        "ident": "RW28L", "continuation": "0", "length": "05694", "bearing": "2840", "latitude": "N37391866",
        "longitude": "W122065313", "height": "-00172", "elevation": "00050", "displaced": "0676", "tch": "35",
        "width": "150", "tch_of": "R", "localizer": "IHWD0", "number": "10888", "cycle": "1707", **texts})


WAYPOINTS = [
    waypoint("BOGRE", "N37372195", "W122023769"), waypoint("FENRA", "N37361304", "W122000715"),
    waypoint("HUZBY", "N37375488", "W122034972"), waypoint("JOBUS", "N37300471", "W121464565"),
    waypoint("OKIVY", "N37314215", "W121501717"), waypoint("SUDGE", "N37343512", "W121563357"),
    waypoint("WESCH", "N37331949", "W121534883"),
]
HOLD = {"turn": "R", "course": "2851", "distance": "0050", "altitude_is": "+", "altitude": "05700"}
TRANSITIONS = [
    leg("010", "SJC", "D ", "V", "IF", route="A", transition="SJC", transition_altitude="18000"),
    leg("020", "JOBUS", "PC", "EY", "TF", route="A", transition="SJC", rnp="020", course="0311", distance="0110",
        altitude_is="+", altitude="05700"),
    leg("030", "JOBUS", "PC", "EE A", "HF", route="A", transition="SJC", **HOLD),
    leg("010", "VINCO", "EA", "E  A", "IF", route="A", transition="VINCO", transition_altitude="18000"),
    leg("020", "JOBUS", "PC", "EE B", "TF", route="A", transition="VINCO", rnp="010", course="3232", distance="0081",
        altitude_is="+", altitude="05700"),
]


def above(altitude):
    """At or above an altitude."""
    return {"altitude_is": "+", "altitude": altitude}


PATH = {"rnp": "031", "angle": "-310"}
FINAL = [
    leg("010", "JOBUS", "PC", "E  I", "IF", altitude_is="+", altitude="05700", transition_altitude="18000"),
    leg("011", "OKIVY", "PC", "E   ", "TF", rnp="010", course="2851", distance="0032", **above("04800")),
    leg("012", "WESCH", "PC", "E   ", "TF", rnp="010", course="2850", distance="0032", **above("03900")),
    leg("020", "SUDGE", "PC", "E  F", "TF", rnp="010", course="2850", distance="0025", **above("03200"),
        continuation="1", centre="RW28L", centre_region="K2", centre_section="PG", cycle="1610"),
    leg("020", "SUDGE", "PC", "", "", columns=LEVELS, continuation="2", application="W", fas="A", fas_name="LPV",
        vnav="A", vnav_name="LNAV/VNAV", lnav="A", lnav_name="LNAV"),
    leg("021", "FENRA", "PC", "E S ", "TF", course="2850", distance="0033", altitude_is="V", altitude="02120",
        altitude_2="02126", **PATH),
    leg("022", "BOGRE", "PC", "E S ", "TF", course="2849", distance="0023", altitude_is="V", altitude="01360",
        altitude_2="01369", **PATH),
    leg("023", "HUZBY", "PC", "E S ", "TF", course="2849", distance="0011", altitude_is="V", altitude="01000",
        altitude_2="01007", **PATH),
    leg("030", "RW28L", "PG", "GY M", "TF", course="2849", distance="0028", altitude="00085", **PATH),
]
MISSED = [
    leg("040", "", "  ", "  M ", "CA", course="2849", altitude_is="+", altitude="00600"),
    leg("050", "OAK", "D ", "VY  ", "DF", turn="R", altitude_is="+", altitude="02100"),
    leg("060", "OAK", "D ", "VE  ", "HM", turn="R", course="1220", distance="0040", altitude_is="+", altitude="02100"),
]
POINTS = [
    "SUSAP KHWDK2PR28L  RW28L001 0000W28A0N3739186640W12206531315-001720310N3740030660W12208304530106751224000350F"
    "40050040227B2E108911212",
    "SUSAP KHWDK2PR28L  RW28L002E      +00152+00152LPV       40330                                                "
    "              108921212",
]
SAFE_ALTITUDE = record(SAFE, subsection="S", centre="RW28L", of="K2", kind="PG", continuation="0",
                       sector="18018005325", reference="M", number="10894", cycle="0804")
KHWD = [airport(), *WAYPOINTS, *TRANSITIONS, *FINAL, *MISSED, runway(), *POINTS, SAFE_ALTITUDE]


def changed(index, column, text, lines=None):
    """The records with one text put into one of them."""
    lines = list(KHWD if lines is None else lines)
    lines[index] = at(lines[index], column, text)
    return lines


def as_file(lines, *, header=HEADER):
    """Records as the bytes of a file, below a header."""
    return "".join(f"{line}\n" for line in ([header] if header else []) + list(lines)).encode("latin-1")


def invented(number, cycle="2003"):
    """The records of an invented airport in open water with one LPV approach: KHWD's legs, its own path point."""
    airport_ident = f"ZZ{number // 26 % 26 + 65:c}{number % 26 + 65:c}" if number < 676 else f"Z{number:03X}"
    segment = make_demo.segment_of(make_demo.PLAIN)
    segment = make_demo.replace(segment, airport=airport_ident, runway_number=28, runway_letter="L",
                                reference_path_id="W28A")
    point = PathPoint(
        segment=segment, airport=airport_ident, icao_region="K2", approach="R28L", runway="RW28L",
        level_of_service="LPV", sbas_channel=40000 + number, fpap_orthometric_height_m=None,
        printed_remainder=make_demo.remainder_hex(make_demo.encode(segment)), ltp_orthometric_height_m=None,
        cycle=cycle, line_number=1, continuation_cycle=cycle, record_number="00001", continuation_record_number="00002",
    )
    own = [line[:6] + airport_ident + line[10:] for line in KHWD if line not in POINTS]
    return [*own[:-1], *write(point).splitlines(), own[-1]]
