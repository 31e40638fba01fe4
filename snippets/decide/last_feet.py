"""The last part of the example's path: altimeter, distance and time to the DA, with the calls of the aircraft."""

from lpv.core.text import number, quantity, signed
from lpv.decide.final_path import distance_at_altitude_nm, threshold_and_crossing_ft
from lpv.decide.last_mile import lights_only_ft, seconds_after
from lpv.decide.minimum import minimum_of_row
from lpv.motion.kinematics import flying_time_s
from lpv_site.department.data import example, example_aircraft, example_row, example_speed_kt
from lpv_site.text.shown import Shown, Value
from lpv_site.text.table import table
from lpv_site.text.text import escape


def show() -> Shown:
    """A row for each call and limit, the DA in bold."""
    approach, jet, row, speed_kt = example(), example_aircraft(), example_row(), example_speed_kt()
    da_ft = minimum_of_row(approach, row, jet.operator).altitude_ft
    decision_nm = distance_at_altitude_nm(approach, da_ft)
    threshold_ft, tch_ft = threshold_and_crossing_ft(approach)
    marks = [(da_ft + call.above_ft, escape(call.words)) for call in jet.operator.call_outs if call.minimum == "DA"]
    marks += [(lights_only_ft(approach), "approach lights alone end here"),
              (threshold_ft + tch_ft, "threshold, on the glidepath")]

    def cells(altitude_ft: float, words: str) -> list[str]:
        texts = [number(altitude_ft), words, number(distance_at_altitude_nm(approach, altitude_ft), 0.1),
                 signed(seconds_after(approach, da_ft, altitude_ft, speed_kt), "s")]
        return [f"**{text}**" for text in texts] if altitude_ft == da_ft else texts

    head = (f"{escape(approach.identity.title)}, {escape(approach.identity.airport)}, {row.line}; "
            f"{escape(jet.type.name)} at {quantity(speed_kt, 'kt')} over the ground; NM to the threshold:")
    rows = [cells(*mark) for mark in sorted(marks, reverse=True)]
    return Shown(f"{head}\n\n{table(['altimeter, ft', 'call or limit', 'NM', 'from DA'], rows, left=2)}", {
        "lights_only": Value.of(lights_only_ft(approach), "ft"),
        "to_threshold": Value.of(decision_nm, "NM", 2),
        "wait": Value.of(flying_time_s(decision_nm, speed_kt), "s"),
        "crossing": Value.of(tch_ft, "ft"),
    })
