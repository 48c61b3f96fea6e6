"""What crews write is read exactly, and what could mean two things is refused with a remedy."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from record.units import (
    Dimension,
    Quantity,
    UnitFault,
    feet_and_inches,
    in_both,
    read_quantity,
    read_unit,
    say,
)

INCH = Fraction("0.0254")  # NIST SP 811 (2008), App. B: 1 in = 25.4 mm exactly


def length(text: str, column_unit: str | None = None) -> Quantity:
    return read_quantity(text, Dimension.LENGTH, column_unit=column_unit)


def fault_of(
    text: str, dimension: Dimension = Dimension.LENGTH, column_unit: str | None = None
) -> UnitFault:
    with pytest.raises(UnitFault) as caught:
        read_quantity(text, dimension, column_unit=column_unit)
    return caught.value


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("7' 4-1/2\"", "88.5"),
        ("7'-4 1/2\"", "88.5"),
        ("7’ 4½”", "88.5"),
        ("7′\N{NO-BREAK SPACE}4\N{THIN SPACE}½″", "88.5"),
        ("7' 4 1/2''", "88.5"),
        ("40'-10 1/2\"", "490.5"),
        ("7'4\"", "88"),
        ("88.5 in", "88.5"),
        ("3/8 in", "0.375"),
        ('1/4"', "0.25"),
        ("6 ft", "72"),
        ("6 foot", "72"),
        ("6 ft 4 in", "76"),
        ("6 ft. 4 in.", "76"),
        ("6 feet 4 inches", "76"),
        ("12 1/2 in", "12.5"),
        ("6 1/2 ft", "78"),
        ("-7' 4\"", "-88"),
        ("-0'-6\"", "-6"),
        ("−3⅛ in", "-3.125"),
        (".5 in", "0.5"),
    ],
)
def test_feet_and_inches_are_read_exactly(text, inches):
    """Inches counted by hand; an inch is 25.4 mm exactly (NIST SP 811, 2008, App. B)."""
    assert Fraction(length(text).si) == Fraction(inches) * INCH
    assert length(text).text == text
    assert length(text).unit == "m"


@pytest.mark.parametrize("text", ["2.25 m", "2250 mm", "225 cm", "2.25 metres", "2250 MM", "2.25m"])
def test_metric_spellings_of_one_length_agree(text):
    assert length(text).si == Decimal("2.25")
    assert str(length(text).si) == "2.25"


def test_a_level_below_the_datum_is_negative():
    assert length("-0.35 m").si == length("−0.35 m").si == Decimal("-0.35")


@pytest.mark.parametrize(
    ("text", "dimension", "si"),
    [
        # NIST SP 811 (2008), App. B.8, printed there to seven digits or as exact.
        ("1 ft", Dimension.LENGTH, "0.3048"),
        ("1 yd", Dimension.LENGTH, "0.9144"),
        ("1 ft2", Dimension.AREA, "0.09290304"),
        ("1 sq. in.", Dimension.AREA, "0.00064516"),
        ("1 ft³", Dimension.VOLUME, "0.02831685"),
        ("1 cu yd", Dimension.VOLUME, "0.7645549"),
        ("1 gal (US)", Dimension.VOLUME, "0.003785412"),
        ("1 cfm", Dimension.FLOW, "0.0004719474"),
        ("1 cu. ft. / min", Dimension.FLOW, "0.0004719474"),
        ("1 gpm", Dimension.FLOW, "0.00006309020"),
        ("1 lb", Dimension.MASS, "0.45359237"),
        ("1 oz", Dimension.MASS, "0.02834952"),
        ("1 lbf", Dimension.FORCE, "4.448222"),
        ("1 kgf", Dimension.FORCE, "9.80665"),
        ("1 psi", Dimension.PRESSURE, "6894.757"),
        ("1 psf", Dimension.PRESSURE, "47.88026"),
        ("1 in. w.g.", Dimension.PRESSURE, "249.0889"),
        ("1 mm w.g.", Dimension.PRESSURE, "9.80665"),
        ("1 mbar", Dimension.PRESSURE, "100"),
        ("1 hp", Dimension.POWER, "745.6999"),
        ("1 rpm", Dimension.ROTATION, "0.01666667"),
        ("32 °F", Dimension.TEMPERATURE, "0"),
        ("212 degF", Dimension.TEMPERATURE, "100"),
        ("-40 F", Dimension.TEMPERATURE, "-40"),
        ("273.15 K", Dimension.TEMPERATURE, "0"),
        # Worked by hand.
        ("3600 m³/h", Dimension.FLOW, "1"),
        ("60 l/min", Dimension.FLOW, "0.001"),
        ("5 L/s", Dimension.FLOW, "0.005"),
        ("250 mL", Dimension.VOLUME, "0.00025"),
        ("1.2 t", Dimension.MASS, "1200"),
        ("1 h 30 min", Dimension.DURATION, "5400"),
        ("2 days", Dimension.DURATION, "172800"),
        ("47% RH", Dimension.HUMIDITY, "0.47"),
        ("47 %", Dimension.PERCENT, "0.47"),
        ("1/2 kW", Dimension.POWER, "500"),
        ("12.6 V", Dimension.VOLTAGE, "12.6"),
        ("270°", Dimension.ANGLE, "270"),
        ("270 deg", Dimension.ANGLE, "270"),
        ("1 %", Dimension.SLOPE, "0.01"),
        ("20 mm/m", Dimension.SLOPE, "0.02"),
        ("1:50", Dimension.SLOPE, "0.02"),
        ("1 in 50", Dimension.SLOPE, "0.02"),
        ("1.5 in/ft", Dimension.SLOPE, "0.125"),
        ("-1:50", Dimension.SLOPE, "-0.02"),
    ],
)
def test_units_have_their_published_size(text, dimension, si):
    """NIST SP 811 (2008), App. B.8 for the customary units."""
    read = read_quantity(text, dimension)
    assert float(read.si) == pytest.approx(float(si), rel=1e-6)
    assert read.unit == dimension.si_unit


def test_a_gallon_is_231_cubic_inches_to_the_last_digit():
    """NIST SP 811 (2008), App. B: 1 gal (US) is 231 in³; worked out, 0.003785411784 m³."""
    assert str(read_quantity("1 gal", Dimension.VOLUME).si) == "0.003785411784"


def test_an_eighth_in_a_foot_is_one_in_ninety_six():
    """1/8 in over 12 in is 1/96: a little more than 1 %."""
    ways = ["1:96", "1/8 in/ft", '1/8"/ft', "1/8 in per ft", "⅛ in/ft"]
    assert {read_quantity(way, Dimension.SLOPE).si for way in ways} == {Decimal("0.0104166666667")}


@pytest.mark.parametrize(
    ("text", "si", "unit"),
    [
        ("12 months", 12, "month"),
        ("1 year", 12, "month"),
        ("1.5 years", 18, "month"),
        ("2 weeks", 14, "day"),
        ("90 days", 90, "day"),
    ],
)
def test_months_and_days_of_the_calendar_are_kept_apart(text, si, unit):
    read = read_quantity(text, Dimension.INTERVAL)
    assert (read.si, read.unit) == (si, unit)


def test_a_tolerance_and_a_tilde_are_kept():
    read = length("~98.48 m ± 1/4 in")
    assert (read.si, read.tol, read.estimated) == (Decimal("98.48"), Decimal("0.00635"), True)
    assert length("98.612 m +/- 5 mm").tol == length("98.612 m +-5 mm").tol == Decimal("0.005")
    assert length("98.612 m").tol is None
    assert not length("98.612 m").estimated


def test_a_tolerance_in_fahrenheit_is_a_difference():
    """± 9 °F is ± 5 °C; the 32 of the scale has no part in it."""
    assert read_quantity("32 °F ± 9 °F", Dimension.TEMPERATURE).tol == 5


def test_the_unit_of_a_column_holds_for_a_bare_number_only():
    assert length("98.612", "m").si == Decimal("98.612")
    assert length("40'-10 1/2\"", "m").si == Decimal("12.4587")
    assert length("98.612 ± 5 mm", "m").tol == Decimal("0.005")
    assert fault_of("98.612 ± 5", column_unit="m").problem == "5 has no unit"
    assert "column" in fault_of("98.612", column_unit="kg").problem
    assert read_unit("feet", Dimension.LENGTH) == "ft"
    with pytest.raises(UnitFault, match="not a unit of length"):
        read_unit("furlong", Dimension.LENGTH)


def test_nothing_is_no_length_in_any_unit():
    """The corner that a grid counts from is at 0, 0."""
    assert (length("0").si, length("0").text, length("0", "ft").si) == (0, "0", 0)
    assert fault_of("0", Dimension.TEMPERATURE).problem == "0 has no unit"
    assert "no unit" in fault_of("2 m ± 0").problem


FAULTS = [
    ("about 3 ft", "about", "not a number", "~2.25 m"),
    ("2.25", "2.25", "2.25 has no unit", "7' 4-1/2\""),
    ("  2,25 m", "2,25", "comma", "Write 2.25 "),
    ("1,180 m", "1,180", "comma", "1.180 or 1180"),
    ("1O2.31 m", "1O2.31", "a letter O stands where a digit belongs", "102.31"),
    ("l2 m", "l2", "a letter l stands where a digit belongs", "12"),
    ("45 min", "min", "unit of duration, where a length is needed", "2.25 m"),
    ("98.612 m ± 5", "5", "5 has no unit", "± 5 mm"),
    ("98.612 m ±", "±", "nothing follows", "± 5 mm"),
    ("98.612 m ± 0 mm", "0 mm", "not a tolerance", "leave it out"),
    ("98.612 m ± 5 %", "%", "where a length is needed", "± 5 mm"),
    ("2 m ± 1 cm ± 2 cm", "±", "a second ±", "one tolerance"),
    ("2.25 mtr", "mtr", "not a unit of length", "2.25 m"),
    ("7' 4", "4", "4 has no unit", "7' 4-1/2\""),
    ("7' 14\"", "14", "12 or more", "again"),
    ("6' 4'", "'", "is not in", "7' 4-1/2\""),
    ("7.5' 4\"", "7.5", "not whole", "7' 4-1/2\""),
    ("2-3 m", "2-3", "range", "±"),
    ("1 180 m", "1 180", "blank inside", "1180"),
    ("1/0 in", "1/0", "divides by nothing", "again"),
    ("12 9/8 in", "12 9/8", "not less than one", "12 1/2"),
    ("1e400 m", "1e400", "exponent", "out"),
    ("nan m", "nan", "not a number", "2.25 m"),
    ("inf", "inf", "not a number", "2.25 m"),
    ("2.2.2 m", "2.2.2", "not a number", "2.25 m"),
    ("½½ m", "½ m", "not a unit of length", "2.25 m"),
    ("9" * 31 + " m", "9" * 31, "30 digits", "digits"),
    ("9" * 500 + " m", "9" * 500 + " m", "too long", "2.25 m"),
    ("~", "~", "no number", "2.25 m"),
    ("", "", "blank", "`not recorded`"),
    ("   ", "   ", "blank", "`not recorded`"),
    *((word, word, "not a value", "`not recorded`") for word in ("-", "–", "?", '"', "''", "”")),
    *((word, word, "not a value", "`not recorded`") for word in ("do.", "same", "Ditto")),
]


@pytest.mark.parametrize(("text", "marked", "problem", "remedy"), FAULTS)
def test_a_fault_points_at_the_piece_and_says_what_to_write(text, marked, problem, remedy):
    fault = fault_of(text)
    assert text[fault.start : fault.end] == marked
    assert problem in fault.problem
    assert remedy in fault.remedy


@pytest.mark.parametrize(
    ("text", "dimension", "problem"),
    [
        ("3 months", Dimension.DURATION, "differ in length"),
        ("1/2 month", Dimension.INTERVAL, "whole number"),
        ("0 days", Dimension.INTERVAL, "never"),
        ("45 min", Dimension.INTERVAL, "where an interval is needed"),
        ("70°", Dimension.TEMPERATURE, "°C or °F"),
        ("-300 °C", Dimension.TEMPERATURE, "absolute zero"),
        ("-2 L", Dimension.VOLUME, "less than nothing"),
        ("6 ft 3", Dimension.VOLUME, "not a unit of volume"),
        ("2 ton", Dimension.MASS, "2000 lb, 2240 lb or 1000 kg"),
        ("5 mPa", Dimension.PRESSURE, "not a unit of pressure"),
        ("2:1", Dimension.SLOPE, "rise to run or run to rise"),
        ("1:0", Dimension.SLOPE, "rise to run or run to rise"),
    ],
)
def test_what_could_mean_two_things_is_refused(text, dimension, problem):
    assert problem in fault_of(text, dimension).problem


def test_a_third_of_an_inch_keeps_twelve_digits():
    """25.4 mm / 3 = 8.466 666 ... mm."""
    assert length("1/3 in").si == Decimal("0.00846666666667")


@given(st.integers(0, 200), st.integers(0, 191), st.sampled_from(["'-", "' ", " ft "]))
def test_feet_inches_and_sixteenths_read_back_as_written(feet, sixteenths, mark):
    inches, part = divmod(sixteenths, 16)
    end = " in" if "ft" in mark else '"'
    fraction = f" {part}/16" if part else ""
    assert Fraction(length(f"{feet}{mark}{inches}{fraction}{end}").si) == INCH * (
        feet * 12 + inches + Fraction(part, 16)
    )


@given(st.decimals(-500, 500, places=3))
def test_a_length_said_in_both_systems_can_be_read_again(metres):
    """Millimetres come back whole; feet and inches to half of 1/16 in."""
    metric, _, customary = in_both(metres, Dimension.LENGTH).partition(" (")
    assert length(metric).si == metres
    assert abs(Fraction(length(customary.removesuffix(")")).si) - Fraction(metres)) <= INCH / 32


crew_like = st.text("0123456789.,-+±~'\"/ :eEOolI½−’”°%mftincky\N{NO-BREAK SPACE}³", max_size=20)


@given(
    st.one_of(st.text(), crew_like),
    st.sampled_from(Dimension),
    st.sampled_from([None, "m", "ft", "°F", "", "?"]),
)
def test_any_text_is_a_quantity_or_a_fault(text, dimension, column_unit):
    try:
        read = read_quantity(text, dimension, column_unit=column_unit)
    except UnitFault as fault:
        assert 0 <= fault.start <= fault.end <= len(text)
        assert fault.end > fault.start or not text
        assert fault.problem
        assert fault.remedy
    else:
        assert read.si.is_finite()
        assert read.text == text.strip()
        assert read.tol is None or read.tol > 0


@pytest.mark.parametrize(
    ("si", "dimension", "said"),
    [
        # 2.25 m / 0.0254 = 88.583 in = 7 ft 4.583 in; 0.583 in is 9.3 sixteenths.
        ("2.25", Dimension.LENGTH, "2.250 m (7' 4 9/16\")"),
        # 0.35 m = 13.780 in = 1 ft 1.780 in; 0.780 in is 12.5 sixteenths (12.47).
        ("-0.35", Dimension.LENGTH, "-0.350 m (-1' 1 3/4\")"),
        ("0.3048", Dimension.LENGTH, "0.305 m (1' 0\")"),
        ("0.0127", Dimension.LENGTH, '0.013 m (1/2")'),
        # A hair under a foot must carry into the feet: 11.995 in.
        ("0.30467", Dimension.LENGTH, "0.305 m (1' 0\")"),
        ("-0.0001", Dimension.LENGTH, '0.000 m (0")'),
        ("20", Dimension.TEMPERATURE, "20.0 °C (68.0 °F)"),
        ("-40", Dimension.TEMPERATURE, "-40.0 °C (-40.0 °F)"),
        # 0.0472 m³/s is 169.9 m³/h; over 0.000471947 it is 100.01 cfm.
        ("0.0472", Dimension.FLOW, "170 m³/h (100 cfm)"),
        ("45.359237", Dimension.MASS, "45.4 kg (100 lb)"),
        ("249.08891", Dimension.PRESSURE, "249 Pa (1.00 in w.g.)"),
        ("0.02", Dimension.SLOPE, "2.00 % (0.240 in/ft)"),
        ("0.9999", Dimension.PERCENT, "100 %"),
        ("5400", Dimension.DURATION, "90.0 min"),
        ("270", Dimension.ANGLE, "270°"),
    ],
)
def test_both_systems_are_said_with_sensible_digits(si, dimension, said):
    assert in_both(Decimal(si), dimension) == said


def test_no_minus_stands_before_nothing():
    """Rounded to nothing, a level is neither above nor below."""
    assert in_both(Decimal("-0.0004"), Dimension.LENGTH).startswith("0.000 m")


def test_every_dimension_can_be_said():
    for dimension in Dimension:
        unit = dimension.si_unit
        assert in_both(Quantity(Decimal(1), unit, "1"), dimension)[0].isdigit()


def test_an_interval_needs_its_unit_to_be_said():
    assert in_both(read_quantity("1 year", Dimension.INTERVAL), Dimension.INTERVAL) == "12 months"
    assert in_both(read_quantity("1 day", Dimension.INTERVAL), Dimension.INTERVAL) == "1 day"
    with pytest.raises(ValueError, match="months or days"):
        in_both(Decimal(12), Dimension.INTERVAL)


def test_a_quantity_is_said_in_its_own_kind_of_unit():
    assert say(read_quantity("32 °F ± 9 °F", Dimension.TEMPERATURE), "°C", 0) == "0 °C ± 5 °C"
    assert say(read_quantity("0 °C ± 5 °C", Dimension.TEMPERATURE), "°F", 0) == "32 °F ± 9 °F"
    assert say(read_quantity("100 lb", Dimension.FORCE), "lb", 0) == "100 lbf"
    with pytest.raises(ValueError, match="not a unit"):
        say(length("2 m"), "kg")


def test_a_coat_as_it_was_written_is_not_told_in_whole_millimetres():
    said = ("0.15 mm", "2.5 mm", "12 mm")
    coat, tar, board = (read_quantity(words, Dimension.LENGTH) for words in said)
    assert in_both(coat, Dimension.LENGTH) == "150 µm (5.91 mil)"
    assert in_both(tar, Dimension.LENGTH) == "2.50 mm (98.4 mil)"
    assert in_both(board, Dimension.LENGTH) == '0.012 m (1/2")'


@given(st.decimals(0, 200, places=4), st.sampled_from((Fraction(1, 16), Fraction(1, 2))))
def test_feet_and_inches_are_off_by_half_a_step_at_most(metres, step):
    said = feet_and_inches(metres, step).removesuffix('"')
    feet, _, rest = said.rpartition("' ")
    inches = sum(Fraction(part) for part in rest.split())
    told = (12 * int(feet or 0) + inches) * INCH
    assert inches < 12 and inches % step == 0
    assert abs(told - Fraction(metres)) <= step * INCH / 2
