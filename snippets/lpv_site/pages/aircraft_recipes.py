"""Ordinary designs as they are written in an aircraft file: only the keys that make the difference.

A test puts each of them into a whole file, reads it, and tries what its title says.
"""

RECIPES: dict[str, tuple[str, str]] = {
    "one-switch": ("One control asks for SBAS; without it a tuned localizer shows", """
[[source]]
name = "SBAS"
selected_by = ["its control"]
removed_by = ["its control", "removal of power"]

[[source]]
name = "ILS"
offered = ["localizer tuned on this side", "no SBAS selected"]
selected_by = ["another taken away", "tuning a localizer on this side"]
removed_by = ["no longer offered"]

[[source]]
name = "FMS lateral navigation"
selected_by = ["another taken away"]

[modes]
source_control = "shared"
"""),
    "by-hand": ("Three sources chosen by hand, a tuned localizer changes nothing", """
[[source]]
name = "SBAS"
selected_by = ["its control"]

[[source]]
name = "ILS"
selected_by = ["its control"]

[[source]]
name = "FMS lateral navigation"
selected_by = ["its control", "another taken away"]

[modes]
source_control = "per side"
"""),
    "by-procedure": ("No control: what is loaded and active is the source", """
[[source]]
name = "SBAS"
selected_by = ["activating its approach"]
removed_by = ["loading another approach", "landing", "removal of power"]

[[source]]
name = "ILS"
selected_by = ["activating its approach"]
removed_by = ["loading another approach", "landing", "removal of power"]

[[source]]
name = "FMS lateral navigation"
selected_by = ["another taken away"]

[modes]
source_control = "none"
"""),
    "transfer": ("The FMS first; the source changes by itself when the final course is captured", """
[[source]]
name = "SBAS"
offered = ["SBAS approach active"]
selected_by = ["its course captured"]
removed_by = ["no longer offered", "go-around"]

[[source]]
name = "FMS lateral navigation"
selected_by = ["its control", "another taken away"]

[modes]
source_control = "shared"
fms_lateral = "with FMS selected"
captures_from = "FMS lateral only"
"""),
    "inhibited": ("A localizer tuned on either side stops SBAS guidance", """
[[source]]
name = "SBAS"
guides_while = ["no localizer tuned on either side"]
selected_by = ["its control"]
removed_by = ["its control"]
"""),
    "taken-over": ("A tuned localizer takes its side over from SBAS", """
[[source]]
name = "SBAS"
selected_by = ["its control"]
removed_by = ["its control", "tuning a localizer on this side"]

[[source]]
name = "ILS"
offered = ["localizer tuned on this side"]
selected_by = ["tuning a localizer on this side", "another taken away"]
removed_by = ["no longer offered"]
"""),
    "near-the-airport": ("Arms within a distance of the airport; armed before it, it waits", """
[capture]
arms_within_nm = 25
arms_within_of = "airport"

[modes]
arming_needs = ["a guiding source", "the arming distance"]
arming_too_early = "waits"
"""),
    "basic-mode": ("Lost guidance reverts to a basic mode, annunciated", """
[modes]
when_lateral_lost = "basic mode"
when_vertical_lost = "basic mode"
announced = ["source", "level", "basic mode", "armed", "captured", "go-around"]
"""),
    "level-falls": ("The level falls by itself before the FAF, and comes back with the signal", """
[modes]
level_falls_outside = "falls to the level supported"
level_falls_inside = "stays, flagged"
level_returns_outside = "with the signal"
level_returns_inside = "with the next activation"
"""),
    "path-first": ("The glidepath may be captured before the course, within a dot of it", """
[capture]
vertical_lateral_dots = 1.0

[modes]
vertical_arms = "with lateral"
vertical_capture = "on its own"
"""),
    "plan-kept": ("Flight plan and selection survive power-down", """
[[source]]
name = "SBAS"
selected_by = ["its control"]
removed_by = ["its control"]

[modes]
approach_after_power = "kept"
tuning_after_power = "kept"
"""),
    "go-around-heading": ("A go-around holds heading and speed until a lateral mode is selected", """
[modes]
go_around_roll = "heading held"
go_around_pitch = "speed"
"""),
}
