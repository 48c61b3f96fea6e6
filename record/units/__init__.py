"""Quantities as crews write them: read exactly, kept beside the words, said in both systems."""

from record.units.dimension import Dimension
from record.units.quantity import Quantity, UnitFault
from record.units.read import read_quantity, read_unit
from record.units.write import feet_and_inches, in_both, metres_said, say

__all__ = [
    "Dimension",
    "Quantity",
    "UnitFault",
    "feet_and_inches",
    "in_both",
    "metres_said",
    "read_quantity",
    "read_unit",
    "say",
]
