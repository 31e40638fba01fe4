"""Every published check value holds."""

from importlib import import_module

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


def test_case_names_defining_module():
    """A page shows the check values that name its function: one that names a module which only imports it is lost."""
    def defined_in(case):
        module, _, name = case.function.rpartition(".")
        return getattr(getattr(import_module(module), name), "__module__", module), module

    assert [case.id for case in CASES if len(set(defined_in(case))) > 1] == []
