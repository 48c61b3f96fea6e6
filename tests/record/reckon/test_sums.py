"""Every sum: its example works, units change nothing, ranges are kept, what is forbidden unsaid."""

import json
import math
import re
import shlex
from decimal import Decimal
from fractions import Fraction

import pytest

from record.reckon import SUMS, Sum, figure_form, json_form, read, usage, words
from record.units import Dimension, read_quantity
from record.units.table import UNITS

EVERY = pytest.mark.parametrize("one", SUMS.values(), ids=SUMS)


def worked(one: Sum, given: list[str]):
    said = read(one, given)
    return said, one.work(said.given)


def values(figures):
    """Every number that comes out, those within words too, to hold two workings together."""
    found = []
    for figure in figures:
        if isinstance(figure.value, str):
            found += [float(each) for each in re.findall(r"-?\d+\.?\d*", figure.value)]
        else:
            found.append(figure.value)
    return found


@EVERY
def test_the_example_works(one):
    said, figures = worked(one, shlex.split(one.example))
    assert figures
    for figure in figures:
        assert isinstance(figure.value, str) or math.isfinite(figure.value), figure
    lines = list(words(one, said, figures))
    assert max(map(len, lines)) <= 100 or one.name in lines
    assert lines[0] == one.title
    form = json.loads(json.dumps(json_form(one, said, figures)))
    assert form["name"] == one.name and form["source"] and form["caution"]
    assert len(form["results"]) == len(figures)


@EVERY
def test_what_could_hurt_comes_after_inputs_and_source_and_ends_with_who_confirms(one):
    said, figures = worked(one, shlex.split(one.example))
    lines = list(words(one, said, figures))
    order = [lines.index("GIVEN"), lines.index("RESULT")]
    if one.confirm:
        assert order == sorted(order)
        assert any(line.startswith("confirm ") for line in lines[order[1] :])
    else:
        assert order == sorted(order, reverse=True)


@EVERY
def test_help_tells_every_input_formula_source_and_caution(one):
    told = "\n".join(usage(one))
    for each in one.inputs:
        assert f"\n  {each.key} " in told
    for word in ("formula", "source", "caution", "Example: asburied reckon"):
        assert word in told


def in_unit(value: Decimal, unit) -> str:
    """Return a value in another unit, exactly enough."""
    number = (Fraction(value) - unit.offset) / unit.factor
    text = f"{float(number):.15f}".rstrip("0").rstrip(".")
    return f"{text} {unit.name}"


def other_units(one: Sum):
    """Yield the example with one input after the other in every other unit of its dimension."""
    given = shlex.split(one.example)
    for place, word in enumerate(given):
        key, _, text = word.partition("=")
        wanted = one.input(key)
        columns = wanted.columns or (wanted,)
        cells = text.split(";") if wanted.columns else [text]
        for at, (column, cell) in enumerate(zip(columns, cells, strict=False)):
            if column.of is None:
                continue
            value = read_quantity(cell, column.of).si
            for unit in UNITS[column.of]:
                if abs(float(value) / float(unit.factor)) < 1e-6:
                    continue  # fifteen places do not say it
                changed = [*cells[:at], in_unit(value, unit), *cells[at + 1 :]]
                again = f"{key}={';'.join(changed)}"
                yield [*given[:place], again, *given[place + 1 :]], again


@EVERY
def test_it_does_not_matter_in_which_unit_a_thing_is_given(one):
    """Dimensional consistency: the same example in every other unit gives the same figures."""
    plain = values(worked(one, shlex.split(one.example))[1])
    tried = 0
    for given, changed in other_units(one):
        found = values(worked(one, given)[1])
        assert found == pytest.approx(plain, rel=2e-5, abs=1e-6), changed
        tried += 1
    assert tried or not any(each.of or each.columns for each in one.inputs)


@EVERY
def test_nothing_promises_safety(one):
    """What may never be printed: "safe to", "clear to", that it will not float, minutes left."""
    said, figures = worked(one, shlex.split(one.example))
    told = " ".join([*words(one, said, figures), *usage(one)]).casefold()
    for never in ("safe to", "safe for", "clear to", "will not float", " rated", "rating"):
        assert never not in told
    assert "minutes left" not in told
    assert "frost-proof" not in told.replace("nothing is frost-proof", "")


def of(name, *given):
    one = SUMS[name]
    return {figure.name: figure.value for figure in worked(one, list(given))[1]}


def test_the_season_of_the_demo_by_hand():
    """Kusuda and Achenbach at 1.94 m, mid-July (day 196.5): δ 2.2403 m, z/δ 0.866, e⁻ 0.4206;
    6.5 − 11.5 × 0.4206 × cos(2π × 176.5/365 − 0.866) = 6.5 − 4.837 × cos(2.172) = 9.24 °C. A dew
    point of 10.6 °C (18 °C at 62 %) is above it, so July is wet."""
    example = shlex.split(SUMS["condensing-season"].example)
    found = of("condensing-season", *example)
    dew, ground = re.findall(r"(-?\d+\.\d) °C", found["Jul"])
    assert float(ground) == pytest.approx(9.24, abs=0.06)
    assert float(dew) == pytest.approx(10.6, abs=0.15)
    assert found["condenses"].startswith("Jun to Aug") or "Jul" in found["most in"]


def test_the_figures_of_the_demo_site():
    """The invented site's figures, each worked by hand in the tests of its calculation."""
    floats = of("float-level", "mass=3300 kg", "plan=11.61 m²", "underside=46.094 m")
    assert floats["begins to float at"] == pytest.approx(46.378, abs=1e-3)
    lifts = of("uplift", *shlex.split(SUMS["uplift"].example))
    assert [round(lifts[f"comes down to {r} at"], 2) for r in ("1.5", "1.2", "1")] == [
        47.95,
        48.39,
        48.87,
    ]
    sand = of("sand", *shlex.split(SUMS["sand"].example))
    assert (sand["volume"], sand["mass, dry"]) == (
        pytest.approx(1.519, abs=1e-3),
        pytest.approx(2430),
    )
    heap = of("heap", "volume=1.51875 m³", "width=2.70 m", "clear=1.40 m")
    assert [round(heap[k], 2) for k in ("dry: runs out", "dry: stands high")] == [1.29, 0.87]
    assert [round(heap[k], 2) for k in ("damp: runs out", "damp: stands high")] == [1.47, 0.99]
    assert heap["dry: what must stay clear"] == "outside its toe"
    assert heap["damp: what must stay clear"] == "BURIED"
    assert of("pinhole-voltage", "film=2.5 mm")["voltage"] == pytest.approx(12_400, abs=10)
    coat = of("litres", "area=47.1 m²", "dry=150 µm", "solids=98 %", "used=10 L")
    assert coat["a coat takes"] * 1000 == pytest.approx(8.5, abs=0.05)
    water = of("drinking-water", "people=8", "days=14", "kept=160 L")
    assert water["to keep"] * 1000 == pytest.approx(424, abs=0.5)
    assert water["short by"] * 1000 == pytest.approx(264, abs=0.5)
    cover = of("cover", "point=1.290 m", "point=1.170 m", "design=1.20 m")
    assert cover["least point"] == 1.17 and "30 mm SHORT" in cover["so"]
    run = of(
        "level-run",
        "opening=50.000 m",
        *(f"reading={one}" for one in (
            "backsight; 1.432 m", "intermediate; 3.426 m", "intermediate; 3.526 m",
            "intermediate; 3.678 m", "foresight; 1.018 m")),
        "closing=50.412 m",
    )  # fmt: skip
    assert run["misclosure"] == "+2.0 mm, allowed 2.9 mm: closes"
    assert run["point 3"].startswith("47.906 m")
    pond = of("pond", "crest=47.62 m", "bottom=47.60 m", "poured=5 L", "returned=3.6 L")
    assert pond["water stands"] == pytest.approx(0.020)
    assert pond["stayed behind"] * 1000 == pytest.approx(1.4)
    frost = of("drain-frost", "cover=0.246 m", "frost-depth=1.10 m")
    assert frost["below or above frost"] == pytest.approx(-0.854) and "can freeze" in frost["so"]


def test_the_ties_of_the_demo_meet_at_the_bend():
    """By hand: H2 (22, 20) and W1 (30.5, 14) are √(2² + 14²) = 14.142 and √(6.5² + 8²) = 10.308
    from (24, 6)."""
    found = of("ties", *shlex.split(SUMS["ties"].example))
    x, y = (float(n) for n in re.findall(r"(-?\d+\.\d+) m", found["place 1"]))
    assert (x, y) == (pytest.approx(24, abs=2e-3), pytest.approx(6, abs=2e-3))
    assert found["  so"] == "they agree"


@pytest.mark.parametrize(
    ("name", "given", "said"),
    [
        ("heap", ("volume=1 m³", "repose=60°"), "15 to 45"),
        ("cover-load", ("layer=1 m; 50 kN/m³",), "5 and 30"),
        ("frost-depth", ("conductivity=9 W/mK", "dry-density=1600 kg/m³", "water=15 %",
                         "air-index=500 °C·d", "winter=100 days", "mean=6 °C"), "0.1 to 5"),
        ("sand-flow", ("opening=0.6 m", "grain=1 mm", "shaft=0.76 m"), "small beside its shaft"),
        ("wet-film", ("solids=35 %",), "give the dry film"),
        ("drinking-water", ("people=2.5", "days=14"), "cannot be"),
        ("condensing-season", ("mean=6 °C", "amplitude=11 K", "coldest-day=20", "depth=2 m",
                               "flow=100 m³/h", "month=5 °C; 80 %"), "1 months"),
    ],
)  # fmt: skip
def test_outside_its_range_it_raises_with_the_limit(name, given, said):
    with pytest.raises(ValueError, match=re.escape(said)):
        worked(SUMS[name], list(given))


def test_json_keeps_si_units():
    one = SUMS["dew-point"]
    said, figures = worked(one, ["air=77 °F", "humidity=60 %"])
    form = json_form(one, said, figures)
    assert form["inputs"][0] == {
        "key": "air", "value": pytest.approx(25), "unit": "degC", "usual": False,
        "written": ["77 °F"],
    }  # fmt: skip
    assert figure_form(figures[0])["unit"] == Dimension.TEMPERATURE.si_unit
    assert figures[0].value == pytest.approx(16.70, abs=0.02)  # psychrolib 2.5.0


def test_a_run_that_does_not_close_says_so_and_adjusts_nothing():
    found = of("level-run", "opening=50 m", "reading=backsight; 1.432 m",
               "reading=foresight; 1.018 m", "closing=50.400 m")  # fmt: skip
    assert found["misclosure"].endswith("DOES NOT CLOSE")
    assert not any("adjusted" in name for name in found)
