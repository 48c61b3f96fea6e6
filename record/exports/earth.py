"""From the site grid to longitude and latitude, where somebody says how the grid lies.

Near the origin the ellipsoid is taken as its tangent plane, with the radii of curvature of WGS 84
(NIMA TR8350.2: a = 6 378 137 m, 1/f = 298.257223563). Over a site of 500 m that is wrong by less
than 0.03 m at latitudes to 60°: far less than such a tie is worth.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

SEMI_MAJOR_M = 6_378_137.0
FLATTENING = 1 / 298.257223563
_NUMBER = re.compile(r"-?[0-9]{1,3}(\.[0-9]{1,12})?")


@dataclass(frozen=True, slots=True)
class Tie:
    """Where the grid's zero lies (degrees, WGS 84) and where its north points, from true north."""

    latitude_deg: float
    longitude_deg: float
    bearing_deg: float

    def lon_lat(self, x_m: float, y_m: float) -> tuple[float, float]:
        """
        Return longitude and latitude of a place on the grid, in degrees.

        A degree of latitude at 45° is 111 132 m, and of longitude 78 847 m (from memory of
        published tables of WGS 84, to the metre):

        >>> Tie(45.0, 0.0, 0.0).lon_lat(78_847 / 1000, 111_132 / 1000)
        (0.001, 45.001)
        """
        turn = math.radians(self.bearing_deg)
        east = x_m * math.cos(turn) + y_m * math.sin(turn)
        north = y_m * math.cos(turn) - x_m * math.sin(turn)
        latitude = math.radians(self.latitude_deg)
        squared = FLATTENING * (2 - FLATTENING)
        root = math.sqrt(1 - squared * math.sin(latitude) ** 2)
        meridian = SEMI_MAJOR_M * (1 - squared) / root**3
        normal = SEMI_MAJOR_M / root
        longitude = self.longitude_deg + math.degrees(east / (normal * math.cos(latitude)))
        # Eight digits are a millimetre, and what cannot be known is not written.
        return round(longitude, 8), round(self.latitude_deg + math.degrees(north / meridian), 8)


def read_tie(text: str) -> Tie:
    """
    Return the tie written as ``latitude,longitude,bearing``. Raises ValueError with what to write.

    >>> read_tie("44.125,-116.5,3.25")
    Tie(latitude_deg=44.125, longitude_deg=-116.5, bearing_deg=3.25)
    """
    words = [word.strip() for word in text.split(",")]
    if len(words) == 3 and all(_NUMBER.fullmatch(word) for word in words):
        latitude, longitude, bearing = (float(word) for word in words)
        # At the poles a degree of longitude is nothing, and a plane is no map.
        if abs(latitude) <= 85 and abs(longitude) <= 180 and abs(bearing) <= 360:
            return Tie(latitude, longitude, bearing)
    raise ValueError(
        f'"{text}" is no tie; write latitude and longitude of the grid\'s zero (WGS 84) and the '
        "bearing of its north from true north, in degrees, such as 44.125,-116.5,0"
    )
