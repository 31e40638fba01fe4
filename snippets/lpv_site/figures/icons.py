"""The handbook's mark: a path that narrows down to a bar.  One drawing, as SVG and as PNG."""

import base64
import io
from functools import partial
from pathlib import Path

from lpv_site.build import reach, store

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
        key = store.key_of(reach.version(frozenset([__name__])), "icon", str(side))
        icon = store.kept(key, partial(_encoded, side))
        (folder / f"icon-{side}.png").write_bytes(base64.b64decode(icon["png"]))


def _encoded(side: int) -> dict[str, str]:
    return {"png": base64.b64encode(draw(side)).decode()}


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


def draw(side: int) -> bytes:
    """The mark as a square PNG, the same bytes at each build."""
    from matplotlib.figure import Figure
    from matplotlib.patches import Polygon

    sheet = Figure(figsize=(side / 100, side / 100), dpi=100, facecolor=GROUND)
    axes = sheet.add_axes((0, 0, 1, 1))
    axes.set(xlim=(0, SIDE), ylim=(SIDE, 0))
    axes.axis("off")
    for colour, corners in SHAPES:
        axes.add_patch(Polygon(corners, facecolor=colour, edgecolor="none"))
    picture = io.BytesIO()
    sheet.savefig(picture, dpi=100, format="png", metadata={"Software": None})
    return picture.getvalue()
