"""How often debriefs of recorded flights are wrong: printed on the validation page from the committed count.

The count is made by `python -m demo.proof`, which flies simulated approaches with known truth and records them badly.
"""

import json
from pathlib import Path
from typing import Any

from lpv.core.text import number
from lpv_site.text.table import table

RESULT = Path(__file__).resolve().parents[3] / "tests" / "reference" / "recorded-flights.json"
ANSWERS = ("within", "outside", "too close to say")


def recorded_flights_section() -> str:
    """The section of the validation page."""
    result = json.loads(RESULT.read_text("utf-8"))
    every = result["kinds"]["all"]
    rows = [(kind, _judged(row), row["false alarm"], row["missed"] + row["false assurance"])
            for kind, row in result["kinds"].items() if _judged(row)]
    return (
        "\n## Recorded flights { #recorded-flights }\n\n"
        f"{result['flights']} simulated approaches, flown with known truth, were recorded with noise, an offset of the "
        "receiver, few samples and gaps, and judged as any recording; among them level flight near the minimum, "
        "go-arounds flown badly, and whole procedures from the initial fix. "
        f"Of {_judged(every)} comparisons {every['too close to say']} were too close to say, "
        f"{every['false alarm']} were false alarms ({_share(every['false alarm'], every['truly within'])} of what was "
        f"really within), {every['false assurance']} were false assurances, and {every['missed']} were beyond "
        "their limit by more than twice the stated uncertainty without being called outside. "
        f"Of {every['truly outside']} really outside, {every['outside'] - every['false alarm']} were marked so. "
        "The methods were chosen on other flights; these were drawn once. The noise of these recordings is "
        "independent from sample to sample and their offset constant; a receiver may do worse.\n\n"
        + table(["compared", "judged", "false alarms", "missed"], rows)
    )


def recordings_judged() -> tuple[int, int]:
    """How many comparisons were judged, and how many of them neither alarmed, assured nor missed falsely."""
    every = json.loads(RESULT.read_text("utf-8"))["kinds"]["all"]
    return _judged(every), _judged(every) - every["false alarm"] - every["false assurance"] - every["missed"]


def _judged(row: dict[str, Any]) -> int:
    return sum(int(row[word]) for word in ANSWERS)


def _share(count: int, total: int) -> str:
    return f"{number(100.0 * count / total, 0.1)}%" if total else "none"
