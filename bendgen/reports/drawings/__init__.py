"""Drawings as SVG: a program in, elements out; paper millimetres, black on white."""
