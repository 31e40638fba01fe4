"""The text of a module as the phone gets it: the same code without its comments, docstrings and empty lines.

The phone shows none of them, and they are a quarter of what it would have to fetch.
"""

import ast
import io
import tokenize
from functools import cache


@cache
def lean(text: str) -> str:
    """The code of a module; SyntaxError for what is no Python."""
    instead, comments, inside_texts = _docstrings(text), _comments(text), _within_texts(text)
    kept = []
    for number, line in enumerate(text.splitlines(), 1):
        kept_line = instead.get(number, line[: comments.get(number, len(line))].rstrip())
        if number in inside_texts and number not in instead:
            kept.append(line)
        elif kept_line:
            kept.append(kept_line)
    return "".join(f"{line}\n" for line in kept)


def _docstrings(text: str) -> dict[int, str]:
    """What stands in the place of each line of a docstring: nothing, but for a body that has nothing else."""
    instead: dict[int, str] = {}
    for node in ast.walk(ast.parse(text)):
        body_of = getattr(node, "body", None)
        body = body_of if isinstance(body_of, list) else []
        for part in body:
            if _is_text_alone(part):
                instead |= dict.fromkeys(range(part.lineno, (part.end_lineno or part.lineno) + 1), "")
                if len(body) == 1 and not isinstance(node, ast.Module):
                    instead[part.lineno] = " " * part.col_offset + "pass"
    return instead


def _is_text_alone(part: ast.stmt) -> bool:
    return isinstance(part, ast.Expr) and isinstance(part.value, ast.Constant) and isinstance(part.value.value, str)


def _comments(text: str) -> dict[int, int]:
    """Line -> where its comment begins."""
    tokens = tokenize.generate_tokens(io.StringIO(text).readline)
    return {token.start[0]: token.start[1] for token in tokens if token.type == tokenize.COMMENT}


def _within_texts(text: str) -> set[int]:
    """The lines that a text of several lines goes on after: they stay as they are."""
    numbers: set[int] = set()
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Constant | ast.JoinedStr) and node.end_lineno:
            numbers |= {*range(node.lineno, node.end_lineno)}
    return numbers
