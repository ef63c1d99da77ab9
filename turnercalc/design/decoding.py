"""From the bytes of a file to its lines, whatever editor saved them."""

from __future__ import annotations

import codecs
import re
import unicodedata
from dataclasses import dataclass

from turnercalc.errors import Complaint, DesignError

LARGEST_FILE = 1_000_000  # bytes; a design file is a few thousand

# UTF-32 goes first: its little-endian mark begins with the one of UTF-16.
_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_NOT_TEXT = (
    (b"PK\x03\x04", "a word-processor, spreadsheet or zip file"),
    (b"{\\rtf", "a rich-text file"),
    (b"%PDF", "a PDF"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
)
_LINE_END = re.compile("\r\n|[\n\r\x0b\x0c\u2028\u2029]")
_INVISIBLE = {ord(c): None for c in "\ufeff\u200b\u200c\u200d\u2060\u00ad\u200e\u200f"}
_WIDE_SPACES = {ord(c): " " for c in "\u00a0\u2007\u202f\u2000\u2001\u2002\u2003\u2004\u2005\u2006"
                "\u2008\u2009\u200a\u205f\u3000"}  # fmt: skip


@dataclass(frozen=True)
class Decoded:
    """The lines of a file, without line ends, and what had to be done to read them."""

    lines: tuple[str, ...]
    remark: str = ""


def decode(source: bytes | str) -> Decoded:
    """Read the text of a design file.

    Parameters
    ----------
    source : bytes or str
        The content of a file. Bytes may be UTF-8, UTF-16 or UTF-32 with or without a byte-order
        mark, or one of the older one-byte Western encodings.

    Returns
    -------
    Decoded
        Lines without their ends. Invisible marks are dropped and wide or unbreakable spaces become
        ordinary ones, because no builder can see the difference.

    Raises
    ------
    DesignError
        For a file that is no text, or far too large for a design file.
    """
    _refuse_oversize(source)
    text, remark = (source, "") if isinstance(source, str) else _decode_bytes(source)
    text = text.translate(_INVISIBLE).translate(_WIDE_SPACES)
    text, dropped = _without_control_marks(text)
    return Decoded(tuple(_LINE_END.split(text)), remark or dropped)


def one_line(text: str) -> str:
    """Return a text as it could stand on one line of a file: nothing invisible, no line ends."""
    text = _LINE_END.sub(" ", text).translate(_INVISIBLE).translate(_WIDE_SPACES)
    return "".join(mark for mark in text if not _is_control(mark))


def _decode_bytes(data: bytes) -> tuple[str, str]:
    for start, what in _NOT_TEXT:
        if data.startswith(start):
            raise _unusable(f"This is {what}, not a plain text file.")
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            return data.decode(encoding, errors="replace"), ""
    encoding = _unmarked_wide(data)
    if encoding:
        return data.decode(encoding, errors="replace"), ""
    try:
        return data.decode("utf-8"), ""
    except UnicodeDecodeError:
        # cp1252 is what older editors call ANSI; five of its codes are empty, so Latin-1 stays
        # behind it, which cannot fail.
        text = data.decode("cp1252", errors="replace")
        text = data.decode("latin-1") if "\ufffd" in text else text
        return text, "The file is not UTF-8; it was read as Western European text."


def _unmarked_wide(data: bytes) -> str:
    """UTF-16 without its mark: ordinary text has a zero in every second byte."""
    sample = data[:400]
    half = len(sample) // 2
    if half == 0:
        return ""
    if sample[1::2].count(0) > 0.6 * half:
        return "utf-16-le"
    if sample[0::2].count(0) > 0.6 * half:
        return "utf-16-be"
    return ""


def _refuse_oversize(source: bytes | str) -> None:
    if len(source) > LARGEST_FILE:
        raise _unusable(f"This file holds {len(source):,} characters. No design file is so long.")


def _without_control_marks(text: str) -> tuple[str, str]:
    """Drop the odd control character; refuse a file that is full of them."""
    marks = sum(1 for mark in text if _is_control(mark))
    if marks == 0:
        return text, ""
    if marks > 0.01 * len(text):
        raise _unusable("It is full of characters that no text has.")
    kept = "".join(mark for mark in text if not _is_control(mark))
    return kept, "The file held characters that cannot be seen; they were left out."


def _is_control(mark: str) -> bool:
    return mark not in "\t\n\r\x0b\x0c" and unicodedata.category(mark) in {"Cc", "Cs"}


def _unusable(what: str) -> DesignError:
    accepted = ("a plain text file, as a simple text editor saves it",)
    return DesignError(
        "Nothing was calculated: the file cannot be read.",
        complaints=(Complaint(None, "", "", what, accepted),),
    )
