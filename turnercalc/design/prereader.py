"""The first reading of a design file: lines to sections and fields, nothing judged yet.

A builder's file is read line by line, so that one faulty line does not hide the next. Every field
keeps its line and its text as typed, and every comment stays where it stands for writing back.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache

from turnercalc.design.decoding import decode
from turnercalc.design.values import (
    CURLY,
    Repair,
    ValueProblem,
    comment_column,
    open_brackets,
    read_value,
)
from turnercalc.errors import Complaint

_HEADER = re.compile(r"^\s*(\[{1,2})\s*([^\[\]#=\"']+?)\s*(\]*)\s*(#.*)?$")
_SETTING = re.compile(r"^(\s*)([^=#]*?)(\s*=+>?\s*)(.*)$", re.DOTALL)
_COLON_SETTING = re.compile(r"^(\s*)([\"']?[A-Za-z][\w .\-]*[\"']?)(\s*:\s*)(.*)$", re.DOTALL)
_NAME = re.compile(r"^[^\W\d][\w .\-]*$")
_OTHER_COMMENT = re.compile(r"^\s*(//|;|--|%|\*|<!--)")
_LONGEST_VALUE = 400  # lines of one list; no rack is that large


@dataclass(frozen=True)
class Note:
    """Something that was understood although it is not written as it should be.

    Attributes
    ----------
    lines : tuple of int
        Where, counted from 1; empty for the file as a whole.
    text : str
        What was done, and how it is better written.
    """

    lines: tuple[int, ...]
    text: str


@dataclass(frozen=True)
class Entry:
    """One ``field = value`` as it stands in the file.

    Attributes
    ----------
    key, name : str
        As typed, and folded to lower case with underscores.
    value : object
        str, int, float, bool, list or dict.
    text : str
        The value as typed, without its comment.
    line, last_line : int
        Where it stands, counted from 1.
    before, comment : str
        What stands left of the value on its line, and the comment behind it.
    repairs : tuple of Repair
        What was overlooked to understand the value.
    """

    key: str
    name: str
    value: object
    text: str
    line: int
    last_line: int
    before: str = ""
    comment: str = ""
    repairs: tuple[Repair, ...] = ()

    @property
    def typed(self) -> str:
        """The setting as it stands in the file, for a complaint."""
        return f"{self.key} = {' '.join(self.text.split())}"


@dataclass(frozen=True)
class Block:
    """One ``[section]`` or ``[[section]]`` with its fields; the name is empty for the top."""

    header: str
    name: str
    doubled: bool
    line: int
    entries: tuple[Entry, ...] = ()


@dataclass(frozen=True)
class Sheet:
    """A design file after the first reading.

    Attributes
    ----------
    lines : tuple of str
        The file as decoded, for writing back.
    blocks : tuple of Block
        The top first, then the sections in their order.
    complaints : tuple of Complaint
        Lines no meaning could be given to.
    notes : tuple of Note
        What was overlooked.
    lost : tuple of str
        Folded names of fields whose line was complained about, as ``section.field``: a
        "missing" for one of them would be a second complaint about the same thing.
    """

    lines: tuple[str, ...]
    blocks: tuple[Block, ...]
    complaints: tuple[Complaint, ...] = ()
    notes: tuple[Note, ...] = ()
    lost: tuple[str, ...] = ()


@lru_cache(maxsize=4096)
def fold(name: str) -> str:
    """Return a name as it is compared: lower case, underscores for spaces and hyphens."""
    plain = unicodedata.normalize("NFKC", name).translate(CURLY).strip().strip("\"'")
    return re.sub(r"[\s\-_]+", "_", plain.lower()).strip("_")


def preread(source: bytes | str) -> Sheet:
    """Read a design file as far as it can be read without knowing its fields.

    Parameters
    ----------
    source : bytes or str
        The content of the file.

    Returns
    -------
    Sheet
        Sections and fields with their lines, complaints about lines without meaning, and notes.

    Raises
    ------
    DesignError
        Only for a file that is no text at all.
    """
    decoded = decode(source)
    reader = _Reader(decoded.lines)
    reader.read()
    notes = (Note((), decoded.remark),) if decoded.remark else ()
    return Sheet(
        decoded.lines,
        tuple(reader.finished_blocks()),
        tuple(reader.complaints),
        notes + tuple(reader.notes),
        tuple(reader.lost),
    )


@dataclass
class _OpenBlock:
    header: str
    name: str
    doubled: bool
    line: int
    entries: list[Entry] = field(default_factory=list)


class _Reader:
    """Walks once through the lines. Used by `preread` alone and thrown away."""

    def __init__(self, lines: tuple[str, ...]) -> None:
        self.lines = lines
        self.current = _OpenBlock("", "", False, 0)
        self.blocks = [self.current]
        self.complaints: list[Complaint] = []
        self.notes: list[Note] = []
        self.lost: list[str] = []

    def read(self) -> None:
        at = 0
        while at < len(self.lines):
            at += self._read_line(at)

    def finished_blocks(self) -> Iterator[Block]:
        for block in self.blocks:
            yield Block(block.header, block.name, block.doubled, block.line, tuple(block.entries))

    def _read_line(self, at: int) -> int:
        """Read what begins on line `at` (from 0); return how many lines it took."""
        line = self.lines[at]
        bare = line.strip()
        if not bare or bare.startswith("#"):
            return 1
        if _OTHER_COMMENT.match(line):
            self.notes.append(Note((at + 1,), "Taken as a comment. A comment begins with #."))
            return 1
        if bare.startswith("["):
            self._read_header(at)
            return 1
        split = _split_setting(line)
        if split is None:
            self._complain_of_line(at)
            return 1
        return self._read_setting(at, split)

    def _read_header(self, at: int) -> None:
        line = self.lines[at]
        found = _HEADER.match(line.translate(CURLY))
        name = fold(found.group(2)) if found else ""
        if found is None or not name:
            message = (
                "A section is opened by its name between square brackets and nothing else; "
                "a comment behind it begins with #."
            )
            self._complain(at, "", line.strip(), message, _header_guess(line))
            guess = _header_guess(line)
            name = fold(guess[0].strip("[]")) if guess else "?"
            self._open(_OpenBlock(line.strip(), name, line.count("[") > 1, at + 1))
            return
        opening, closing = found.group(1), found.group(3)
        if len(opening) != len(closing):
            whole = f"[{name}]" if len(closing) < 2 and len(opening) < 2 else f"[[{name}]]"
            self.notes.append(Note((at + 1,), f"The brackets do not match; read as {whole}."))
        doubled = max(len(opening), len(closing)) > 1
        self._open(_OpenBlock(found.group(2).strip(), name, doubled, at + 1))

    def _open(self, block: _OpenBlock) -> None:
        self.blocks.append(block)
        self.current = block

    def _read_setting(self, at: int, split: tuple[str, str, str]) -> int:
        before, key, text = split
        if not _NAME.match(key.translate(CURLY).strip("\"' ")):
            self._complain_of_line(at)
            return 1
        text, taken = self._whole_value(at, text)
        block, name = self._address(key, at)
        column = comment_column(text)
        typed, comment = text[:column].rstrip(), text[column:]
        try:
            reading = read_value(text)
        except ValueProblem as problem:
            accepted = tuple(f"{key} = {_quoted(choice)}" for choice in problem.accepted)
            where = f"{block.name}.{name}".lstrip(".")
            read = f"{key} = {' '.join(typed.split())}".rstrip()
            self.complaints.append(Complaint(at + 1, where, read, problem.message, accepted))
            self.lost.append(where)
            return taken
        entry = Entry(
            key, name, reading.value, typed, at + 1, at + taken, before, comment, reading.repairs
        )
        block.entries.append(entry)
        return taken

    def _address(self, key: str, at: int) -> tuple[_OpenBlock, str]:
        """Return block and name of a key; a dotted one such as ``crank.radius`` names its block."""
        section, dot, name = key.rpartition(".")
        if not dot or not section.strip():
            return self.current, fold(key)
        if fold(section) == self.current.name:
            return self.current, fold(name)
        # The lines that follow stay in the section they stand in.
        block = _OpenBlock(section.strip(), fold(section), False, at + 1)
        self.blocks.append(block)
        return block, fold(name)

    def _whole_value(self, at: int, text: str) -> tuple[str, int]:
        """Add the lines that follow while a list or a block text is open.

        A list that is never closed must not swallow the rest of the file: the next line that
        looks like a section or a setting ends it.
        """
        last = min(len(self.lines), at + _LONGEST_VALUE)
        triple = _open_triple(text)
        if not triple and open_brackets(text) <= 0:
            return text, 1
        whole = text
        for after in range(at + 1, last):
            line = self.lines[after]
            if not triple and (_looks_like_header(line) or _split_setting(line) is not None):
                return whole, after - at
            whole += "\n" + line
            closed = not _open_triple(whole) if triple else open_brackets(whole) <= 0
            if closed:
                return whole, after - at + 1
        return text, 1

    def _complain_of_line(self, at: int) -> None:
        bare = self.lines[at].strip()
        name, _, rest = bare.partition(" ")
        accepted: tuple[str, ...] = (f"# {bare}",)
        self.lost.append(f"{self.current.name}.{fold(name)}".lstrip("."))
        if rest and _NAME.match(name) and rest.strip()[:1].isdigit():
            accepted = (f"{name} = {_quoted(rest.strip())}",)
        elif not rest and _NAME.match(name):
            accepted = (f"[{name}]", f"# {bare}")
        self._complain(
            at, "", bare, "This line is no section, no setting and no comment.", accepted
        )

    def _complain(
        self, at: int, where: str, read: str, message: str, accepted: tuple[str, ...]
    ) -> None:
        self.complaints.append(Complaint(at + 1, where, read, message, accepted))


def _split_setting(line: str) -> tuple[str, str, str] | None:
    """Split a line into what stands left of the value, the key, and the rest of it."""
    colon = _COLON_SETTING.match(line)
    equals = _SETTING.match(line)
    if colon and (equals is None or len(colon.group(2)) < len(equals.group(2))):
        equals = colon
    if equals is None or not equals.group(2).strip():
        return None
    indent, key, sign, text = equals.groups()
    return indent + key + sign, key.strip(), text


def _looks_like_header(line: str) -> bool:
    found = _HEADER.match(line)
    return found is not None and bool(found.group(3)) and _NAME.match(found.group(2)) is not None


def _header_guess(line: str) -> tuple[str, ...]:
    found = re.search(r"[A-Za-z][\w\-]*", line)
    return (f"[{found.group()}]",) if found else ()


def _open_triple(text: str) -> bool:
    start = text.lstrip()[:3]
    return start in {'"' * 3, "'" * 3} and text.count(start) == 1


def _quoted(choice: str) -> str:
    """Put a text between the quote marks that do not occur in it."""
    if choice.startswith("["):
        return choice
    return f"'{choice}'" if '"' in choice else f'"{choice}"'
