"""What a sheet's drafts say, held against the record: tags, kinds, needed fields, mends."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence, Set
from dataclasses import dataclass
from difflib import get_close_matches

from record.entry import Entry
from record.facts import STORED, Kind, Sort
from record.facts.named import TagOf, TagsOf
from record.fold import AsBuilt, Mends
from record.posting.named_entries import named_entry_faults
from record.sheets import Draft, Sheet, SheetFault
from record.sheets.lines import Piece


@dataclass(frozen=True, slots=True)
class Known:
    """What the record holds before the sheet: folded, with its entries by number."""

    built: AsBuilt
    entries: Sequence[Entry]
    mended: Mends
    by_number: Mapping[str, tuple[Entry, ...]]
    tags: Set[str]  # of every thing, and of every part: AIR-IN, AIR-IN/2


def known(built: AsBuilt, entries: Sequence[Entry], mended: Mends) -> Known:
    by_number: dict[str, tuple[Entry, ...]] = {}
    for entry in entries:
        by_number[entry.place] = (*by_number.get(entry.place, ()), entry)
    things = built.things.values()
    tags = {tag for thing in things for tag in (thing.tag, *(part.tag for part in thing.parts))}
    return Known(built, entries, mended, by_number, tags)


def ask(sheet: Sheet, record: Known) -> Iterator[SheetFault]:
    """Yield every fault that only the record can show."""
    kinds = _kinds(sheet.drafts, record)
    if "site" not in {kind.word for kind in kinds.values()}:
        yield sheet.text.fault(
            sheet.heading,
            "the record does not know its site yet",
            f'Begin with a block "## site {sheet.site}": its name, datum and grid.',
        )
    yield from _rows_of_nothing(sheet, kinds)
    named: set[tuple[str, str]] = set()  # what the sheet itself has spoken of so far
    for draft in sheet.drafts:
        yield from _tag_faults(sheet, draft, record, kinds)
        yield from _reference_faults(sheet, draft, kinds)
        yield from named_entry_faults(sheet, draft, record.built, record.mended, record.by_number)
        yield from (
            _mend_faults(sheet, draft, record)
            if draft.mends
            else _needed_faults(sheet, draft, record, named)
        )
        named.add((draft.kind.word, draft.about))


def _kinds(drafts: Iterable[Draft], record: Known) -> dict[str, Kind]:
    """Return the kind of every tag, the record's first, then the sheet's in order."""
    kinds = {tag: thing.kind for tag, thing in record.built.things.items()}
    for draft in drafts:
        if draft.kind.sort is Sort.THING and "/" not in draft.about:
            kinds.setdefault(draft.about, draft.kind)
    return kinds


def _rows_of_nothing(sheet: Sheet, kinds: Mapping[str, Kind]) -> Iterator[SheetFault]:
    """Yield a fault for the first row of a thing that nothing is said of: nobody would find it."""
    rows = {d.about.partition("/")[0]: d for d in reversed(sheet.drafts) if d.kind.key}
    for tag, draft in rows.items():
        if tag not in kinds:
            yield sheet.text.fault(
                draft.heading,
                f"these are rows of {tag}, and nothing is said of {tag} itself",
                "Say at least one thing of it under its heading, or on a sheet before this one, "
                f'such as "- {_first_key(draft.kind)}: not recorded".',
            )


def _first_key(row_kind: Kind) -> str:
    whole = next(kind for kind in STORED.values() if kind.rows is row_kind)
    return whole.fields[0].key


def _tag_faults(
    sheet: Sheet, draft: Draft, record: Known, kinds: Mapping[str, Kind]
) -> Iterator[SheetFault]:
    whole = draft.about.partition("/")[0]
    kind = kinds.get(whole)
    if draft.kind.word == "site" and whole != sheet.site:
        yield sheet.text.fault(
            draft.heading,
            f"this sheet is of {sheet.site}, and the heading says {whole}",
            f'Write "## site {sheet.site}", or set "- site:" right.',
        )
    if draft.kind.sort is Sort.THING:
        if kind and kind is not draft.kind and draft.about == whole:
            yield sheet.text.fault(
                draft.heading,
                f"{whole} is a {kind.word} already, so it cannot be a {draft.kind.word}",
                "Give the new thing a tag of its own.",
            )
    elif kind is None:
        # A site that is not this record's is said once, of the sheet; a tag once, of its heading.
        if whole != sheet.site and not _told_above(sheet, draft):
            yield _unknown_tag(sheet, draft.heading, whole, kinds)
    elif draft.kind.about and kind.word not in draft.kind.about:
        yield sheet.text.fault(
            draft.heading,
            f"{whole} is a {kind.word}; {draft.kind.word} is said of a "
            + " or ".join(draft.kind.about),
            "Write the tag of one.",
        )


def _told_above(sheet: Sheet, draft: Draft) -> bool:
    """Return whether a picture or remark stands under a heading that has a draft of its own."""
    loose = ("photographed", "remark")
    return draft.kind.word in loose and any(
        one.about == draft.about and one.kind.word not in loose for one in sheet.drafts
    )


def _unknown_tag(sheet: Sheet, at: Piece, tag: str, kinds: Mapping[str, Kind]) -> SheetFault:
    by_fold = {each.casefold(): each for each in kinds}
    near = get_close_matches(tag.casefold(), by_fold, 1, 0.6)
    hint = "Record the thing first, in a block of its own."
    if near:
        hint = f"Did you mean {by_fold[near[0]]}?"
    return sheet.text.fault(at, f"nothing here has the tag {tag}", hint)


def _reference_faults(
    sheet: Sheet, draft: Draft, kinds: Mapping[str, Kind]
) -> Iterator[SheetFault]:
    for field in draft.kind.fields:
        if not isinstance(field.holds, (TagOf, TagsOf)):
            continue
        value = draft.body.get(field.name)
        if not isinstance(value, (str, tuple)):
            continue
        for tag in (value,) if isinstance(value, str) else value:
            said = draft.spot(field.name)
            place = said.text.find(tag)
            at = Piece(tag, said.line, said.column + place) if place >= 0 else said
            kind = kinds.get(tag.partition("/")[0])
            own = draft.kind.word == "photographed" and tag == draft.about
            if kind is None and not own:  # what a picture stands under is told of that
                yield _unknown_tag(sheet, at, tag, kinds)
            elif kind and field.holds.kinds and kind.word not in field.holds.kinds:
                wanted = " or ".join(field.holds.kinds)
                yield sheet.text.fault(
                    at,
                    f"{field.key}: {tag} is a {kind.word}, not a {wanted}",
                    f"Write the tag of a {wanted}.",
                )


def _needed_faults(
    sheet: Sheet, draft: Draft, record: Known, named: Set[tuple[str, str]]
) -> Iterator[SheetFault]:
    if draft.kind.sort is Sort.THING and _named_before(draft, record, named):
        return
    for field in draft.kind.fields:
        if field.needed and field.name not in draft.body and field.name != "sha256":
            what = f"{draft.kind.word} {draft.about}"
            yield sheet.text.fault(
                draft.heading,
                f'"{field.key}" is missing ({what})',
                f'Write "- {field.key}: " and {field.holds.says}; "not recorded" is an answer too.',
            )


def _named_before(draft: Draft, record: Known, named: Set[tuple[str, str]]) -> bool:
    """Return whether the record, or a draft before this one, has spoken of the thing."""
    return draft.about in record.tags or (draft.kind.word, draft.about) in named


def _mend_faults(sheet: Sheet, draft: Draft, record: Known) -> Iterator[SheetFault]:
    at = draft.spot("#mends")
    for number in draft.mends:
        targets = targets_of(number, record)
        if not targets:
            yield sheet.text.fault(
                at, f"this record has no entry {number}", "`asburied entries` shows their numbers."
            )
            continue
        if len(targets) > 1:
            shown = " or ".join(target.number for target in targets)
            yield sheet.text.fault(at, f"there are two entries {number}", f"Write {shown}.")
            continue
        content = targets[0].content
        if content is None or draft.kind.word == "withdrawn":
            continue
        kind = STORED.get(content.kind)
        if kind is not draft.kind or content.about != draft.about:
            was = f"{kind.word if kind else content.kind} {content.about}"
            yield sheet.text.fault(
                at,
                f"{number} is about {was}, not {draft.kind.word} {draft.about}",
                f'A mend stands under the same heading as what it mends: "## {was}".',
            )
        yield from _already_mended(sheet, draft, targets[0], record, at)


def _already_mended(
    sheet: Sheet, draft: Draft, target: Entry, record: Known, at: Piece
) -> Iterator[SheetFault]:
    """A field mended once is mended again at its newest mend, or the two would disagree."""
    for field in draft.body:
        for mend in record.mended.replaced_by.get((target.hash, field), ()):
            named = mend.number in draft.mends or mend.place in draft.mends
            if not named and mend.link.writer == sheet.writer:
                yield sheet.text.fault(
                    at,
                    f"{target.number} was mended by {mend.number} already",
                    f'Write "- mends: {mend.number}".',
                )
                return


def targets_of(number: str, record: Known) -> tuple[Entry, ...]:
    """Return the entries a number names; ``ld-16/a3f2`` names one of a fork."""
    plain, _, start = number.partition("/")
    return tuple(e for e in record.by_number.get(plain, ()) if e.hash.startswith(start))
