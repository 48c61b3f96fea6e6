"""The program itself: where the record is, and how every refusal is said."""

from __future__ import annotations

import gc
import os
import shutil
import sys
from collections.abc import Callable
from io import TextIOWrapper
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, TextIO, TypeVar, cast

import typer

if TYPE_CHECKING:
    from record.log import Place

T = TypeVar("T")
#: Names a file whose first line is the passphrase of an encrypted record.
RECORD_VARIABLE = "ASBURIED_RECORD_PASSPHRASE_FILE"

app = typer.Typer(
    name="asburied",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)


#: What is said of a record in which nothing stands yet.
EMPTY = (
    "the record is empty; `asburied blank site TAG` prints its first sheet to fill in and post: "
    "TAG is what this site is to be called, such as larch-end"
)


class Refused(Exception):
    """What was asked cannot be done; the text says why. ``status`` is the exit status."""

    def __init__(self, text: str, status: int = 1) -> None:
        super().__init__(text)
        self.status = status


@app.callback()
def asburied(
    ctx: typer.Context,
    record: Annotated[
        str | None,
        typer.Option(
            "--record",
            metavar="FOLDER",
            help="The record's folder, or postgresql://HOST/DATABASE#SITE; else "
            "$ASBURIED_RECORD, else the folder you stand in.",
        ),
    ] = None,
) -> None:
    """
    Record a buried shelter day by day as it is built, and ask the record before touching it.

    Every entry is kept for good. A mistake is mended by a later entry that says why. Where a
    record is encrypted, its passphrase is the first line of the file that
    $ASBURIED_RECORD_PASSPHRASE_FILE names, else it is asked for, once.

    Example: asburied --record larch-end behind A-L3

    Exit status is 0 when done or nothing is wrong, 1 when something is wrong with the record or
    with what was given, 2 when the command itself was wrong.
    """
    from record.cli.passphrase import of_records
    from record.secret import asking

    asking(of_records())
    ctx.obj = place(record or os.environ.get("ASBURIED_RECORD") or ".")


def place(text: str) -> Place:
    """Return where a record is, as it is written on a command line. Raises Refused."""
    if "://" not in text:
        return Path(text)  # what follows takes a fifth of a second to load
    from record.log import place_of
    from record.log.places import PasswordInPlace

    try:
        return place_of(text)
    except PasswordInPlace as fault:
        raise Refused(str(fault), 2) from fault


def run(program: Callable[[], object]) -> None:
    """Run the command line; a person never sees a traceback."""
    # Imports make many objects and no rubbish; the usual hunt for it is a tenth of a question.
    gc.set_threshold(50_000)
    if isinstance(sys.stdout, TextIOWrapper):
        # A terminal that knows no ½ shows \xbd rather than failing.
        sys.stdout.reconfigure(errors="backslashreplace")
        sys.stdout = cast(TextIO, _Out(sys.stdout))
    try:
        program()
    except Refused as refused:
        _stop(str(refused), refused.status)
    except KeyboardInterrupt:
        _stop("stopped; nothing was half-recorded", 130)
    except Exception as fault:
        if os.environ.get("ASBURIED_TRACEBACK"):
            raise
        text, status = _said(fault)
        _stop(text, status)


MANY = 400  # lines that a terminal waits for at most


class _Out:
    """Standard output whose reader may leave early (`| head`); that is no fault."""

    def __init__(self, to: TextIOWrapper) -> None:
        self._to = to
        self._held: list[str] | None = [] if to.isatty() else None  # whole lines, to be set anew
        self._rest = ""  # of a line that has no end yet

    def __getattr__(self, name: str) -> Any:
        return getattr(self._to, name)

    def write(self, text: str) -> int:
        if self._held is None:
            return self._until_left(lambda: self._to.write(text))
        *whole, self._rest = (self._rest + text).split("\n")
        self._held += whole
        if len(self._held) > MANY:
            self.flush()
        return len(text)

    def flush(self) -> None:
        if self._held is not None:
            self._until_left(lambda: self._to.write(self._set_anew()))
        self._until_left(self._to.flush)

    def _set_anew(self) -> str:
        """Return what is held, for the columns there are; a prompt and JSON stay as they are."""
        from record.cli.narrow import narrow

        held, rest = self._held or [], self._rest
        self._held, self._rest = [], ""
        if held and held[0][:1] not in ("{", "["):
            held = [*narrow(held, shutil.get_terminal_size().columns)]
        return "".join(f"{line}\n" for line in held) + rest

    def _until_left(self, write: Callable[[], T]) -> T:
        try:
            return write()
        except BrokenPipeError:
            # Or Python would try once more on its way out, and complain.
            os.dup2(os.open(os.devnull, os.O_WRONLY), self._to.fileno())
            sys.exit(0)


def _stop(text: str, status: int) -> None:
    from record.cli.narrow import narrow

    sys.stdout.flush()
    if sys.stderr.isatty():
        text = "\n".join(narrow(text.split("\n"), shutil.get_terminal_size().columns))
    print(text, file=sys.stderr)
    sys.exit(status)


def _said(fault: Exception) -> tuple[str, int]:
    from record.answers.refused import CannotAnswer
    from record.log import LogFault, NotARecord, NotMerged, NoWords, RecordTooNew
    from record.sheets import SheetRejected, in_words
    from record.trust.keys import KeyFault

    match fault:
        case NotARecord():
            made = "Make one with `asburied --record FOLDER init`."
            return f"{fault}. {fault.remedy or made}", 2
        case NoWords():
            return str(fault), 2
        case RecordTooNew() | LogFault() | NotMerged() | KeyFault():
            return str(fault), 1
        case SheetRejected():
            return "\n\n".join(in_words(each) for each in fault.faults), 1
        case CannotAnswer():
            return str(fault), 1
        case OSError():
            what = f"{fault.filename}: " if fault.filename else ""
            return f"{what}{fault.strerror or fault}; nothing was recorded", 1
        case _:
            return (
                f"this is a fault of the program, not yours ({type(fault).__name__}: {fault}); "
                "nothing was half-recorded. Run it again with ASBURIED_TRACEBACK=1 to see where.",
                1,
            )
