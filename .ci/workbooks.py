"""Writes one notebook three times into a folder: as text files, as .xlsx by openpyxl, as .ods by odfpy."""

import datetime as dt
import sys
from pathlib import Path

from odf.opendocument import OpenDocumentSpreadsheet
from odf.table import CoveredTableCell, Table, TableCell, TableRow
from odf.text import P
from openpyxl import Workbook

APPARATUS = """title = "Shed notebook"
[stoves.box]
name = "Box stove"
[stoves.rocket]
name = "Rocket stove"
[fuels.birch]
name = "Birch, split"
[vessels.drum]
name = "Blue drum"
volume = "120 L"
"""
PIPELINE = 'name = "shed"\ndatasets = ["data"]\n[[comparison]]\nfactor = "stove"\n'
HEAD = ["trial", "kind", "date", "log", "stove", "fuel", "vessel", "water [L]", "fuel_mass [kg]", "fuel_moisture", "moisture_basis"]


class Share(float):
    """A number that is shown in percent."""


class Comma(str):
    """A number that stayed text, with a decimal comma."""


BURNS = [
    ["b1", "burn", dt.date(2031, 3, 4), None, "box", "birch", "drum", 110, 6.2, Share(0.19), "dry"],
    ["b2", "burn", dt.date(2031, 3, 7), None, "box", "birch", "drum", 108, Comma("5,8"), Share(0.2), "dry"],
    ["r1", "burn", dt.date(2031, 3, 5), None, "rocket", "birch", "drum", 110, 4.4, Share(0.18), "dry"],
    ["r2", "burn", dt.date(2031, 3, 8), None, "rocket", "birch", "drum", 110.5, Comma("4,6"), Share(0.18), "dry"],
]
# Hours and minutes over midnight, and degrees.
TEMPERATURES = {"b1": [9, 16.5, 25, 33, 40], "b2": [8, 15, 23.25, 31, 37], "r1": [9, 18, 30.125, 41, 50], "r2": [10, 20, 31.5, 42, 51]}
TIMES = [dt.time(23, 20), dt.time(23, 35), dt.time(23, 50), dt.time(0, 5), dt.time(0, 20, 30)]


def logs():
    return {name: [["clock", "tank [degC]"], *map(list, zip(TIMES, degrees))] for name, degrees in TEMPERATURES.items()}


def text_cell(value):
    if value is None:
        return ""
    if isinstance(value, Share):
        return f"{value * 100:g} %"
    if isinstance(value, Comma):
        return value.replace(",", ".")
    return str(value)


def write_text(folder):
    rows = {"trials": [HEAD, *BURNS], **logs()}
    for name, cells in rows.items():
        lines = [",".join(text_cell(c) for c in row) for row in cells]
        (folder / f"{name}.csv").write_text("\n".join(lines) + "\n")


def write_xlsx(path):
    book = Workbook()
    sheet = book.active
    sheet.title = "Burns"
    sheet.append(["Tests in the shed"])
    sheet.merge_cells("A1:F1")
    sheet.append([])
    for row in [HEAD, *BURNS]:
        sheet.append([str(c) if isinstance(c, Comma) else c for c in row])
    for row in sheet.iter_rows(min_row=4, min_col=10, max_col=10):
        row[0].number_format = "0%"
    for name, rows in logs().items():
        log = book.create_sheet(name)
        for row in rows:
            log.append(row)
        log.row_dimensions[3].hidden = True
    book.save(path)


def ods_cell(value):
    if value is None:
        return TableCell()
    if isinstance(value, Share):
        cell, shown = TableCell(valuetype="percentage", value=str(float(value))), f"{value * 100:g} %"
    elif isinstance(value, dt.date):
        cell, shown = TableCell(valuetype="date", datevalue=value.isoformat()), value.strftime("%d.%m.%y")
    elif isinstance(value, dt.time):
        cell, shown = TableCell(valuetype="time", timevalue=value.strftime("PT%HH%MM%SS")), value.strftime("%H:%M:%S")
    elif isinstance(value, (int, float)):
        cell, shown = TableCell(valuetype="float", value=str(value)), str(value).replace(".", ",")
    else:
        cell, shown = TableCell(valuetype="string"), str(value)
    cell.addElement(P(text=shown))
    return cell


def ods_row(cells, **attributes):
    row = TableRow(**attributes)
    for cell in cells:
        row.addElement(ods_cell(cell))
    return row


def write_ods(path):
    book = OpenDocumentSpreadsheet()
    sheet = Table(name="Burns")
    title = TableRow()
    cell = TableCell(valuetype="string", numbercolumnsspanned=6, numberrowsspanned=1)
    cell.addElement(P(text="Tests in the shed"))
    title.addElement(cell)
    title.addElement(CoveredTableCell(numbercolumnsrepeated=5))
    sheet.addElement(title)
    sheet.addElement(TableRow(numberrowsrepeated=1))
    for row in [HEAD, *BURNS]:
        sheet.addElement(ods_row(row))
    book.spreadsheet.addElement(sheet)
    for name, rows in logs().items():
        log = Table(name=name)
        for index, row in enumerate(rows):
            log.addElement(ods_row(row, **({"visibility": "collapse"} if index == 2 else {})))
        book.spreadsheet.addElement(log)
    book.save(path)


def main(root):
    for form in ["text", "xlsx", "ods"]:
        data = root / form / "data"
        data.mkdir(parents=True)
        (root / form / "pipeline.toml").write_text(PIPELINE)
        register = "" if form == "text" else f'\n[files]\nregister = "tests.{form}#Burns"\n'
        (data / "dataset.toml").write_text(APPARATUS + register)
    write_text(root / "text" / "data")
    write_xlsx(root / "xlsx" / "data" / "tests.xlsx")
    write_ods(root / "ods" / "data" / "tests.ods")


main(Path(sys.argv[1]))
