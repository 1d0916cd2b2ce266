"""The least that is a spreadsheet (ISO/IEC 29500, .xlsx): sheets of numbers and words."""
import io
import zipfile

OFFICE, PACKAGE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships", "http://schemas.openxmlformats.org/package/2006/"
MAIN, TYPE = "http://schemas.openxmlformats.org/spreadsheetml/2006/main", "application/vnd.openxmlformats-officedocument.spreadsheetml."


def is_number(text):
    try:
        float(text)
        return True
    except ValueError:
        return False


class Sheets:
    """Words lie once beside the sheets, and cells say their place."""

    def __init__(self):
        self.words = []

    def cell(self, row, column, text):
        place = f"{chr(ord('A') + column)}{row}"
        if is_number(text):
            return f'<c r="{place}"><v>{text}</v></c>'
        self.words.append(text)
        return f'<c r="{place}" t="s"><v>{len(self.words) - 1}</v></c>'

    def sheet(self, rows):
        lines = "".join(f'<row r="{row}">' + "".join(self.cell(row, column, text) for column, text in enumerate(cells) if text) + "</row>" for row, cells in enumerate(rows, 1))
        return f'<worksheet xmlns="{MAIN}"><sheetData>{lines}</sheetData></worksheet>'

    def shared(self):
        return f'<sst xmlns="{MAIN}">' + "".join(f"<si><t>{text}</t></si>" for text in self.words) + "</sst>"


def workbook(sheets):
    """The bytes of a workbook: rows of words by the name of their sheet."""
    numbers, made = range(1, len(sheets) + 1), Sheets()
    parts = [("workbook", "sheet.main")] + [(f"worksheets/sheet{n}", "worksheet") for n in numbers] + [("sharedStrings", "sharedStrings")]
    types = "".join(f'<Override PartName="/xl/{part}.xml" ContentType="{TYPE}{kind}+xml"/>' for part, kind in parts)
    names = "".join(f'<sheet name="{name}" sheetId="{n}" r:id="r{n}"/>' for n, name in zip(numbers, sheets))
    related = "".join(f'<Relationship Id="r{n}" Type="{OFFICE}/{kind}" Target="{part}.xml"/>' for n, (part, kind) in enumerate(parts) if n > 0)
    files = {f"xl/worksheets/sheet{n}.xml": made.sheet(rows) for n, rows in zip(numbers, sheets.values())} | {
        "[Content_Types].xml": f'<Types xmlns="{PACKAGE}content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>{types}</Types>',
        "_rels/.rels": f'<Relationships xmlns="{PACKAGE}relationships"><Relationship Id="r0" Type="{OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
        "xl/workbook.xml": f'<workbook xmlns="{MAIN}" xmlns:r="{OFFICE}"><sheets>{names}</sheets></workbook>',
        "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{PACKAGE}relationships">{related}</Relationships>',
        "xl/sharedStrings.xml": made.shared(),
    }
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, text in files.items():
            archive.writestr(name, text)
    return packed.getvalue()
