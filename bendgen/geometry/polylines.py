"""The centreline as a path of vertices: lengths, directions, turns, and rotation from turn to turn."""

import numpy as np

from bendgen.geometry.vectors import Array, angles_between, lengths, signed_angles_about


def segments(vertices: Array) -> tuple[Array, Array]:
    """Lengths and directions of the segments of a path.

    Parameters
    ----------
    vertices : (n, 3) array, no two neighbours equal

    Returns
    -------
    (n - 1,) array, (n - 1, 3) array
        Lengths in the unit of the vertices; unit vectors.
    """
    steps = np.diff(vertices, axis=0)
    length = lengths(steps)
    return length, steps / length[:, None]


def turning_angles(directions: Array) -> Array:
    """Angle between incoming and outgoing direction at each inner vertex.

    Parameters
    ----------
    directions : (n, 3) array of unit vectors

    Returns
    -------
    (n - 1,) array
        [rad], 0 to π; 0 goes straight on.
    """
    return angles_between(directions[:-1], directions[1:])


def plane_rotations(directions: Array) -> Array:
    """Rotation of the bend plane from each inner vertex to the next, about the segment between them.

    It is the dihedral angle of the path with the IUPAC sign: looking along the middle segment, clockwise from the
    near leg to the far leg is positive; a planar U has 0, a planar S has π. It is the same from either end.

    Parameters
    ----------
    directions : (n, 3) array of unit vectors, n >= 2; no two neighbours parallel

    Returns
    -------
    (n - 2,) array
        [rad], (-π, π]

    References
    ----------
    [IUPAC2014], "torsion angle"
    """
    middle = directions[1:-1]
    return signed_angles_about(middle, -directions[:-2], directions[2:])
