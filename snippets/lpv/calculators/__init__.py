"""The calculators: the reader's own figures through the functions that made the pages.

A calculator is declared in one of the modules beside this one, by task: its fields, its answers, the facts that it
rests on.  The build makes a form of it (`lpv_site.forms.calculators`); the phone runs the same files and calls `run`.
"""

# Module beside this one -> its calculators; no dict, since on the phone those have no order.
TASKS = (
    ("verify", ("path-altitude", "course", "identity", "data-block")),
    ("plan", ("cold", "cycle")),
    ("set_up", ("frequency",)),
    ("intercept", ("vector", "turn-on", "from-above")),
    ("speed", ("added", "hold")),
    ("final", ("descent-rate", "wind", "dots", "altimeter")),
    ("decide", ("climb", "dip", "sight", "rvr")),
)
