"""Words kept apart from code: what a module asks for by key, and what it still says itself."""

from __future__ import annotations

import ast
import re
from collections.abc import Container, Iterable, Iterator, Mapping
from pathlib import Path
from string import Formatter

#: What says a sentence by its key; those that end so say a number of things.
SAID = ("say", "say_how_many", "tell", "tell_how_many")
MANY = "_how_many"


def calls(path: Path, said: Iterable[str] = SAID) -> Iterator[ast.Call]:
    """Yield every call of a module that asks for a sentence."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in said:
            yield node


def keys(call: ast.Call) -> re.Pattern[str]:
    """Return the keys a call may ask for: one, or those of a pattern with holes."""
    key = call.args[0]
    parts = key.values if isinstance(key, ast.JoinedStr) else [key]
    told = "".join(
        re.escape(part.value) if isinstance(part, ast.Constant) else r"[\w.]+" for part in parts
    )
    many = ast.unparse(call.func).endswith(MANY)
    return re.compile(told + (r"\.(one|other)" if many else ""))


def slots(words: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(words) if name}


def left_in(source: str, allowed: Container[str] = (), pattern: str = r"(?!)") -> list[str]:
    """Return the strings of two words and more in functions that are not asked for by key."""
    tree = ast.parse(source)
    parents = {child: node for node in ast.walk(tree) for child in ast.iter_child_nodes(node)}

    def above(node: ast.AST) -> Iterator[ast.AST]:
        while node in parents:
            node = parents[node]
            yield node

    def for_nobody_who_reads(node: ast.AST) -> bool:
        up = list(above(node))
        docstring = isinstance(up[0], ast.Expr)
        refused = any(isinstance(one, ast.Raise | ast.Assert) for one in up)
        searched = any(
            isinstance(one, ast.Call) and ast.unparse(one.func).startswith("re.") for one in up
        )
        return docstring or refused or searched

    found = []
    for node in ast.walk(tree):
        if not isinstance(node, ast.Constant) or not isinstance(node.value, str):
            continue
        words = re.sub(r"<[^>]*>?|\\.|\{.*?\}|&#?\w+;|[\w-]+=\"[^\"]*", " ", node.value)
        if not re.search(r"[^\W\d_]{2,}\W*\s\W*[^\W\d_]{2,}", words) or node.value in allowed:
            continue
        if not for_nobody_who_reads(node) and not re.search(pattern, node.value):
            found.append(node.value)
    return found


def not_answered(path: Path, words: Mapping[str, str], said: Iterable[str]) -> list[str]:
    """Return what a module asks for and is not there, or puts in what has no place."""
    faults = []
    for call in calls(path, said):
        asked = [key for key in words if keys(call).fullmatch(key)]
        put = {one.arg for one in call.keywords}
        many = ast.unparse(call.func).endswith(MANY)
        for key in asked:
            if slots(words[key]) != put and not (many and slots(words[key]) - put <= {"number"}):
                faults.append(f"{path.name}:{call.lineno}: {key} puts in {slots(words[key])}")
        if not asked:
            faults.append(f"{path.name}:{call.lineno}: nothing stands under {keys(call)}")
    return faults
