"""What the scripts of docs/teach/ show, counted in the files of the lessons."""

import tomllib

import pytest

from lpv_site.department.data import DOCS
from teach import lessons, standards

FILES = {path.stem: tomllib.loads(path.read_text("utf-8")) for path in (DOCS / "teach").glob("*.toml")}
# lessons.show() offers "initial", "recurrent", "line-debrief".


@pytest.mark.parametrize("slug", ["initial", "recurrent", "line-debrief"])
def test_lesson_time(slug):
    assert lessons.show().number(slug) == sum(objective["minutes"] for objective in FILES[slug]["objective"])


def test_every_served_standard_listed_once_with_objectives():
    text = str(standards.show())
    lines = text.strip().splitlines()
    served = [(key, file, objective["key"]) for file, lesson in FILES.items() for objective in lesson["objective"]
              for key in objective["standards"]]
    assert len(lines) == len({key for key, _, _ in served})
    assert text.count(".md#") == len(served) + len(lines), "objectives, and the fact of each"
    assert text.count("(from memory)") == len(lines)
