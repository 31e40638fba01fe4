"""What every word of the mode rules means, for people who describe a type.

One line for each choice of `lpv.modes.rules.RULES`, and for each word of its lists and of its sources.
"""

MEANINGS: dict[str, dict[str, str]] = {
    "source_control": {
        "shared": "one control sets both sides",
        "per side": "each side has its own control; the sides can differ",
        "none": "no control: loading, activating, arming or capturing alone selects the source; no "
                "[[source]] may then have \"its control\"",
    },
    "approach_after_landing": {"cleared": "no approach stays loaded", "kept": "it stays loaded, not active"},
    "approach_after_power": {
        "cleared": "no approach is loaded after power-down",
        "kept": "flight plan and approach survive power-down",
    },
    "tuning_after_power": {"kept": "frequencies stay as they were", "cleared": "no localizer is tuned"},
    "armed_by": {
        "its control": "the crew presses a control that arms the approach (event \"arm approach\")",
        "activating the approach": "activating the approach arms it as well",
        "the FMS lateral mode": "selecting the FMS lateral mode arms the approach as well",
        "coming within the arming distance": "it arms by itself at that distance, without the crew: refused "
                                             "where it can happen",
    },
    "arming_needs": {
        "a guiding source": "a source that guides, or one that arming or capture selects",
        "an active approach": "the loaded approach is active",
        "a level of service": "a level is annunciated; an ILS has none, so that with this it never arms in its own "
                              "approach",
        "before the PFAF": "arming is refused past the FAF",
        "the arming distance": "the aircraft is within capture.arms_within_nm",
        "the FMS lateral mode": "the FMS lateral mode flies",
    },
    "arming_too_early": {
        "refused": "outside the arming distance the control has no effect",
        "waits": "it is shown as armed, and captures only within the distance",
    },
    "captures_from": {
        "any mode": "from a heading and from the FMS lateral mode",
        "FMS lateral only": "only while the FMS lateral mode flies: the hand-over to the final course",
        "basic only": "only from a heading; the FMS lateral mode must be left first",
    },
    "vertical_arms": {
        "with lateral": "arming the approach arms the glidepath",
        "once lateral is captured": "the glidepath arms by itself when the course is captured",
        "by its own control": "the crew arms the glidepath by another control (event \"arm path\")",
    },
    "vertical_capture": {
        "after lateral": "the glidepath is captured only once the course is",
        "on its own": "the glidepath may be captured before the course; capture.vertical_lateral_dots says how near "
                      "the course the aircraft must be",
    },
    "path_from_above": {
        "captures": "met from above, the glidepath is captured",
        "stays armed": "met from above, it is not captured and stays armed",
    },
    "fms_lateral": {
        "with any source": "there is an FMS lateral mode, whatever source is selected",
        "with FMS selected": "it flies only while FMS lateral navigation is the selected source",
        "none": "there is none",
    },
    "when_lateral_lost": {
        "lost": "it is shown as lost until the crew arms again or changes the mode",
        "basic mode": "it reverts to the basic mode, which is annunciated",
        "armed": "it goes back to armed, and captures again when the source guides again",
        "unchanged": "it still shows captured: refused where it can happen",
    },
    "when_vertical_lost": {
        "lost": "it is shown as lost until the crew arms again or changes the mode",
        "basic mode": "it reverts to the basic mode, which is annunciated",
        "armed": "it goes back to armed, and captures again when the source guides again",
        "unchanged": "it still shows captured: refused where it can happen",
    },
    "recapture": {
        "after re-arming": "lost guidance comes back only after the crew arms again",
        "by itself": "it is captured again by itself, without a command: refused where it can happen",
    },
    "autopilot_after_loss": {
        "stays engaged": "the autopilot continues in whatever modes are left",
        "disconnects": "the autopilot disconnects; \"autopilot off\" must be annunciated",
    },
    "autopilot_at_level_change": {
        "stays engaged": "the autopilot continues in the modes that are left",
        "disconnects": "the autopilot disconnects even where the course is kept; "
                       "\"autopilot off\" must be annunciated",
    },
    "autopilot_at_go_around": {
        "stays engaged": "the autopilot flies the go-around mode",
        "disconnects": "selecting a go-around disconnects it; \"autopilot off\" must be annunciated",
    },
    "localizer_tuning": {
        "at any time": "tuning is free",
        "not while SBAS is selected": "tuning has no effect on a side where SBAS is the selected source",
    },
    "level_falls_outside": {
        "stays, flagged": "the annunciated level stays, and what is lost is flagged, as the FAA describes",
        "falls to the level supported": "the level becomes the best one that SBAS (or baro-VNAV) still supports",
        "falls to LNAV": "any loss of SBAS vertical guidance makes it LNAV",
    },
    "level_falls_inside": {
        "stays, flagged": "the annunciated level stays, and what is lost is flagged, as the FAA describes",
        "falls to the level supported": "the level becomes the best one that SBAS (or baro-VNAV) still supports",
        "falls to LNAV": "any loss of SBAS vertical guidance makes it LNAV",
    },
    "level_returns_outside": {
        "with the next activation": "it comes back only when the approach is activated again, as the FAA describes",
        "with the signal": "it comes back by itself with the signal",
    },
    "level_returns_inside": {
        "with the next activation": "it comes back only when the approach is activated again, as the FAA describes",
        "with the signal": "it comes back by itself with the signal",
    },
    "go_around": {
        "at any time in flight": "it can be selected in any mode",
        "only with guidance captured": "it has no effect unless the course is captured",
        "by hand alone": "there is no go-around mode: the crew leaves the approach modes and flies heading and pitch; "
                         "go_around_roll and go_around_pitch then have no effect",
    },
    "go_around_roll": {
        "FMS lateral": "the missed approach is followed",
        "heading held": "the heading at that moment is held until a lateral mode is selected",
        "wings level": "the wings are leveled, on whatever heading results",
    },
    "go_around_pitch": {
        "fixed pitch": "a pitch attitude is commanded",
        "speed": "a speed is held by pitch",
        "climb to the altitude set": "it climbs and captures the selected altitude",
    },
    "best_level": {
        "LPV": "approved for LPV", "LNAV/VNAV": "approved for LNAV/VNAV at most", "LNAV": "approved for LNAV only"},
    "baro_vnav": {
        "not approved": "LNAV/VNAV only where SBAS supports its glidepath",
        "approved": "LNAV/VNAV is flown on the barometric path",
    },
    "announced": {
        "source": "which source drives the deviations",
        "level": "the level of service, and which part of it is lost",
        "basic mode": "the mode in use when no guidance is captured: heading, altitude, vertical speed, pitch",
        "armed": "what is armed", "captured": "what is captured, the FMS lateral mode included",
        "lost": "captured or armed guidance that has lost its source",
        "go-around": "the modes of a go-around",
        "autopilot off": "that the autopilot has disconnected",
    },
}
SOURCE_MEANINGS: dict[str, dict[str, str]] = {
    "name": {
        "SBAS": "the SBAS receiver's final approach guidance",
        "ILS": "a localizer and glideslope receiver",
        "FMS lateral navigation": "the FMS along its flight plan, without a glidepath on final",
    },
    "offered": {
        "SBAS approach loaded": "an SBAS approach is loaded", "SBAS approach active": "and it is active",
        "ILS approach loaded": "an ILS approach is loaded", "ILS approach active": "and it is active",
        "localizer tuned on this side": "that side's receiver is on a localizer",
        "localizer tuned on either side": "at least one side's receiver is",
        "SBAS selected": "SBAS is the source of that side at that moment",
        "ILS selected": "ILS is the source of that side at that moment",
        "level of service": "a level other than none is annunciated",
        "in flight": "not on the ground", "on the ground": "on the ground",
    },
    "selected_by": {
        "its control": "the crew selects it by a control (its position, its button, its line of a list)",
        "another taken away": "it replaces a source that was taken away, if it is the first in the list that is "
                              "offered",
        "loading its approach": "loading an SBAS approach selects SBAS, an ILS approach ILS",
        "activating its approach": "activating an SBAS approach selects SBAS, an ILS approach ILS",
        "arming the approach": "arming selects it, if it guides",
        "its course captured": "it is selected at the moment its course is captured: automatic transfer",
        "coming within the arming distance": "it is selected at that distance, if its approach is loaded",
        "passing the PFAF": "it is selected at the FAF, if its approach is active",
        "tuning a localizer on this side": "tuning that side's receiver selects it on that side",
        "tuning a localizer on either side": "tuning any receiver selects it on both sides",
    },
    "removed_by": {
        "its control": "the crew can turn it off without selecting another source",
        "loading another approach": "loading the other kind of approach takes it away",
        "tuning a localizer on this side": "tuning that side's receiver takes it away on that side",
        "tuning a localizer on either side": "tuning any receiver takes it away on both sides",
        "untuning the localizer": "untuning the localizer on that side takes it away",
        "no longer offered": "it is taken away as soon as `offered` no longer holds; otherwise it stays selected, "
                             "without guidance",
        "its guidance lost": "losing all SBAS guidance takes SBAS away",
        "go-around": "selecting a go-around takes it away", "landing": "landing takes it away",
        "removal of power": "it is no longer selected when power is restored",
    },
}
