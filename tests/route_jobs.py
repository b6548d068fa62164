"""Ports to be joined, and a part that asks for it; every number is invented."""

import math

import numpy as np

from bendgen.records.part import Part
from bendgen.records.route import Box, Port, RouteWish
from bendgen.records.tube import Tube

Triple = tuple[float, float, float]


def joining(
    rear: Triple,
    rear_towards: Triple,
    *,
    front_towards: Triple = (1.0, 0.0, 0.0),
    shortest: tuple[float, float] = (0.0, 0.0),
    bends: int | None = None,
    keep_out: tuple[Box, ...] = (),
    clearance: float = 0.0,
) -> RouteWish:
    """Ports at the origin and at `rear`."""
    return RouteWish(
        front=Port(at=(0.0, 0.0, 0.0), towards=front_towards),
        rear=Port(at=rear, towards=rear_towards),
        shortest_front=shortest[0],
        shortest_rear=shortest[1],
        bends=bends,
        keep_out=keep_out,
        clearance=clearance,
    )


def link(wish: RouteWish, *, od: float = 20.0, die: str | None = None) -> Part:
    """Part that asks for a route."""
    return Part(
        name="Link pipe",
        number="GD-77",
        revision="A",
        quantity=1,
        units="mm",
        tube=Tube(od=od, wall=1.5, material="304L"),
        route=wish,
        die=die,
    )


def random_wish(generator: np.random.Generator, *, shortest: tuple[float, float]) -> RouteWish:
    """Ports somewhere within 900 mm of each other, pointing anywhere."""
    x, y, z = generator.uniform(-900.0, 900.0, 3).tolist()
    front, rear = (tuple(generator.normal(size=3).tolist()) for _ in range(2))
    return joining((x, y, z), rear, front_towards=front, shortest=shortest)


def shortest_by_brute_force(wish: RouteWish, *, clr: float, between: float, steps: int = 500) -> float:
    """Developed length of the shortest pair of bends on a grid, refined twice around the best; formulas of its own."""
    front, rear = np.array(wish.front.at), np.array(wish.rear.at)
    out, back = (np.array(port.towards) / np.linalg.norm(port.towards) for port in (wish.front, wish.rear))
    centre, width = np.array([1500.0, 1500.0]), 1500.0
    shortest = math.inf
    for _ in range(3):
        a, b = np.meshgrid(*(np.linspace(max(c - width, 0.0), c + width, steps) for c in centre))
        a, b = a.ravel(), b.ravel()
        leg = (rear + b[:, None] * back) - (front + a[:, None] * out)
        long = np.linalg.norm(leg, axis=1)
        first = np.arccos(np.clip(leg @ out / long, -1.0, 1.0))
        second = np.arccos(np.clip(-(leg @ back) / long, -1.0, 1.0))
        t1, t2 = clr * np.tan(first / 2.0), clr * np.tan(second / 2.0)
        fits = (a - t1 >= wish.shortest_front) & (b - t2 >= wish.shortest_rear) & (long - t1 - t2 >= between)
        fits &= np.maximum(first, second) <= math.radians(150.0)
        if not fits.any():
            return shortest
        length = np.where(fits, a + b + long - 2.0 * (t1 + t2) + clr * (first + second), math.inf)
        best_of = int(np.argmin(length))
        shortest, centre, width = (
            min(shortest, float(length[best_of])),
            np.array([a[best_of], b[best_of]]),
            width / 50.0,
        )
    return shortest
