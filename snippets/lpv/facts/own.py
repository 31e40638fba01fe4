"""A department's own figures in the place of ours: none here; a build with own data fills them in.

`FACTS` has rows as the other modules have, for keys that they have; `SOURCES` what those rows name as their source.
"""

FACTS: "dict[str, tuple[float | str, str, str, str, str, str, str]]" = {}
SOURCES: "dict[str, tuple[str, str, str, str]]" = {}
