"""The cold temperature table of the AIM (TBL 7-3-1, the same as ICAO's), copied from print, and how it is read."""

import math

COLUMNS_FT = (200, 300, 400, 500, 600, 700, 800, 900, 1000, 1500, 2000, 3000, 4000, 5000)
ROWS_C = {
    0: (20, 20, 30, 30, 40, 40, 50, 50, 60, 90, 120, 170, 230, 280),
    -10: (20, 30, 40, 50, 60, 70, 80, 90, 100, 150, 200, 290, 390, 490),
    -20: (30, 50, 60, 70, 90, 100, 120, 130, 140, 210, 280, 420, 570, 710),
    -30: (40, 60, 80, 100, 120, 140, 150, 170, 190, 280, 380, 570, 760, 950),
    -40: (50, 80, 100, 120, 150, 170, 190, 220, 240, 360, 480, 720, 970, 1210),
    -50: (60, 90, 120, 150, 180, 210, 240, 270, 300, 450, 590, 890, 1190, 1500),
}


def between_columns_ft(celsius: int, height_ft: float) -> float:
    """In a row of the table, in a straight line between two columns."""
    right = next(place for place, column in enumerate(COLUMNS_FT) if column >= height_ft)
    (low_ft, high_ft), (low, high) = COLUMNS_FT[right - 1:right + 1], ROWS_C[celsius][right - 1:right + 1]
    return low + (height_ft - low_ft) / (high_ft - low_ft) * (high - low)


def minimum_ft(celsius: int, height_ft: float) -> int:
    """What is added to a DA or MDA: up to the next ten."""
    return math.ceil(between_columns_ft(celsius, height_ft) / 10 - 1e-9) * 10


def segment_ft(celsius: int, height_ft: float) -> int:
    """What is added to the altitudes of a segment: to the nearest hundred."""
    return math.floor(between_columns_ft(celsius, height_ft) / 100 + 0.5) * 100
