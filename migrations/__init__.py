"""The tables of a record, step by step. Written out in full; imports nothing from record."""
