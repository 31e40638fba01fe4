"""A spreadsheet's own file: the same rows as its export to CSV; what is damaged or harmful is refused in words."""

import csv
import io
import zipfile
from datetime import date

import pytest

from lpv.core.errors import DataError
from lpv.fill import merge as merging
from lpv.fill import workbook
from lpv.fill.sheet import NEEDED, rows_of
from lpv.fill.workbook import as_csv

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PACKAGE = "http://schemas.openxmlformats.org/package/2006/relationships"
DAY = 46380  # 24 December 2026 as spreadsheets count
ROW = ("khwd-rnav-28l.toml", "tdze_ft", 52, "A. Reader", DAY, "B. Reader", DAY + 1)


def cell(place, value, texts):
    """One cell as spreadsheets write it: texts in a table of their own, or within; a formula with its value."""
    if isinstance(value, tuple):
        formula, result = value
        return f'<c r="{place}"><f>{formula}</f>{f"<v>{result}</v>" if result is not None else ""}</c>'
    if not isinstance(value, str):
        return f'<c r="{place}"><v>{value!r}</v></c>'
    if texts is None:
        return f'<c r="{place}" t="inlineStr"><is><t>{value}</t></is></c>'
    texts.append(value)
    return f'<c r="{place}" t="s"><v>{len(texts) - 1}</v></c>'


def packed(*sheets, inline=False, old=False, **more):
    """A workbook of sheets, each rows of cells; more: text of a part in the place of the right one."""
    texts = None if inline else []
    parts = {}
    for number, rows in enumerate(sheets, 1):
        lines = "".join(
            f'<row r="{at}">' + "".join(
                cell(f"{chr(65 + column)}{at}", value, texts) for column, value in enumerate(row) if value != ""
            ) + "</row>" for at, row in enumerate(rows, 1))
        parts[f"xl/worksheets/sheet{number}.xml"] = (
            f'<worksheet xmlns="{MAIN}"><sheetData>{lines}</sheetData></worksheet>')
    listed = "".join(f'<sheet name="Sheet {number}" sheetId="{number}" r:id="rId{number}"/>'
                     for number in range(1, len(sheets) + 1))
    links = "".join(f'<Relationship Id="rId{number}" Target="worksheets/sheet{number}.xml"/>'
                    for number in range(1, len(sheets) + 1))
    count = ' date1904="1"' if old else ""
    parts["xl/workbook.xml"] = (f'<workbook xmlns="{MAIN}" xmlns:r="{RELATIONS}"><workbookPr{count}/>'
                                f"<sheets>{listed}</sheets></workbook>")
    parts["xl/_rels/workbook.xml.rels"] = f'<Relationships xmlns="{PACKAGE}">{links}</Relationships>'
    if texts:
        strings = "".join(f"<si><r><t>{text[:2]}</t></r><r><t>{text[2:]}</t></r><rPh><t>said</t></rPh></si>"
                          for text in texts)
        parts["xl/sharedStrings.xml"] = f'<sst xmlns="{MAIN}">{strings}</sst>'
    parts |= {name.replace("__", "/") + ".xml": text for name, text in more.items()}
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, text in parts.items():
            archive.writestr(name, text)
    return out.getvalue()


@pytest.mark.parametrize("inline", [True, False])
def test_rows_match_export_with_numbers(inline):
    empty = ("",) * len(NEEDED)
    text = as_csv(packed([("notes",)], [NEEDED, ROW, empty, (*ROW[:4], "2026-12-24")], inline=inline), "t.xlsx")
    rows, faults = rows_of(text, "t.xlsx")
    assert faults == []
    assert [row.number for row in rows] == [2, 4]
    assert (rows[0].file, rows[0].key, rows[0].value, rows[0].filled_by, rows[0].filled_on, rows[0].verified_on) == (
        "khwd-rnav-28l.toml", "tdze_ft", "52", "A. Reader", "2026-12-24", "2026-12-25")
    assert (rows[1].filled_on, rows[1].verified_on) == ("2026-12-24", "")


def test_days_counted_as_in_workbook():
    days = (date(2026, 12, 24) - date(1904, 1, 1)).days
    text = as_csv(packed([NEEDED, (*ROW[:4], days)], old=True), "t.xlsx")
    assert list(csv.reader(io.StringIO(text)))[1][4] == "2026-12-24"
    assert (date(2026, 12, 24) - date(1899, 12, 30)).days == DAY


@pytest.mark.parametrize(("value", "text"), [
    (0.1 + 0.2, "0.3"), (1e3, "1000"), (-15, "-15"), (("A1+A2", 374.0), "374"), ("LPV  ABCD\n300", "LPV ABCD 300"),
])
def test_value_equals_displayed_sheet(value, text):
    made = as_csv(packed([NEEDED, ("f", "k", value)]), "t.xlsx")
    assert list(csv.reader(io.StringIO(made)))[1][2] == text


@pytest.mark.parametrize(("data", "words"), [
    (b"file,key,value", "no workbook that can be read"),
    (packed([NEEDED, ROW])[:-40], "no workbook that can be read"),
    (packed([("file", "key")]), "none with these headings"),
    (packed([NEEDED], [NEEDED]), "Sheet 1, Sheet 2 with these headings"),
    (packed([NEEDED, ("f", "k", ("A1", None))]), "Sheet 1, C2: found a formula without its value"),
    (packed([NEEDED, ("f", "k", 1, "A", 3e6)]), "line 2: found day number 3000000"),
    (packed([NEEDED], xl__workbook="<workbook"), "no workbook that can be read"),
    (packed([NEEDED], xl__workbook='<!DOCTYPE a [<!ENTITY b "c">]><workbook/>'), "declares a document type"),
    (packed([NEEDED], xl__worksheets__sheet1=f'<worksheet xmlns="{MAIN}"><c r="A99999"><v>1</v></c></worksheet>'),
     "at most 20000 rows"),
    (packed([NEEDED], xl__worksheets__sheet1=f'<worksheet xmlns="{MAIN}"><c r="A1" t="s"><v>99</v></c></worksheet>'),
     "a text that is not there"),
])
def test_unreadable_content_refused_in_words(data, words):
    with pytest.raises(DataError) as refused:
        as_csv(data, "t.xlsx")
    assert words in str(refused.value).replace("\n", " ")
    assert "t.xlsx" in str(refused.value)


def test_oversized_part_not_unpacked(monkeypatch):
    monkeypatch.setattr(workbook, "MAX_BYTES", 10_000)
    with pytest.raises(DataError, match="larger than 10000 bytes"):
        as_csv(packed([NEEDED], xl__sharedStrings=" " * 20_000), "t.xlsx")


def test_corrupted_byte_gives_message_or_same_table():
    whole = packed([NEEDED, ROW])
    right = as_csv(whole, "t.xlsx")
    for at in range(0, len(whole), 7):
        for damaged in (whole[:at], whole[:at] + bytes([whole[at] ^ 0x55]) + whole[at + 1:]):
            try:
                assert as_csv(damaged, "t.xlsx") == right
            except DataError:
                continue


def test_command_accepts_workbook_and_reports_faults(tmp_path, capsys):
    (tmp_path / "t.xlsx").write_bytes(packed([NEEDED, ROW]))
    assert merging.main([str(tmp_path), str(tmp_path / "t.xlsx")]) == 2
    assert "file 'khwd-rnav-28l.toml'" in capsys.readouterr().err
    (tmp_path / "t.xlsx").write_bytes(b"PK")
    assert merging.main([str(tmp_path), str(tmp_path / "t.xlsx")]) == 2
    assert "no workbook that can be read" in capsys.readouterr().err
