"""Nothing that is there for a time only goes under with what it is on."""

from __future__ import annotations

from collections.abc import Iterator

from record.accounts.left import StillOn, for_a_time, position, still_on
from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.checks.moments import moment, when
from record.fold import Thing


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find what is temporary and still on something hidden, or is told as left for a time."""
    tags = {hidden.covering.tag, *hidden.named, *(thing.tag for thing in hidden.everything())}
    for one in still_on(hidden.view):
        on = {str(held.value).partition("/")[0] for held in one.thing.held("on_thing")}
        named = {*on, one.thing.tag} & tags
        unsaid = not one.thing.tags("on_thing")
        if (named or unsaid) and not _later(hidden, one.thing, named):
            yield _still_on(hidden, one, "certain" if named else "cannot be told")
    for thing in hidden.everything():
        yield from _left(hidden, thing)


def _later(hidden: Hidden, temporary: Thing, tags: set[str]) -> bool:
    """Whether it was surely put on only after this covering had gone over."""
    over = [covered for tag in tags if (covered := hidden.covered(tag)) is not None]
    put_on = [
        moment(entry.content.on, entry.content.at)
        for entry in temporary.entries()
        if entry.content is not None
    ]
    return bool(over) and all(put.by(when(covered)) is False for put in put_on for covered in over)


def _still_on(hidden: Hidden, one: StillOn, sure: str) -> Finding:
    tag = one.thing.tag
    before = one.thing.text("off_before") or ""
    named = tag in hidden.named or _names(before, hidden.covering.tag)
    stays = one.thing.value("stays_in_reach") is True and not named
    return RULE.finding(
        tag,
        f"{one.words}; it is still on",
        clears=(
            f"take it off, then write\n## taken off {tag}"
            if not stays
            else f"stays in reach: look that this covering does not hide it\n## taken off {tag}",
            "- at: the hour",
            *(() if stays or named else ("or, where it stays in reach:", f"## temporary {tag}",
                                         "- stays in reach: yes")),
        ),
        entries=one.thing.entries(),
        sure=CERTAIN if sure == "certain" else CANNOT_BE_TOLD,
        stops=not stays,
    )  # fmt: skip


def _names(words: str, tag: str) -> bool:
    return tag in words.replace(",", " ").replace(";", " ").split()


def _left(hidden: Hidden, thing: Thing) -> Iterator[Finding]:
    for place in for_a_time((position(hidden.view, thing),)):
        if place.left is not None and not hidden.after_cover(thing.tag, place.left):
            yield RULE.finding(
                thing.tag,
                place.words,
                clears=(f"## left as {thing.tag}", "- state: how it is left for good"),
                entries=place.left.entries(),
                stops=False,
            )


RULE = Rule(
    word="nothing temporary left on",
    why=(
        "A transit plug, a strap or a cap that goes under with its pipe closes it for good, and "
        "nobody remembers why no air comes. What stays on in the open is taken off before use."
    ),
    find=find,
)
