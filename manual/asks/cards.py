"""Task cards: what is due, gathered by task, as the upkeep chapter prints it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from manual.bound.book import Book
from record.upkeep import CannotTell, Due, Task, due
from record.upkeep.words import details


def dues_of(book: Book) -> tuple[Due, ...]:
    """
    Return what is due, counted on the day the record reaches, never on the clock.

    A reader who is shown no services gets none: a date made without them would be wrong.
    """
    try:
        return due(book.view, today=date.fromisoformat(book.recorded_to))
    except CannotTell:
        return ()


@dataclass(frozen=True, slots=True)
class DueLine:
    """One thing a card is for."""

    one: Due
    details: tuple[str, ...]

    def __getattr__(self, name: str) -> Any:
        return getattr(self.one, name)


@dataclass(frozen=True, slots=True)
class Card:
    """One task with everything it is due for."""

    task: Task
    dues: tuple[DueLine, ...]

    def __getattr__(self, name: str) -> Any:
        return getattr(self.task, name)


def task_cards(dues: Sequence[Due]) -> Iterator[Card]:
    """Yield one card a task, in the order the tasks are first due."""
    by_task: dict[str, list[Due]] = {}
    for one in dues:
        by_task.setdefault(one.task.word, []).append(one)
    for each in by_task.values():
        yield Card(each[0].task, tuple(DueLine(one, tuple(details(one))) for one in each))
