"""Drawings from plain numbers and words: SVG out, and the same again in words.

Nothing here knows the record. Lengths come in metres, paper is in millimetres, and the same
values always give the same bytes. Meaning is by line type, hatch and words, never by colour.
"""
