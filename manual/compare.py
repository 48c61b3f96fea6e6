"""What came between two editions, in words and as a page of its own."""

from __future__ import annotations

import html
from collections.abc import Iterator
from dataclasses import dataclass

from manual.asks.build_days import Told
from manual.bound.editions import Edition, since
from manual.languages import say
from record.fold import natural
from record.readers import View


@dataclass(frozen=True, slots=True)
class Between:
    """Two editions, the older first, and what the newer knew that the older did not, by tag."""

    older: Edition
    newer: Edition
    told: tuple[tuple[str, tuple[Told, ...]], ...]

    @property
    def count(self) -> int:
        return sum(len(each) for _, each in self.told)

    @property
    def heading(self) -> str:
        older, newer = self.older, self.newer
        return say(
            "compare.from_edition_recorded_to",
            number=older.number,
            recorded_to=older.recorded_to,
            number_2=newer.number,
            recorded_to_2=newer.recorded_to,
        )

    @property
    def summary(self) -> str:
        mends = sum(bool(one.mends) for _, each in self.told for one in each)
        return say(
            "compare.entries_about_tags_of", count=self.count, told=len(self.told), mends=mends
        )


def between(view: View, one: Edition, other: Edition) -> Between:
    """
    Return what a reader may see of what came between two editions, in whichever order.

    By what each had seen, never by a clock: what was written before an edition and merged after
    it is new to the next.
    """
    older, newer = sorted((one, other), key=lambda edition: edition.number)
    unknown_to_newer = {entry.hash for entry in since(view.built.entries, newer)}
    by_tag: dict[str, list[Told]] = {}
    for entry in since(view.built.entries, older):
        if entry.hash not in unknown_to_newer and entry.content is not None:
            by_tag.setdefault(entry.content.about.partition("/")[0], []).append(Told(entry))
    told = tuple((tag, tuple(by_tag[tag])) for tag in sorted(by_tag, key=natural))
    return Between(older, newer, told)


def words(found: Between) -> Iterator[str]:
    """Yield the difference in lines, a tag at a time."""
    yield found.heading
    yield found.summary if found.told else say("compare.nothing_that_this_reader")
    for tag, each in found.told:
        yield ""
        yield tag
        for one in each:
            mends = say("compare.mends", mends=one.mends, because=one.because) if one.mends else ""
            yield f"  {one.number}  {one.kind}: {mends}{one.in_short}"


def page(found: Between) -> str:
    """Return the difference as the body of a page."""
    rows = "\n".join(
        f"<tr><td>{html.escape(one.number)}</td><td>{html.escape(tag)}</td>"
        f"<td>{html.escape(one.kind)}</td><td>{_said(one)}</td></tr>"
        for tag, each in found.told
        for one in each
    )
    columns = [say(f"compare.column.{one}") for one in ("entry", "of", "what", "said")]
    names = "".join(f"<th>{html.escape(one)}</th>" for one in columns)
    head = f"<thead><tr>{names}</tr></thead>"
    return (
        f'<div class="manual"><section class="chapter">\n<h1>{html.escape(found.heading)}</h1>\n'
        f"<p>{html.escape(found.summary)}.</p>\n"
        f"<table>\n{head}\n<tbody>\n{rows}\n</tbody>\n</table>\n</section></div>"
    )


def _said(one: Told) -> str:
    mends = say("compare.mends_2", mends=one.mends, because=one.because) if one.mends else ""
    return f"<strong>{html.escape(mends)}</strong>{html.escape(one.in_short)}"


def form(found: Between) -> dict[str, object]:
    """Return the JSON form of the difference."""
    return {
        "older": found.older.number,
        "newer": found.newer.number,
        "entries": [
            {"entry": one.number, "about": tag, "kind": one.kind, "mends": one.mends or None}
            for tag, each in found.told
            for one in each
        ],
    }
