"""What the codes of a leg mean, in words, and how much that is worth.

Source: ARINC Specification 424-18.  CONFIRMED names the codes whose meaning published records at hand bear out by
their positions, courses and altitudes; all others are from memory.
"""

IF, RF, PI = "IF", "RF", "PI"
TO_A_FIX = {"IF": "begin at", "TF": "track to", "CF": "course to", "DF": "direct to", "RF": "arc to",
            "AF": "DME arc to"}
HOLDS = {"HF": "hold once at", "HM": "hold at", "HA": "hold, climbing, at"}
FROM_A_FIX = {"FA": "course to an altitude from", "FC": "course for a distance from",
              "FD": "course to a DME distance from", "FM": "course to manual termination from",
              "PI": "procedure turn at"}
FROM_HERE = {"CA": "climb", "CD": "course to a DME distance", "CI": "course to intercept the next leg",
             "CR": "course to a radial", "VA": "heading to an altitude", "VD": "heading to a DME distance",
             "VI": "heading to intercept the next leg", "VM": "heading to manual termination",
             "VR": "heading to a radial"}
TERMINATORS = {**TO_A_FIX, **HOLDS, **FROM_A_FIX, **FROM_HERE}
STRAIGHT = ("TF", "CF")
HEADINGS = ("VA", "VD", "VI", "VM", "VR")
# Altitude description -> how the first altitude binds; what the second one is, "" where there is none.
AT, ABOVE, BELOW, BETWEEN = "at", "at or above", "at or below", "between"
ON_PATH, GLIDE_SLOPE = "on the vertical path", "on the glideslope"
ALTITUDES = {
    " ": (AT, ""), "@": (AT, ""), "+": (ABOVE, ""), "-": (BELOW, ""), "B": (BETWEEN, ""), "C": ("", ABOVE),
    "G": (AT, GLIDE_SLOPE), "H": (ABOVE, GLIDE_SLOPE), "I": (AT, GLIDE_SLOPE), "J": (ABOVE, GLIDE_SLOPE),
    "V": (ABOVE, ON_PATH), "X": (AT, ON_PATH), "Y": (BELOW, ON_PATH),
}
SPEEDS = {"": "", "@": AT, "+": ABOVE, "-": BELOW}
TURNS = {"": "", "L": "left", "R": "right", "E": "either"}
# Waypoint description, its second letter: whether the fix is flown over.
FLY_OVER = "BY"
END_OF_ROUTE = "BE"
ROLES = {"A": "IAF", "B": "IF", "C": "IAF", "D": "IAF", "F": "PFAF", "H": "hold", "I": "IF", "M": "MAP"}
FIRST_MISSED = "M"  # third letter
UNNAMED_STEP_DOWN, STEP_DOWN = "A", "S"  # third letter
# Waypoint description, letter by letter: those that have a meaning.
DESCRIPTIONS = {1: " AEFGHNPRTV", 2: " BEUY", 3: " ABCGMRS", 4: " ABCDFHIM"}
ATC, TURN_VALID = ("", "A"), ("", "Y")
DATUMS = ("", "NAR", "WGE")  # within a metre of the datum of the segment; the codes from memory
ARCS = (RF, "AF")
TO_A_DME_DISTANCE, BY_A_RADIAL = ("CD", "FD", "VD"), ("AF", "CR", "VR")
WITH_A_COURSE = tuple(code for code in TERMINATORS if code not in ("IF", "TF", "DF", RF))
NEEDED = {  # columns of a leg -> path terminators that are not complete without them
    "fix": (*TO_A_FIX, *HOLDS, *FROM_A_FIX), "course": WITH_A_COURSE, "altitude": ("CA", "FA", "HA", "VA"),
    "distance": (*TO_A_DME_DISTANCE, *HOLDS, "FC", "PI"), "turn": (*HOLDS, *ARCS, "PI"),
    "navaid": (*TO_A_DME_DISTANCE, *BY_A_RADIAL), "theta": BY_A_RADIAL, "rho": ("AF",), "radius": (RF,),
    "centre": (RF,),
}
ROUTES = {"A": "transition", "Z": "missed approach"}
GNSS = {
    "0": "no overlay authorized", "1": "overlay, conventional navaids monitored",
    "2": "overlay, conventional navaids installed", "3": "overlay by title", "4": "FMS overlay",
    "5": "GNSS or FMS by title", "A": "vertical guidance by SBAS authorized",
    "B": "vertical guidance by SBAS not authorized", "C": "vertical guidance by SBAS not published",
    "P": "stand-alone GNSS", "U": "overlay not stated",
}
QUALIFIERS_1 = {
    "D": "DME required", "F": "RNP with authorization required", "J": "GNSS required, DME/DME not authorized",
    "L": "GBAS", "N": "DME not required", "P": "GNSS required", "R": "GNSS or DME/DME required",
    "T": "DME/DME required", "U": "sensor not stated", "V": "VOR/DME area navigation", "W": "segment block required",
}
QUALIFIERS_2 = {
    "A": "primary missed approach", "B": "secondary missed approach", "C": "circling minima",
    "E": "engine-out missed approach", "H": "helicopter, straight-in minima", "I": "helicopter, circling minima",
    "L": "helicopter, landing minima", "S": "straight-in minima", "V": "VMC minima",
}
HELICOPTER = ("H", "I", "L")  # second qualifiers of approaches for helicopters
KINDS = {
    "B": "localizer back course", "D": "VOR/DME", "E": "FMS", "F": "FMS", "G": "IGS", "H": "RNP",
    "I": "ILS", "J": "GLS", "L": "localizer", "M": "MLS", "N": "NDB", "P": "GPS", "Q": "NDB/DME", "R": "RNAV",
    "S": "VOR or TACAN with DME", "T": "TACAN", "U": "SDF", "V": "VOR", "W": "MLS", "X": "LDA", "Y": "MLS",
}
CONFIRMED = {
    "terminator": ("IF", "TF", "CA", "DF", "HF", "HM", "RF"), "altitude": (" ", "+", "V"), "speed": (),
    "description": ("A", "B", "F", "I", "M"),
}
NEEDED_WORDS = {"turn": "turn direction", "theta": "radial", "rho": "distance from the navaid", "centre": "center",
                "distance": "distance or time"}


def meaning(codes: dict[str, str], code: str, what: str) -> str:
    """A code in words; one that is not in its table as it stands, so that it is never lost."""
    return codes.get(code) or f"{what} {code}, unknown"
