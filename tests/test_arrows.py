"""The arrows of the house: which package may import which, and that the tree keeps to it.

The walk goes one way. The table holds every package of the project; a module that imports what
its row does not name is a fault, and so is a row without a package or a package without a row.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
HOUSE = ("record", "manual", "migrations", "tests", "demo")
SHIPPED = ("record", "manual", "migrations")
RECORD = "record"  # all of it

#: What any part of the record may say its sentences with; it knows nothing of the rest.
SAYS = frozenset({"record.words"})
#: Package → what it may import, besides itself and libraries.
ARROWS: Mapping[str, frozenset[str]] = {
    package: frozenset(may.split())
    | ((SAYS if package.startswith("record.") else frozenset()) - {package})
    for package, may in {
        "record.words": "",
        "record.units": "",
        "record.calc": "",
        "record.entry": "",
        "record.facts": "record.units",
        "record.secret": "",
        "record.proof": "",
        "record.halves": "",
        # A new record is made by the migrations.
        "record.log": "record.entry record.halves record.proof record.secret migrations",
        "record.fold": "record.entry record.facts record.units",
        "record.index": "record.entry record.facts record.fold record.halves record.log "
        "record.secret",
        "record.sheets": "record.entry record.facts record.units",
        "record.place": "record.entry record.fold record.facts record.units record.calc",
        "record.reserved": "record.entry record.facts record.place record.proof record.trust",
        "record.view": "record.facts record.fold record.place record.reserved",
        "record.readers": "record.entry record.facts record.fold record.place record.reserved "
        "record.view",
        "record.posting": "record.entry record.facts record.units record.fold record.log "
        "record.place record.sheets",
        "record.answers": "record.entry record.facts record.units record.fold record.place "
        "record.readers record.calc record.accounts",
        "record.recall": "record.entry record.facts record.fold record.log record.index "
        "record.readers record.answers record.secret",
        "record.described": "",  # answers and recall by their classes' names
        "record.checks": "record.entry record.facts record.units record.fold record.place "
        "record.readers record.calc record.accounts record.figures",
        "record.blank": "record.entry record.facts record.units record.fold record.place "
        "record.readers record.checks record.figures record.evening",
        "record.upkeep": "record.entry record.facts record.units record.fold record.readers "
        "record.calc record.figures record.reckon record.accounts",
        "record.accounts": "record.entry record.facts record.units record.fold record.place "
        "record.readers record.calc",
        "record.reckon": "record.calc record.units",
        "record.figures": "record.entry record.facts record.units record.fold record.place "
        "record.readers record.calc record.reckon",
        "record.evening": "record.entry record.facts record.fold record.readers record.accounts "
        "record.figures record.checks",
        "record.trust": "record.entry record.fold record.halves record.proof",
        "record.archive": "record.entry record.facts record.units record.halves record.log "
        "record.place record.proof record.reserved record.readers record.trust",
        "record.exports": "record.entry record.facts record.units record.fold record.halves "
        "record.log record.place record.readers record.archive record.upkeep",
        "record.cli": "record",
        "manual.languages": "record",
        "manual.theme": "record manual.languages",
        "manual.drawings": "record manual.languages",
        "manual.proof": "record manual.drawings",
        "manual.plans": "record manual.languages manual.drawings",
        "manual.bound": "record manual.languages manual.plans",
        "manual.asks": "record manual.languages manual.drawings manual.plans manual.bound",
        "manual.printing": "record manual.languages manual.theme manual.proof",
        "manual.brief": "record manual.languages manual.theme manual.drawings manual.plans "
        "manual.printing",
        "manual": "record manual.languages manual.theme manual.drawings manual.proof manual.plans "
        "manual.bound manual.asks manual.printing manual.brief",
        "migrations": "",
    }.items()
}


def package_of(module: str) -> str | None:
    """Return the row that holds a module: the longest name that begins it."""
    rows = [row for row in ARROWS if module == row or module.startswith(f"{row}.")]
    return max(rows, key=len, default=None)


def modules(root: Path) -> dict[str, Path]:
    """Return every module of what is shipped, by its dotted name."""
    found = {}
    for top in SHIPPED:
        for path in sorted((root / top).rglob("*.py")):
            parts = path.relative_to(root).with_suffix("").parts
            found[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    return found


def imports(module: str, path: Path) -> Iterator[tuple[int, str]]:
    """Yield (line, dotted name) for every import in a file, inside functions too."""
    known = path.name == "__init__.py"
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = node.module or ""
            if node.level:
                parts = module.split(".")
                here = parts[: len(parts) - node.level + known]
                base = ".".join([*here, *([base] if base else [])])
            # A name may be a module or something in one; the longer name finds its row either way.
            yield from ((node.lineno, f"{base}.{alias.name}") for alias in node.names)
        elif isinstance(node, ast.Call) and ast.unparse(node.func).endswith("import_module"):
            yield from (
                (node.lineno, argument.value)
                for argument in node.args
                if isinstance(argument, ast.Constant) and isinstance(argument.value, str)
            )


def wrong_arrows(root: Path) -> list[str]:
    """Return every import that the table does not allow, as words."""
    faults = []
    for module, path in modules(root).items():
        row = package_of(module)
        if row is None:
            continue
        may = ARROWS[row]
        for line, name in imports(module, path):
            top = name.partition(".")[0]
            if top not in HOUSE:
                continue
            # `from record import x` gives record.x; a bare `record` names no package.
            to = package_of(name) or top
            allowed = to == row or to in may or (top in may and top == RECORD)
            if not allowed:
                faults.append(f"{path.relative_to(root)}:{line}: {row} imports {name}")
    return faults


def drifted(root: Path) -> list[str]:
    """Return packages without a row, and rows without a package."""
    top = {f"record.{p.stem}" for p in (root / "record").iterdir() if _is_package(p)}
    tree = {name for name in top if name != "record.__init__"} | {"manual", "migrations"}
    rooms = (p for p in (root / "manual").iterdir() if p.is_dir() and _is_package(p))
    tree |= {f"manual.{room.name}" for room in rooms}
    return sorted(tree ^ ARROWS.keys())


def _is_package(path: Path) -> bool:
    return path.suffix == ".py" or (path.is_dir() and any(path.rglob("*.py")))


def test_the_tree_was_looked_at():
    found = modules(ROOT)
    assert len(found) > 100
    seen = {package_of(module) for module in found} - {None}
    assert seen == ARROWS.keys()
    assert sum(1 for name, path in found.items() for _ in imports(name, path)) > 500


def test_every_arrow_goes_the_allowed_way():
    assert wrong_arrows(ROOT) == []


def test_table_and_tree_have_not_drifted_apart():
    assert drifted(ROOT) == []


def test_the_table_itself_goes_one_way():
    """No package can be reached from itself along the arrows it may draw."""
    for start in ARROWS:
        reached: set[str] = set()
        waiting = [to for to in ARROWS[start] if to != "record"]
        while waiting:
            at = waiting.pop()
            if at not in reached:
                reached.add(at)
                waiting += [to for to in ARROWS.get(at, ()) if to != "record"]
        assert start not in reached


def house(root: Path, where: str, line: str) -> Path:
    """Make a small tree with one file that holds ``line``."""
    for name in ("record/facts/__init__.py", "manual/x.py", "migrations/x.py", where):
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("", encoding="utf-8")
    (root / where).write_text(line, encoding="utf-8")
    return root


@pytest.mark.parametrize(
    ("where", "line"),
    [
        ("record/facts/x.py", "import record.fold"),
        ("record/facts/x.py", "import json, record.fold.mends as m"),
        ("record/facts/x.py", "from record import fold"),
        ("record/facts/x.py", "from record.fold import fold"),
        ("record/facts/x.py", "from record.fold.mends import mends"),
        ("record/facts/x.py", "from ..fold import mends"),
        ("record/facts/__init__.py", "from ..fold import mends"),
        ("record/facts/x.py", "def f():\n    if True:\n        from record.log import Log"),
        ("record/facts/x.py", "import importlib\nimportlib.import_module('record.cli')"),
        ("record/facts/x.py", "if TYPE_CHECKING:\n    from record.entry import Entry"),
        ("record/calc/x.py", "from record.units import Quantity"),
        ("record/entry.py", "from record.facts import KINDS"),
        ("record/checks/x.py", "from record.answers import behind"),
        ("record/readers.py", "from record.cli import app"),
        ("record/cli/x.py", "import manual"),
        ("record/cli/x.py", "from manual.printing.press import press"),
        ("record/cli/x.py", "from tests.record import records"),
        ("migrations/versions/x.py", "import record"),
        ("migrations/versions/x.py", "from record.log.store import LINKS"),
        ("manual/x.py", "import migrations"),
        ("manual/drawings/x.py", "from manual.printing.press import press"),
    ],
)
def test_a_wrong_arrow_is_found_however_it_is_written(tmp_path: Path, where: str, line: str):
    assert wrong_arrows(house(tmp_path, where, line)) != []


@pytest.mark.parametrize(
    ("where", "line"),
    [
        ("record/facts/x.py", "from record.units import Quantity"),
        ("record/facts/x.py", "from record.facts.kind import Kind"),
        ("record/facts/x.py", "from .kind import Kind"),
        ("record/facts/x.py", "import json, recordings"),
        ("record/cli/x.py", "from record import fold"),
        ("manual/x.py", "from record.readers import View"),
        ("manual/x.py", "from manual.drawings.svg import Element"),
    ],
)
def test_an_allowed_arrow_is_let_through(tmp_path: Path, where: str, line: str):
    assert wrong_arrows(house(tmp_path, where, line)) == []


def test_a_new_package_without_a_row_is_found(tmp_path: Path):
    house(tmp_path, "record/novelty/x.py", "")
    assert "record.novelty" in drifted(tmp_path)
    assert "record.answers" in drifted(tmp_path)
