"""key=value words → what a sum is given, or every fault of them at once."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any

from record.reckon.sum import Input, Sum
from record.units import Dimension, UnitFault, read_quantity

NUMBER = re.compile(r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)")


@dataclass(frozen=True, slots=True)
class WordFault:
    """One word that cannot be used: the word, what is wrong, what to write instead."""

    word: str
    start: int
    end: int
    problem: str
    remedy: str

    def lines(self) -> tuple[str, ...]:
        caret = " " * self.start + "^" * max(1, self.end - self.start)
        shown = (f"   | {self.word}", f"   | {caret}") if self.word else ()
        return (self.problem, *shown, self.remedy)


class CannotReckon(Exception):
    """The words given do not make the sum; ``faults`` are all that is wrong with them."""

    def __init__(self, faults: Sequence[WordFault]) -> None:
        super().__init__("\n\n".join("\n".join(fault.lines()) for fault in faults))
        self.faults = tuple(faults)


@dataclass(frozen=True, slots=True)
class Said:
    """What was given, beside how it was written; ``usual`` where nothing was and a usual holds."""

    given: dict[str, Any]
    written: dict[str, tuple[str, ...]]
    usual: frozenset[str]


def read(one: Sum, words: Sequence[str]) -> Said:
    """
    Return what ``words`` (key=value, one each) give the sum. Raises CannotReckon.

    A key that may be given often makes a tuple, in the order given.
    """
    faults: list[WordFault] = []
    found: dict[str, list[tuple[str, Any]]] = {}
    for word in words:
        key, sign, value = word.partition("=")
        wanted = one.input(key.strip().casefold())
        if not sign or wanted is None:
            faults.append(_no_key(one, word, key))
            continue
        if wanted.key in found and not (wanted.many or wanted.columns):
            faults.append(
                WordFault(word, 0, len(key), f"{wanted.key} is given twice", "Leave one of them.")
            )
            continue
        # What cannot be read was given all the same: it is not missing too.
        kept = found.setdefault(wanted.key, [])
        try:
            kept.append((value.strip(), _value(wanted, value)))
        except UnitFault as fault:
            shift = len(key) + 1
            faults.append(
                WordFault(
                    word,
                    shift + fault.start,
                    shift + fault.end,
                    f"{wanted.key}: {fault.problem}",
                    fault.remedy,
                )
            )
    written = {key: tuple(text for text, _ in kept) for key, kept in found.items()}
    values = {key: [value for _, value in kept] for key, kept in found.items()}
    return _said(one, values, written, faults)


def supplied(one: Sum, values: Mapping[str, Sequence[Any]]) -> Said:
    """
    Return what values give the sum, which were read already: as many of a key as there are.

    Each is a float in the SI unit of its input, words, or a row of these by column; a column of a
    row that is left out is the usual one. Raises CannotReckon where a needed one is left out.
    """
    whole = {
        each.key: [_whole_row(each, value) for value in values[each.key]]
        for each in one.inputs
        if each.key in values
    }
    return _said(one, whole, {}, [])


def _whole_row(wanted: Input, value: Any) -> Any:
    if not wanted.columns:
        return value
    return {**{c.key: _value(c, c.usual) for c in wanted.columns if c.usual}, **value}


def _said(
    one: Sum,
    found: Mapping[str, Sequence[Any]],
    written: dict[str, tuple[str, ...]],
    faults: Sequence[WordFault],
) -> Said:
    lacking = [
        WordFault("", 0, 0, f"{each.key} is missing", f"Add {_how(each)}.")
        for each in one.inputs
        if each.needed and each.key not in found
    ]
    if faults or lacking:
        raise CannotReckon([*faults, *lacking])
    usual = frozenset(each.key for each in one.inputs if each.usual and each.key not in found)
    return Said(dict(_given(one, found)), written, usual)


def _given(one: Sum, found: Mapping[str, Sequence[Any]]) -> Iterator[tuple[str, Any]]:
    for each in one.inputs:
        kept = list(found.get(each.key, ()))
        if not kept and each.usual:
            kept = [_value(each, each.usual)]
        if each.many or each.columns:
            yield each.key, tuple(kept)
        elif kept:
            yield each.key, kept[0]


def _no_key(one: Sum, word: str, key: str) -> WordFault:
    keys = [each.key for each in one.inputs]
    near = get_close_matches(key.strip().casefold(), keys, 1, 0.6)
    remedy = f"Did you mean {near[0]}=…?" if near else f"It takes {', '.join(keys)}."
    shown = word if "=" in word else f'"{word}"'
    problem = f"{one.name} takes no {key.strip()}" if "=" in word else f"{shown} is no key=value"
    return WordFault(word, 0, len(key), problem, remedy)


def _how(each: Input) -> str:
    if each.columns:
        return f'{each.key}="{"; ".join(column.key for column in each.columns)}"'
    return f"{each.key}=…, {each.says}"


def _value(wanted: Input, text: str) -> Any:
    if wanted.columns:
        return _row(wanted, text)
    if wanted.words:
        word = " ".join(text.split()).casefold()
        if word not in wanted.words:
            near = get_close_matches(word, wanted.words, 1)
            hint = f' Did you mean "{near[0]}"?' if near else ""
            told = wanted.told_words
            raise UnitFault(
                f'"{text.strip()}" is not one of its words',
                f"Write {', '.join(told[:-1])} or {told[-1]}.{hint}",
                0,
                len(text),
            )
        return word
    if wanted.of is not None:
        return float(read_quantity(text, wanted.of).si)
    return _number(text)


def _number(text: str) -> float:
    plain = text.strip().replace("\N{MINUS SIGN}", "-")
    if not NUMBER.fullmatch(plain) or not math.isfinite(float(plain)):
        raise UnitFault(
            f'"{text.strip()}" is not a plain number', "Write it without a unit.", 0, len(text)
        )
    return float(plain)


def _row(wanted: Input, text: str) -> dict[str, Any]:
    """Return one row; columns stand with ; between, those that may be left out at its end."""
    cells = text.split(";")
    least = sum(1 for column in wanted.columns if column.needed)
    if not least <= len(cells) <= len(wanted.columns):
        raise UnitFault(
            f"{wanted.key} has {len(cells)} parts, not {least}"
            + (f" to {len(wanted.columns)}" if least < len(wanted.columns) else ""),
            f"Write {_how(wanted)}.",
            0,
            len(text),
        )
    row: dict[str, Any] = {}
    at = 0
    for column, cell in zip(wanted.columns, cells, strict=False):
        try:
            row[column.key] = _value(column, cell)
        except UnitFault as fault:
            raise UnitFault(
                f"{column.key}: {fault.problem}", fault.remedy, at + fault.start, at + fault.end
            ) from fault
        at += len(cell) + 1
    for column in wanted.columns[len(cells) :]:
        if column.usual:
            row[column.key] = _value(column, column.usual)
    return row


def quantity_key(key: str, says: str, of: Dimension, usual: str = "", why: str = "") -> Input:
    """Return the declaration of a measured input; short, because there are many."""
    return Input(key=key, says=says, of=of, usual=usual, usual_from=why)
