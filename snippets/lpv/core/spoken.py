"""The words of data files and of the state machine as a pilot says them.

Files say `path` and `PFAF`, and keep their words, since departments have written them; pages say glidepath and FAF.
"""

_WHOLE = (
    ("path reached from", "glidepath met from"), ("Path reached from", "Glidepath met from"),
    ("removal of power", "power-down"), ("altimeter path", "barometric path"),
)
_WORDS = {"path": "glidepath", "Path": "Glidepath", "PFAF": "FAF"}


def spoken(words: str) -> str:
    """Words of a file, or the name of an event, as pages say them: "path reached from above" is "glidepath met ..."."""
    for written, said in _WHOLE:
        words = words.replace(written, said)
    if "barometric path" in words:
        return words
    return " ".join([_said(word) for word in words.split(" ")])


def _said(word: str) -> str:
    plain = word.rstrip(",;.:")
    return _WORDS.get(plain, plain) + word[len(plain):]
