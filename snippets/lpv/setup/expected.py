"""What an approach, flown by a type, asks of the cockpit: every answer is a decision of `lpv.decide`.

`approach` and `aircraft` are records, or the same from their JSON form (`lpv.core.record`).
"""

from lpv.decide.category import category_to_use
from lpv.decide.lines import row_for, straight_in_rows
from lpv.decide.minimum import Day, Minimum, MissedAltitude, minimum, missed_altitude
from lpv.modes.rules import Rules, selection_rules, usual_rules
from lpv.setup.records import Setup

TYPE_CHECKING = False
if TYPE_CHECKING:
    from lpv.aircraft.record import Aircraft
    from lpv.aircraft.schema import Operator
    from lpv.approach.record import Approach


def day_of(setup: Setup) -> Day:
    """What the day of a set-up adds to a printed minimum; what nobody has entered adds nothing."""
    return Day(setup.temperature_c, setup.cold_segments, setup.remote_addition_ft or 0.0,
               zone_not_clear=setup.zone_not_clear is True)


def expected_for(setup: Setup, approach: "Approach", aircraft: "Aircraft | None" = None) -> "Expected":
    """What has to be set for an approach, with the speed of a set-up."""
    return Expected(approach, aircraft, setup.speed_kt)


class Expected:
    """What has to be set for an approach.

    aircraft: the type, None for any: then the highest minimum of each line counts, and no operator's rule
    speed_kt: to be flown, if above VREF
    """

    def __init__(
        self, approach: "Approach", aircraft: "Aircraft | None" = None, speed_kt: "float | None" = None,
    ) -> None:
        self.approach, self.aircraft, self.speed_kt = approach, aircraft, speed_kt

    @property
    def category(self) -> "str | None":
        """The approach category, or the higher one of the speed to be flown; None for any type."""
        if self.aircraft is None or self.speed_kt is None:
            return self.aircraft.type.category if self.aircraft else None
        return category_to_use(self.aircraft.type.category, self.speed_kt)

    @property
    def operator(self) -> "Operator | None":
        """The operator's rules, None for any type."""
        return self.aircraft.operator if self.aircraft else None

    @property
    def rules(self) -> Rules:
        """The rules of the type's modes; for any type the usual ones with a selector per side."""
        return selection_rules(self.aircraft.rules) if self.aircraft else usual_rules(source_control="per side")

    @property
    def arm_within_nm(self) -> "float | None":
        """Distance from the course within which the type or its operator arms; None where neither has such a rule."""
        return self.aircraft.arm_within_nm if self.aircraft else None

    @property
    def best_level(self) -> str:
        """The level of service that the approach is made for, LPV or LP."""
        return self.approach.identity.level_of_service

    @property
    def course_deg(self) -> float:
        """The final course, in the chart's reference."""
        return self.approach.chart.course_deg

    def lines(self) -> "list[str]":
        """The straight-in lines of minima for the category, the best first."""
        return [row.line for row in straight_in_rows(self.approach, self.category)]

    def has_line(self, line: "str | None") -> bool:
        """Whether the chart prints a row of this line for the category."""
        return line is not None and line != "circling" and row_for(self.approach, line, self.category) is not None

    def minimum(self, line: str, setup: Setup) -> "Minimum | None":
        """The minimum to set for a line on the day; None where the chart prints none for the category."""
        return minimum(self.approach, line, self.category, self.operator, day_of(setup))

    def missed_altitude(self, setup: Setup) -> "MissedAltitude | None":
        """The altitude to set for the missed approach on the day; None where the file holds none."""
        return missed_altitude(self.approach, self.operator, day_of(setup))
