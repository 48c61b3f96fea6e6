"""Where a passphrase comes from: a file, the environment or the terminal; never the command."""

from __future__ import annotations

import os
import sys
from pathlib import Path

from record.cli.app import Refused

VARIABLE = "ASBURIED_PASSPHRASE"


def passphrase(file: Path | None, *, twice: bool) -> str:
    """
    Return a passphrase: the first line of ``file``, else $ASBURIED_PASSPHRASE, else what is typed
    unseen on the terminal, ``twice`` where nobody could mend a slip. Raises Refused.
    """
    if file is not None:
        words = _first_line(file)
    elif VARIABLE in os.environ:
        words = os.environ[VARIABLE]
    elif sys.stdin.isatty():
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


def _typed(twice: bool) -> str:
    from getpass import getpass

    words = getpass("Passphrase: ")
    if twice and getpass("The same again: ") != words:
        raise Refused("the two are not the same; nothing was packed", 2)
    return words
