#!/usr/bin/env python3
"""A rival: the same board as layers of solid (20-node bricks with reduced integration), solved with CalculiX.

    python3 solid.py CASE.json MESH              one line of JSON: frequencies, processor seconds of ccx
    python3 solid.py CASE.json --meshes          the names of the meshes, from coarse to fine, one to a line
    python3 solid.py CASE.json --limit           the converged frequencies, from two nested meshes; takes minutes

Decks are built by the judge of the plate theory (tests/SandwichMech.Tests/ThreeDimensional/judge.py), from the outline and the
layers given. Woods and core are the judge's own; a bond line's stiffness and mass are spread over its skin, which leaves the
frequencies some per cent from the plate's. CalculiX is judged against its own limit, so that its error is the mesh's alone.

Needs Debian's calculix-ccx, python3-gmsh, python3-numpy, and libopenblas0-serial for a fast BLAS.
"""

import json
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "SandwichMech.Tests" / "ThreeDimensional"))
import judge  # noqa: E402

# From coarse to fine; the first that is good enough is the rival. One element through a layer; thin cells along edge, hole and borders.
MESHES = {f"{size} mm": dict(size_m=size / 1000, edge_cells_m=[0.003, 0.007, 0.006], hole_cells_m=[0.007, 0.008, 0.006],
                             border_cells_m=[0.004], border_margin_m=[0.006])
          for size in (19, 14, 12, 10)}
FINE = dict(size_m=0.026, edge_cells_m=[0.002, 0.005, 0.003, 0.004, 0.008], hole_cells_m=[0.004, 0.008, 0.003, 0.004], border_cells_m=[0.003], border_margin_m=[0.004])
# Two nested meshes, and the order that the judge's own three have on outlines (plane_order in three-dimensional.csv).
REFINES, ORDER = (1, 2), 4


def case_of(given, materials):
    """The judge's case, and the materials with the bond lines in the skins."""
    sheets = {layer["name"]: layer for layer in given["layers"]}
    materials, layers = dict(materials), []
    for name, material in (("inner skin", "spruce"), ("core", "honeycomb"), ("outer skin", "cedar-like")):
        thickness = sheets[name]["thickness_m"]
        if name != "core":                  # the skin with its bond line, side by side
            film = sheets[name.split()[0] + " bond line"]
            share = film["thickness_m"] / thickness
            own = dict(materials[material], density=(sheets[name]["areal_mass"] + film["areal_mass"]) / thickness)
            for key, more in (("E1", "E1"), ("E2", "E1"), ("G12", "G12")):
                own[key] += share * film[more]
            material = name
            materials[material] = own
        layers.append({"name": name, "material": material, "thickness_m": thickness})
    hole, patch = given["hole_m"], given["patch_m"]
    let_in = {"layer": 1, "material": "spruce"}
    return {
        "name": "demo outline, " + given["edge"], "edge": given["edge"], "modes": given["modes"], "layers": layers,
        "shape": {"kind": "outline", "points_m": given["outline_m"]},
        "holes": [{"kind": "circle", "centre_m": hole["centre"], "radius_m": hole["radius"]}],
        "regions": [{"name": "edge band", "kind": "edge band", "width_m": given["band_m"], **let_in},
                    {"name": "hole ring", "kind": "round", "centre_m": hole["centre"], "radius_m": hole["ring"], **let_in},
                    {"name": "bridge patch", "kind": "rectangle", "centre_m": patch["centre"], "size_m": patch["size"], **let_in}],
    }, materials


def main(path, what):
    given = json.loads(Path(path).read_text())
    case, materials = case_of(given, json.loads(judge.CASES.read_text())["materials"])
    solve = lambda name, mesh, nice: judge.solve(case, {"name": name, "refine": 1, "through": [1, 1, 1], **mesh}, materials, nice=nice)
    if what == "--meshes":
        print(*(json.dumps(name) for name in MESHES), sep="\n")
    elif what == "--limit":
        found = []
        for refine in REFINES:
            found.append(solve("fine", {**FINE, "refine": refine, "through": [1, 2, 1]}, 10)["frequencies"])
        left = 1 / (REFINES[1] ** ORDER - 1)
        print(json.dumps({"frequencies": [round(fine + left * (fine - coarse), 4) for coarse, fine in zip(*found)]}))
    else:
        result = solve(what, MESHES[what], 0)
        print(json.dumps({"mesh": what} | {k: result[k] for k in ("frequencies", "cpu", "wall", "nodes", "peak_mb")}))


if __name__ == "__main__":
    main(*sys.argv[1:])
