"""Adds new permanent ids with the project's version to docs/ids.txt; never removes one.

    python tests/site/write_ids.py
"""

from test_ids import REGISTRY, present, registered, version

if __name__ == "__main__":
    known = registered() if REGISTRY.exists() else {}
    ids = dict.fromkeys(present(), version()) | known
    REGISTRY.write_text("".join(f"{address} {since}\n" for address, since in sorted(ids.items())), "utf-8")
