"""Facts: tasks and knowledge areas of published standards that a lesson serves; none was read, all are remembered."""

_HELD = "from memory"


def _task(place: str, what: str, source: str, remark: str = "") -> "tuple[float | str, str, str, str, str, str, str]":
    return place, "", what, source, "number of area and task", _HELD, remark


FACTS: "dict[str, tuple[float | str, str, str, str, str, str, str]]" = {
    "standard_ir_systems": _task("Area II, Task A", "aircraft systems related to IFR operations", "acs-8c"),
    "standard_ir_equipment": _task("Area II, Task B", "flight instruments and navigation equipment", "acs-8c"),
    "standard_ir_check": _task("Area II, Task C", "instrument flight deck check", "acs-8c"),
    "standard_ir_weather": _task("Area I, Task B", "weather information", "acs-8c"),
    "standard_ir_planning": _task("Area I, Task C", "flight planning under IFR", "acs-8c"),
    "standard_ir_nonprecision": _task("Area VI, Task A", "nonprecision approach", "acs-8c", "LP and LNAV belong here"),
    "standard_ir_precision": _task(
        "Area VI, Task B", "precision approach", "acs-8c", "LPV with a low DA may be flown for it"),
    "standard_ir_missed": _task("Area VI, Task C", "missed approach", "acs-8c"),
    "standard_ir_landing": _task("Area VI, Task E", "landing from an instrument approach", "acs-8c"),
    "standard_atp_systems": _task("Area I", "operation of systems", "acs-11"),
    "standard_atp_approaches": _task("Area V", "precision and nonprecision approaches", "acs-11"),
    "standard_atp_missed": _task("Area V", "missed approach", "acs-11"),
    "standard_ac_levels": _task("knowledge", "levels of service and how they are annunciated", "ac-90-107"),
    "standard_ac_database": _task("knowledge", "data, channel and reference path identifier", "ac-90-107"),
    "standard_ac_modes": _task("knowledge", "modes, alerts, reversions and degraded operation", "ac-90-107"),
    "standard_ac_missed": _task("knowledge", "guidance in the missed approach", "ac-90-107"),
}
