"""The handbook's mark: a path that narrows down to a bar.  One drawing, as SVG and as PNG."""

from pathlib import Path

from matplotlib.figure import Figure
from matplotlib.patches import Polygon

SIDE = 512
GROUND = "#17324a"
# Everything lies within the middle four fifths, so that a round or square cut of the icon spares it.
SHAPES = (
    ("#7cc4f0", ((142, 326), (404, 142), (404, 240))),
    ("#ffffff", ((110, 350), (270, 350), (270, 378), (110, 378))),
)
PNG_SIDES = (192, 512)


def write(folder: Path) -> None:
    """Put icon.svg and icon-<side>.png into a folder."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "icon.svg").write_text(svg(), "utf-8")
    for side in PNG_SIDES:
        draw(folder / f"icon-{side}.png", side)


def svg() -> str:
    """The mark as SVG text."""
    shapes = "".join(
        f'<polygon fill="{colour}" points="{" ".join(f"{x},{y}" for x, y in corners)}"/>'
        for colour, corners in SHAPES
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {SIDE} {SIDE}">'
        f'<rect width="{SIDE}" height="{SIDE}" fill="{GROUND}"/>{shapes}</svg>\n'
    )


def draw(path: Path, side: int) -> None:
    """The mark as a square PNG, the same bytes at each build."""
    sheet = Figure(figsize=(side / 100, side / 100), dpi=100, facecolor=GROUND)
    axes = sheet.add_axes((0, 0, 1, 1))
    axes.set(xlim=(0, SIDE), ylim=(SIDE, 0))
    axes.axis("off")
    for colour, corners in SHAPES:
        axes.add_patch(Polygon(corners, facecolor=colour, edgecolor="none"))
    sheet.savefig(path, dpi=100, metadata={"Software": None})
