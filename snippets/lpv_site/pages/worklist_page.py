"""What is still to be filled from charts, as a page of the department's own.

    python -m lpv_site.pages.worklist_page FOLDER [USED] > pages/worklist.md

FOLDER holds the approach files; USED says how often each is flown (`lpv.fill.worklist`).
"""

import sys
from pathlib import Path

from lpv.approach.record import read_all
from lpv.approach.schema import TO_BE_FILLED
from lpv.command.runner import run
from lpv.core.errors import DataError
from lpv.fill.worklist import FILL, READ_AGAIN, VERIFY, Task, counted, read_used, tasks
from lpv_site.text.table import finished
from lpv_site.text.text import escape, front_matter

TITLE = "Still to be filled from charts"
DO = {READ_AGAIN: "Read again", FILL: "Fill", VERIFY: "Verify"}


def build_worklist_page(open_tasks: list[Task], approaches: int, briefings: str = "") -> str:
    """The page as Markdown; `briefings` is what stands before the name of a briefing in a link to it."""
    left = list(dict.fromkeys(task.slug for task in open_tasks))
    page = front_matter(TITLE, f"{len(open_tasks)} values of {len(left)} approaches are left.")
    page += f"{len(left)} of {approaches} approaches are not finished: {len(open_tasks)} values.\n\n"
    if not open_tasks:
        return page
    tally = counted(open_tasks)
    rows = [(escape(words), *(str(tally[kind][key] or "") for kind in DO)) for key, words in TO_BE_FILLED.items()
            if any(tally[kind][key] for kind in DO)]
    page += "## By field { #fields }\n\n" + finished(["field", *(words.lower() for words in DO.values())], rows)
    page += "\n## By approach { #approaches }\n"
    return page + "".join(_approach([task for task in open_tasks if task.slug == slug], briefings) for slug in left)


def _approach(tasks_left: list[Task], briefings: str) -> str:
    first = tasks_left[0]
    lines = [f"\n### {escape(first.airport)} {escape(first.title)} {{ #{first.slug} data-search-exclude }}\n"]
    for what, words in DO.items():
        named = [_named(task) for task in tasks_left if task.what == what]
        lines += [f"- {words}: {'; '.join(named)}."] if named else []
    return "\n".join([*lines, f"- [Briefing]({briefings}{first.slug}.md)"]) + "\n"


def _named(task: Task) -> str:
    was = f", was {escape(task.was)}" if task.was else ""
    return escape(TO_BE_FILLED[task.key]) + (f" ({escape(task.because)} changed{was})" if task.because else "")


def main(argv: list[str]) -> int:
    """Print the page; 0 when it could be made, 2 if not."""
    if not 1 <= len(argv) <= 2:
        print("Usage: python -m lpv_site.pages.worklist_page FOLDER [USED]", file=sys.stderr)
        return 2
    try:
        approaches = read_all(argv[0])
        open_tasks = tasks(approaches, read_used(Path(argv[1]) if argv[1:] else None))
    except DataError as error:
        print(error, file=sys.stderr)
        return 2
    print(build_worklist_page(open_tasks, len(approaches), "../approaches/"), end="")
    return 0


if __name__ == "__main__":
    sys.exit(run(main, sys.argv[1:]))
