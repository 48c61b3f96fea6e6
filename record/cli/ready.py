"""asburied ready"""

from __future__ import annotations

from typing import Annotated

import typer

from record.cli.app import Refused, app
from record.cli.asking import AsOf, Json, KnownAt, Reader, tell, view


@app.command()
def ready(
    ctx: typer.Context,
    covering: Annotated[str | None, typer.Argument(metavar="COVERING", help="Its tag.")] = None,
    explain: Annotated[
        str | None, typer.Option("--explain", metavar="RULE", help="Say why a rule matters.")
    ] = None,
    as_json: Json = False,
    known_at: KnownAt = None,
    as_of: AsOf = None,
    reader: Reader = "owner",
) -> None:
    """
    Say what is missing or wrong before a covering goes on.

    What stops it comes first, with why it matters and what to write or do to clear it. When
    nothing recorded stands in the way, the lead and a second person still release it.

    Example: asburied --record larch-end ready FILL-TR

    Exit status is 0 if nothing recorded stands in the way, 1 if something does, 2 if the
    command itself was wrong.
    """
    from record.checks import NoSuchCovering, json_form, ready_words, rule_named
    from record.checks import explain as explained
    from record.checks import ready as ask

    if explain is not None:
        if rule_named(explain) is None:
            raise Refused(_no_rule(explain), 2)
        print(explained(explain))
        return
    if covering is None:
        raise Refused("name the covering, such as: asburied ready FILL-TR", 2)
    try:
        readiness = ask(view(ctx.obj, known_at, as_of, reader), covering)
    except NoSuchCovering as fault:
        raise Refused(str(fault)) from fault
    tell(ready_words(readiness), json_form(readiness), as_json)
    if readiness.stops:
        raise typer.Exit(1)


def _no_rule(word: str) -> str:
    from difflib import get_close_matches

    from record.checks import HANDOVER_RULES, RULES

    names = [rule.word for rule in (*RULES, *HANDOVER_RULES)]
    near = get_close_matches(word, names, 1, 0.4)
    hint = f'did you mean "{near[0]}"?' if near else f"there are: {'; '.join(names)}"
    return f'there is no rule "{word}"; {hint}'
