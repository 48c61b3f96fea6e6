"""The record as values that the drawings take, and the pictures that a chapter names."""
