"""The catalogue of upkeep tasks: one TOML file a task, read and checked once.

A file says what the task is for (``fits``), why, how, who may do it, how often and who says so,
when it has passed, and what to write down. The maker's sheet and the local code come first;
the intervals here are starting values with their source beside them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from importlib.resources import files
from typing import Any

from record.facts import KINDS
from record.facts.fields import OneOf, Text
from record.facts.kind import EVERYONE, READERS
from record.facts.states import BEFELL_WORDS
from record.upkeep.dates import Interval
from record.upkeep.seasons import SEASONS
from record.words import term

WHO = ("owner", "technician", "electrician", "plumber")
#: What a task may come after: what befell the shelter, or was done to the thing.
AFTER = (*BEFELL_WORDS, "opened up", "worked by others", "uncovered")
SIGNALS = ("danger", "warning", "caution", "notice")
MOST_WEEKS_BEFORE = 26
TICKS = 4  # what a person fills in without being asked twice
#: The task for a thing of which too little is recorded to tell what upkeep it needs.
SAY_WHAT_IT_IS = "say-what-it-is"


class BadTask(ValueError):
    """A file of the catalogue that cannot be used: the file and everything wrong with it."""


@dataclass(frozen=True, slots=True)
class Fit:
    """
    What a task is for: a kind of thing, or of a thing's parts.

    ``fields`` are conditions, by the name a field is held under: it holds one of the words, or,
    for free words, has one of them in it. ``needs`` are fields that must not be "none" or "n/a".
    ``unless`` is another thing that has the task in its place, if one is in the same hull.
    """

    kind: str
    fields: tuple[tuple[str, tuple[str, ...]], ...] = ()
    needs: tuple[str, ...] = ()
    unless: Fit | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One task of upkeep. ``word`` is what a "serviced" entry names, and is never renamed."""

    word: str
    title: str
    why: str
    signal: str
    caution: str
    steps: tuple[str, ...]
    passes: str
    record: str
    ticks: tuple[str, ...]
    reading: str
    who: tuple[str, ...]
    tools: tuple[str, ...]
    interval: Interval
    source: str
    fits: tuple[Fit, ...]
    sooner: str = ""
    counted_from: tuple[str, ...] = ()  # fields that hold a day; then: first recorded
    expiry: tuple[str, ...] = ()  # fields that hold the day after which it is too late
    seasons: tuple[str, ...] = ()  # it must be done before these begin, each year
    weeks_before: int = 0  # done no earlier than this it counts for the season
    after: tuple[str, ...] = ()  # what befell it, or was done to it, that makes it due at once
    readings: tuple[str, ...] = ()  # words of readings that make it due past their limit
    use: bool = False  # running hours make it due
    outside: bool = False  # work in the open, kept out of deep winter
    maker: bool = False  # the maker's interval of the thing is for this task
    benchmark: bool = False
    readers: frozenset[str] = EVERYONE

    @property
    def page(self) -> str:
        """Where the manual tells of it."""
        return f"upkeep-{self.word}"


#: What of a task a person reads; the rest is for counting.
TOLD = ("title", "why", "caution", "passes", "record", "reading", "source", "sooner")
TOLD_LISTS = ("steps", "ticks", "tools")


def told(task: Task) -> Task:
    """Return a task with its words in the language that is spoken."""
    said: dict[str, Any] = {name: term(getattr(task, name)) for name in TOLD}
    said.update({name: tuple(map(term, getattr(task, name))) for name in TOLD_LISTS})
    return replace(task, **said)


@cache
def catalogue() -> Mapping[str, Task]:
    """Return every task by its word, in alphabetical order. Raises BadTask."""
    folder = files("record.upkeep").joinpath("tasks")
    found = sorted((file for file in folder.iterdir() if file.name.endswith(".toml")), key=str)
    tasks = [read_task(file.name, file.read_text(encoding="utf-8")) for file in found]
    return {task.word: task for task in tasks}


def read_task(name: str, text: str) -> Task:
    """Return the task in a file called ``name``. Raises BadTask with everything wrong with it."""
    import tomllib

    try:
        said = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise BadTask(f"{name}: {fault}") from fault
    faults = list(_faults(name, said))
    if faults:
        raise BadTask(f"{name}: " + "; ".join(faults))
    lists = ("steps", "ticks", "who", "tools", "counted_from", "expiry", *_TRIGGERS)
    plain = {key: value for key, value in said.items() if key not in ("fits", "months", "days")}
    plain.update({key: tuple(said[key]) for key in lists if key in said})
    plain["readers"] = frozenset(said.get("readers", EVERYONE))
    interval = Interval(months=said.get("months", 0), days=said.get("days", 0))
    return Task(interval=interval, fits=tuple(_fit(one) for one in said.get("fits", ())), **plain)


def _fit(said: Mapping[str, Any]) -> Fit:
    fields = [(_name(key), tuple(words)) for key, words in said.items() if key not in _OF_A_FIT]
    needs = tuple(_name(key) for key in said.get("needs", ()))
    unless = _fit(said["unless"]) if "unless" in said else None
    return Fit(said["kind"], tuple(fields), needs, unless)


def _name(key: str) -> str:
    """Return a field's name as things hold it, from the key a crew writes."""
    return key.replace(" ", "_")


_WORDS = (
    *("word", "title", "why", "signal", "caution", "passes", "record", "reading"),
    "source",
)
_LISTS = ("steps", "ticks", "who", "tools")
_MAY = (
    *("sooner", "counted_from", "expiry", "maker", "benchmark", "readers", "fits"),
    *("seasons", "weeks_before", "after", "readings", "use", "outside"),
)
_TRIGGERS = ("seasons", "after", "readings")
_OF_A_FIT = ("kind", "needs", "unless")
_KNOWN = {*_WORDS, *_LISTS, *_MAY, "months", "days"}


def _faults(name: str, said: Mapping[str, Any]) -> list[str]:
    """Return what is wrong with a file, in words."""
    faults = [f'"{key}" is no key of a task' for key in said if key not in _KNOWN]
    faults += [f'"{key}" is missing or empty' for key in _WORDS if not _is_text(said.get(key))]
    faults += [f'"{key}" is not a list of words' for key in _LISTS if not _is_list(said.get(key))]
    if faults:
        return faults
    if name != f"{said['word']}.toml":
        faults.append(f'the file of "{said["word"]}" is called {said["word"]}.toml')
    if said["signal"] not in SIGNALS:
        faults.append(f"the signal word is one of {', '.join(SIGNALS)}")
    if len(said["ticks"]) != TICKS:
        faults.append(f"there are {TICKS} ticks")
    faults += [f'"{who}" is nobody we know' for who in said["who"] if who not in WHO]
    faults += [f'"{r}" is not a reader' for r in said.get("readers", ()) if r not in READERS]
    counts = [key for key in ("months", "days") if key in said]
    if len(counts) != 1 or type(said[counts[0]]) is not int or said[counts[0]] < 1:
        faults.append("the interval is a whole number of months or of days")
    faults += _season_faults(said)
    faults += [f'"{one}" befalls nothing' for one in said.get("after", ()) if one not in AFTER]
    if not said.get("fits") and said["word"] != SAY_WHAT_IT_IS:
        faults.append("it does not say what it fits")
    for fit in said.get("fits", ()):
        faults += _fit_faults(fit)
    kinds = [kind for fit in said.get("fits", ()) if (kind := KINDS.get(fit.get("kind", "")))]
    for key in (*said.get("counted_from", ()), *said.get("expiry", ())):
        if not any(kind.field(key) for kind in kinds):
            faults.append(f'nothing it fits has a field "{key}"')
    return faults


def _season_faults(said: Mapping[str, Any]) -> list[str]:
    named, weeks = said.get("seasons", ()), said.get("weeks_before", 0)
    faults = [
        f'"{one}" is not a season: {", ".join(SEASONS)}' for one in named if one not in SEASONS
    ]
    if type(weeks) is not int or not 0 <= weeks <= MOST_WEEKS_BEFORE or bool(named) != bool(weeks):
        faults.append(f"seasons go with weeks_before, a whole number from 1 to {MOST_WEEKS_BEFORE}")
    return faults


def _fit_faults(fit: Mapping[str, Any]) -> list[str]:
    kind = KINDS.get(fit.get("kind", ""))
    if kind is None:
        return [f'"{fit.get("kind")}" is no kind of thing']
    faults = _fit_faults(fit["unless"]) if "unless" in fit else []
    for key, words in fit.items():
        if key in _OF_A_FIT:
            continue
        field = kind.field(key)
        if field is None or not isinstance(field.holds, OneOf | Text):
            faults.append(f'a {kind.word} has no words in "{key}"')
        elif isinstance(field.holds, OneOf) and not set(words) <= set(field.holds.words):
            faults.append(f'"{key}" of a {kind.word} is {field.holds.says}')
    needs = fit.get("needs", ())
    faults += [f'a {kind.word} has no field "{key}"' for key in needs if not kind.field(key)]
    return faults


def _is_text(value: object) -> bool:
    return isinstance(value, str) and bool(value.strip())


def _is_list(value: object) -> bool:
    return isinstance(value, list) and bool(value) and all(_is_text(one) for one in value)
