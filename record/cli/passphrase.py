"""Where a passphrase comes from: a file, the environment or the terminal; never the command.

That of a record and that of a bag come from places of their own: a bag is sealed for somebody
else, who must not learn what opens the record.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from record.cli.app import RECORD_VARIABLE, Refused

if TYPE_CHECKING:
    from record.secret import Words

VARIABLE = "ASBURIED_PASSPHRASE"
HOW = (
    f"put it, as the first line, into a file that ${RECORD_VARIABLE} names, which may be "
    "/dev/fd/3; on a terminal it is asked for"
)


def on_terminal() -> bool:
    return sys.stdin.isatty()


def of_records() -> Words:
    """Return how this command asks for the passphrases of encrypted records."""
    from record.secret import Words

    said = cache(_first_line)

    def ask(record: Path) -> Iterator[str]:
        if file := os.environ.get(RECORD_VARIABLE):
            yield said(Path(file))
        if on_terminal():
            yield _typed(False, f"Passphrase of {record}: ")

    return Words(ask, HOW, opening=cache(_tell_what_lies_open))


def _tell_what_lies_open(record: Path) -> None:
    from record.log import Folder

    if Folder(record).left_open():
        print(
            f"{record}: files of this encrypted record still lie open or as they were before; "
            f"`asburied --record {record} seal` removes them",
            file=sys.stderr,
        )


def for_a_record() -> str:
    """
    Return the passphrase for a record that is to be encrypted: the first line of the file that
    $ASBURIED_RECORD_PASSPHRASE_FILE names, else what is typed twice. Raises Refused.
    """
    named = os.environ.get(RECORD_VARIABLE)
    return _new(Path(named) if named else None, HOW)


def another(file: Path | None) -> str:
    """Return a record's next passphrase: the first line of ``file``, else what is typed twice."""
    return _new(file, "put the new one into a file, as its first line: --new-passphrase-file FILE")


def _new(file: Path | None, how: str) -> str:
    if file is not None:
        words = _first_line(file)
    elif on_terminal():
        words = _typed(True, "New passphrase of the record: ")
    else:
        raise Refused(f"nobody is there to ask for a passphrase: {how}", 2)
    if not words.strip():
        raise Refused("the passphrase is empty; nothing was done", 2)
    return words


def passphrase(file: Path | None, *, twice: bool) -> str:
    """
    Return a passphrase: the first line of ``file``, else $ASBURIED_PASSPHRASE, else what is typed
    unseen on the terminal, ``twice`` where nobody could mend a slip. Raises Refused.
    """
    if file is not None:
        words = _first_line(file)
    elif VARIABLE in os.environ:
        words = os.environ[VARIABLE]
    elif on_terminal():
        words = _typed(twice)
    else:
        raise Refused(
            f"say where the passphrase is: --passphrase-file FILE, or in ${VARIABLE}; on a "
            "terminal it is asked for",
            2,
        )
    if not words.strip():
        raise Refused("the passphrase is empty; nothing was done", 2)
    return words


def _first_line(file: Path) -> str:
    try:
        return (file.read_text(encoding="utf-8").splitlines() or [""])[0]
    except UnicodeDecodeError:
        raise Refused(f"{file} is no text; write the passphrase as its first line", 2) from None
    except OSError as fault:
        raise Refused(f"{file} cannot be read: {fault.strerror}", 2) from fault


def _typed(twice: bool, prompt: str = "Passphrase: ") -> str:
    from getpass import getpass

    words = getpass(prompt)
    if twice and getpass("The same again: ") != words:
        raise Refused("the two are not the same; nothing was done", 2)
    return words
