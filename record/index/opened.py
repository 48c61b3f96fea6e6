"""A record opened by its index, which is made, carried on, or made anew where it does not fit."""

from __future__ import annotations

from pathlib import Path

from record.entry import Entry
from record.fold import AsBuilt, fold
from record.index.at_hand import Opened
from record.index.file import load, save
from record.index.made import made_by
from record.index.rows import Index, NoIndex, extended
from record.log import Log

NAME = "index.cache"


def as_built(log: Log) -> AsBuilt:
    """
    Return what ``fold(log.entries())`` returns, reading no more of the log than is asked about.

    Raises LogFault where the log cannot be read.
    """
    path = log.cache(NAME)
    found = load(path, made_by(), log.vault)
    try:
        if found is not None:
            return Opened(log, *_carried_on(log, path, found)).built
    except NoIndex:
        pass  # another past than the one it tells of: it is made anew
    entries = log.entries()
    try:
        made = extended(Index(made_by()), entries)
    except NoIndex:
        return fold(entries)
    if entries:
        save(path, made, log.vault)
    return Opened(log, made, entries).built


def _carried_on(log: Log, path: Path, index: Index) -> tuple[Index, tuple[Entry, ...]]:
    tail = _tail(log, index)
    if tail:
        save(path, extended(index, tail), log.vault)
    return index, tail


def _tail(log: Log, index: Index) -> tuple[Entry, ...]:
    """
    Return the entries the index lacks. Raises NoIndex where the chains do not begin as it says.

    A chain's last link names the one before, and so on: if it is the same, all of them are.
    """
    chains, contents = log.chains()
    if any(chain.entries != chain.last or chain.site != index.site for chain in chains):
        raise NoIndex("a chain is forked, or lacks a link")
    if contents != sum(chain.entries for chain in chains):
        raise NoIndex("something is withheld")
    tail: list[Entry] = []
    writers = {chain.writer: chain.last for chain in chains}
    for writer, (number, head) in index.heads.items():
        known, *new = log.after(index.site, writer, number) or (None,)
        if known is None or known.hash != head:
            raise NoIndex("a chain is not the one that was indexed")
        tail += new
    for writer in writers.keys() - index.heads.keys():
        tail += log.after(index.site, writer, 1)
    return tuple(tail)
