"""From a file, a pasted text or a spreadsheet to plain text lines."""

from __future__ import annotations

import codecs
import io
import zipfile
from datetime import date, datetime
from pathlib import Path

from turnercalc.errors import MotorFileError

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
LARGEST_FILE = 100_000_000  # bytes; a hundred thousand rows are about a tenth of it

# UTF-32 goes first: its little-endian mark begins with the one of UTF-16.
_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_NOT_A_TABLE = (
    (b"%PDF", "a PDF"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"{\\rtf", "a rich-text file"),
    (b"\xd0\xcf\x11\xe0", "a spreadsheet or document of the old binary kind"),
)
_ADVICE = "Save the table as CSV, or copy its rows into a plain text file."

# One character for each family of look-alikes, so that the readers need to know only one.
_ALIKE = str.maketrans(
    {
        **dict.fromkeys("\u00ad\u200b\u200c\u200d\u200e\u200f\u2060\ufeff\x00"),
        **dict.fromkeys("\u00a0\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f", " "),
        **dict.fromkeys("\u205f\u3000", " "),
        **dict.fromkeys("\x0b\x0c\x1c\x1d\x1e\x85\u2028\u2029", " "),
        **dict.fromkeys("‐‑‒–—―−﹣－", "-"),
        **dict.fromkeys("⋅•∙․‧・･●", "·"),
        **dict.fromkeys("‘’‚‛′", "'"),
        **dict.fromkeys("“”„‟″", '"'),
        **dict.fromkeys("∼～〜", "~"),
        **dict.fromkeys("⁄∕／", "/"),
        **dict.fromkeys("º˚∘", "°"),
        "…": "...",
        "：": ":",
        "；": ";",
        "，": ",",
        "（": "(",
        "）": ")",
        "％": "%",
        "℃": "°C",
        "㎝": "cm",
        "㎏": "kg",
        "㎜": "mm",
        "⩾": "≥",
        "⩽": "≤",
        "⎓": "=",
    }
)


def plain_text(source: Path | str | bytes) -> tuple[str, str, str]:
    """Return the text of a motor file, its name, and a remark on what had to be done.

    Parameters
    ----------
    source : Path, str or bytes
        A file or its name, a pasted text, or the content of a file.

    Raises
    ------
    MotorFileError
        For a file that does not open, is far too large, or is no text and no spreadsheet.
    """
    name = ""
    if isinstance(source, str) and _names_a_file(source):
        source = Path(source)
    if isinstance(source, Path):
        name, source = source.name, _file_bytes(source)
    if len(source) > LARGEST_FILE:
        message = f"The motor file holds {len(source):,} characters: too many. {_ADVICE}"
        raise MotorFileError(message)
    if isinstance(source, str):
        return _one_line_end(source), name, ""
    text, remark = _decode(source)
    return _one_line_end(text), name, remark


def _names_a_file(text: str) -> bool:
    """Tell whether a text is the name of a file that is there: one short line, no table."""
    if len(text) > 1000 or "\n" in text.strip() or not text.strip():
        return False
    try:
        return Path(text).is_file()
    except (OSError, ValueError):
        return False


def _one_line_end(text: str) -> str:
    if "\r" in text:
        text = text.replace("\r\n", "\n").replace("\r", "\n")
    return text if text.isascii() and "\x00" not in text else text.translate(_ALIKE)


def _file_bytes(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        why = error.strerror or str(error)
        raise MotorFileError(f"The motor file {path} cannot be opened: {why}.") from error


def _decode(data: bytes) -> tuple[str, str]:
    if data.startswith(b"PK\x03\x04"):
        return _spreadsheet_text(data), "Read from the first sheet of a spreadsheet."
    for start, what in _NOT_A_TABLE:
        if data.startswith(start):
            raise MotorFileError(f"The motor file is {what}, not a table in text form. {_ADVICE}")
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            return data.decode(encoding, errors="replace"), ""
    encoding = _unmarked_wide(data)
    if encoding:
        return data.decode(encoding, errors="replace"), "Read as UTF-16 without its mark."
    try:
        return data.decode("utf-8"), ""
    except UnicodeDecodeError:
        # cp1252 leaves five codes empty; Latin-1 behind it cannot fail.
        try:
            text = data.decode("cp1252")
        except UnicodeDecodeError:
            text = data.decode("latin-1")
        return text, "The file is not UTF-8; it was read as Western European text."


def _unmarked_wide(data: bytes) -> str:
    """UTF-16 without its mark: ordinary text has a zero in every second byte."""
    sample = data[:400]
    half = len(sample) // 2
    if half and sample[1::2].count(0) > 0.6 * half:
        return "utf-16-le"
    if half and sample[0::2].count(0) > 0.6 * half:
        return "utf-16-be"
    return ""


def _spreadsheet_text(data: bytes) -> str:
    """Return the first sheet that holds anything, cells separated by tabs."""
    try:
        import openpyxl
    except ImportError as error:
        message = (
            "This is a spreadsheet file; reading it needs the extra "
            f'"turnercalc[spreadsheets]". Or: {_ADVICE}'
        )
        raise MotorFileError(message) from error
    try:
        book = openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=True)
        for sheet in book.worksheets:
            lines = ["\t".join(_cell_text(cell) for cell in row) for row in _cells(sheet)]
            if any(line.strip() for line in lines):
                return "\n".join(lines)
    except (KeyError, ValueError, TypeError, OSError, zipfile.BadZipFile, SyntaxError) as error:
        message = f"This looks like a spreadsheet file but does not open as one. {_ADVICE}"
        raise MotorFileError(message) from error
    raise MotorFileError(f"The spreadsheet file holds no cells. {_ADVICE}")


def _cells(sheet: object) -> list[tuple[object, ...]]:
    return list(sheet.iter_rows(values_only=True))  # type: ignore[attr-defined]


def _cell_text(cell: object) -> str:
    if cell is None:
        return ""
    if isinstance(cell, datetime | date):
        return f"{cell.day}-{MONTHS[cell.month - 1]}"  # a spreadsheet makes 5-Jun of 5/6
    if isinstance(cell, float) and cell.is_integer():
        return str(int(cell))
    return " ".join(str(cell).split())
