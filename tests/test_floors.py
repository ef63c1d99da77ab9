"""The house has floors: a module imports only from the floors below its own."""

import ast
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "turnercalc"

# Top floor first, as in DEVELOPERS.md. A name is a module or a package of turnercalc.
FLOORS = [
    "cli",
    "handover",
    "advice",
    "sizing",
    "checks",
    "demanding",
    "timing",
    "warmth",
    "building",
    "motors",
    "design",
    "parts",
    "swing",
    "loads",
    "cycle",
    "drives",
    "turners",
    "pieces",
    "ingredients",
    "sight",
    "paths",
    "joints",
    "eggs",
    "fields",
    "tables",
    "mechanics",
    "derivations",
    "units",
    "registry",
    "findings",
    "errors",
]


def room(path: Path) -> str:
    first = path.relative_to(PACKAGE).parts[0]
    return first.removesuffix(".py")


def imported_rooms(path: Path) -> set[str]:
    """Return the rooms of turnercalc that a file imports, lazy imports included."""
    package = ("turnercalc", *path.relative_to(PACKAGE).parent.parts)
    rooms = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        names: list[str] = []
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            base = list(package[: len(package) - node.level + 1]) if node.level else []
            module = ".".join([*base, node.module] if node.module else base)
            names = [f"{module}.{alias.name}" for alias in node.names]
        for name in names:
            parts = name.split(".")
            if parts[0] == "turnercalc" and len(parts) > 1 and parts[1] in FLOORS:
                rooms.add(parts[1])
    return rooms


MODULES = sorted(p for p in PACKAGE.rglob("*.py") if p.parent != PACKAGE or p.stem in FLOORS)


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(PACKAGE)))
def test_a_module_imports_only_from_the_floors_below(path: Path) -> None:
    own = room(path)
    assert own in FLOORS, f"{own} has no floor yet: add it to FLOORS and to DEVELOPERS.md"
    above = {r for r in imported_rooms(path) if FLOORS.index(r) < FLOORS.index(own)}
    assert not above, f"{path.name} on floor {own!r} reaches up to {sorted(above)}"


@pytest.mark.parametrize(("one", "other"), [("turners", "drives"), ("drives", "turners")])
def test_turners_and_drives_never_know_each_other(one: str, other: str) -> None:
    for path in (PACKAGE / one).rglob("*.py"):
        assert other not in imported_rooms(path), f"{path} knows {other}"


def test_mechanics_is_numpy_and_nothing_of_ours() -> None:
    for path in (PACKAGE / "mechanics").rglob("*.py"):
        assert imported_rooms(path) <= {"mechanics"}, path
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import):
                tops = {alias.name.split(".")[0] for alias in node.names}
            elif isinstance(node, ast.ImportFrom) and not node.level:
                tops = {(node.module or "").split(".")[0]}
            else:
                continue
            assert tops <= {
                "numpy",
                "turnercalc",
                "__future__",
                "dataclasses",
                "typing",
                "collections",
                "math",
            }


def test_derivations_stay_out_of_the_running_program() -> None:
    """Only the explaining handover and the tests read the SymPy floor."""
    for path in MODULES:
        if room(path) not in {"derivations", "handover", "cli"}:
            assert "derivations" not in imported_rooms(path), path
