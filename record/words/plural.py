"""How many forms a language has for a number of things, and which one it takes.

The forms are those of Unicode's CLDR (UTS 35, Language Plural Rules): zero, one, two, few, many,
other. English has one and other, Polish one, few and many, Welsh all six.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

FORMS = ("zero", "one", "two", "few", "many", "other")
#: Numbers of days, entries or panels: a form that none of these takes need not be written.
MOST = 1000


def form_of(code: str, number: int) -> str:
    """Return the form a language, by its tag, has for a whole number."""
    if code == "en":
        return "one" if number == 1 else "other"
    return _rule(code)(number)


@cache
def forms(code: str) -> tuple[str, ...]:
    """Return the forms a language needs for whole numbers, in the order of ``FORMS``."""
    found = {form_of(code, number) for number in range(MOST + 1)} | {"other"}
    return tuple(form for form in FORMS if form in found)


@cache
def _rule(code: str) -> Callable[[int], str]:
    """Return the rule of a language; one that CLDR does not have counts as English does."""
    from babel.core import Locale, UnknownLocaleError

    try:
        rule = Locale.parse(code, sep="-").plural_form
    except (UnknownLocaleError, ValueError):
        return lambda number: form_of("en", number)
    return lambda number: str(rule(number))
