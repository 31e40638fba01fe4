"""What each side of the cockpit has set, checked against the approach and against the other side.

Public: `checks.check`, `expected.Expected`, `records.Setup`, `radio.kind_of_khz`; `form.run` answers the phone.
"""
