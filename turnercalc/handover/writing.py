"""Files written whole or not at all, and never over another unless asked."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping, Sequence
from contextlib import suppress
from pathlib import Path

from turnercalc.errors import OutputError


def write_whole(path: str | Path, content: str | bytes, *, replace: bool = False) -> Path:
    """Write a file whole or not at all.

    The content goes to a new file beside it first, which then takes its name, so that a full
    disk or a lost connection never leaves half a file.

    Parameters
    ----------
    path : str or Path
        Where to; its folder has to exist.
    content : str or bytes
        Text is written as UTF-8 with line feeds.
    replace : bool
        Whether a file that is there already may be overwritten.

    Raises
    ------
    OutputError
        The file exists, its folder does not, or the system refuses; the message names both.
    """
    target = Path(path)
    check_target(target, replace=replace)
    _write([(target, content)], replace=replace)
    return target


def write_all(contents: Mapping[Path, str | bytes], *, replace: bool = False) -> tuple[Path, ...]:
    """Write several files that belong together: all of them, or none.

    Parameters
    ----------
    contents : mapping
        Path -> content; text is written as UTF-8 with line feeds.
    replace : bool
        Whether files that are there already may be overwritten.

    Raises
    ------
    OutputError
        As for `write_whole`. All are written beside their targets before the first takes its
        name, so that a full disk changes nothing; new files that an error leaves alone are
        taken away again.
    """
    for path in contents:
        check_target(path, replace=replace)
    _write(list(contents.items()), replace=replace)
    return tuple(contents)


def _write(contents: Sequence[tuple[Path, str | bytes]], *, replace: bool) -> None:
    """Write all contents to new files beside their targets first, then let each take its name."""
    spares: list[str] = []
    done: list[Path] = []
    target = contents[0][0]
    new = [path for path, _ in contents if not path.exists()]
    try:
        for target, content in contents:
            spares.append(_spare_for(target))
            _fill(spares[-1], content)
        for (target, _), spare in zip(contents, spares, strict=True):
            _take_the_name(spare, target, replace=replace)
            done.append(target)
    except OSError as error:
        for path in done:
            if path in new:
                with suppress(OSError):
                    path.unlink()
        if isinstance(error, OutputError):
            raise
        raise OutputError(
            f"{target} could not be written in the folder {folder_text(target)}: "
            f"{error.strerror or error}."
        ) from error
    finally:
        for spare in spares:
            with suppress(OSError):
                os.unlink(spare)


def _spare_for(target: Path) -> str:
    """Return the path of a new empty file beside a target."""
    handle, spare = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.", suffix=".part")
    os.close(handle)
    return spare


def _fill(spare: str, content: str | bytes) -> None:
    """Write a file and see that it is on the disk."""
    with open(spare, "wb") as file:
        file.write(content.encode("utf-8") if isinstance(content, str) else content)
        file.flush()
        os.fsync(file.fileno())
    _like_any_new_file(spare)


def check_target(path: str | Path, *, replace: bool = False) -> None:
    """Complain before any work is done if a file could not be written.

    Raises
    ------
    OutputError
        As for `write_whole`.
    """
    target = Path(path)
    if target.is_dir():
        raise OutputError(f"{target} is a folder. Name a file in it.")
    if not target.parent.is_dir():
        raise OutputError(
            f"{target.name} cannot be written: there is no folder {folder_text(target)}. "
            "Make it first, or choose another."
        )
    if target.exists() and not replace:
        raise OutputError(_there_already(target))


def make_folder(path: Path) -> None:
    """Make a folder that files shall go to, if it is not there; never more than one.

    Raises
    ------
    OutputError
        A file has that name, the folder above is not there, or the system refuses.
    """
    if path.is_dir():
        return
    if path.exists():
        raise OutputError(f"{path} is a file, and a folder was wanted. Choose another name.")
    check_target(path)
    try:
        path.mkdir()
    except OSError as error:
        message = f"The folder {path} could not be made: {error.strerror or error}."
        raise OutputError(message) from error


def folder_text(target: Path) -> str:
    """Return the folder of a file in full, for messages."""
    return str(target.parent.absolute())


def _there_already(target: Path) -> str:
    return (
        f"{target.name} is already in {folder_text(target)}, and nothing was written. "
        "To overwrite it add --replace, or choose another name."
    )


def _take_the_name(spare: str, target: Path, *, replace: bool) -> None:
    """Give the finished file its name; where it must be new, in one step that cannot race."""
    if replace:
        # A link keeps pointing where it did: the file behind it is replaced.
        os.replace(spare, target.resolve() if target.is_symlink() else target)
        return
    try:
        os.link(spare, target)
    except FileExistsError:
        raise OutputError(_there_already(target)) from None
    except OSError:
        # Some file systems (FAT sticks, network shares) know no hard links.
        if target.exists():
            raise OutputError(_there_already(target)) from None
        os.replace(spare, target)


def _like_any_new_file(path: str) -> None:
    """Give the private file that mkstemp makes the rights of any file made here."""
    mask = os.umask(0)
    os.umask(mask)
    os.chmod(path, 0o666 & ~mask)
