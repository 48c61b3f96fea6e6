"""What clears a finding about looks, tests, photos and words that differ, as blocks to fill in."""

from __future__ import annotations

from collections.abc import Iterator

from record.blank.form import Ask, Block, gaps
from record.blank.help_pipes import fields_of
from record.blank.help_seams import mend
from record.blank.of_kind import ask
from record.checks.finding import Finding
from record.checks.hidden import Hidden
from record.checks.in_the_way import unnamed
from record.checks.photo_before_cover import VIEWS, in_time
from record.checks.photo_of_every_side import sides_of
from record.facts import KINDS, STORED
from record.facts.looks import LOOKS, titled
from record.facts.values import Absent
from record.fold import Stated, Thing


def nothing(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    """Nothing can be typed that clears it: it is done on the ground, or waived by two people."""
    return iter(())


def all_named_recorded(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    if finding.about == hidden.covering.tag:
        field = hidden.covering.kind.field("hides")
        assert field is not None
        asks = (ask(hidden.built, field),)
        yield Block(kind=hidden.covering.kind, tag=hidden.covering.tag, asks=asks)
    else:
        note = (
            f"A form for {finding.about}: `asburied blank KIND {finding.about}`, with what it is: "
            "run, seam, fit-out or another."
        )
        yield Block(notes=(note,))


def in_the_way(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    """The whole list of what goes under, with all that lies there and nobody named."""
    if finding.about == hidden.covering.tag:  # reserved for this reader: no sheet clears it
        return
    every = dict.fromkeys((*hidden.named, *(one.thing.tag for one in unnamed(hidden))))
    every[finding.about] = None
    yield Block(
        kind=hidden.covering.kind,
        tag=hidden.covering.tag,
        notes=("Take out of the list what does not go under, and mend where that lies.",),
        asks=(Ask(key="hides", said=", ".join(every)),),
    )


def nothing_unsettled(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    for stated in _stated(hidden):
        for name in stated.unsettled():
            held = stated.held(name)
            if {one.entry.number for one in held} == set(finding.numbers):
                yield _mend_both(stated, name, ", ".join(finding.numbers))
                return


def _stated(hidden: Hidden) -> Iterator[Stated]:
    for thing in (hidden.covering, *hidden.everything()):
        yield thing
        yield from thing.parts
        yield from hidden.built.about(thing.tag)


def _mend_both(stated: Stated, name: str, numbers: str) -> Block:
    head = (Ask(key="mends", said=numbers), Ask(key="because", hint="who looked, and how"))
    content = stated.held(name)[0].entry.content
    assert content is not None
    kind, key = STORED[content.kind], name.replace("_", " ")
    if not kind.key or not isinstance(stated, Thing):
        return Block(kind=kind, tag=content.about, asks=(*head, *gaps(key)))
    whole = next(each for each in KINDS.values() if each.rows is kind)
    cells = (Ask(key=kind.key, said=stated.key), *gaps(*([key] if key != kind.key else [])))
    return Block(kind=whole, tag=content.about.partition("/")[0], asks=head, rows=(cells,))


def failed_passed_again(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    look = finding.entries[0]
    assert look.content is not None
    kind = STORED[look.content.kind]
    unread = finding.sure != "certain"
    if unread:  # its result was not recorded: it is mended, not done again
        yield mend(look, "result")
        return
    name = titled(kind.word)
    yield _look(kind.word, finding.about, str(look.content.body.get(name, "")), look.number)


def no_lapsed_proof(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    # The test stands among the entries it rests on, beside what undid it.
    for entry in finding.entries:
        kind = STORED[entry.content.kind] if entry.content else None
        if entry.content and kind and kind.word in LOOKS:
            said = str(entry.content.body.get(titled(kind.word), ""))
            yield _look(kind.word, finding.about, said, entry.number)
            return
    lapsed = finding.entries[0]
    test = lapsed.content.body.get("test") if lapsed.content else ""
    yield _look("tested", finding.about, test if isinstance(test, str) else "", lapsed.number)


def _look(word: str, tag: str, said: str, retest: str) -> Block:
    kind = KINDS[word]
    asks = [*gaps("at")]
    for field in kind.fields:
        if field.key == LOOKS[word]:
            asks.append(Ask(key=field.key, said=said))
        elif field.key == "retest of":
            if retest or field.needed:
                asks.append(Ask(key=field.key, said=retest or "none"))
        elif field.needed:
            asks.append(Ask(key=field.key))
    return Block(kind=kind, tag=tag, asks=tuple(asks))


def photo_before_cover(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    tag = finding.about
    if hidden.covered(tag) is not None:
        return
    photos = [one for one in hidden.built.about(tag, "photographed") if in_time(hidden, tag, one)]
    seen = {one.text("view") for one in photos}
    yield _photos(
        tag,
        *(
            f"{view}, looking ____, {tag}: ____, rule in view, shows {tag}"
            for view in VIEWS
            if view not in seen
        ),
    )


def photo_of_every_side(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    seam = hidden.built.things[finding.about]
    sides = seam.value("sides")
    if isinstance(sides, Absent):
        yield fields_of(hidden, seam, "sides")
    elif hidden.covered(seam.tag) is None:
        for side in sides_of(str(sides)):
            if f"its {side} side" in finding.says:
                yield _photos(
                    seam.tag,
                    f"close, looking ____, {seam.tag}, {side} side, rule in view, shows {seam.tag}",
                )


def photo_with_a_scale(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    tag = finding.about
    if hidden.covered(tag) is None:
        yield _photos(tag, f"close, looking ____, {tag}: ____, rule in view, shows {tag}")


def _photos(tag: str, *captions: str) -> Block:
    """Pictures stand under a remark, which has no entry of its own where it says no words."""
    return Block(kind=KINDS["remark"], tag=tag, photos=captions)


def waivers(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    yield mend(finding.entries[0], "rule", "tags", "reason", "second")


def water_in_the_pit(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    """A hull without a mark asks what it weighs; else the water is dipped anew."""
    hull = hidden.built.things[finding.about]
    if finding.clears[0].startswith("## hull"):
        yield fields_of(hidden, hull, "mass")
        return
    pipe = next((one.tag for one in hidden.built.of_kind("dip pipe")), "")
    asks = (*gaps("at"), Ask(key="what", said="water level"), *gaps("reading", "instrument"))
    yield Block(kind=KINDS["reading taken"], tag=pipe, asks=asks)
