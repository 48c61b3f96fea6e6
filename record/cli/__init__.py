"""The command line of the record: one command a file; each reads its words, calls, prints."""

from __future__ import annotations

# Each import mounts its command, in the order that help shows them.
from record.cli import init  # isort: skip
from record.cli import blank  # isort: skip
from record.cli import post  # isort: skip
from record.cli import say  # isort: skip
from record.cli import amend  # isort: skip
from record.cli import entries  # isort: skip
from record.cli import show  # isort: skip
from record.cli import history  # isort: skip
from record.cli import behind  # isort: skip
from record.cli import fixings  # isort: skip
from record.cli import beneath  # isort: skip
from record.cli import find  # isort: skip
from record.cli import landmarks  # isort: skip
from record.cli import upstream  # isort: skip
from record.cli import downstream  # isort: skip
from record.cli import rests_on  # isort: skip
from record.cli import recall  # isort: skip
from record.cli import ready  # isort: skip
from record.cli import release  # isort: skip
from record.cli import proofs  # isort: skip
from record.cli import balance  # isort: skip
from record.cli import left  # isort: skip
from record.cli import passes  # isort: skip
from record.cli import drift  # isort: skip
from record.cli import fill  # isort: skip
from record.cli import figures  # isort: skip
from record.cli import due  # isort: skip
from record.cli import visits  # isort: skip
from record.cli import did  # isort: skip
from record.cli import reckon  # isort: skip
from record.cli import schema  # isort: skip
from record.cli import verify  # isort: skip
from record.cli import merge  # isort: skip
from record.cli import export  # isort: skip
from record.cli import pack  # isort: skip
from record.cli import seal  # isort: skip
from record.cli import unpack  # isort: skip
from record.cli import writer  # isort: skip
from record.cli import sign_off  # isort: skip
from record.cli.app import Refused, app, run

__all__ = [
    "Refused",
    "amend",
    "app",
    "balance",
    "behind",
    "beneath",
    "blank",
    "did",
    "downstream",
    "drift",
    "due",
    "entries",
    "export",
    "figures",
    "fill",
    "find",
    "fixings",
    "history",
    "init",
    "landmarks",
    "left",
    "merge",
    "pack",
    "passes",
    "post",
    "proofs",
    "ready",
    "recall",
    "reckon",
    "release",
    "rests_on",
    "run",
    "say",
    "schema",
    "seal",
    "show",
    "sign_off",
    "unpack",
    "upstream",
    "verify",
    "visits",
    "writer",
]
