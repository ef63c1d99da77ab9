"""Registries that fill themselves from the modules of a package, so that a new kind is one file."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from difflib import get_close_matches
from importlib import import_module
from pkgutil import iter_modules
from types import MappingProxyType
from typing import Any, Generic, TypeVar

from turnercalc.errors import UnknownNameError

Kind = TypeVar("Kind", bound=Any)


def plain(words: str) -> str:
    """Return words as they are compared: lower case, with single spaces for hyphens and such."""
    return " ".join(words.replace("_", " ").replace("-", " ").lower().split())


class Registry(Generic[Kind]):
    """Every ``KIND`` found in the modules of one package, by id and by the builder's words."""

    def __init__(self, package: str, path: Iterable[str], thing: str) -> None:
        self._package = package
        self._path = list(path)
        self._thing = thing
        self._kinds: Mapping[str, Kind] | None = None

    def kinds(self) -> Mapping[str, Kind]:
        """Return every kind by its id, in alphabetical order."""
        if self._kinds is None:
            modules = (
                import_module(f"{self._package}.{info.name}") for info in iter_modules(self._path)
            )
            found = [module.KIND for module in modules if hasattr(module, "KIND")]
            self._kinds = MappingProxyType({kind.id: kind for kind in found})
        return self._kinds

    def find(self, words: str) -> Kind:
        """Return the kind a builder's words name.

        Raises
        ------
        UnknownNameError
            Naming the nearest and all that there are.
        """
        wanted = plain(words)
        names = {
            plain(name): kind for kind in self.kinds().values() for name in (kind.id, *kind.words)
        }
        if wanted in names:
            return names[wanted]
        near = get_close_matches(wanted, names, n=1)
        guess = f' Did you mean "{names[near[0]].words[0]}"?' if near else ""
        every = ", ".join(f'"{kind.words[0]}"' for kind in self.kinds().values())
        message = f'"{words}" is no {self._thing} we know.{guess} There are: {every}.'
        raise UnknownNameError(message)
