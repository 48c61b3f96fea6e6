"""The owner's manual and the upkeep calendar, compiled from the record."""
