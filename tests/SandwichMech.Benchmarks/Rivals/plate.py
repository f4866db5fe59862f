#!/usr/bin/env python3
"""A rival: the same plate theory with cubic curved triangles in NumPy, CHOLMOD and ARPACK.

    python3 plate.py MESH.json ...       one line of JSON for each: frequencies, seconds by phase

The mesh (cubic nodes on the curved outline) and the sections are given; what is timed is all from there to the frequencies,
without imports and without reading the file, three times over, and the fastest counts. Reissner-Mindlin with the motions
u, v, w, phi_x, phi_y (Reddy 2004, Mechanics of Laminated Composite Plates and Shells, section 3.4), full integration.

Needs Debian's python3-numpy, python3-scipy, libcholmod3, and libopenblas0-serial for a fast BLAS.
"""

import json
import math
import re
import sys
import time

import numpy as np
from scipy.sparse import csc_matrix, csr_matrix
from scipy.sparse.linalg import LinearOperator, eigsh

import cholmod

MOTIONS = 5
RUNS = 3
# Residual of ARPACK over the eigenvalue: its error is at most that, and by far smaller than the mesh's.
TOLERANCE = 1e-4
# strain: (motion, operator); the operators are d/dx, d/dy and 1
STRAINS = [[(0, 0)], [(1, 1)], [(0, 1), (1, 0)], [(3, 0)], [(4, 1)], [(3, 1), (4, 0)], [(2, 0), (3, 2)], [(2, 1), (4, 2)]]


def monomials(r, s):
    """Values and derivatives of the ten monomials of degree 3 and less."""
    powers = [(i, j) for i in range(4) for j in range(4 - i)]
    at = lambda i, j: r ** i * s ** j if i >= 0 and j >= 0 else np.zeros_like(r)
    return [np.stack([f(i, j) for i, j in powers], -1) for f in
            (at, lambda i, j: i * at(i - 1, j), lambda i, j: j * at(i, j - 1))]


def tables(basis):
    """Shape functions N, dN/dr, dN/ds [point, node] and the weights of a rule of degree 6 (Gauss product on the collapsed square)."""
    basis = np.asarray(basis)
    inverse = np.linalg.inv(monomials(basis[:, 0], basis[:, 1])[0])
    x, w = np.polynomial.legendre.leggauss(4)
    x, w = (x + 1) / 2, w / 2
    r, s = (np.outer(1 - x, x)).ravel(), np.repeat(x, 4)
    return [m @ inverse for m in monomials(r, s)] + [np.outer(w * (1 - x), w).ravel()]


def integrals(mesh):
    """G[triangle, operator, node, operator, node]."""
    n, dr, ds, weights = mesh["tables"]
    xy = mesh["points"][mesh["triangles"]]                       # triangle, node, axis
    along_r, along_s = dr @ xy, ds @ xy                          # triangle, point, axis
    det = along_r[..., 0] * along_s[..., 1] - along_r[..., 1] * along_s[..., 0]
    scale = 1 / det[..., None]
    operators = np.empty((len(xy), 3, 10, len(weights)))
    operators[:, 0] = ((dr * along_s[..., 1:] - ds * along_r[..., 1:]) * scale).swapaxes(1, 2)
    operators[:, 1] = ((ds * along_r[..., :1] - dr * along_s[..., :1]) * scale).swapaxes(1, 2)
    operators[:, 2] = n.T
    flat = operators.reshape(len(xy), 30, -1)
    g = (flat * (weights * det)[:, None]) @ flat.swapaxes(1, 2)
    return g.reshape(-1, 3, 10, 3, 10), det @ weights


def coefficients(section):
    """K's coefficient of each pair of operators between each pair of motions: [motion, motion, operator, operator]."""
    stiffness, k = np.asarray(section["stiffness"]), np.zeros((MOTIONS, MOTIONS, 3, 3))
    for i, first in enumerate(STRAINS):
        for j, second in enumerate(STRAINS):
            for a, o in first:
                for b, p in second:
                    k[a, b, o, p] += stiffness[i, j]
    return k


def assemble(mesh, shift):
    """K + shift M (lower triangle, by columns), M, and the order of elimination."""
    g, areas = integrals(mesh)
    triangles, section = mesh["triangles"], mesh["section"]
    k = np.empty((len(triangles), MOTIONS * MOTIONS, 100))
    m = np.empty_like(k)
    ones = np.ascontiguousarray(g[:, 2, :, 2, :]).reshape(-1, 1, 100)
    pairs = np.ascontiguousarray(g.transpose(0, 1, 3, 2, 4)).reshape(-1, 9, 100)
    for number, part in enumerate(mesh["sections"]):
        mine = np.flatnonzero(section == number)
        inertia = np.asarray(part["inertia"])
        m[mine] = inertia.reshape(-1, 1) * ones[mine]
        k[mine] = coefficients(part).reshape(-1, 9) @ pairs[mine]
    k += shift * m
    # blocks of five by five between nodes, added up where triangles meet
    nodes = len(mesh["points"])
    key = (triangles[:, :, None].astype(np.int64) * nodes + triangles[:, None, :]).ravel()
    by_key = np.argsort(key, kind="stable")
    ordered = key[by_key]
    starts = np.flatnonzero(np.concatenate([[True], ordered[1:] != ordered[:-1]]))
    row, column = ordered[starts] // nodes, ordered[starts] % nodes
    sums = csr_matrix((np.ones(len(key)), by_key, np.append(starts, len(key))), (len(starts), len(key)))
    add = lambda v: sums @ v.transpose(0, 2, 1).reshape(-1, MOTIONS * MOTIONS)
    free = np.ones(nodes, bool)
    free[mesh["held"]] = False
    number = np.where(free, np.cumsum(free) - 1, -1)
    both = free[row] & free[column]
    row, column = number[row[both]], number[column[both]]
    count = int(free.sum())
    k, m = add(k)[both].reshape(-1, MOTIONS, MOTIONS), add(m)[both].reshape(-1, MOTIONS, MOTIONS)
    graph = row >= column
    pattern = csc_matrix((np.ones(graph.sum(), np.int8), (row[graph], column[graph])), (count, count))
    order = cholmod.order(pattern, "amd")
    full = (order[:, None] * MOTIONS + np.arange(MOTIONS)).ravel()
    size = count * MOTIONS
    a, b = np.meshgrid(np.arange(MOTIONS), np.arange(MOTIONS), indexing="ij")
    i, j = row[:, None, None] * MOTIONS + a, column[:, None, None] * MOTIONS + b
    low = i >= j
    lower = csc_matrix((k[low], (i[low].astype(np.int32), j[low].astype(np.int32))), (size, size))
    lower.sort_indices()
    present = m != 0
    mass = csr_matrix((m[present], (i[present], j[present])), (size, size))
    return lower, mass, full


def shift_of(mesh):
    """Below all eigenvalues and of the order of the first: a plate of the mean section and the same area; 0 where the edge is held."""
    if mesh["held"].size:
        return 0.0
    areas = integrals(mesh)[1]
    share = np.bincount(mesh["section"], areas, len(mesh["sections"]))
    bending = sum(a * math.sqrt(p["stiffness"][3][3] * p["stiffness"][4][4]) for a, p in zip(share, mesh["sections"]))
    mass = sum(a * p["inertia"][2][2] for a, p in zip(share, mesh["sections"]))
    return 100 * bending / (mass * areas.sum() ** 2)


def solve(mesh):
    clock = time.perf_counter()
    marks = [time.process_time()]
    shift = shift_of(mesh)
    lower, mass, order = assemble(mesh, shift)
    marks.append(time.process_time())
    factor = cholmod.Factor(lower, order)
    marks.append(time.process_time())
    rigid = 0 if mesh["held"].size else 6
    wanted = mesh["modes"] + rigid
    size = lower.shape[0]
    inverse = LinearOperator((size, size), factor.solve, dtype=float)
    start = np.random.default_rng(1).standard_normal(size)
    values = eigsh(mass, wanted, mass, sigma=-shift, OPinv=inverse, which="LM", v0=start, tol=TOLERANCE, ncv=2 * wanted,
                   return_eigenvectors=False)
    marks.append(time.process_time())
    frequencies = np.sqrt(np.sort(values)[rigid:]) / (2 * math.pi)
    assembly, factor, modes = map(float, np.diff(marks))
    return {"frequencies": frequencies.tolist(), "cpu": marks[-1] - marks[0], "wall": time.perf_counter() - clock, "assembly": assembly,
            "factor": factor, "modes": modes, "triangles": len(mesh["triangles"]), "unknowns": size, "blas": blas()}


def read(path):
    with open(path) as f:
        data = json.load(f)
    return {"points": np.asarray(data["points"]), "triangles": np.asarray(data["triangles"]), "section": np.asarray(data["section"]),
            "sections": data["sections"], "held": np.asarray(data["held"], int), "modes": data["modes"],
            "tables": tables(data["basis"])}


def blas():
    """The BLAS that CHOLMOD and SciPy call."""
    with open("/proc/self/maps") as f:
        found = re.findall(r"\S*/(?:lib)?(openblas\S*|mkl\S*|blis\S*|blas\S*)/\S*lib\S*\.so\S*", f.read())
    return ", ".join(sorted(set(found)))


if __name__ == "__main__":
    for name in sys.argv[1:]:
        given = read(name)
        print(json.dumps(min((solve(given) for _ in range(RUNS)), key=lambda run: run["cpu"])), flush=True)
