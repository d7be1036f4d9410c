"""Walks frames with stiff springs in OpenSees: JSON in, JSON out.     (tests/oracles/opensees_run.py)

    python opensees_run.py --check      prints the version, or fails
    python opensees_run.py < MODEL      prints what opensees.py describes

Run by whatever Python has the package, so only the standard library is used, and in a process of its own: the program
keeps one model for the whole process and brings a BLAS of its own. That BLAS is loaded by hand before it, because the
package finds its LAPACK but leaves it to the system to find the BLAS that goes with it.

Contacts, each between a node and the ground:

    hold    zeroLength with ENT (no tension, stiffness K): a one-sided rest
    gap     zeroLength with a pair of ElasticPPGap that never yield: a clearance on either side
    rub     zeroLength with ElasticPP of stiffness K and yield force mu N, N constant
    slider  flatSliderBearing: K along the normal, no tension; Coulomb's circle with the normal force found

Growth is the pair of forces E A strain on the ends of each member.
"""

from __future__ import annotations

import ctypes
import importlib.util
import json
import os
import sys
import time
from pathlib import Path

PACKAGE = "openseespylinux"
BEFORE = ("libquadmath.so.*", "libgfortran.so.*", "libblas.so.*")  # in this order: each needs the one before
MODULUS, SHEAR = 2.0e11, 8.0e10  # only the products with area and inertia matter
NEVER = 1.0e15  # [N]: yield force of a gap that never yields
LIGHT = 1.0e-6  # [N m/rad]: a slider must have some stiffness against turning; the pipe has a million
METHODS = (  # tried in turn, with so many iterations; the second turns rubs back from slip without going to and fro
    (50, "Newton"),
    (50, "Newton", "-initialThenCurrent"),
    (50, "KrylovNewton", "-maxDim", 10),
)
LAST = (1000, "KrylovNewton", "-iterate", "initial", "-increment", "initial", "-maxDim", 60)
TOLERANCE = 1e-5  # [N] out of balance: 1e-10 of the forces here, and above the rounding of a spring of 1e11 N/m
HALVES = 6  # of a part that does not converge


def load():
    """Return the module; an ImportError says that it is not there."""
    found = importlib.util.find_spec(PACKAGE)
    if found is None:
        message = f"{PACKAGE} is not installed"
        raise ImportError(message)
    folder = Path(next(iter(found.submodule_search_locations))) / "lib"
    for pattern in BEFORE:
        for library in sorted(folder.glob(pattern)):
            ctypes.CDLL(str(library))
    return importlib.import_module(f"{PACKAGE}.opensees")


def build(ops, model):
    """Make nodes, members and contacts; return the tag of what was made for each contact.

    Args:
        ops: the module.
        model: as opensees.py writes it.
    """
    ops.wipe()
    ops.model("basic", "-ndm", 3, "-ndf", 6)
    points = model["points"]
    for number, point in enumerate(points):
        ops.node(number, *point)
    for number in model["anchors"]:
        ops.fix(number, 1, 1, 1, 1, 1, 1)
    ops.geomTransf("Linear", 1, 0.0, 0.0, 1.0)  # members are level: their third axis points up
    for number, member in enumerate(model["members"]):
        start, end, axial, bending, torsion = member
        section = (axial / MODULUS, MODULUS, SHEAR, torsion / SHEAR, bending / MODULUS, bending / MODULUS)
        ops.element("elasticBeamColumn", number, start, end, *section, 1)
    ops.uniaxialMaterial("Elastic", 1, LIGHT)
    return [contact(ops, model, number, told) for number, told in enumerate(model["contacts"])]


def contact(ops, model, number, told):
    """Make one contact and return its tag."""
    node, stiff, tag = told["node"], model["stiff"], len(model["members"]) + number
    ground, material = len(model["points"]) + number, 10 + 10 * number
    ops.node(ground, *model["points"][node])
    ops.fix(ground, 1, 1, 1, 1, 1, 1)
    kind = told["kind"]
    if kind == "slider":
        ops.uniaxialMaterial("ENT", material, stiff)
        ops.frictionModel("Coulomb", material, told["mu"])
        turning = ("-T", 1, "-My", 1, "-Mz", 1)
        axes = ("-orient", 0.0, 0.0, 1.0, 1.0, 0.0, 0.0)
        accuracy = ("-iter", 200, 1e-14)
        ops.element("flatSliderBearing", tag, ground, node, material, stiff, "-P", material, *turning, *axes, *accuracy)
        return tag
    if kind == "hold":
        ops.uniaxialMaterial("ENT", material, stiff)
        made = (material,)
    elif kind == "gap":
        ops.uniaxialMaterial("ElasticPPGap", material, stiff, NEVER, told["gap"], 0.0)
        ops.uniaxialMaterial("ElasticPPGap", material + 1, stiff, -NEVER, -told["gap"], 0.0)
        made = (material, material + 1)
    else:
        ops.uniaxialMaterial("ElasticPP", material, stiff, told["limit"] / stiff)
        made = (material,)
    ops.element("zeroLength", tag, ground, node, "-mat", *made, "-dir", *[told["dof"]] * len(made))
    return tag


def put_loads(ops, model):
    """Make one pattern a cause: its amount goes in proportion from step to step."""
    steps = len(model["amounts"])
    for number, cause in enumerate(model["causes"], start=1):
        values = [0.0] + [row[number - 1] for row in model["amounts"]]
        times = [float(step) for step in range(steps + 1)]
        ops.timeSeries("Path", number, "-values", *values, "-time", *times)
        ops.pattern("Plain", number, number)
        nodal = {node: list(force) for node, force in cause["nodal"]}
        for place, (member, strain) in enumerate(zip(model["members"], cause["strain"], strict=True)):
            start, end, axial = member[:3]
            if cause["weight"]:
                ops.eleLoad("-ele", place, "-type", "-beamUniform", 0.0, -cause["weight"], 0.0)
            along = [b - a for a, b in zip(model["points"][start], model["points"][end], strict=True)]
            length = sum(part * part for part in along) ** 0.5
            for node, sign in ((start, -1.0), (end, 1.0)):
                force = nodal.setdefault(node, [0.0] * 6)
                for axis in range(3):
                    force[axis] += sign * axial * strain * along[axis] / length
        for node, force in nodal.items():
            if any(force):
                ops.load(node, *force)


def advance(ops, part, depth=0):
    """Go a part of a step further, in halves where no method converges; return the number of iterations."""
    ops.integrator("LoadControl", part)
    for most, *method in (*METHODS, LAST) if depth == HALVES else METHODS:
        ops.algorithm(*method)
        ops.test("NormUnbalance", TOLERANCE, most)
        if ops.analyze(1) == 0:
            return ops.testIter()
    if depth == HALVES:
        message = f"OpenSees does not converge at {ops.getTime()}"
        raise RuntimeError(message)
    return advance(ops, 0.5 * part, depth + 1) + advance(ops, 0.5 * part, depth + 1)


def walk(ops, model):
    """Return displacements, forces of the contacts on their nodes and reactions of the anchors, a row a step."""
    tags = build(ops, model)
    put_loads(ops, model)
    ops.constraints("Plain")
    ops.numberer("RCM")
    ops.system("BandGeneral")
    ops.integrator("LoadControl", 1.0 / model["parts"])
    ops.analysis("Static")
    nodes, found, iterations = range(len(model["points"])), {"moved": [], "contact": [], "anchor": []}, 0
    begin = time.perf_counter()
    for _ in model["amounts"]:
        for _ in range(model["parts"]):
            iterations += advance(ops, 1.0 / model["parts"])
        ops.reactions()
        found["moved"].append([ops.nodeDisp(node) for node in nodes])
        found["contact"].append([[-force for force in ops.eleForce(tag)[6:]] for tag in tags])
        found["anchor"].append([ops.nodeReaction(node) for node in model["anchors"]])
    return {**found, "iterations": iterations, "seconds": time.perf_counter() - begin}


def main(words):
    """Check, or walk what is told."""
    ops = load()
    ops.logFile(os.devnull, "-noEcho")  # its warnings of steps that were halved
    answer = ops.version() if words == ["--check"] else json.dumps(walk(ops, json.load(sys.stdin)))
    print(answer, flush=True)  # noqa: T201 -- what it is run for


if __name__ == "__main__":
    main(sys.argv[1:])
