"""What a quantity is a quantity of, and the unit its number is kept in."""

from __future__ import annotations

from enum import StrEnum


class Dimension(StrEnum):
    """What is measured. The value is the word a message uses for it."""

    LENGTH = "length"
    SLOPE = "slope"  # rise over run
    TEMPERATURE = "temperature"
    FLOW = "flow"
    VOLUME = "volume"
    AREA = "area"
    MASS = "mass"
    PRESSURE = "pressure"
    DURATION = "duration"
    INTERVAL = "interval"  # by the calendar: months and years are not so many seconds
    ROTATION = "rotation"
    HUMIDITY = "humidity"
    PERCENT = "percentage"
    POWER = "power"
    VOLTAGE = "voltage"
    ANGLE = "angle"
    FORCE = "force"
    FILM = "film"  # a coat's thickness: a length, said in thousandths
    TORQUE = "torque"
    VELOCITY = "velocity"
    DENSITY = "density"
    UNIT_WEIGHT = "unit weight"
    CONDUCTIVITY = "conductivity"
    DIFFUSIVITY = "diffusivity"
    CONCENTRATION = "concentration"  # parts by volume
    COLD = "freezing index"  # degrees below freezing, times days
    DIFFERENCE = "difference of temperature"

    @property
    def si_unit(self) -> str:
        """The unit numbers of this dimension are kept in.

        An interval is kept in months if it was written in months or years, else in days;
        this says "month" and its Quantity says which.
        """
        return _SI[self]


_SI = {
    Dimension.LENGTH: "m",
    Dimension.SLOPE: "1",
    Dimension.TEMPERATURE: "degC",
    Dimension.FLOW: "m3/s",
    Dimension.VOLUME: "m3",
    Dimension.AREA: "m2",
    Dimension.MASS: "kg",
    Dimension.PRESSURE: "Pa",
    Dimension.DURATION: "s",
    Dimension.INTERVAL: "month",
    Dimension.ROTATION: "1/s",
    Dimension.HUMIDITY: "1",
    Dimension.PERCENT: "1",
    Dimension.POWER: "W",
    Dimension.VOLTAGE: "V",
    Dimension.ANGLE: "deg",
    Dimension.FORCE: "N",
    Dimension.FILM: "m",
    Dimension.TORQUE: "N m",
    Dimension.VELOCITY: "m/s",
    Dimension.DENSITY: "kg/m3",
    Dimension.UNIT_WEIGHT: "N/m3",
    Dimension.CONDUCTIVITY: "W/(m K)",
    Dimension.DIFFUSIVITY: "m2/s",
    Dimension.CONCENTRATION: "1",
    Dimension.COLD: "K d",
    Dimension.DIFFERENCE: "K",
}
