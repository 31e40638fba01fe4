"""What a crew does now about something that it sees on the approach: one answer for every page and drill.

SIGNS are what can be seen, REMEDIES what can be done; `remedy` says which goes with which, before and inside the PFAF.
It is the decision of the page on the loss of guidance and of those that lead to it; common practice, no regulation.
"""

from lpv.core.errors import DomainError, shown

SIGNS = {
    "course lost": "the course was lost",
    "path lost": "the glidepath was lost",
    "level": "the level annunciated is not the one briefed",
    "source": "another source is captured",
    "path not armed": "the course is captured and the glidepath is not armed",
    "not captured": "the FAF is passed and the glidepath is not captured",
    "not followed": "the go-around does not follow the missed approach",
    "altimeter": "the altimeter does not fit the glidepath at the FAF",
    "position": "the position is in doubt",
}
REMEDIES = {
    "go around": "go around now",
    "hold": "hold heading and altitude; with room, activate again and read the level, else another approach",
    "source": "hold heading and altitude, set the source right on both sides, then arm again",
    "brief": "brief and set the minimum of the level annunciated, or take another approach",
    "arm path": "arm the glidepath and read it; without it, no descent",
    "lateral mode": "climb; select the lateral mode of the missed approach and read it",
    "setting": "ask for the setting and compare both sides; not settled at once, go around",
    "nothing": "go on",
}
# What is seen -> what to do before the PFAF, and inside it or after a go-around.
_NOW = {
    "course lost": ("hold", "go around"),
    "path lost": ("hold", "go around"),
    "level": ("brief", "go around"),
    "source": ("source", "go around"),
    "path not armed": ("arm path", "go around"),
    "not captured": ("hold", "go around"),
    "not followed": ("lateral mode", "lateral mode"),
    "altimeter": ("setting", "setting"),
    "position": ("hold", "go around"),
}


def remedy(sign: str, inside: bool) -> str:
    """What to do now about a sign, one of REMEDIES; inside: whether the PFAF is passed.

    sign: one of SIGNS, "" for none; DomainError for another.  Status: common practice.
    """
    if sign and sign not in SIGNS:
        raise DomainError(f"sign: found {shown(sign)}; allowed: {', '.join(SIGNS)}.")
    return _NOW[sign][1 if inside else 0] if sign else "nothing"
