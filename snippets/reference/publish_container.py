"""The container file of the repository, ready to use."""

from pathlib import Path

from lpv_site.build import hosting

text = (Path(hosting.__file__).parent / "Containerfile").read_text("utf-8")
print(f"```text\n{text}```")
