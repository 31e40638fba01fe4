"""The go-around: how far it dips below the decision, and its climb over the obstacle surface."""

from lpv.core.text import number, quantity
from lpv.decide.missed import (
    CATEGORIES,
    Dip,
    design_height_loss_ft,
    dip,
    gradient_margin_ft_per_nm,
    height_change_ft,
    margin_over_surface_ft,
    required_climb_rate_fpm,
    surface_crossed_at_nm,
    surface_height_ft,
)
from lpv.drawing.panel import BOTTOM, LEFT, RIGHT, TOP, Panel
from lpv.drawing.sheet import WIDTH, Sheet
from lpv.facts import value
from lpv.figures.figure import Figure, Shown
from lpv.figures.parts import AIRCRAFT, angle, beside, steps
from lpv.forms.fields import Choice, Number
from lpv.motion.kinematics import descent_rate_fpm, gradient_for_climb_rate_ft_per_nm

HEIGHT = 3050
UPPER, LOWER = (LEFT, TOP, WIDTH - RIGHT, 1330), (LEFT, 1960, WIDTH - RIGHT, HEIGHT - BOTTOM)
POINTS, MIN_S, FAR_NM, AT_NM = 40, 10.0, 6.0, 5.0


class GoAround:
    """A go-around: how it is flown, and the climb that is asked for."""

    def __init__(
        self, speed_kt: float, gpa_deg: float, reaction_s: float, acceleration_g: float, climb_fpm: float,
        published_ft_per_nm: float, category: str,
    ) -> None:
        self.speed_kt, self.descent_fpm, self.climb_fpm = speed_kt, descent_rate_fpm(speed_kt, gpa_deg), climb_fpm
        self.reaction_s, self.acceleration_g = reaction_s, acceleration_g
        self.published_ft_per_nm, self.category = published_ft_per_nm, category

    def dip(self) -> Dip:
        """How far it goes below the decision."""
        return dip(self.descent_fpm, self.climb_fpm, self.reaction_s, self.acceleration_g)

    def height_ft(self, time_s: float) -> float:
        """Above the decision."""
        return height_change_ft(time_s, self.descent_fpm, self.climb_fpm, self.reaction_s, self.acceleration_g)

    def needed_ft_per_nm(self) -> float:
        """The gradient that counts: the published one, or the standard one where that is higher."""
        return max(value("missed_gradient_ft_per_nm"), self.published_ft_per_nm)

    def made_good_ft_per_nm(self) -> float:
        """The gradient of the climb, over the ground."""
        return gradient_for_climb_rate_ft_per_nm(self.speed_kt, self.climb_fpm)


def _go_around(
    speed_kt: float, climb_fpm: float, reaction_s: float, published_ft_per_nm: float, gpa_deg: float,
    acceleration_g: float, category: str,
) -> Shown:
    go_around = GoAround(speed_kt, gpa_deg, reaction_s, acceleration_g, climb_fpm, published_ft_per_nm, category)
    lowest, made_good = go_around.dip(), go_around.made_good_ft_per_nm()
    margin = gradient_margin_ft_per_nm(climb_fpm, speed_kt, published_ft_per_nm)
    more = beside(margin, "ft/NM", ("more than", "less than"), "just")
    finding = (
        f"From {quantity(go_around.descent_fpm, 'ft/min', 10)} the go-around dips "
        f"{quantity(lowest.loss_ft, 'ft')} below the DA and is back at it after {quantity(lowest.back_s, 's', 0.1)}. "
        f"It climbs {quantity(made_good, 'ft/NM')}, {more} the {quantity(go_around.needed_ft_per_nm(), 'ft/NM')} "
        f"needed{_clearance(go_around)}."
    )
    brief = f"Dips {quantity(lowest.loss_ft, 'ft')}; climbs {quantity(made_good, 'ft/NM')}"
    rows = [_row(speed_kt + change_kt, climb_fpm, go_around) for change_kt in (-20.0, -10.0, 0.0, 10.0, 20.0, 30.0)]
    return Shown(_drawn(go_around, lowest), finding, HEADERS, rows, brief)


HEADERS = ("ground speed", "rate needed", "gradient made good", "against needed")


def _clearance(go_around: GoAround) -> str:
    """What becomes of the height over the obstacle surface, in words."""
    made_good, needed = go_around.made_good_ft_per_nm(), go_around.needed_ft_per_nm()
    over_ft = margin_over_surface_ft(AT_NM, 0.0, made_good, needed)
    crossed = surface_crossed_at_nm(1.0, made_good, needed)
    if crossed is not None:
        return ": it stays below the obstacle surface"
    return f": {quantity(over_ft, 'ft')} over the obstacle surface {quantity(AT_NM, 'NM')} from its start"


def _row(speed_kt: float, climb_fpm: float, go_around: GoAround) -> "tuple[str, ...]":
    published = go_around.published_ft_per_nm
    made_good = gradient_for_climb_rate_ft_per_nm(speed_kt, climb_fpm)
    margin = gradient_margin_ft_per_nm(climb_fpm, speed_kt, published)
    return (
        quantity(speed_kt, "kt"), quantity(required_climb_rate_fpm(speed_kt, published), "ft/min", 10),
        quantity(made_good, "ft/NM"), beside(margin, "ft/NM", ("more", "less"), "just met"),
    )


def _drawn(go_around: GoAround, lowest: Dip) -> Sheet:
    sheet = Sheet(HEIGHT)
    _dip(sheet, go_around, lowest)
    _climb(sheet, go_around)
    return sheet


def _dip(sheet: Sheet, go_around: GoAround, lowest: Dip) -> None:
    """Height above the DA since the decision."""
    long_s, design_ft = max(MIN_S, 1.15 * lowest.back_s), design_height_loss_ft(go_around.category)
    low_ft = -1.25 * max(design_ft, lowest.loss_ft)
    panel = Panel(sheet, UPPER, (0.0, long_s), (low_ft, -0.45 * low_ft))
    panel.axes("since the decision, s", "above the DA, ft")
    panel.rule_y(0.0, "ink", "thin")
    panel.rule_y(-design_ft, "second", "dash")
    panel.line([(seconds, go_around.height_ft(seconds)) for seconds in steps(0.0, long_s, POINTS)], "first")
    panel.mark(lowest.lowest_s, -lowest.loss_ft, "circle", "answer")
    panel.label(
        f"{quantity(lowest.loss_ft, 'ft')} below", lowest.lowest_s, -lowest.loss_ft, "answer", ("s", "se", "n"), True)
    panel.label(f"design, category {go_around.category}", long_s, -design_ft, "second", ("nw", "sw"))
    panel.label("DA", 0.0, 0.0, "ink", ("ne", "se"))


def _climb(sheet: Sheet, go_around: GoAround) -> None:
    """The climb over the obstacle surface, from its start."""
    made_good, needed = go_around.made_good_ft_per_nm(), go_around.needed_ft_per_nm()
    panel = Panel(sheet, LOWER, (0.0, FAR_NM), (0.0, 1.3 * FAR_NM * max(needed, min(made_good, 1.7 * needed))))
    surface_ft = surface_height_ft(FAR_NM, 0.0, needed)
    panel.area([(0.0, 0.0), (FAR_NM, surface_ft), (FAR_NM, 0.0)])
    panel.axes("from the start of the climb, NM", "height above the start, ft")
    panel.line([(0.0, 0.0), (FAR_NM, surface_ft)], "second")
    panel.line([(0.0, 0.0), (FAR_NM, FAR_NM * needed)], "ink", "dash")
    panel.line([(0.0, 0.0), (FAR_NM, FAR_NM * made_good)], "first")
    at_nm = min(0.55 * FAR_NM, 0.75 * panel.y[1] / made_good)
    panel.mark(at_nm, at_nm * made_good, "circle", "answer")
    panel.label(quantity(made_good, "ft/NM"), at_nm, at_nm * made_good, "answer", ("nw", "se"), True)
    panel.label(f"needed {number(needed)}", 0.97 * FAR_NM, 0.97 * FAR_NM * needed, "ink", ("nw", "se"))
    panel.label("obstacle surface", FAR_NM, 0.75 * surface_ft, "second", ("sw", "w"))


FIGURES = (
    Figure(
        "live-go-around", "go-around: dip and climb", _go_around,
        inputs=(
            Number("speed_kt", "Ground speed", "kt", 80, 220, 1, 130, "aircraft.final_speed_kt"),
            Number("climb_fpm", "Available climb rate", "ft/min", 200, 5000, 50, 2000, "aircraft.climb_rate_fpm"),
            Number("reaction_s", "From decision to first control input", "s", 0, 8, 0.1, 1.0, "aircraft.reaction_s"),
            Number("published_ft_per_nm", "Gradient published (0: none)", "ft/NM", 0, 600, 5, 0,
                   "approach.missed_gradient_ft_per_nm"),
            angle(),
            Number("acceleration_g", "Upward acceleration", "g", 0.05, 0.5, 0.01, 0.2, "aircraft.acceleration_g",
                   AIRCRAFT),
            Choice("category", "Approach category", tuple([(category, category) for category in CATEGORIES]), "B",
                   "aircraft.category", AIRCRAFT),
        ),
        facts=("missed_gradient_ft_per_nm", "surface_times_gradient_ft_per_nm", "height_loss_baro_b_ft"),
        remarks="What design allows for the dip (ICAO, from memory) pays for altimeter errors too: it is not all yours."
        " None published: the standard gradient of the FAA counts. The surface is drawn from the start of the climb.",
    ),
)
