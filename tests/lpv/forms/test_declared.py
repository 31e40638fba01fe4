"""What calculators and live figures take and give, as published: links and readers' habits rest on it.

declared.txt holds a line for each field (range, step, default, what it begins with), answer (unit, rounding, limits)
and table.  A change of one is a change for readers: make it here too, by `python tests/lpv/forms/test_declared.py`.
"""

from pathlib import Path

from lpv.calculators.run import calculator
from lpv.calculators.run import names as calculators
from lpv.figures.run import figure
from lpv.figures.run import names as figures
from lpv.forms.fields import Block, Choice, Number, Word
from lpv.forms.form import Steps

PUBLISHED = Path(__file__).with_name("declared.txt")


def field_line(field):
    parts = [field.kind, f"default {field.default!r}", f"from {field.source or 'nothing'}"]
    if isinstance(field, Number):
        parts.append(f"{field.low:g} to {field.high:g} {field.unit} by {field.step:g}")
    elif isinstance(field, Choice):
        parts.append("one of " + ", ".join(value for value, _ in field.options))
    elif isinstance(field, Word):
        parts.append(f"up to {field.most}")
    elif isinstance(field, Block):
        parts.append(f"{field.size} bytes")
    return f"takes {field.key}: {'; '.join(parts)}{', folded' if field.group else ''}"


def output_line(output):
    limits = "".join(f"; {limit.kind} {limit.limit:g}" for limit in output.limits)
    sides = f"; {' or '.join(output.sides)}" if output.sides else ""
    return (f"gives {output.key}: {output.unit or 'no unit'} by {output.step:g}{'; signed' if output.signed else ''}"
            f"{sides}{limits}")


def lines():
    rows = []
    for name in calculators():
        declared = calculator(name)
        parts = [field_line(field) for field in declared.inputs] + [output_line(output) for output in declared.outputs]
        if isinstance(declared.table, Steps):
            table = declared.table
            parts.append(f"table of {table.field}: {table.before} before, {table.after} after, by {table.step:g}: "
                         f"{', '.join(table.outputs)}")
        rows += [f"{name} {part}" for part in parts]
    for name in figures():
        declared = figure(name)
        rows += [f"{name} {field_line(field)}" for field in declared.inputs]
        rows.append(f"{name} plays: {declared.plays or 'nothing'}")
    return rows


def test_published_declarations_unchanged():
    published = PUBLISHED.read_text("utf-8").splitlines()
    changed = sorted(set(published) - set(lines()))
    assert changed == []
    assert len(published) == len(set(published)) > 250


if __name__ == "__main__":
    PUBLISHED.write_text("\n".join(lines()) + "\n", "utf-8")
