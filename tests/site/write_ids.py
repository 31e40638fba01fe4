"""Adds new permanent ids to docs/ids.txt; never removes one.

    python tests/site/write_ids.py
"""

from test_ids import REGISTRY, present, registered

if __name__ == "__main__":
    known = registered() if REGISTRY.exists() else set()
    REGISTRY.write_text("".join(f"{item}\n" for item in sorted(known | present())), "utf-8")
