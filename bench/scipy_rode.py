"""Lays the rodes read from standard input with SciPy's general solvers and writes times and answers.

Forward: `brentq` for the vertical load at the bow. Inverse: `fsolve` for both loads, started at 1.2
times the answer, more help than anyone has who asks. Level bed, no friction, nothing hung on.
"""

import json
import sys
import warnings
from math import asinh, hypot
from time import process_time

from scipy.optimize import brentq, fsolve


def place(pieces, h, v):
    """Where the bow comes to lie: reach and height."""
    x = z = 0.0
    for k, (length, weight, stiffness) in enumerate(pieces):
        low = v - weight * length
        if low <= 0:
            x += h / weight * asinh(v / h) + h * length / stiffness + length - v / weight
            x += sum(l * (1 + h / ea) for l, _, ea in pieces[k + 1 :])
            z += (hypot(h, v) - h) / weight + v * v / (2 * weight * stiffness)
            return x, z
        x += h / weight * (asinh(v / h) - asinh(low / h)) + h * length / stiffness
        z += (hypot(h, v) - hypot(h, low)) / weight + (v + low) * length / (2 * stiffness)
        v = low
    return x, z


def height(pieces, h, v):
    """The height alone: what `place` does, cut down to what `brentq` needs."""
    z = 0.0
    for length, weight, stiffness in pieces:
        low = v - weight * length
        if low <= 0:
            return z + (hypot(h, v) - h) / weight + v * v / (2 * weight * stiffness)
        z += (hypot(h, v) - hypot(h, low)) / weight + (v + low) * length / (2 * stiffness)
        v = low
    return z


def vertical(rode, height_of):
    """Vertical load at the bow under a horizontal one."""
    pieces, h, z = rode["pieces"], rode["loadN"], rode["heightM"]
    most = 10 * (h + sum(length * weight for length, weight, _ in pieces))
    return brentq(lambda v: height_of(pieces, h, v) - z, 0.0, most)


def forward(rode):
    """Reach under a load."""
    v = vertical(rode, lambda pieces, h, v: place(pieces, h, v)[1])
    return place(rode["pieces"], rode["loadN"], v)[0]


def forward_trimmed(rode):
    """The same, cut down by hand."""
    return place(rode["pieces"], rode["loadN"], vertical(rode, height))[0]


def inverse(rode):
    """Load at a reach."""
    pieces = rode["pieces"]

    def miss(loads):
        x, z = place(pieces, *loads.tolist())
        return x - rode["reachM"], z - rode["heightM"]

    return float(fsolve(miss, (1.2 * rode["loadN"], 1.2 * rode["verticalN"]), xtol=1e-12)[0])


def timed(solve, rodes):
    """Processor time of a call in nanoseconds, and the answers."""
    answers = [solve(rode) for rode in rodes]
    before = process_time()
    for rode in rodes:
        solve(rode)
    return (process_time() - before) / len(rodes) * 1e9, answers


# Where `fsolve` stops short is counted from its answers.
warnings.simplefilter("ignore")
rodes = json.load(sys.stdin)
for rode in rodes:
    rode["verticalN"] = vertical(rode, height)
    rode["reachM"] = forward(rode)
forward_ns, reaches = timed(forward, rodes)
trimmed_ns, _ = timed(forward_trimmed, rodes)
inverse_ns, loads = timed(inverse, rodes)
answers = {"reachM": reaches, "loadN": loads}
times = {"forwardNs": forward_ns, "trimmedNs": trimmed_ns, "inverseNs": inverse_ns}
json.dump({**times, **answers}, sys.stdout)
