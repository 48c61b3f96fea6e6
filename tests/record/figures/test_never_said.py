"""What no sum may print: of each need, what its limit on automation forbids.

Every sum is asked by its example, told by its help, and fed from a shelter of which all can be fed.
"""

from __future__ import annotations

import re
import shlex
from collections.abc import Iterator

import pytest

from record.figures import figures, words
from record.reckon import SUMS, Figure, read, usage
from record.reckon import words as sum_words
from record.units import Dimension
from tests.record.figures.ground import shelter

#: Said in so many words by somebody who warns, and by nobody else.
WARNINGS = (
    "nothing is frost-proof",
    "nobody is to be told how long they may stay",
    "nobody's permission to stay",
    "a time to look at, no time to stay",
    "it never extends use",
    "none of it is a rating of the shelter",
    "this says nothing about whether a hatch may be opened",
    "what stands in the room takes of its air",
)
#: Which sums, and what they must not say.
FORBIDDEN = {
    "float": (
        ("float-level", "uplift", "uplift-round"),
        r"(will|can|does) not (float|lift)|stays down",
    ),
    "frost": (
        ("drain-frost", "frost-zone", "frost-depth"),
        r"frost-proof|cannot freeze|never freezes",
    ),
    "stay": (
        ("supply", "co2", "people-served", "breath", "far-room"),
        r"\b(may|can) (still )?stay\b|you have|minutes|\bremain|(time|air|hours) left|air lasts"
        r"|enough for \d+ h",
    ),
    "sand": (("sand", "heap", "sand-flow"), r"safe|may be opened|can be opened|open it now"),
    "batch": (("workable-time",), r"still (good|usable|workable)|extend|may be used|use by|until"),
    "coat": (("litres", "spread"), r"film is (right|good|enough)|proves"),
    "structure": (
        ("cover", "cover-load", "uplift", "uplift-round", "hold-down"),
        r"strong enough|will hold|bears it|is stable",
    ),
}
EVERYWHERE = (
    r"safe (to|for|until|at)|is safe|all clear"
    r"|clear to (dig|drill|enter|weld|close|re-?energi[sz]e)"
    r"|may be (opened|entered|cut|drilled)|blast|fallout|flood rat|\brat(ed|ing) (for|to|of)"
    r"|guarantee|certified|approved for"
)


def plain(lines: Iterator[str]) -> str:
    """Return lines as one, in small letters, without what warns in so many words."""
    told = " ".join(" ".join(lines).split()).casefold()
    for warning in WARNINGS:
        told = told.replace(warning, "")
    return told


def asked(name: str) -> str:
    one = SUMS[name]
    said = read(one, shlex.split(one.example))
    return plain(iter([*sum_words(one, said, one.work(said.given)), *usage(one)]))


FED = figures(shelter())


def fed(name: str) -> str:
    return plain(words([worked for worked in FED if worked.name == name]))


@pytest.mark.parametrize("name", SUMS)
def test_no_sum_says_that_something_is_safe_or_rated(name: str) -> None:
    for told in (asked(name), fed(name)):
        assert not re.search(EVERYWHERE, told), re.search(EVERYWHERE, told)


@pytest.mark.parametrize("need", FORBIDDEN)
def test_what_its_limit_forbids_is_not_said(need: str) -> None:
    names, never = FORBIDDEN[need]
    for name in names:
        for told in (asked(name), fed(name)):
            found = re.search(never, told)
            assert not found, (name, found)


AIR = ("supply", "co2", "people-served", "far-room")


@pytest.mark.parametrize("name", AIR)
def test_no_figure_on_the_air_of_people_is_a_length_of_time(name: str) -> None:
    """A number of minutes would be counted down by whoever reads it."""
    found = [f for worked in FED if worked.name == name for f in worked.figures]
    one = SUMS[name]
    found += one.work(read(one, shlex.split(one.example)).given)
    assert found
    for figure in found:
        assert isinstance(figure, Figure) and figure.of is not Dimension.DURATION, figure


def test_a_limit_that_is_passed_is_told_with_the_alarm_rule_in_the_same_breath() -> None:
    passed = [
        figure.value
        for worked in FED
        if worked.name == "co2"
        for figure in worked.figures
        if isinstance(figure.value, str) and "is passed" in figure.value
    ]
    assert passed
    assert all(said.endswith("a reading and the alarm rule, not this") for said in passed)


@pytest.mark.parametrize("air", ["-10 °C", "0 °C", "15 °C", "25 °C", "26 °C", "45 °C"])
def test_no_air_makes_a_batch_last_longer_than_its_maker_says(air: str) -> None:
    """45 min at 25 °C, a maker's; a batch in the cold keeps those 45, whatever chemistry allows."""
    one = SUMS["workable-time"]
    given = read(one, ["stated=45 min", "stated-at=25 °C", f"air={air}"]).given
    [least] = [f.value for f in one.work(given) if f.of is Dimension.DURATION]
    assert isinstance(least, float) and least <= 45 * 60


def test_every_sum_that_could_hurt_ends_with_who_must_confirm_it() -> None:
    """Air supply, carbon dioxide, uplift, frost: inputs and source first, who confirms last."""
    hurts = (
        "supply co2 people-served far-room uplift uplift-round float-level drain-frost frost-zone"
    )
    for name in (*hurts.split(), "frost-depth", "air-way", "fan-point", "heap", "sand-flow"):
        lines = list(words([worked for worked in FED if worked.name == name]))
        told = [line for line in lines if line.strip()]
        if told:
            last = next(place for place, line in enumerate(told) if "confirm   " in line)
            assert all(line.startswith(" " * 12) for line in told[last + 1 :]), name
            source = next(place for place, line in enumerate(told) if "  source    " in line)
            results = [place for place, line in enumerate(told) if "    = " in line]
            assert source < min(results), name
