"""Accounts of deliveries in words, and as JSON."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from record.accounts.balance import Account, Line


def words(accounts: Sequence[Account]) -> Iterator[str]:
    """Yield what does not add up first, then what cannot be told, then the rest."""
    if not accounts:
        yield "No plan and no delivery is recorded."
        return
    off = [one for one in accounts if one.left is not None and not one.even]
    off += [one for one in accounts if one.left is None and (not one.came or one.missing)]
    open_ = [one for one in accounts if one not in off and not one.even]
    even = [one for one in accounts if one.even]
    for heading, group in (
        ("DOES NOT ADD UP", off),
        ("CANNOT BE TOLD", open_),
        ("ADDS UP", even),
    ):
        if group:
            yield heading
            for account in group:
                yield from _account(account)
            yield ""


def _account(account: Account) -> Iterator[str]:
    lot = f", lot {account.lot}" if account.lot and account.lot != account.name else ""
    yield f"  {account.what} [{account.name}{lot}]: {account.says}"
    if account.short is not None:
        yield f"    {account.short.words} less came than was planned"
    if account.missing:
        yield f"    planned for, and not recorded: {', '.join(account.missing)}"
    for name, lines in (
        ("planned", account.planned),
        ("came", account.came),
        ("built in", account.built_in),
        ("went or kept", account.went),
    ):
        if lines:
            yield f"    {name:<13}{_lines(lines)}"


def _lines(lines: Iterable[Line]) -> str:
    return "; ".join(f"{line.words} [{', '.join(e.number for e in line.entries)}]"
                     for line in lines)  # fmt: skip


def form(account: Account) -> dict[str, object]:
    """Return the JSON form of one account; amounts are counts or SI."""
    return {
        "name": account.name,
        "what": account.what,
        "lot": account.lot or None,
        "measure": account.measure.si_unit if account.measure else "pieces",
        "planned": [_line(line) for line in account.planned],
        "came": [_line(line) for line in account.came],
        "built_in": [_line(line) for line in account.built_in],
        "went": [_line(line) for line in account.went],
        "left": None if account.left is None else str(account.left.number),
        "short": None if account.short is None else str(account.short.number),
        "missing": list(account.missing),
        "unknown": list(account.unknown),
        "says": account.says,
        "even": account.even,
    }


def _line(line: Line) -> dict[str, object]:
    return {
        "words": line.words,
        "amount": None if line.amount is None else str(line.amount.number),
        "entries": [entry.number for entry in line.entries],
    }
