"""The container file of the repository, ready to use."""

from pathlib import Path

import render

text = (Path(render.__file__).parent / "Containerfile").read_text("utf-8")
print(f"```text\n{text}```")
