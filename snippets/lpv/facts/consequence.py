"""Facts: from which size on an error is a note, to resolve, a stop."""


def _ours(limit: float, unit: str, what: str, remark: str) -> "tuple[float | str, str, str, str, str, str, str]":
    """A limit that this handbook sets, for want of a published one."""
    return limit, unit, what, "trade", "limit set by this handbook", "common practice", remark


FACTS: "dict[str, tuple[float | str, str, str, str, str, str, str]]" = {
    "consequence_minimum_note_ft": _ours(
        0.5, "ft", "error of the height at the minimum: note from", "altitudes are set in whole feet"),
    "consequence_minimum_resolve_ft": _ours(
        10.0, "ft", "error of the height at the minimum: resolve from",
        "more than one hundredth of an inch of mercury, which is 9 ft"),
    "consequence_minimum_stop_ft": _ours(
        30.0, "ft", "error of the height at the minimum: stop from", "more than one hectopascal, which is 27 ft"),
    "consequence_cold_resolve_ft": _ours(
        0.5, "ft", "undecided cold correction of the missed approach altitude: resolve from",
        "altitudes are set in whole feet"),
    "consequence_cold_stop_ft": _ours(
        300.0, "ft", "undecided cold correction of the missed approach altitude: stop from",
        "a hold's obstacle clearance may be used up"),
}
