"""Pure functions on float arrays: numpy only; lengths as given, angles in radians; knows no file and no record."""
