"""Facts: integrity."""

FACTS: "dict[str, tuple[float | str, str, str, str, str, str, str]]" = {}
