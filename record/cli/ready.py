"""asburied ready"""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from record.cli.app import EMPTY, Refused, app
from record.cli.asking import AsOf, Json, KnownAt, Reader, tell, today_there, view

if TYPE_CHECKING:
    from record.checks import Readiness
    from record.readers import View


HANDOVER, ALL = "handover", "all"


@app.command()
def ready(
    ctx: typer.Context,
    covering: Annotated[
        str | None, typer.Argument(metavar="[COVERING|handover]", help="Its tag; else the evening.")
    ] = None,
    explain: Annotated[
        str | None,
        typer.Option("--explain", metavar="RULE", help="Say why a rule matters; all: every rule."),
    ] = None,
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    Say what is missing or wrong before a covering goes on; with no covering, of this evening.

    For a covering: what stops it comes first, with why it matters and what to write or do to
    clear it. When nothing recorded stands in the way, the lead and a second person still
    release it. With no covering: today's entries, the float marks while the pit is open, each
    covering that may go on by tomorrow with what stops it and what only is to be looked at,
    lapsed proofs, what was left on for a time, and what is owed by whom. For the word
    handover: the whole record, and the list the lead signs.

    In the JSON every finding has: rule, about, says, sure ("certain" or "cannot be told"), why,
    clears (lines to write or do), shows, stops (false where it only warns), entries, waived.

    Example: asburied --record larch-end ready FILL-TR

    Exit status is 0 if nothing recorded stands in the way, 1 if something does (of the evening:
    of what may go on by tomorrow), 2 if the command itself was wrong.
    """
    from record.checks import NoSuchCovering, json_form, ready_words
    from record.checks import ready as ask

    if explain is not None:
        _explain(explain)
        return
    seen = view(ctx.obj, known_at, as_of, reader)
    if covering is None:
        _evening(seen, as_of, as_json)
        return
    if covering == HANDOVER and seen.built.thing(covering) is None:
        _handover(seen, as_of, as_json)
        return
    try:
        readiness = ask(seen, covering)
    except NoSuchCovering as fault:
        raise Refused(str(fault)) from fault
    words = [*ready_words(readiness), *_by_two(covering, readiness)]
    tell(words, json_form(readiness), as_json)
    if readiness.stops:
        raise typer.Exit(1)


def _by_two(covering: str, readiness: Readiness) -> list[str]:
    """Return how two people let it go on; nothing where it is on already."""
    if readiness.already_covered:
        return []
    two = "--by WRITER --second WRITER"
    stops = next((one for one in readiness.findings if one.stops), None)
    if stops is None:
        return [f"  asburied release {covering} {two}"]
    return [
        "",
        "What cannot be put right, two people answer for, one by one:",
        f'  asburied waive {covering} "{stops.rule}" {stops.about}',
        f'    {two} --reason "…"',
    ]


def _evening(seen: View, as_of: str | None, as_json: bool) -> None:
    from record.evening import evening, evening_words, form

    _begun(seen)
    tonight = evening(seen, as_of or today_there(seen)[0])
    tell(evening_words(tonight), form(tonight), as_json)
    if tonight.stops:
        raise typer.Exit(1)


def _handover(seen: View, as_of: str | None, as_json: bool) -> None:
    from record.evening import handover, handover_form, handover_words

    _begun(seen)
    whole = handover(seen, as_of or today_there(seen)[0])
    tell(handover_words(whole), handover_form(whole), as_json)
    if whole.stops:
        raise typer.Exit(1)


def _begun(seen: View) -> None:
    if not seen.built.entries:
        raise Refused(EMPTY)


def _explain(word: str) -> None:
    from record.checks import HANDOVER_RULES, RULES, explain, rule_named

    if word == ALL:
        print("\n\n".join(explain(rule.word) for rule in (*RULES, *HANDOVER_RULES)))
        return
    if rule_named(word) is None:
        raise Refused(_no_rule(word), 2)
    print(explain(word))


def _no_rule(word: str) -> str:
    from difflib import get_close_matches

    from record.checks import HANDOVER_RULES, RULES

    names = [rule.word for rule in (*RULES, *HANDOVER_RULES)]
    near = get_close_matches(word, names, 1, 0.4)
    hint = f'did you mean "{near[0]}"?' if near else f"there are: {'; '.join(names)}"
    return f'there is no rule "{word}"; {hint}'
