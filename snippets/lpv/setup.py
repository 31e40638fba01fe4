"""What each side of the cockpit has set, checked against the approach and against the other side.

`check` gives findings in the order of the cockpit.  Set-up files are read by `lpv.setup_file`.

`python -m lpv.setup FILE --approach FILE [--aircraft FILE] [--json]` prints the findings of a set-up file; it
exits with 1 if any is a stop, with 2 if a file has faults.
"""

from lpv.findings import Finding
from lpv.mode_rules import Rules, usual_rules
from lpv.setup_checks import COMMON_AFTER, COMMON_BEFORE, PER_SIDE
from lpv.setup_records import Setup, Wanted


def check(setup: Setup, wanted: Wanted, rules: "Rules | None" = None) -> "list[Finding]":
    """Every finding about a set-up, those that agree ("ok") included, in the order of the cockpit.

    rules: of the aircraft's modes; without them, the usual ones with a selector per side.
    DomainError for numbers outside the range of the formulas.
    """
    rules = rules or usual_rules(selector="per side")
    findings = []
    for common in COMMON_BEFORE:
        findings += common(setup, wanted)
    for item in PER_SIDE:
        for side in setup.sides():
            findings += item(side, setup, wanted, rules)
    for common in COMMON_AFTER:
        findings += common(setup, wanted)
    return findings


if __name__ == "__main__":
    import sys

    from lpv.setup_file import main

    sys.exit(main(sys.argv[1:]))
