"""The maker of wrong changes: what it changes, and that the change acts."""

import ast
import os

import pytest

import mutate
from mutants import mutants, mutated

SOURCE = '''
"""A docstring with 1 number."""
TYPE_CHECKING = False
if TYPE_CHECKING:
    WIDE = 3
TABLE = {"row": (1.5, "ft")}


def add(first: int, second: int) -> int:
    if first > second and not second < 0:
        return max(first, second) - 2
    return first + second * -1


def same(first, second):
    return ask(second, first) if first else f"{first:5.1f}" + "x"


def ask(one, other):
    return (one, other)
'''


def outcome(number, call):
    """What a function of the source gives with a mutant; the name of the error if it raises one."""
    scope = {}
    exec(compile(mutated(SOURCE, number), "source", "exec"), scope)
    try:
        return eval(call, scope)
    except Exception as error:
        return type(error).__name__


def mutant_of(before):
    (mutant,) = [mutant for mutant in mutants("m", SOURCE) if mutant.before == before]
    return mutant


@pytest.mark.parametrize(("before", "after", "call", "right", "wrong"), [
    ("1.5", "1.65", "TABLE['row'][0]", 1.5, 1.65),
    ("first > second", "first >= second", "add(3, 3)", 0, 1),
    ("first > second and (not second < 0)", "first > second or not second < 0", "add(1, 2)", -1, 0),
    ("not second < 0", "not not second < 0", "add(5, 1)", 3, 4),
    ("max(first, second) - 2", "max(first, second) + 2", "add(5, 2)", 3, 7),
    ("max(first, second)", "min(first, second)", "add(5, 2)", 3, 0),
    ("first + second * -1", "first - second * -1", "add(1, 2)", -1, 3),
    ("second * -1", "second / -1", "add(1, 2)", -1, -1.0),
    ("-1", "+1", "add(1, 2)", -1, 3),
    ("ask(second, first)", "ask(first, second)", "same(1, 2)", (2, 1), (1, 2)),
    ("first", "not first", "same(1, 2)", (2, 1), "  1.0x"),
    ("return (one, other)", "return None", "ask(1, 2)", (1, 2), None),
])
def test_single_change_at_a_time(before, after, call, right, wrong):
    scope = {}
    exec(SOURCE, scope)
    assert eval(call, scope) == right
    mutant = mutant_of(before)
    assert mutant.after == after
    given = outcome(mutant.number, call)
    assert given == wrong


def test_mutants_numbered_named_and_restricted_to_running_code():
    made = mutants("m", SOURCE)
    assert [mutant.number for mutant in made] == list(range(len(made)))
    assert {mutant.function for mutant in made} == {"row", "add", "same", "ask"}
    assert {mutant.before for mutant in made if mutant.kind == "constant"} == {"1.5", "0", "2", "1"}
    assert mutant_of("1.5").name == "m.row: 1.5 -> 1.65"
    with pytest.raises(IndexError):
        mutated(SOURCE, len(made))


def test_drawing_looks_not_mutated():
    source = "axes.plot([1], linewidth=2)\naxes.text(3, 4, xytext=(5, -6))\naxes.labelpad = 7\n"
    assert [mutant.before for mutant in mutants("m", source)] == ["1", "3", "4"]
    source = "panel.label('a', 1, 2, 'ink', ('n',), True)\n"
    assert [mutant.before for mutant in mutants("m", source)] == ["1", "2"]


def test_mutant_description_matches_change():
    path = mutate.modules()["lpv.path.deviation"]
    source = path.read_text("utf-8")
    whole = ast.unparse(ast.parse(source))
    for mutant in mutants("lpv.path.deviation", source):
        wrong = ast.unparse(mutated(source, mutant.number))
        assert wrong != whole
        assert mutant.after in wrong, mutant


def test_sample_reproducible_with_seed():
    made, there = mutate.sampled("lpv.path", 10, 1)
    assert mutate.sampled("lpv.path", 10, 1) == (made, there)
    assert mutate.sampled("lpv.path", 10, 2)[0] != made
    assert len(made) == 10 < there
    assert len(mutate.sampled("lpv.path", None, 1)[0]) == there


def test_nearest_tests_run_first():
    assert mutate.judges("lpv.path.deviation")[0][0] == "tests/lpv/path/test_deviation.py"
    assert ("tests/lpv/crosscheck/test_limits.py",) in mutate.judges_of_fact("limit_" + "hat_stop_ft")
    assert {"lpv.path.profile", "lpv.path.temperature", "final.rate"} <= mutate.dependents("lpv.core.units")
    assert "lpv.path.scale" not in mutate.dependents("final.rate")


def test_page_tests_judge_page_functions():
    assert mutate.shown("lpv.decide.last_mile")[0] == "tests/scripts/test_decide_scripts.py"
    assert mutate.shown("final.rate") == ()
    stages = mutate.judges("lpv.decide.last_mile")
    assert {(test,) for test in mutate.shown("lpv.decide.last_mile")} <= set(stages)
    assert len({test for stage in stages for test in stage}) == sum(map(len, stages))


def test_whole_package_tests_exist():
    rooms = {mutate.room(name) for name in mutate.modules()}
    for package, tests in mutate.WHOLE.items():
        assert package in rooms
        assert all((mutate.ROOT / test).is_file() for test in tests), package
    assert mutate.DOMAINS.format("lpv.decide.visual") in mutate.whole("lpv.decide.visual")
    assert mutate.whole("lpv.decide.remedy") == ()
    assert mutate.whole("lpv.approach.schema")[0] == mutate.SCHEMAS


def test_live_figure_judged_by_own_cases():
    drawn = [test for stage in mutate.judges("lpv.figures.cold") for test in stage if mutate.FIGURES_DRAWN in test]
    assert drawn == [f"{mutate.FIGURES_DRAWN}::{test}[live-cold]" for test in mutate.OF_A_FIGURE]
    text = (mutate.ROOT / mutate.FIGURES_DRAWN).read_text("utf-8")
    assert all(f"def {test}(name)" in text for test in mutate.OF_A_FIGURE)


def test_every_package_has_target():
    groups = {mutate.group(mutate.room(name)) for name in mutate.modules()}
    assert groups == {"lpv", "forms and figures", "site layer", "page scripts"}


def test_failing_test_seen_in_running_process(tmp_path):
    for line, good in (("assert True", True), ("assert False", False), ("import nothing_of_that_name", False)):
        path = tmp_path / "test_it.py"
        path.write_text(f"def test_it():\n    {line}\n", "utf-8")
        assert (mutate.plain_s((str(path),)) is not None) is good


def test_endless_change_ends_and_keeps_apart(tmp_path):
    """A process has its own time and its own folder of finished parts."""
    path = tmp_path / "test_it.py"
    path.write_text("def test_it():\n    while True:\n        pass\n", "utf-8")
    _, status = os.waitpid(mutate.begin((str(path),), None, within_s=1.0), 0)
    assert os.waitstatus_to_exitcode(status) < 0
    path.write_text(f"""from lpv_site.build import store
def test_it():
    assert str(store.FOLDER).startswith({str(mutate.STORES)!r})
""", "utf-8")
    assert mutate.plain_s((str(path),)) is not None


def test_test_that_starts_process_left_out(tmp_path):
    """No change reaches what runs elsewhere: without the test that fails the file passes."""
    path = tmp_path / "test_it.py"
    path.write_text("""import subprocess
def started():
    return subprocess.run(["false"]).returncode
def test_by_helper():
    assert started() == 0
def test_itself():
    assert subprocess.run(["false"]).returncode == 0
def test_plain():
    assert True
""", "utf-8")
    assert mutate.plain_s((str(path),)) is not None
