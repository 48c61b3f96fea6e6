"""Upstream and downstream in plain words, one thing a line in the order it is met."""

from __future__ import annotations

from collections.abc import Iterator

from record.answers.saying import length, section, wrapped
from record.answers.stream_values import Step, Stream

LIMIT = (
    "Joined as far as runs, stations and the crew's words tell; a tee nobody wrote down is not "
    "here. Shut it, then prove it: open a point beyond and see."
)


def stream_words(answer: Stream) -> list[str]:
    """Return the answer in lines of at most 100 columns."""
    lines = list(wrapped(f"{answer.way.upper()} of {answer.tag}, {answer.words}", 0, 2))
    lines += wrapped(f"Reader: {answer.reader}. {answer.further_entries}", 0, 2)
    if answer.state:
        lines += wrapped(f"Now: {answer.state}", 0, 2)
    lines.append("")
    if not answer.steps:
        lines.append("Nothing that joins it on that side is recorded.")
    for number, step in enumerate(answer.steps, 1):
        indent = 2 + 2 * step.level
        lines += wrapped(f"{number}. {_step(step)}", indent, indent + 4)
    lines += section("SHUT OR SWITCHED OFF", answer.closed)
    lines += section("WHERE WATER GOES", answer.water)
    lines += section("NOT RECORDED", answer.not_recorded)
    lines += section("TAGS THAT WERE EXCHANGED", answer.swapped)
    lines += ["", *wrapped(LIMIT, 0, 0)]
    return lines


def _step(step: Step) -> str:
    return "; ".join(_said(step)) + (f" [{', '.join(step.entries)}]" if step.entries else "")


def _said(step: Step) -> Iterator[str]:
    where = f", {length(step.along_m)} along {step.on_run}" if step.along_m is not None else ""
    yield f"{step.tag}, {step.words}{where}"
    if step.off_m is not None and step.off_m > 0.30:
        yield f"{length(step.off_m)} off its recorded line"
    if step.state:
        yield step.state
    if step.stops:
        yield "SHUT as far as that was written: it stops here"
