"""The measure of drawings: each fault is seen, and a drawing without one passes."""

import pytest
from matplotlib.figure import Figure

import drawn


def sheet(act):
    made = Figure(figsize=(4, 3))
    axes = made.add_subplot()
    axes.plot([0, 1, 2], [0, 1, 2])
    axes.set(xlim=(0, 2), ylim=(0, 2))
    act(axes)
    return made


@pytest.mark.parametrize(("act", "fault"), [
    (lambda axes: axes.plot(1, 1, "o"), None),
    (lambda axes: axes.plot(1, 0.5, "o"), "a mark beside every line"),
    (lambda axes: axes.annotate("name", (1, 1), xytext=(4, 4), textcoords="offset points"), None),
    (lambda axes: axes.annotate("name", (2.1, 1), xytext=(-60, 4), textcoords="offset points"),
     "points out of the axes"),
    (lambda axes: axes.annotate("name", (1, 1), xytext=(400, 4), textcoords="offset points"), "out of sight"),
    (lambda axes: [axes.text(1, 1, word) for word in ("one", "other")], "over each other"),
    (lambda axes: [axes.text(1, height, "one") for height in (0.5, 1.5)], None),
])
def test_each_fault_detected(act, fault):
    problems = drawn.faults(sheet(act))
    assert [each.partition(":")[0] for each in problems][:1] == ([fault] if fault else [])
