"""Circles through points in space, many at a time."""

from dataclasses import dataclass

import numpy as np

from bendgen.geometry.vectors import Array

FLAT = 1e-7  # points nearer to a line than this share of their extent are on no circle


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CircleFits:
    """Circles fitted to m sets of points.

    centres, normals : (m, 3) arrays; radii : (m,) array, infinite for points on a line
    misfits : (m,) array, largest distance of a point from its circle
    """

    centres: Array
    normals: Array
    radii: Array
    misfits: Array


def fit_circles(sets: Array) -> CircleFits:
    """Circle of least squares through each of m sets of k points, an (m, k, 3) array, k >= 3.

    Notes
    -----
    In the plane of least squares the equation x² + y² = 2ax + 2by + c is linear; two Gauss-Newton steps on distances
    follow, without which a short noisy arc would come out too tight.
    """
    middles = sets.mean(axis=1, keepdims=True)
    _, sizes, axes = np.linalg.svd(sets - middles, full_matrices=False)
    extent = sizes[:, :1, None]
    with np.errstate(all="ignore"):
        flat = (sets - middles) @ axes[:, :2].swapaxes(-1, -2) / extent
        centres, radii = _algebraic(flat)
        for _ in range(2):
            centres, radii = _refined(flat, centres, radii)
        out_of_plane = (sets - middles) @ axes[:, 2, :, None] / extent
        off_circle = np.linalg.norm(flat - centres[:, None], axis=2) - radii[:, None]
        misfits = np.hypot(off_circle, out_of_plane[..., 0]).max(axis=1) * extent[:, 0, 0]
        straight = ~(sizes[:, 1] > FLAT * sizes[:, 0]) | ~np.isfinite(radii)
    radii = np.where(straight, np.inf, radii * extent[:, 0, 0])
    placed = (
        middles[:, 0] + np.einsum("mi,mij->mj", np.where(straight[:, None], 0.0, centres), axes[:, :2]) * extent[:, 0]
    )
    return CircleFits(centres=placed, normals=axes[:, 2], radii=radii, misfits=np.where(straight, np.inf, misfits))


def _algebraic(flat: Array) -> tuple[Array, Array]:
    columns = np.concatenate((2.0 * flat, np.ones((*flat.shape[:2], 1))), axis=2)
    solution = _least_squares(columns, np.sum(flat**2, axis=2))
    centres = solution[:, :2]
    return centres, np.sqrt(np.maximum(solution[:, 2] + np.sum(centres**2, axis=1), 0.0))


def _refined(flat: Array, centres: Array, radii: Array) -> tuple[Array, Array]:
    offsets = flat - centres[:, None]
    distances = np.linalg.norm(offsets, axis=2)
    columns = np.concatenate((offsets / distances[:, :, None], np.ones((*flat.shape[:2], 1))), axis=2)
    step = _least_squares(columns, distances - radii[:, None])
    return centres + step[:, :2], radii + step[:, 2]


def _least_squares(columns: Array, values: Array) -> Array:
    """Least-squares solutions (m, p) of m systems of (k, p) columns; NaN where a system has none."""
    columns = np.where(np.isfinite(columns), columns, 0.0)
    values = np.where(np.isfinite(values), values, 0.0)
    orthogonal, triangle = np.linalg.qr(columns)
    solvable = np.abs(np.diagonal(triangle, axis1=1, axis2=2)).min(axis=1) > 1e-14
    triangle = np.where(solvable[:, None, None], triangle, np.eye(columns.shape[2]))
    solution: Array = np.linalg.solve(triangle, np.einsum("mkp,mk->mp", orthogonal, values)[..., None])[..., 0]
    return np.where(solvable[:, None], solution, np.nan)
