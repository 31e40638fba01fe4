"""What the site tests share: the pages, their fences and their prose."""

import re
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
DOCS = ROOT / "docs"
SNIPPETS = ROOT / "snippets"

FENCE = re.compile(
    r"^(?P<indent> *)(?P<mark>```+|~~~+)(?P<head>[^\n]*)\n(?P<body>.*?)^(?P=indent)(?P=mark) *$", re.M | re.S
)
SHOWS = re.compile(r"from (\w+)\.(\w+) import show\nprint\(show\(\)\)")
OPTION = re.compile(r'(\w+)="([^"]*)"')
EXPRESSION = re.compile(r"\{\{.+?\}\}")
HEADING = re.compile(r"^(#{1,6}) (.+)$", re.M)
HEADING_ID = re.compile(r"\{ #([a-z0-9-]+) \}$")


@dataclass(frozen=True)
class Fence:
    """One fenced block of a page: its language, options and body."""

    page: Path
    head: str
    body: str

    @property
    def options(self) -> dict[str, str]:
        return dict(OPTION.findall(self.head))

    @property
    def language(self) -> str:
        return self.head.strip().split(" ")[0]

    @property
    def script(self) -> str | None:
        """The page script that is shown, such as `final/altimeter`; None when the body is anything else."""
        match = SHOWS.fullmatch(self.body.strip())
        return f"{match[1]}/{match[2]}" if match else None


def pages() -> list[Path]:
    return sorted(DOCS.rglob("*.md"))


def fences(page: Path) -> list[Fence]:
    text = page.read_text("utf-8")
    return [Fence(page, match["head"].strip(), match["body"]) for match in FENCE.finditer(text)]


def without_fences(text: str) -> str:
    return FENCE.sub("", text)


def prose(page: Path) -> str:
    """What a reader reads and a writer typed: no front matter, code, expressions, link targets."""
    text = re.sub(r"\A---\n.*?\n---\n", "", page.read_text("utf-8"), flags=re.S)
    text = without_fences(text)
    text = re.sub(r"`[^`\n]+`", "", text)
    text = re.sub(r"\]\([^)]*\)", "]", text)
    text = re.sub(r"\{ ?[#.:][^}]*\}", "", text)
    return EXPRESSION.sub("", text)


def name(page: Path) -> str:
    return str(page.relative_to(DOCS))
