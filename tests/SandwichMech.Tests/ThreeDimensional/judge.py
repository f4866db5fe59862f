#!/usr/bin/env python3
"""Three-dimensional elasticity as a judge of the plate theory.

Builds layered solid finite-element models of sandwich boards from cases.json, runs CalculiX's *FREQUENCY step on
them, and writes tables of natural frequencies in vacuo.

    python3 judge.py CASE...          run these cases, update the tables
    python3 judge.py --all            run every case
    python3 judge.py --list           name the cases
    python3 judge.py --exact CASE     exact elasticity of a hard-hinged rectangle, no finite elements in the plane
    python3 judge.py --speed          time the standard board at its coarse mesh, first 20 frequencies
    python3 judge.py --table          rewrite three-dimensional.csv and the README table from mesh-study.csv

Needs: Python 3 with numpy, gmsh's Python module (outlines only), and the program `ccx` (Debian: calculix-ccx, python3-gmsh,
python3-numpy). Nothing is read or written outside this folder, except a temporary folder for each run.

The model
  Axes x (along the grain at angle 0), y, z (outward); origin at the middle of the rectangle, or at the pole of the
  outline; z = 0 on the lower face of the first layer. SI units throughout.
  A mesh of four-sided (and a few three-sided) cells in the plane is pulled up through the layers: 20-node bricks with
  reduced integration (C3D20R), 15-node wedges (C3D15) on the triangles. Each coarse cell may be split in r x r: the
  meshes of one study are nested, so that frequencies can be extrapolated. Curved edges are quadratic, with their
  mid-side nodes on the true curve. Cells get thin towards held edges, where the skins bend on their own over a few
  millimetres.
  Bars (bridge, braces) are bricks on the outer or the inner face, over a straight footprint that the mesh in the plane
  follows; the nodes of the glue face are the board's own. The wood's grain (1) runs along the bar, 2 lies across it in the
  plane, 3 is vertical. The height may fall linearly to both ends.
  A dome moves the board's middle surface to z = x^2/(2 Rx) + y^2/(2 Ry). The thicknesses given are normal to it: heights
  above and below it grow by 1/cos(slope), and edge faces stay vertical, so that u_z = 0 on them leaves a hinge free to
  turn. The materials' axes 1 and 2 lie in its tangent plane, element by element.
"""

import argparse
import csv
import datetime
import json
import math
import os
import re
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import numpy as np

HERE = Path(__file__).resolve().parent
CASES = HERE / "cases.json"
STUDY = HERE / "mesh-study.csv"
TABLE = HERE / "three-dimensional.csv"
SHAPES = HERE / "shapes.csv"
SPEED = HERE / "speed.csv"
STUDY_FIELDS = ["case", "mesh", "mode", "frequency_hz", "kind", "element", "refine", "elements", "nodes",
                "solver_cpu_s", "solver_wall_s", "peak_mb", "rigid_max_hz", "date", "solver"]


# ---------------------------------------------------------------- the plane: curves, cells, regions

class Outline:
    """A closed smooth curve r(t) = sum_k c_k cos(k t), counter-clockwise, parametrised by arc length."""

    def __init__(self, cosines, samples=40000):
        self.c = np.asarray(cosines, float)
        self.k = np.arange(len(self.c))
        t = np.linspace(0, 2 * math.pi, samples + 1)
        _, d = self._at(t)
        speed = np.hypot(d[:, 0], d[:, 1])
        self._t, self._s = t, np.concatenate([[0], np.cumsum((speed[1:] + speed[:-1]) / 2 * np.diff(t))])
        self.length = self._s[-1]

    def _at(self, t):
        t = np.asarray(t, float)
        r = np.cos(np.multiply.outer(t, self.k)) @ self.c
        dr = -np.sin(np.multiply.outer(t, self.k)) @ (self.c * self.k)
        p = np.stack([r * np.cos(t), r * np.sin(t)], -1)
        d = np.stack([dr * np.cos(t) - r * np.sin(t), dr * np.sin(t) + r * np.cos(t)], -1)
        return p, d

    def offset(self, s, inward):
        """The point at arc length s, moved inward along the normal."""
        p, d = self._at(np.interp(s % self.length, self._s, self._t))
        n = np.array([-d[..., 1], d[..., 0]]) / np.hypot(d[..., 0], d[..., 1])
        return p + inward * n.T


class Drawn(Outline):
    """A closed smooth curve through points at equal steps along it, counter-clockwise: the trigonometric polynomial of least degree."""

    def __init__(self, points, samples=40000):
        self.c = np.fft.rfft(np.asarray(points, float), axis=0) / len(points)
        self.c[1:] *= 2
        self.k = np.arange(len(self.c))
        t = np.linspace(0, 2 * math.pi, samples + 1)
        self._t, self._s = t, None
        speed = np.hypot(*np.concatenate([self._at(part)[1] for part in np.array_split(t, 100)]).T)
        self._s = np.concatenate([[0], np.cumsum((speed[1:] + speed[:-1]) / 2 * np.diff(t))])
        self.length = self._s[-1]

    def _at(self, t):
        wave = np.exp(1j * np.multiply.outer(np.asarray(t, float), self.k))
        return (wave @ self.c).real, (wave @ (1j * self.k[:, None] * self.c)).real


class Circle:
    """A hole's edge, parametrised by arc length; 'inward' means into the board, away from the centre."""

    def __init__(self, centre, radius):
        self.centre, self.radius, self.length = np.asarray(centre, float), radius, 2 * math.pi * radius

    def offset(self, s, inward):
        a = s / self.radius
        return self.centre + (self.radius + inward) * np.array([math.cos(a), math.sin(a)])


class Plane:
    """Nodes and quadratic cells in the plane, built from patches that are split in r x r."""

    def __init__(self, refine):
        self.r = refine
        self.points, self._index = [], {}
        self.cells = []                 # (corner ids, mid-side ids, coarse centroid)
        self.edge = set()               # node ids on the outer edge
        self.coarse = set()             # node ids that every mesh of the study has

    def node(self, p):
        key = (round(p[0] * 1e8), round(p[1] * 1e8))
        for dx in (0, -1, 1):           # a point may round either way
            for dy in (0, -1, 1):
                found = self._index.get((key[0] + dx, key[1] + dy))
                if found is not None:
                    return found
        self._index[key] = len(self.points)
        self.points.append((float(p[0]), float(p[1])))
        return self._index[key]

    def quad(self, f, edge_at_v0=False):
        """A patch given by f(u, v) on the unit square; v = 0 may lie on the outer edge."""
        n = 2 * self.r
        g = {(i, j): self.node(f(i / n, j / n)) for i in range(n + 1) for j in range(n + 1) if i % 2 == 0 or j % 2 == 0}
        centre = np.asarray(f(0.5, 0.5))
        for i in range(0, n, 2):
            for j in range(0, n, 2):
                self._cell([g[i, j], g[i + 2, j], g[i + 2, j + 2], g[i, j + 2]],
                           [g[i + 1, j], g[i + 2, j + 1], g[i + 1, j + 2], g[i, j + 1]], centre)
        self.coarse.update((g[0, 0], g[n, 0], g[n, n], g[0, n]))
        if edge_at_v0:
            self.edge.update(g[i, 0] for i in range(n + 1))

    def triangle(self, a, b, c):
        """A straight-sided patch, split into r x r similar triangles."""
        n = 2 * self.r
        a, b, c = map(np.asarray, (a, b, c))
        g = {(i, j): self.node(a + (b - a) * (i / n) + (c - a) * (j / n)) for i in range(n + 1) for j in range(n + 1 - i)}
        centre = (a + b + c) / 3
        for i in range(0, n, 2):
            for j in range(0, n - i, 2):
                self._cell([g[i, j], g[i + 2, j], g[i, j + 2]], [g[i + 1, j], g[i + 1, j + 1], g[i, j + 1]], centre)
                if i + j + 4 <= n:
                    self._cell([g[i + 2, j], g[i + 2, j + 2], g[i, j + 2]],
                               [g[i + 2, j + 1], g[i + 1, j + 2], g[i + 1, j + 1]], centre)
        self.coarse.update((g[0, 0], g[n, 0], g[0, n]))

    def _cell(self, corners, mids, centre):
        p = [self.points[i] for i in corners]
        area = sum(p[i - 1][0] * p[i][1] - p[i][0] * p[i - 1][1] for i in range(len(p)))
        if area < 0:
            corners, mids = corners[::-1], mids[::-1]
            mids = mids[1:] + mids[:1]
        self.cells.append((corners, mids, centre))


def spaced(stops, size, first):
    """Cell borders between the stops: about `size`, with the cells `first` laid inward from both ends of each stretch.

    `first` is one list for the outermost stops and one for the stops within.
    """
    out = [stops[0]]
    for n, (a, b) in enumerate(zip(stops, stops[1:])):
        left = list(first[0] if n == 0 else first[1])
        right = list(first[0] if n == len(stops) - 2 else first[1])
        while left and right and sum(left) + sum(right) > 0.75 * (b - a):
            left.pop(), right.pop()
        free = (b - a) - sum(left) - sum(right)
        count = max(1, math.ceil(free / size - 1e-9))
        steps = left + [free / count] * count + right[::-1]
        out += list(a + np.cumsum(steps))
        out[-1] = b
    return out


def bilinear(a, b, c, d):
    a, b, c, d = map(np.asarray, (a, b, c, d))
    return lambda u, v: (1 - u) * (1 - v) * a + u * (1 - v) * b + u * v * c + (1 - u) * v * d


class Bar:
    """A straight bar glued on a face: footprint, height, and the places where its height bends."""

    def __init__(self, given):
        self.given = given
        self.start, end = (np.asarray(given[k], float) for k in ("from_m", "to_m"))
        self.width, self.height, self.outer = given["width_m"], given["height_m"], given["face"] == "outer"
        assert given["face"] in ("outer", "inner"), f"face of {given['name']}"
        self.length = float(np.hypot(*(end - self.start)))
        self.along = (end - self.start) / self.length
        self.across = np.array([-self.along[1], self.along[0]])
        self.angle = math.degrees(math.atan2(self.along[1], self.along[0]))
        taper = given.get("taper")
        self.end_height, self.taper = (taper["end_height_m"], taper["length_m"]) if taper else (self.height, 0.0)
        self.bends = [self.taper, self.length - self.taper] if taper else []
        self.turned = min(abs(self.along)) > 1e-9

    def at(self, s, t):
        """The point s along the run, t to its left."""
        return self.start + s * self.along + t * self.across

    def run(self, p):
        """(s, t) of a point."""
        d = np.asarray(p) - self.start
        return float(d @ self.along), float(d @ self.across)

    def holds(self, p):
        s, t = self.run(p)
        return 0 < s < self.length and abs(t) < self.width / 2

    def height_at(self, p):
        s, _ = self.run(p)
        if not self.bends:
            return self.height
        return self.end_height + (self.height - self.end_height) * min(1, max(0, min(s, self.length - s) / self.taper))

    def stops(self, axis):
        """Coordinates along an axis that mesh lines must follow (bars along an axis only)."""
        ends = [self.at(s, t)[axis] for s in (0, self.length) for t in (-self.width / 2, self.width / 2)]
        bends = [self.at(s, 0)[axis] for s in self.bends] if abs(self.along[axis]) > 0.5 else []
        return [min(ends), max(ends), *bends]


def bars_of(case):
    return [Bar(b) for b in case.get("bars", [])]


def rectangle_plane(case, mesh):
    """A tensor-product mesh whose lines follow the borders of all regions and bars; bars askew need a filling."""
    if any(b.turned for b in bars_of(case)):
        return framed_plane(case, mesh)
    shape = case["shape"]
    half = (shape["length_m"] / 2, shape["width_m"] / 2)
    lines = []
    for axis in (0, 1):
        stops = {-half[axis], half[axis]}
        for region in case.get("regions", []):
            lo = region["centre_m"][axis] - region["size_m"][axis] / 2
            stops |= {lo, lo + region["size_m"][axis]}
        for bar in bars_of(case):
            stops.update(bar.stops(axis))
        stops = sorted({round(s, 9) for s in stops if -half[axis] - 1e-9 <= s <= half[axis] + 1e-9})
        lines.append(spaced(stops, mesh["size_m"], (mesh["edge_cells_m"], mesh.get("border_cells_m", []))))
    plane = Plane(mesh["refine"])
    xs, ys = lines
    for x0, x1 in zip(xs, xs[1:]):
        for y0, y1 in zip(ys, ys[1:]):
            plane.quad(bilinear((x0, y0), (x1, y0), (x1, y1), (x0, y1)))
    for i, (x, y) in enumerate(plane.points):
        if abs(abs(x) - half[0]) < 1e-9 or abs(abs(y) - half[1]) < 1e-9:
            plane.edge.add(i)
    return plane


def framed_plane(case, mesh):
    """Rows of cells along the four edges, a block of cells over each bar, gmsh between."""
    plane = Plane(mesh["refine"])
    half = (case["shape"]["length_m"] / 2, case["shape"]["width_m"] / 2)
    rows = len(mesh["edge_cells_m"])
    xs, ys = (spaced([-h, h], mesh["size_m"], (mesh["edge_cells_m"], [])) for h in half)
    assert not case.get("regions") and not case.get("holes"), "regions and holes are not built beside bars askew"
    for i, (x0, x1) in enumerate(zip(xs, xs[1:])):
        for j, (y0, y1) in enumerate(zip(ys, ys[1:])):
            if min(i, j, len(xs) - 2 - i, len(ys) - 2 - j) < rows:
                plane.quad(bilinear((x0, y0), (x1, y0), (x1, y1), (x0, y1)))
    xs, ys = xs[rows:-rows], ys[rows:-rows]
    fill(plane, around(xs, ys), blocks(plane, case, mesh), mesh["size_m"])
    for i, (x, y) in enumerate(plane.points):
        if abs(abs(x) - half[0]) < 1e-9 or abs(abs(y) - half[1]) < 1e-9:
            plane.edge.add(i)
    return plane


def around(xs, ys, at=lambda x, y: (x, y)):
    """The polygon round a block of cells."""
    return [at(x, y) for x, y in [(x, ys[0]) for x in xs[:-1]] + [(xs[-1], y) for y in ys[:-1]]
            + [(x, ys[-1]) for x in xs[:0:-1]] + [(xs[0], y) for y in ys[:0:-1]]]


def blocks(plane, case, mesh):
    """A block of cells over each rectangular region and each bar, with rows of cells round it; returns their borders.

    Regions and bars along the axes share a block where they would overlap; a bar askew has its own.
    """
    rows = mesh.get("border_margin_m", [])              # from the border outward
    rows = rows if isinstance(rows, list) else [rows]
    margin = sum(rows)
    bars = bars_of(case)
    groups = []                         # (stops in x, stops in y)
    for region in case.get("regions", []):
        if region["kind"] == "rectangle":
            lo = [region["centre_m"][a] - region["size_m"][a] / 2 for a in (0, 1)]
            groups.append([{lo[a], lo[a] + region["size_m"][a]} for a in (0, 1)])
    groups += [[set(b.stops(0)), set(b.stops(1))] for b in bars if not b.turned]
    meet = lambda g, h: all(min(g[a]) - margin < max(h[a]) + margin and min(h[a]) - margin < max(g[a]) + margin for a in (0, 1))
    merged = True
    while merged:
        merged = False
        for i in range(len(groups)):
            for j in range(i + 1, len(groups)):
                if not merged and meet(groups[i], groups[j]):
                    other = groups.pop(j)
                    groups[i] = [groups[i][a] | other[a] for a in (0, 1)]
                    merged = True
    cells = (mesh.get("border_cells_m", []),) * 2
    size = mesh["size_m"]
    placed = [(*(sorted({round(v, 9) for v in g[a]}) for a in (0, 1)), lambda x, y: (x, y)) for g in groups]
    placed += [(sorted({0.0, b.length, *b.bends}), [-b.width / 2, b.width / 2], lambda s, t, b=b: tuple(b.at(s, t)))
               for b in bars if b.turned]
    borders = []
    for along, across, at in placed:
        xs, ys = (list(stops[0] - np.cumsum(rows)[::-1]) + spaced(stops, size, cells) + list(stops[-1] + np.cumsum(rows))
                  for stops in (along, across))
        for x0, x1 in zip(xs, xs[1:]):
            for y0, y1 in zip(ys, ys[1:]):
                plane.quad(bilinear(at(x0, y0), at(x1, y0), at(x1, y1), at(x0, y1)))
        borders.append(around(xs, ys, at))
    return borders


def even(count):
    """The next even number: an odd boundary cannot be filled with four-sided cells alone."""
    return 2 * math.ceil(count / 2)


def ring(plane, curve, widths, count, outer):
    """Rows of cells along a closed curve; returns the polygon on their far side (straight chords)."""
    depth = np.concatenate([[0], np.cumsum(widths)])
    stations = [curve.length * i / count for i in range(count + 1)]
    polygon = [curve.offset(s, depth[-1]) for s in stations[:-1]]
    for i in range(count):
        s0, s1 = stations[i], stations[i + 1]
        a, b = polygon[i], polygon[(i + 1) % count]
        for row in range(len(widths)):
            t0, t1 = depth[row], depth[row + 1]
            if row < len(widths) - 1:
                f = lambda u, v, t0=t0, t1=t1: curve.offset(s0 + u * (s1 - s0), t0 + v * (t1 - t0))
            else:                       # the last row blends into the chord, so that the filling may be straight-sided
                f = lambda u, v, t0=t0: (1 - v) * curve.offset(s0 + u * (s1 - s0), t0) + v * ((1 - u) * a + u * b)
            plane.quad(f, outer and row == 0)
    return polygon


def fill(plane, outer, inner, size):
    """Fills the space between closed polygons with four-sided cells (gmsh), keeping the given points."""
    import gmsh
    gmsh.initialize()
    gmsh.option.setNumber("General.Terminal", 0)
    gmsh.option.setNumber("General.NumThreads", 1)
    gmsh.option.setNumber("Mesh.RandomSeed", 1)
    loops = []
    for polygon in [outer, *inner]:
        tags = [gmsh.model.geo.addPoint(p[0], p[1], 0, size) for p in polygon]
        edges = [gmsh.model.geo.addLine(tags[i], tags[(i + 1) % len(tags)]) for i in range(len(tags))]
        for e in edges:
            gmsh.model.geo.mesh.setTransfiniteCurve(e, 2)
        loops.append(gmsh.model.geo.addCurveLoop(edges))
    gmsh.model.geo.addPlaneSurface(loops)
    gmsh.model.geo.synchronize()
    gmsh.option.setNumber("Mesh.Algorithm", 6)
    gmsh.option.setNumber("Mesh.RecombineAll", 1)
    gmsh.option.setNumber("Mesh.RecombinationAlgorithm", 1)
    gmsh.model.mesh.generate(2)
    tags, xyz, _ = gmsh.model.mesh.getNodes()
    where = {int(t): xyz[3 * i:3 * i + 2] for i, t in enumerate(tags)}
    kinds, _, members = gmsh.model.mesh.getElements(2)
    for kind, ids in zip(kinds, members):
        n = {2: 3, 3: 4}[kind]
        for i in range(0, len(ids), n):
            corners = [where[int(t)] for t in ids[i:i + n]]
            plane.quad(bilinear(*corners)) if n == 4 else plane.triangle(*corners)
    gmsh.finalize()


def outline_plane(case, mesh):
    """Rows of cells along the edge and round the hole, a block of cells over each rectangular region, gmsh between."""
    plane = Plane(mesh["refine"])
    size = mesh["size_m"]
    shape = case["shape"]
    curve = Drawn(shape["points_m"]) if "points_m" in shape else Outline(shape["polar_cosines_m"])
    outer = ring(plane, curve, mesh["edge_cells_m"], even(curve.length / size), True)
    inner = []
    for hole in case.get("holes", []):
        circle = Circle(hole["centre_m"], hole["radius_m"])
        inner.append(ring(plane, circle, mesh["hole_cells_m"], even(circle.length / size), False))
    inner += blocks(plane, case, mesh)
    fill(plane, outer, inner, size)
    plane.curve = curve
    return plane


def in_region(region, p, plane):
    """Whether a coarse cell's middle lies in a region (the mesh follows the borders)."""
    if region["kind"] == "rectangle":
        return all(abs(p[a] - region["centre_m"][a]) < region["size_m"][a] / 2 for a in (0, 1))
    if region["kind"] == "edge band":
        if not hasattr(plane, "_edge_points"):
            plane._edge_points = np.array([plane.curve.offset(s, 0) for s in np.linspace(0, plane.curve.length, 8000)])
        return np.min(np.hypot(*(plane._edge_points - p).T)) < region["width_m"]
    if region["kind"] == "round":
        return math.hypot(*(np.asarray(p) - region["centre_m"])) < region["radius_m"]
    raise ValueError(f"unknown region {region['kind']}")


# ---------------------------------------------------------------- the solid

class Solid:
    """Nodes, elements by material and angle, and the sets to hold and to print."""

    def __init__(self, case, mesh):
        plane = rectangle_plane(case, mesh) if case["shape"]["kind"] == "rectangle" else outline_plane(case, mesh)
        self.plane = plane
        self.case, self.bars = case, bars_of(case)
        layers = case["layers"]
        levels, owner, self.rungs = [0.0], [], [(0, 0.0)]       # a rung: layer, and how far up within it
        for n, layer in enumerate(layers):
            count = mesh["through"][n]
            base = levels[-1]
            for i in range(count):
                for part in ((i + 0.5) / count, (i + 1) / count):
                    levels.append(base + layer["thickness_m"] * part)
                    self.rungs.append((n, part))
                owner.append(n)
        self.levels = levels
        self.dome = [1 / case["dome"][k] for k in ("rx_m", "ry_m")] if "dome" in case else None
        self.ids, self.nodes, self.elements = {}, [], {}
        choices = {}
        for corners, mids, centre in plane.cells:
            key = (centre[0], centre[1])
            if key not in choices:
                stack = [(layer["material"], layer.get("angle_deg", 0)) for layer in layers]
                for region in case.get("regions", []):
                    if in_region(region, centre, plane):
                        stack[region["layer"]] = (region["material"], region.get("angle_deg", 0))
                choices[key] = stack
            stack = choices[key]
            kind = "C3D15" if len(corners) == 3 else mesh.get("element", "C3D20R")
            for e, layer in enumerate(owner):
                self._element((kind, *stack[layer]), corners, mids, [2 * e, 2 * e + 1, 2 * e + 2])
            for n, bar in enumerate(self.bars):
                if not bar.holds(centre):
                    continue
                rows = mesh["bar_through"]
                steps = range(2 * rows + 1)
                if bar.outer:
                    climb = [len(levels) - 1] + [(n, k / (2 * rows)) for k in steps[1:]]
                else:
                    climb = [(n, k / (2 * rows)) for k in steps[:0:-1]] + [0]
                for k in range(0, 2 * rows, 2):
                    self._element((kind, bar.given["material"], bar.angle), corners, mids, climb[k:k + 3])
        self._hold(case)
        self._sample(case)

    def _element(self, key, corners, mids, levels):
        low, middle, high = levels
        ids = ([self._id(i, low) for i in corners] + [self._id(i, high) for i in corners]
               + [self._id(i, low) for i in mids] + [self._id(i, high) for i in mids]
               + [self._id(i, middle) for i in corners])
        self.elements.setdefault(key, []).append((ids, np.mean([self.plane.points[i] for i in corners], axis=0)))

    def _id(self, point, level):
        """The node at a point of the plane; the level is a rung of the board, or (bar, part of its height)."""
        key = (point, level)
        if key not in self.ids:
            self.ids[key] = len(self.nodes) + 1
            self.nodes.append(self._place(self.plane.points[point], level))
        return self.ids[key]

    def _place(self, p, level):
        thick = [self._thickness(layer, p) for layer in self.case["layers"]]
        if isinstance(level, tuple):
            bar = self.bars[level[0]]
            rise = level[1] * bar.height_at(p)
            z = sum(thick) + rise if bar.outer else -rise
        else:
            n, part = self.rungs[level]
            z = sum(thick[:n]) + part * thick[n]
        if self.dome is None:
            return p[0], p[1], z
        middle = sum(thick) / 2
        a, b = self._slope(p)
        return p[0], p[1], middle + (a * p[0] + b * p[1]) / 2 + (z - middle) * math.sqrt(1 + a * a + b * b)

    def _slope(self, p):
        return self.dome[0] * p[0], self.dome[1] * p[1]

    def _thickness(self, layer, p):
        """A graded layer goes linearly from its first thickness at x = -L/2 to its second at x = L/2."""
        graded = layer.get("graded_m")
        if graded is None:
            return layer["thickness_m"]
        return graded[0] + (graded[1] - graded[0]) * (p[0] / self.case["shape"]["length_m"] + 0.5)

    def _hold(self, case):
        """(node, first, last) triples from the edge condition."""
        edge, self.held, self.rigid = case["edge"], [], 6
        face = [(p, k, i) for (p, k), i in self.ids.items() if p in self.plane.edge]
        assert all(isinstance(k, int) for _, k, _ in face), "a bar reaches the edge"
        if edge == "clamped":
            self.held, self.rigid = [(i, 1, 3) for _, _, i in face], 0
        elif edge == "hinged-face":
            self.held, self.rigid = [(i, 3, 3) for _, _, i in face], 3
        elif edge == "hinged-line":
            middle = min(range(0, len(self.levels)), key=lambda k: abs(self.levels[k] - case["line_height_m"]))
            assert abs(self.levels[middle] - case["line_height_m"]) < 1e-9, "no row of nodes at the held line"
            self.held, self.rigid = [(i, 3, 3) for _, k, i in face if k == middle], 3
        elif edge == "hinged-hard-face":
            half = (case["shape"]["length_m"] / 2, case["shape"]["width_m"] / 2)
            self.rigid = 0
            for p, _, i in face:
                x, y = self.plane.points[p]
                self.held.append((i, 3, 3))
                if abs(abs(x) - half[0]) < 1e-9:
                    self.held.append((i, 2, 2))
                if abs(abs(y) - half[1]) < 1e-9:
                    self.held.append((i, 1, 1))
        elif edge != "free":
            raise ValueError(f"unknown edge {edge}")

    def _sample(self, case):
        """Some hundred well-spread nodes near the middle surface that every mesh of the study has, for the shapes."""
        half = sum(l["thickness_m"] for l in case["layers"]) / 2
        level = min(range(0, len(self.levels), 2), key=lambda k: abs(self.levels[k] - half))
        points = sorted((p for p in self.plane.coarse if (p, level) in self.ids), key=lambda p: self.plane.points[p])
        xy = np.array([self.plane.points[p] for p in points])
        span = np.ptp(xy, axis=0)
        step = math.sqrt(span[0] * span[1] / 100)
        best = {}
        for p, (x, y) in zip(points, xy):
            cell = (round((x - xy[0, 0]) / step), round((y - xy[:, 1].min()) / step))
            gap = math.hypot((x - xy[0, 0]) - cell[0] * step, (y - xy[:, 1].min()) - cell[1] * step)
            if cell not in best or gap < best[cell][0] - 1e-6:
                best[cell] = (gap, p)
        self.sample = {self.ids[p, level]: self.plane.points[p] for _, p in best.values()}

    def deck(self, case, materials, count):
        """The CalculiX input, as text."""
        out = ["*NODE, NSET=ALL"]
        out += [f"{i + 1},{x:.10e},{y:.10e},{z:.10e}" for i, (x, y, z) in enumerate(self.nodes)]
        number, sections, used = 0, [], {}
        groups = {}
        for (kind, material, angle), elements in sorted(self.elements.items()):
            for ids, centre in elements:        # on a dome every cell of the plane has its own tangent
                tangent = tuple(np.round(self._slope(centre), 9)) if self.dome else None
                groups.setdefault((kind, material, angle, tangent), []).append(ids)
        for n, ((kind, material, angle, tangent), elements) in enumerate(groups.items()):
            out.append(f"*ELEMENT, TYPE={kind}, ELSET=E{n}")
            for ids in elements:
                number += 1
                row = [str(v) for v in (number, *ids)]
                out.append(",".join(row[:16]) + ("," if len(row) > 16 else ""))
                if len(row) > 16:
                    out.append(",".join(row[16:]))
            key = (material, angle, tangent) if self.dome else material
            used.setdefault(key, len(used))
            sections.append((n, used[key], angle))
        for key, m in used.items():
            if self.dome:                       # constants in the axes of the room: CalculiX keeps (elements x orientations) numbers
                constants = turned_stiffness(materials[key[0]], key[1], key[2])
                rows, kind, density = [constants[:8], constants[8:16], constants[16:]], "ANISO", materials[key[0]]["density"]
            else:
                v = materials[key]
                constants = [v[k] for k in ("E1", "E2", "E3", "nu12", "nu13", "nu23", "G12", "G13", "G23")]
                rows, kind, density = [constants[:8], constants[8:]], "ENGINEERING CONSTANTS", v["density"]
            out += [f"*MATERIAL, NAME=M{m}", f"*ELASTIC, TYPE={kind}", *(",".join(f"{c:.9e}" for c in row) for row in rows),
                    "*DENSITY", f"{density:.9e}"]
        for n, m, angle in sections:
            c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
            if self.dome:
                out.append(f"*SOLID SECTION, ELSET=E{n}, MATERIAL=M{m}")
            else:
                out += [f"*ORIENTATION, NAME=O{n}, SYSTEM=RECTANGULAR", f"{c:.12f},{s:.12f},0,{-s:.12f},{c:.12f},0",
                        f"*SOLID SECTION, ELSET=E{n}, MATERIAL=M{m}, ORIENTATION=O{n}"]
        if self.held:
            out.append("*BOUNDARY")
            out += [f"{i},{a},{b}" for i, a, b in self.held]
        out.append("*NSET, NSET=SAMPLE")
        out += [str(i) for i in self.sample]
        out += ["*STEP", "*FREQUENCY", f"{count}", "*NODE PRINT, NSET=SAMPLE", "U", "*END STEP", ""]
        self.count = number
        return "\n".join(out)


# ---------------------------------------------------------------- running and reading

def solver_version():
    text = subprocess.run(["ccx", "-v"], capture_output=True, text=True).stdout
    return "CalculiX " + re.search(r"Version (\S+)", text).group(1)


def solve(case, mesh, materials, modes=None, nice=10):
    """Runs one mesh. Returns a dictionary: frequencies without the rigid-body ones, shapes, sizes and times."""
    solid = Solid(case, mesh)
    wanted = (modes or case["modes"])
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "job.inp").write_text(solid.deck(case, materials, solid.rigid + wanted + 2))
        env = dict(os.environ, OMP_NUM_THREADS="1", CCX_NPROC_RESULTS="1", CCX_NPROC_STIFFNESS="1")
        clock = time.monotonic()
        with open(Path(folder) / "log", "w") as log:
            run = subprocess.Popen(["nice", "-n", str(nice), "ccx", "job"], cwd=folder, env=env, stdout=log, stderr=log)
            _, status, used = os.wait4(run.pid, 0)      # this run alone: its time and its largest memory
        wall, cpu = time.monotonic() - clock, used.ru_utime + used.ru_stime
        dat = Path(folder) / "job.dat"
        if status or not dat.exists() or "E I G E N V A L U E" not in dat.read_text():
            sys.exit(f"ccx failed on {case['name']} {mesh['name']}:\n{(Path(folder) / 'log').read_text()[-2000:]}")
        frequencies, shapes = read_dat(dat.read_text(), solid)
    rigid = [f for f, _ in zip(frequencies, range(solid.rigid))]
    keep = slice(solid.rigid, solid.rigid + wanted)
    return {"frequencies": frequencies[keep], "shapes": shapes[keep], "rigid": max(map(abs, rigid), default=0.0),
            "nodes": len(solid.nodes), "elements": solid.count, "cpu": cpu, "wall": wall, "sample": solid.sample,
            "peak_mb": used.ru_maxrss / 1024}


def read_dat(text, solid):
    """Frequencies (Hz; minus the imaginary part where an eigenvalue is negative) and sampled displacements per mode."""
    head = text.index("E I G E N V A L U E")
    tail = text.find("P A R T I C I P A T I O N", head)
    frequencies = []
    for line in text[head:tail].splitlines():
        v = line.split()
        if len(v) == 5 and v[0].isdigit():
            frequencies.append(float(v[3]) if float(v[1]) >= 0 else -float(v[4]) / (2 * math.pi))
    shapes = []
    for block in re.split(r"displacements \(vx,vy,vz\)[^\n]*\n", text)[1:]:
        at = {}
        for line in block.splitlines():
            v = line.split()
            if len(v) == 4 and v[0].isdigit():
                at[int(v[0])] = tuple(map(float, v[1:]))
            elif at and v:
                break
        shapes.append(np.array([at[i] for i in solid.sample]))
    assert len(shapes) == len(frequencies), "shapes and frequencies do not match"
    return frequencies, shapes


def kind_of(shape):
    rms = np.sqrt(np.mean(shape ** 2, axis=0))
    return "in-plane" if rms[2] < max(rms[0], rms[1]) else "bending"


# ---------------------------------------------------------------- tables

def read_rows(path):
    if not path.exists():
        return []
    with open(path, newline="") as f:
        return list(csv.DictReader(f))


def write_rows(path, fields, rows):
    with open(path, "w", newline="") as f:
        out = csv.DictWriter(f, fields, lineterminator="\n")
        out.writeheader()
        out.writerows(rows)


def run_case(case, materials, only=None):
    solver, date = solver_version(), datetime.date.today().isoformat()
    for mesh in case["meshes"]:
        if only and mesh["name"] not in only:
            continue
        result = solve(case, mesh, materials)
        rows = [r for r in read_rows(STUDY) if (r["case"], r["mesh"]) != (case["name"], mesh["name"])]
        for n, (f, shape) in enumerate(zip(result["frequencies"], result["shapes"]), 1):
            rows.append({"case": case["name"], "mesh": mesh["name"], "mode": n, "frequency_hz": f"{f:.7g}",
                         "kind": kind_of(shape), "element": mesh.get("element", "C3D20R"), "refine": mesh["refine"],
                         "elements": result["elements"], "nodes": result["nodes"],
                         "solver_cpu_s": f"{result['cpu']:.1f}", "solver_wall_s": f"{result['wall']:.1f}", "peak_mb": f"{result['peak_mb']:.0f}",
                         "rigid_max_hz": f"{result['rigid']:.2g}", "date": date, "solver": solver})
        write_rows(STUDY, STUDY_FIELDS, rows)
        if mesh["role"] == "plane":             # the last of these is the finest
            keep = [r for r in read_rows(SHAPES) if r["case"] != case["name"]]
            for n, shape in enumerate(result["shapes"], 1):
                scale = shape.flat[np.argmax(np.abs(shape))]
                keep += [{"case": case["name"], "mode": n, "x_m": f"{x:.6f}", "y_m": f"{y:.6f}", "w": f"{w / scale:.4f}"}
                         for (x, y), w in zip(result["sample"].values(), shape[:, 2])]
            write_rows(SHAPES, ["case", "mode", "x_m", "y_m", "w"], keep)
        print(f"{case['name']} {mesh['name']}: {result['nodes']} nodes, {result['cpu']:.0f} s cpu, "
              f"{result['wall']:.0f} s, {result['peak_mb']:.0f} MB, rigid {result['rigid']:.2g} Hz: "
              + " ".join(f"{f:.5g}" for f in result["frequencies"]), flush=True)


def speed(case, setting, materials):
    """Times coarse meshes of a case and gives their largest error over its modes against the table's best values."""
    best = [float(r["frequency_hz"]) for r in read_rows(TABLE) if r["case"] == case["name"]][:setting["modes"]]
    if len(best) < setting["modes"]:
        sys.exit(f"run {case['name']} first: the errors are taken against its table")
    rows = []
    for mesh in setting["meshes"]:
        result = solve(case, mesh, materials, setting["modes"])
        errors = [100 * (f / b - 1) for f, b in zip(result["frequencies"], best)]
        rows.append({"mesh": mesh["name"], "through": "+".join(map(str, mesh["through"])), "element": mesh.get("element", "C3D20R"),
                     "elements": result["elements"], "nodes": result["nodes"], "modes": setting["modes"],
                     "largest_error_percent": f"{max(map(abs, errors)):.3f}",
                     "first_ten_error_percent": f"{max(map(abs, errors[:10])):.3f}",
                     "solver_cpu_s": f"{result['cpu']:.2f}", "solver_wall_s": f"{result['wall']:.2f}",
                     "peak_mb": f"{result['peak_mb']:.0f}", "date": datetime.date.today().isoformat(), "solver": solver_version()})
        print(rows[-1], flush=True)
    write_rows(SPEED, list(rows[0]), rows)


def limit(values, refines):
    """Extrapolates f(r) = f0 + c r^-p. Returns (f0, p); p is held between 1 and 6; two meshes assume p = 2."""
    if len(values) == 1:
        return values[0], None
    if len(values) == 2 or (values[-2] - values[-3]) * (values[-1] - values[-2]) <= 0:
        p = 2.0
    else:
        r = refines[-3:]
        want = (values[-3] - values[-2]) / (values[-2] - values[-1])
        ratio = lambda p: (r[0] ** -p - r[1] ** -p) / (r[1] ** -p - r[2] ** -p)
        lo, hi = 1.0, 6.0
        if want <= ratio(lo):
            p = lo
        elif want >= ratio(hi):
            p = hi
        else:
            for _ in range(60):
                p = (lo + hi) / 2
                lo, hi = (p, hi) if ratio(p) < want else (lo, p)
    a, b = refines[-2] ** -p, refines[-1] ** -p
    return values[-1] + (values[-1] - values[-2]) * b / (a - b), p


def tabulate(cases):
    """three-dimensional.csv from the mesh study: finest mesh, limit, and the estimated mesh error in per cent."""
    study, out = read_rows(STUDY), []
    for case in cases:
        rows = {(r["mesh"], int(r["mode"])): r for r in study if r["case"] == case["name"]}
        run = [m for m in case["meshes"] if (m["name"], 1) in rows]
        plane = [m for m in run if m["role"] == "plane"]
        if not plane:
            continue
        finest = plane[-1]
        for mode in range(1, case["modes"] + 1):
            f = [float(rows[m["name"], mode]["frequency_hz"]) for m in plane]
            f0, order = limit(f, [m["refine"] for m in plane])
            error = abs(f0 - f[-1])
            through = None                  # no such run: nothing is said of the error through the thickness
            for m in run:
                if m["role"] == "through":      # the same plane mesh with more elements through the thickness
                    same = next(q for q in plane if q["name"] == m["compare"])
                    through = float(rows[m["name"], mode]["frequency_hz"]) - float(rows[same["name"], mode]["frequency_hz"])
            best = f0 + (through or 0)
            last = rows[finest["name"], mode]
            out.append({"case": case["name"], "mode": mode, "frequency_hz": f"{best:.6g}",
                        "finest_hz": f"{f[-1]:.6g}", "kind": last["kind"],
                        "plane_order": "" if order is None else f"{order:.1f}",
                        "plane_error_percent": "" if order is None else f"{100 * (f[-1] - f0) / f0:.3f}",
                        "thickness_error_percent": "" if through is None else f"{-100 * through / f0:.3f}",
                        "error_percent": "" if order is None else f"{100 * (error + abs(through or 0)) / f0:.3f}",
                        "mesh": finest["name"], "nodes": last["nodes"], "date": last["date"], "solver": last["solver"]})
    if out:
        write_rows(TABLE, list(out[0]), out)
    return out


# ---------------------------------------------------------------- exact elasticity of a hard-hinged rectangle

def stiffness(m):
    """6 x 6 stiffness in the order xx, yy, zz, yz, xz, xy, from engineering constants."""
    s = np.zeros((6, 6))
    e = (m["E1"], m["E2"], m["E3"])
    for i, j, nu in ((0, 1, m["nu12"]), (0, 2, m["nu13"]), (1, 2, m["nu23"])):
        s[i, j] = s[j, i] = -nu / e[i]
    for i in range(3):
        s[i, i] = 1 / e[i]
    s[3, 3], s[4, 4], s[5, 5] = 1 / m["G23"], 1 / m["G13"], 1 / m["G12"]
    return np.linalg.inv(s)


def turned_stiffness(material, angle, slope):
    """The 21 constants of *ELASTIC, TYPE=ANISO: axis 1 at the angle (degrees) in the plane with these slopes, 3 its normal."""
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    first = np.array([c, s, slope[0] * c + slope[1] * s])
    third = np.array([-slope[0], -slope[1], 1.0])
    first, third = first / np.linalg.norm(first), third / np.linalg.norm(third)
    axes = np.stack([first, np.cross(third, first), third], -1)     # columns: the material's axes
    place = np.array([[0, 5, 4], [5, 1, 3], [4, 3, 2]])             # of the pair i, j in stiffness()
    own = stiffness(material)[place][:, :, place]
    room = np.einsum("ia,jb,kc,ld,abcd->ijkl", axes, axes, axes, axes, own)
    pairs = [(0, 0), (1, 1), (2, 2), (0, 1), (0, 2), (1, 2)]
    return [float(room[(*pairs[i], *pairs[j])]) for j in range(6) for i in range(j + 1)]


def exact(case, materials, degree=5):
    """Frequencies of a hard-hinged rectangle (w = 0 and no displacement along the edge), (f, m, n) in rising order.

    u = U cos ax sin by, v = V sin ax cos by, w = W sin ax sin by with a = m pi/L, b = n pi/B satisfy the edge exactly;
    U, V, W are polynomials of the given degree in each layer, so that only rounding is left. Angles must be 0. A dome is
    left out: this is the flat plate.
    """
    for more in ("regions", "holes", "bars"):
        assert not case.get(more), f"exact solution: no {more}"
    assert not any("graded_m" in layer for layer in case["layers"]), "exact solution: every layer of one thickness"
    from scipy.linalg import eigh
    length, width = case["shape"]["length_m"], case["shape"]["width_m"]
    x, weight = np.polynomial.legendre.leggauss(degree + 2)
    nodes = -np.cos(np.pi * np.arange(degree + 1) / degree)
    fit = np.linalg.inv(np.polynomial.legendre.legvander(nodes, degree))
    value = np.polynomial.legendre.legvander(x, degree) @ fit
    slope = np.stack([np.polynomial.legendre.legval(x, np.polynomial.legendre.legder(np.eye(degree + 1)[k]))
                      for k in range(degree + 1)], -1) @ fit
    layers = case["layers"]
    size = degree * len(layers) + 1
    found = []
    for m in range(9):
        for n in range(9):
            if m == n == 0:
                continue
            a, b = m * math.pi / length, n * math.pi / width
            k, mass = np.zeros((3 * size, 3 * size)), np.zeros((3 * size, 3 * size))
            for l, layer in enumerate(layers):
                assert not layer.get("angle_deg"), "exact solution: angles must be 0"
                c, rho, h = stiffness(materials[layer["material"]]), materials[layer["material"]]["density"], layer["thickness_m"]
                dof = np.concatenate([f * size + l * degree + np.arange(degree + 1) for f in range(3)])
                for q in range(len(x)):
                    v, d, o = value[q], slope[q] * 2 / h, np.zeros(degree + 1)
                    strain = np.array([np.concatenate(r) for r in (
                        (-a * v, o, o), (o, -b * v, o), (o, o, d), (o, d, b * v), (d, o, a * v), (b * v, a * v, o))])
                    w = weight[q] * h / 2
                    k[np.ix_(dof, dof)] += w * strain.T @ c @ strain
                    for f in range(3):
                        i = f * size + l * degree + np.arange(degree + 1)
                        mass[np.ix_(i, i)] += w * rho * np.outer(v, v)
            if m == 0 or n == 0:            # sin 0 = 0: only u (m = 0) or v (n = 0) is left
                part = slice(0, size) if m == 0 else slice(size, 2 * size)
                k, mass = k[part, part], mass[part, part]
            # the largest of M x = (1/omega^2) K x: the small frequencies keep their digits
            inverse = eigh(mass, k, eigvals_only=True)[-2:]
            found += [(1 / (math.sqrt(v) * 2 * math.pi), m, n) for v in inverse]
    return sorted(found)


# ---------------------------------------------------------------- command line

def main():
    arguments = argparse.ArgumentParser(description="Layered solid models of sandwich boards, solved with CalculiX.")
    arguments.add_argument("case", nargs="*")
    for flag in ("--all", "--list", "--exact", "--speed", "--table"):
        arguments.add_argument(flag, action="store_true")
    arguments.add_argument("--mesh", action="append", help="only this mesh (may be repeated)")
    a = arguments.parse_args()
    data = json.loads(CASES.read_text())
    materials, cases = data["materials"], {c["name"]: c for c in data["cases"]}
    unknown = [c for c in a.case if c not in cases]
    if unknown:
        sys.exit(f"no such case: {', '.join(unknown)}; try --list")
    chosen = [cases[c] for c in (cases if a.all else a.case)]
    if a.list:
        for c in cases.values():
            print(f"{c['name']:24s} {c['title']}")
    elif a.exact:
        for c in chosen:
            for f, m, n in exact(c, materials)[:c["modes"]]:
                print(f"{c['name']} ({m},{n}) {f:.6g} Hz")
    elif a.speed:
        speed(cases[data["speed"]["case"]], data["speed"], materials)
    else:
        if not chosen and not a.table:
            arguments.error("name a case, or --all, --list, --table")
        for c in chosen:
            run_case(c, materials, a.mesh)
        tabulate(list(cases.values()))


if __name__ == "__main__":
    main()
