"""What rests on something, in plain lines."""

from __future__ import annotations

from record.answers.rests_on import RestsOn
from record.answers.saying import wrapped


def rests_on_words(answer: RestsOn) -> list[str]:
    """Return the answer, one thing after the other, each with what would hold without it."""
    known = f" ({'; '.join(answer.known_as)})" if answer.known_as else ""
    count = len(answer.found)
    said = "nothing recorded rests" if not count else f"{count} rest" + ("s" if count == 1 else "")
    lines = [*wrapped(f"ON {answer.asked}{known}: {said} on it.", 0, 2)]
    if answer.as_of:
        lines.append(f"As it stood on {answer.as_of}.")
    for each in answer.found:
        numbers = ", ".join(each.entries)
        lines.extend(("", *wrapped(f"{each.tag}: {each.what}; {each.on} ({numbers})")))
        lines.extend(wrapped(f"without it: {each.still}", 4, 6))
    lines.extend(("", answer.further_entries))
    return lines
