"""Adds a code to docs/debrief/codes.toml for every entry under "When it goes wrong" without one; removes none.

    python tests/site/write_codes.py

The heading becomes what happened; word it anew in the file as a crew would say it, and choose its group.
"""

from lpv_site.department.data import DOCS
from lpv_site.pages.debrief_codes import FILE, line_of, new_entries


def write(docs=DOCS):
    """The lines added."""
    path = docs / FILE
    added = [line_of(entry) for entry in new_entries(docs)]
    before, end, after = path.read_text("utf-8").rpartition("]")
    path.write_text(before + "".join(added) + end + after, "utf-8")
    return added


if __name__ == "__main__":
    print("".join(write()) or "Every entry has its code.")
