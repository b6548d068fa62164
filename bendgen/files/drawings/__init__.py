"""Tubes drawn as lines and curves: a drawing in, a found tube out; nothing here knows solids or lists of points."""
