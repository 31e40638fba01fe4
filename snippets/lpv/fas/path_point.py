"""ARINC 424 path point records: read, checked against their own remainder, written back.

`lpv path-point FILE...` prints every path point of a file with its remainder checked, and
exits with 1 if one fails or the file has faults.

Source: ARINC Specification 424-18, path point primary and continuation records.
"""

import argparse
import sys
from pathlib import Path

from lpv.core.errors import DataError, Fault, shown
from lpv.fas.path_point_columns import CONTINUATION, PRIMARY, columns_of_segment, height_text, write_columns
from lpv.fas.path_point_reader import PathPoint, collect, read
from lpv.files.outside import lines_of, opened, os_error_text

__all__ = ["PathPoint", "collect", "main", "read", "write"]


def write(point: PathPoint) -> str:
    """The point's records of 132 columns, each with its line end: the primary, then its continuation if any.

    Raises DataError, its keys names of the point's fields or columns, if what would be written does not
    read back as the same point.
    """
    head = {
        "record_type": point.record_type, "area": point.area, "section": "P", "airport": point.airport,
        "icao_region": point.icao_region, "subsection": "P", "approach": point.approach, "runway": point.runway,
    } | columns_of_segment(point.segment)
    text = write_columns(head | {
        "continuation_number": point.continuation_number, "remainder": point.printed_remainder,
        "record_number": point.record_number, "cycle": point.cycle,
    }, PRIMARY) + "\n"
    if point.continuation_cycle:
        text += write_columns(head | _continuation_texts(point), CONTINUATION) + "\n"
    _same(point, text)
    return text


def _same(point: PathPoint, text: str) -> None:
    name = "path point to write"
    points = read(text, name)
    if len(points) != 1:
        raise DataError([Fault(name, "", "a line end or the like in a text", "plain text", "Remove it.")])
    again = vars(points[0]) | {"line_number": point.line_number}
    faults = [
        Fault(name, key, shown(value), "a value that its columns hold and that fits the rest", "Correct it.")
        for key, value in vars(point).items()
        if value != again[key]
    ]
    if faults:
        raise DataError(faults)


def _continuation_texts(point: PathPoint) -> dict[str, str]:
    def height(value_m: float | None) -> str:
        return "" if value_m is None else height_text(value_m)

    return {
        "continuation_number": "2", "application": "E", "other": point.other,
        "fpap_ellipsoid_height": height(point.fpap_ellipsoid_height_m),
        "fpap_orthometric_height": height(point.fpap_orthometric_height_m),
        "ltp_orthometric_height": height(point.ltp_orthometric_height_m),
        "level_of_service": point.level_of_service or "",
        "sbas_channel": "" if point.sbas_channel is None else f"{point.sbas_channel:05d}",
        "record_number": point.continuation_record_number, "cycle": point.continuation_cycle,
    }


HEADINGS = (
    "airport", "runway", "approach", "path id", "service", "channel", "GPA deg", "TCH", "width m", "offset m",
    "HAL m", "VAL m", "cycle", "line", "remainder",
)


def main(argv: list[str]) -> int:
    """Print the path points of the files named; 0 if all are good, 1 if one is not, 2 if a file cannot be read."""
    parser = argparse.ArgumentParser(
        "lpv path-point", description="List the path points of coded (ARINC 424) files, and check their remainders.",
        epilog="Exit code: 0 all good; 1 a path point cannot be used; 2 wrong arguments, or an unreadable file.")
    parser.add_argument("files", nargs="+", metavar="FILE", help="file of records")
    return max([_report(name) for name in parser.parse_args(argv).files])


def _report(name: str) -> int:
    """Print the path points of a file; the exit code."""
    try:
        # Records of other kinds may hold any bytes; in a path point a replaced one is a fault of its columns.
        with opened(Path(name)) as stream:
            points, faults = collect(lines_of(stream, name), name)
    except DataError as error:
        print(error, file=sys.stderr)
        return 2
    except OSError as error:
        print(os_error_text(error), file=sys.stderr)
        return 2
    messages = [str(fault) for fault in faults] + [
        f"{name}: line {point.line_number}: the remainder of {point.airport} {point.runway} {point.approach} "
        "fails; do not use this path point."
        for point in points
        if not point.remainder_holds
    ]
    if not points and not faults:
        messages.append(f"{name}: no path point record found.")
    if points:
        print(_table([HEADINGS, *map(_row, points)]))
    print("\n".join(messages), file=sys.stderr, end="\n" if messages else "")
    return 1 if messages else 0


def _row(point: PathPoint) -> tuple[str, ...]:
    segment, computed = point.segment, point.computed_remainder
    verdict = f"ok {computed}" if point.remainder_holds else (
        f"fails: {point.printed_remainder} printed, {computed} computed"
    )
    tch_decimals = 1 if segment.tch_unit == "ft" else 2
    return (
        point.airport, point.runway, point.approach, segment.reference_path_id,
        point.level_of_service or ("LP (VAL 0)" if segment.is_lp else "-"),
        "-" if point.sbas_channel is None else str(point.sbas_channel),
        f"{segment.gpa_deg:.2f}", f"{segment.tch:.{tch_decimals}f} {segment.tch_unit}", f"{segment.course_width_m:.2f}",
        f"{segment.length_offset_m:.0f}", f"{segment.hal_m:.1f}", f"{segment.val_m:.1f}", point.cycle,
        str(point.line_number), verdict,
    )


def _table(rows: list[tuple[str, ...]]) -> str:
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return "\n".join(
        "  ".join(text.ljust(width) for text, width in zip(row, widths, strict=True)).rstrip() for row in rows
    )
