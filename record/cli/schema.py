"""asburied schema"""

from __future__ import annotations

import json
from typing import Annotated

import typer

from record.cli.app import Refused, app


@app.command()
def schema(
    command: Annotated[
        str | None, typer.Argument(metavar="COMMAND", help="Such as behind; without it, which.")
    ] = None,
) -> None:
    """
    Print the JSON Schema of what a command prints with --json.

    Every key, its type, and what it means; programs can check an answer against it.

    Example: asburied schema behind

    Exit status is 0 once printed, 2 if the command itself was wrong, such as one whose answer has
    no schema.
    """
    from record.described import COMMANDS, schema_of

    if command is None:
        print("\n".join(COMMANDS))
        return
    if command not in COMMANDS:
        raise Refused(f"{command} has no schema; these have: {', '.join(COMMANDS)}", 2)
    print(json.dumps(schema_of(command), ensure_ascii=False, indent=2))
