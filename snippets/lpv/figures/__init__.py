"""Live figures: drawn by the build, and again on the phone for the reader's own numbers, byte for byte the same.

A figure is declared in one of the modules beside this one: what can be set in it, and a function that draws it, tells
its finding in words and gives its data as a table.  The build makes a complete figure of it (`lpv_site.forms.live`);
the phone runs the same files and calls `run`.
"""

# Module beside this one -> its figures; no dict, since on the phone those have no order.
TASKS = (
    ("altimeter", ("live-altimeter",)),
    ("funnel", ("live-funnel",)),
    ("rate", ("live-rate",)),
    ("intercept", ("live-intercept",)),
    ("energy", ("live-energy",)),
    ("go_around", ("live-go-around",)),
    ("sight", ("live-sight",)),
    ("cold", ("live-cold",)),
    ("block", ("live-block",)),
    ("sky", ("live-sky",)),
    ("flight", ("live-flight",)),
)
