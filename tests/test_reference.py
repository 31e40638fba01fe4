"""Every published check value holds."""

import pytest

from lpv_site.checks.checks import load_cases, run

CASES = load_cases()


@pytest.mark.parametrize("case", CASES, ids=[case.id for case in CASES])
def test_reference(case):
    result = run(case)
    assert result.holds, (
        f"{case.what}: expected {case.expected} {case.unit}, computed {result.computed}, "
        f"difference {result.difference}, tolerance {case.tolerance} ({case.source}, {case.place})"
    )
