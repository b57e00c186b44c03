"""Writes narrow-raster.json: necks of random areas, found on a raster, with SciPy's exact Euclidean distance transform.

Usage: python3 tests/outside/narrow-raster.py   (NumPy, SciPy; made with SciPy 1.17.1, NumPy 2.4.6)

The distance to the boundary is a height over the area; its saddles are the necks, twice the height their width. A saddle
either joins two summits when the water sinks, or joins two of the parts outside (holes, surroundings) when it rises.
Both are found with a union of pixels in the order of height. A saddle between summits counts when the lower of the
two stands PROMINENCE / 2 over it.
"""

import json
import math
import os

import numpy as np
from scipy import ndimage

PIXEL = 0.08
PROMINENCE = 0.6
SEED = 20240131


def star(rng, centre, low, high, count):
    radii = rng.uniform(low, high, count)
    return [
        [
            round(centre[0] + r * math.cos(2 * math.pi * k / count), 3),
            round(centre[1] + r * math.sin(2 * math.pi * k / count), 3),
        ]
        for k, r in enumerate(radii)
    ]


def sheet(rng):
    holes = [star(rng, (13 * i, 13 * j), 2, 6.2, 9) for i in (-1, 0, 1) for j in (-1, 0, 1) if rng.random() < 0.8]
    return [star(rng, (0, 0), 25, 31, 40)] + holes


def band(rng):
    count = 14
    x = 5.0 * np.arange(count) + rng.uniform(-1, 1, count)
    top = [[round(float(a), 3), round(float(b), 3)] for a, b in zip(x, rng.uniform(0, 9, count))]
    low = [[round(float(a), 3), round(float(b), 3)] for a, b in zip(x, rng.uniform(11, 20, count))]
    return [top + low[::-1]]


def inside(loops, xs, ys):
    """Even-odd rule at all pixels."""
    grid_x, grid_y = np.meshgrid(xs, ys)
    odd = np.zeros(grid_x.shape, dtype=bool)
    for loop in loops:
        for (ax, ay), (bx, by) in zip(loop, loop[1:] + loop[:1]):
            crosses = (ay <= grid_y) != (by <= grid_y)
            if ay != by:
                odd ^= crosses & (ax + (grid_y - ay) / (by - ay) * (bx - ax) < grid_x)
    return odd


def find(parent, i):
    while parent[i] != i:
        parent[i] = parent[parent[i]]
        i = parent[i]
    return i


def joins(height, order, near, birth):
    """Saddles at which parts meet while pixels come in `order`; birth[i] is the height at which a part began."""
    parent = np.full(height.size, -1)
    began = {}
    found = []
    for i in order:
        parent[i] = i
        began[i] = birth(i)
        for step in near:
            j = i + step
            if parent[j] < 0:
                continue
            a, b = find(parent, i), find(parent, j)
            if a == b:
                continue
            if abs(began[a]) < abs(began[b]):
                a, b = b, a
            found.append((i, abs(began[b] - height[i])))
            parent[b] = a
    return found


def necks(loops):
    points = np.array([p for loop in loops for p in loop])
    margin = 4 * PIXEL
    x0, y0 = points.min(axis=0) - margin
    x1, y1 = points.max(axis=0) + margin
    xs, ys = np.arange(x0, x1, PIXEL), np.arange(y0, y1, PIXEL)
    solid = inside(loops, xs, ys)
    height = (ndimage.distance_transform_edt(solid) * PIXEL - PIXEL / 2).clip(min=0)
    flat = height.ravel()
    width = len(xs)
    four, eight = [1, -1, width, -width], [1, -1, width, -width, width + 1, width - 1, -width + 1, -width - 1]
    order = np.argsort(-flat, kind="stable")
    land = order[flat[order] > 0]
    summits = [(i, rise) for i, rise in joins(flat, land, four, lambda i: flat[i]) if 2 * rise > PROMINENCE]
    # Holes and surroundings grow from height 0 up; only parts that began outside count when they meet.
    outside, count = ndimage.label(~solid, np.ones((3, 3)))
    sea = order[::-1]
    names = outside.ravel()
    parent = np.full(flat.size, -1)
    holder = {}
    meetings = []
    for i in sea:
        parent[i] = i
        holder[i] = names[i]
        for step in eight:
            j = i + step
            if j < 0 or j >= flat.size or parent[j] < 0:
                continue
            a, b = find(parent, i), find(parent, j)
            if a == b:
                continue
            if holder[a] > 0 and holder[b] > 0 and holder[a] != holder[b]:
                meetings.append(i)
            parent[b] = a
            holder[a] = max(holder[a], holder[b])
    assert len(meetings) == count - 1 == len(loops) - 1
    at = lambda i: [round(float(xs[i % width]), 2), round(float(ys[i // width]), 2), round(float(2 * flat[i]), 2)]
    return sorted([at(i) for i, _ in summits] + [at(i) for i in meetings])


def main():
    rng = np.random.default_rng(SEED)
    areas = [sheet(rng) for _ in range(5)] + [band(rng) for _ in range(5)]
    result = {
        "source": "narrow-raster.py, SciPy distance_transform_edt",
        "pixel": PIXEL,
        "prominence": PROMINENCE,
        "areas": [{"loops": loops, "necks": necks(loops)} for loops in areas],
    }
    path = os.path.join(os.path.dirname(os.path.abspath(__file__)), "narrow-raster.json")
    with open(path, "w") as file:
        json.dump(result, file, separators=(",", ":"))
        file.write("\n")


main()
