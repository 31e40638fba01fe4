"""Which section of the handbook teaches what a finding is about."""

from lpv.core.findings import Finding
from lpv_site.text.headings import headings, wrong_entries
from lpv_site.text.links import relative

# Key of the finding -> section; behind it the kind of a drill's mistake and the grade, where that says more.
TEACHES = {
    "set-cycle": "verify/index.md#cycles-differ",
    "cycle": "verify/index.md#cycles-differ",
    "cycle-in-force": "verify/index.md#cycles-differ",
    "set-procedure": "verify/identity.md#channel-other-approach",
    "set-channel": "verify/identity.md#channel-other-approach",
    "set-path-id": "verify/identity.md#identifier-differs",
    "set-path-id other-runway": "verify/identity.md#channel-other-approach",
    "set-source": "modes/wrong-source.md#shown",
    "set-wrong-source": "modes/wrong-source.md#deviation-was-the-ils",
    "set-inhibited": "set-up/localizer.md#localizer-inhibits-sbas",
    "set-localizer": "set-up/localizer.md#do",
    "set-course": "verify/course.md#do",
    "set-course-left": "set-up/index.md#previous-course-set",
    "set-altimeter": "set-up/index.md#altimeters-differ",
    "set-altimeter altimeter-slip": "final/altimeter.md#altimeter-setting-slip",
    "set-level": "modes/index.md#level-not-as-briefed",
    "set-minimum-kind": "decide/minimum.md#kinds",
    "set-minimum-kind wrong-kind": "decide/minimum.md#da-set-as-mda",
    "set-minimum-kind wrong-kind stop": "decide/minimum.md#mda-set-as-da",  # an MDA set as a DA is the serious one
    "set-minimum-kind level-lower": "decide/minimum.md#mda-set-as-da",
    "set-minimum-level": "set-up/index.md#lnav-announced-lpv-minimum",
    "set-minimum-low": "decide/minimum.md#minimum-never-called",
    "set-minimum-high": "decide/minimum.md#do",
    "set-minimum-floor": "decide/minimum.md#table",
    "set-minimum-cold": "final/altimeter.md#cold-da-not-corrected",
    "set-minimum-cold-open": "final/altimeter.md#cold",
    "set-missed": "decide/missed.md#go-around-wrong-altitude",
    "set-missed-below-minimum": "decide/missed.md#go-around-wrong-altitude",
    "set-missed-cold": "final/altimeter.md#cold",
    "set-missed-cold-open": "final/altimeter.md#cold",
    "set-armed": "intercept/arming.md#where",
    "set-armed armed-away": "intercept/arming.md#armed-flying-away",
    "set-armed armed-far": "intercept/arming.md#armed-far-out",
    "set-sides": "set-up/index.md#sides-differ",
    "set-selector-kept": "set-up/index.md#selected-before-you",
    "course-shown": "verify/course.md#course-differs",
    "glidepath": "verify/index.md#limits",
    "glidepath-range": "verify/index.md#limits",
    "tch": "verify/index.md#limits",
    "fix-altitude": "verify/fixes.md#table",
    "fix-sequence": "verify/fixes.md#fix-missing",
    "leg": "verify/fixes.md#leg-course-differs",
}


# What is seen in a sequence (`lpv.decide.remedy.SIGNS`) -> section.
SIGN_TEACHES = {
    "": "modes/index.md#normal",
    "course lost": "modes/loss.md#course-lost-inside",
    "path lost": "modes/loss.md#path-lost-inside-pfaf",
    "level": "modes/index.md#level-not-as-briefed",
    "source": "modes/wrong-source.md#deviation-was-the-ils",
    "path not armed": "intercept/index.md#path-not-armed",
    "not captured": "final/index.md#nothing-captured-at-pfaf",
    "not followed": "decide/missed.md#guidance-did-not-sequence",
    "altimeter": "final/altimeter.md#altimeter-not-within-tolerance",
    "position": "modes/loss.md#position-in-doubt",
}


def section(finding: Finding, mistake: str = "") -> str:
    """Address of the section that teaches a finding; mistake: kind of the drill's mistake, if it comes from one.

    KeyError for a finding that no section teaches.
    """
    names = (f"{finding.key} {mistake} {finding.grade}", f"{finding.key} {mistake}")
    return next((TEACHES[name] for name in names if name in TEACHES), "") or TEACHES[finding.key]


def words_of(address: str) -> str:
    """A section in the words of its heading, behind its page's where it needs that."""
    words = headings()[address]
    if address in wrong_entries() or address.endswith("#top"):
        return words
    return f"{headings()[address.split('#')[0] + '#top']}: {words}"


def link(address: str, page: str) -> str:
    """A Markdown link from a page to a section, in its words."""
    return f"[{words_of(address)}]({relative(address, page)})"
