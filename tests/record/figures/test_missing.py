"""What is not recorded is named and never guessed; what is usual is told as usual."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from record.entry import Entry
from record.facts.kind import READERS
from record.figures import Fed, Worked, figures, waiting
from record.fold import Stated, Thing
from record.readers import View, look
from record.reckon import SUMS
from tests.record.building import day, entries_of
from tests.record.figures.ground import BUILT, OWNERS, PLAN, one, shelter

#: Fields that a sum can do without: which input each is, and what then stands in its place.
OPTIONAL = {
    ("able_to_crank", "crank"),
    ("alarm_level", "uplift"),
    ("ground_surface", "frost-depth"),
    ("count", "drinking-water"),
    ("each", "drinking-water"),
    ("keep_clear", "heap"),
    ("reading", "uplift"),
    ("reading", "supply"),
    ("trap", "trap-seal"),
    ("uplift_factor", "uplift"),
    ("yield", "litres"),
    ("yield", "spread"),
}
#: A mark that is stated anew from a later day moves nothing that was measured from it before.
BYGONE = ("level-run", "ties")
#: Fed by what happened alone, which is not stated again.
HAPPENED_ALONE = {"dew-point", "film", "people-served"}
Place = tuple[str, str]


def stated(view: View) -> Iterator[tuple[str, Stated]]:
    """Yield every thing, part and happening, by what a sheet heads it with."""
    for thing in view.built.things.values():
        yield thing.tag, thing
        for part in thing.parts:
            yield part.tag, part
    for happening in view.built.happened():
        yield happening.entry.number, happening


def fields_under(view: View, worked: Worked) -> Iterator[Place]:
    """Yield which field of what a figure's inputs rest on."""
    under = {id(held) for held in worked.rests}
    for where, each in stated(view):
        for name, held in each.fields.items():
            if any(id(one) in under for one in held):
                yield where, name


def without(view: View, where: str, name: str) -> str:
    """Return a block that says a field is not recorded."""
    each = dict(stated(view))[where]
    assert isinstance(each, Thing)
    field = next(field for field in each.kind.fields if field.name == name)
    tag, slash, row = where.partition("/")
    if not slash:
        return f"## {each.kind.word} {tag}\n\n- {field.key}: not recorded"
    whole = view.built.things[tag]
    first = each.text(each.kind.key) or row
    head = f"## {whole.kind.word} {tag}\n\n| {each.kind.key} | {field.key} |\n|---|---|\n"
    return f"{head}| {first} | not recorded |"


SHELTER = shelter()
FOUND = figures(SHELTER)
UNDER: dict[Place, list[Worked]] = {}
for worked in FOUND:
    for place in dict.fromkeys(fields_under(SHELTER, worked)):
        UNDER.setdefault(place, []).append(worked)
#: Of things: what happened is not stated again, and is held below.
PLACES = [place for place in UNDER if isinstance(dict(stated(SHELTER))[place[0]], Thing)]


def test_the_inputs_were_looked_at() -> None:
    assert len(PLACES) > 90
    assert {w.name for place in PLACES for w in UNDER[place]} == {
        w.name for w in FOUND
    } - HAPPENED_ALONE


@pytest.mark.parametrize("place", PLACES, ids=" ".join)
def test_an_input_that_is_not_recorded_is_named_and_nothing_is_worked(place: Place) -> None:
    """Whatever field of whatever thing it is, of every figure that rested on it."""
    where, name = place
    found = figures(shelter(without(SHELTER, where, name)))
    key = name.replace("_", " ")
    for before in UNDER[place]:
        if before.name in BYGONE:
            continue
        after = [w for w in found if (w.name, w.about) == (before.name, before.about)]
        if name in ("type", "what", "fill", "carries") and not after:
            continue  # what it is, is not known any more, so there is nothing to work it of
        for worked in after:
            if (name, before.name) in OPTIONAL:
                usual = [fed for fed in worked.given if fed.usual and fed not in before.given]
                assert worked.missing or worked.notes or usual or worked.figures != before.figures
                continue
            if worked.what and worked.what != before.what:
                continue
            said = " ".join(one.words for one in worked.missing)
            assert not worked.figures, (before.name, worked.figures)
            assert key in said and where.partition("/")[0] in said, (before.name, said)


HAPPENED = {
    "cover measured A": ("cover", "| C1 | 1.300 m | rod |", "| C1 | not recorded | rod |"),
    "coat applied RM-A": ("used", "| M-1 | 2.0 L |", "| M-1 | not recorded |"),
    "batch of a coat": ("batch", "| E-501 | M-1 |", "| E-501 | not recorded |"),
}


@pytest.mark.parametrize("what", HAPPENED)
def test_what_happened_without_its_measure_is_named(what: str) -> None:
    field, said, instead = HAPPENED[what]
    assert BUILT.count(said) == 1
    found = figures(look(entries_of(PLAN, OWNERS, BUILT.replace(said, instead))))
    missing = [w for w in found if any(field in one.words for one in w.missing)]
    assert missing and not any(w.figures for w in missing)
    before = [w for w in FOUND if w.missing]
    assert not before


def test_two_measures_that_differ_are_neither_taken() -> None:
    """Two devices that had not seen each other say two masses of one hull."""
    sheets = [
        day("2031-06-01", "ld", "## hull A\n\n- mass: 6400 kg"),
        day("2031-06-01", "ck", "## hull A\n\n- mass: 6700 kg"),
    ]
    found = figures(look(entries_of(PLAN, OWNERS, BUILT, *sheets, unseen={4: 3})))
    worked = one(found, "float-level", "A")
    assert not worked.figures
    [missing] = worked.missing
    assert "mass of hull A: not settled" in missing.words
    assert "6400 kg" in missing.words and "6700 kg" in missing.words


def test_what_cannot_be_is_told_apart_from_what_nobody_wrote() -> None:
    """A hull that hangs on another does not float alone: nobody is asked for its mass."""
    found = figures(shelter("## hull A\n\n- mass: n/a, welded to B"))
    worked = one(found, "float-level", "A")
    assert not worked.figures and worked.missing and not worked.wanting
    assert not [each for each in waiting(found) if "mass" in each.missing.words]
    [never] = waiting(found, arises=False)
    assert never.missing.words == "mass of hull A: n/a, welded to B"


def test_one_missing_fact_is_told_once_with_all_that_waits_for_it() -> None:
    [only] = waiting(figures(shelter("## site fern-bank\n\n- soil moist: not recorded")))
    assert only.missing.words == "soil moist of fern-bank: not recorded"
    assert only.missing.record == '"- soil moist: …" under "## site fern-bank"'
    assert only.figures == "uplift of A, B; cover-load of A, B"


def test_a_usual_value_rests_on_nothing_and_is_never_one_of_the_record() -> None:
    usual = [fed for worked in FOUND for fed in worked.given if fed.usual]
    assert usual and not any(fed.entries for fed in usual)
    for worked in FOUND:
        for fed in worked.given:
            assert fed.usual or fed.entries, (worked.name, fed)


def test_a_recorded_value_takes_the_place_of_the_usual_one() -> None:
    """δ = √(1e-6 × 31536000/π) = 3.168 m, where the usual soil gives 2.240."""
    found = figures(shelter("## site fern-bank\n\n- soil diffusivity: 1.0 mm²/s"))
    [fed] = [f for f in one(found, "ground", "D-1").given if f.key == "diffusivity"]
    assert not fed.usual and fed.value == pytest.approx(1e-6)
    deep = one(found, "ground", "D-1").number("0 °C reaches")
    assert deep == pytest.approx(one(FOUND, "ground", "D-1").number("0 °C reaches") * 2**0.5)


def test_an_amplitude_in_fahrenheit_is_a_difference() -> None:
    """20.7 °F of difference are 11.5 K, and no −6.3 °C."""
    found = figures(shelter("## site fern-bank\n\n- amplitude: 20.7 °F"))
    [fed] = [f for f in one(found, "ground", "D-1").given if f.key == "amplitude"]
    assert fed.value == pytest.approx(11.5)


def test_what_a_formula_cannot_take_is_said_and_not_worked() -> None:
    found = figures(shelter("## site fern-bank\n\n- soil moist: 40 kN/m³"))
    worked = one(found, "uplift", "A")
    assert not worked.figures and not worked.missing
    assert "40" in worked.refused


@pytest.mark.parametrize("reader", READERS)
def test_a_reader_finds_nothing_of_what_is_withheld_in_any_figure(reader: str) -> None:
    """Stores are the owner's; the shaft and its sand the owner's and the responders'."""
    found = figures(shelter(reader=reader))
    told = {(w.name, w.about) for w in found}
    assert (("sand", "SH-1") in told) == (reader in ("owner", "responder"))
    said = repr([(w.what, w.given, w.missing, w.notes) for w in found])
    assert ("drums" in said or "S-1" in said) <= (reader == "owner")
    [kept] = [[f for f in w.given if f.key == "kept"] for w in found if w.name == "drinking-water"]
    assert bool(kept) == (reader == "owner")
    entries = {h.entry.hash: h.entry for w in found for h in w.rests}
    assert all(_may(entry, reader) for entry in entries.values())


def _may(entry: Entry, reader: str) -> bool:
    assert entry.content is not None
    return reader in entry.content.readers


def test_every_input_that_is_fed_is_one_the_sum_takes() -> None:
    for worked in FOUND:
        keys = {each.key for each in SUMS[worked.name].inputs}
        assert {fed.key for fed in worked.given} <= keys, worked.name
        assert all(isinstance(fed, Fed) for fed in worked.given)
        assert isinstance(worked, Worked)
