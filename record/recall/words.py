"""A recall in plain lines: the four lists, by site, then who was told and which copies are old."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from record.answers.saying import wrapped
from record.facts.faults import plain
from record.recall.ask import AtSite, Found, Recall

SHOWN = 40  # sites by name, where nothing else is said of them


def recall_words(answer: Recall, *, every: bool = False) -> Iterator[str]:
    """Yield the answer; what is ruled out is counted by site unless ``every`` piece is asked."""
    sites = f"{answer.looked_at} record" + ("" if answer.looked_at == 1 else "s")
    yield from wrapped(f"RECALL of {answer.asked}, asked of {sites}.", 0, 2)
    if answer.lots and answer.lots != (plain(answer.asked),):
        yield from wrapped(f"Lots: {', '.join(answer.lots)}", 2, 4)
    if answer.parts and answer.parts != (plain(answer.asked),):
        yield from wrapped(f"Makers' parts: {', '.join(answer.parts)}", 2, 4)
    if answer.kinds:
        yield from wrapped(f"Known to be: {', '.join(answer.kinds)}", 2, 4)
    yield from _list("HAS IT", answer.has_it)
    yield from _list("REPLACED", answer.replaced)
    yield from _list("NOT RECORDED: it cannot be ruled out", answer.not_recorded)
    if every:
        yield from _list("RULED OUT", answer.ruled_out)
    else:
        yield from _counted(answer.ruled_out_at)
    yield from _sites(answer.sites)
    if answer.none_on_record:
        yield ""
        yield from wrapped(
            f"Nothing of these kinds is on record at: {_some(answer.none_on_record)}.", 0, 2
        )
    for line in answer.not_read:
        yield from wrapped(f"NOT READ: {line}", 0, 2)
    if answer.not_read:
        yield "What was not read cannot be ruled out."
    yield ""
    yield answer.further_entries


def _list(heading: str, found: Sequence[Found]) -> Iterator[str]:
    yield ""
    yield f"{heading} ({len(found)})" if found else f"{heading}: none"
    site = ""
    for each in found:
        if each.site != site:
            site = each.site
            yield f"  {site}"
        what = f"{each.tag}, {each.words}" if each.tag else each.words
        place = f"; {each.where}" if each.where else ""
        yield from wrapped(f"{what}{place}", 4, 6)
        yield from wrapped(f"{each.why}{_entries(each)}", 6, 8)
        if each.done:
            yield from wrapped(f"done: {each.done}", 6, 8)


def _entries(each: Found) -> str:
    return f" [{', '.join(dict.fromkeys(each.entries))}]" if each.entries else ""


def _counted(by_site: Mapping[str, int]) -> Iterator[str]:
    yield ""
    said = [f"{site} {count}" for site, count in by_site.items()]
    yield from wrapped(
        f"RULED OUT ({sum(by_site.values())}): {_some(said)}; --every lists them"
        if said
        else "RULED OUT: none",
        0,
        2,
    )


def _some(names: Sequence[str]) -> str:
    more = f" and {len(names) - SHOWN} more" if len(names) > SHOWN else ""
    return ", ".join(names[:SHOWN]) + more


def _sites(sites: Sequence[AtSite]) -> Iterator[str]:
    if sites:
        yield ""
        yield "WHO WAS TOLD, WHO IS DONE"
    for at in sites:
        told = "; ".join(at.told) or "nobody is recorded as told"
        left = "done" if not at.open else f"{at.open} still to be done"
        yield from wrapped(f"{at.site} ({at.name}): {left}. Told: {told}", 2, 4)
        for came in at.came:
            yield from wrapped(came, 4, 6)
        for copy in at.copies:
            yield from wrapped(f"needs a new edition: {copy}", 4, 6)
