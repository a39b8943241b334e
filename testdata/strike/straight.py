"""Finds the bridge lengths off which back-hand english launches a ball straight
and prints straight.json.

    /usr/bin/python3 straight.py > straight.json

No closed form of squirt or of the pivot goes into the numbers. The hit is the
linear system of make.py beside this file. The cue starts on the line through the
ball's centre and turns in plan about a bridge L behind the ball's face until its
axis passes the centre at side*(R + dome), as a dome has it; SciPy's brentq moves
the bridge until the ball's velocity has no part across the line.
"""

import json
import math
import sys

import numpy as np
import scipy
from scipy.optimize import brentq

import make

SEED, COUNT = 2002, 60


def sideways(bridge, c):
    turn = math.asin(c["side"] * (c["R"] + c["dome"]) / (bridge + c["R"]))
    v, _ = make.solve({**c, "heading": turn})
    return v[0] / np.linalg.norm(v)


def inputs():
    rng = np.random.default_rng(SEED)
    for i in range(COUNT):
        rho, turn = 0.6 * math.sqrt(rng.uniform(0.02, 1)), rng.uniform(-math.pi, math.pi)
        c = {
            "side": rho * math.sin(turn), "height": rho * math.cos(turn),
            "elevation": rng.uniform(0, 1.2), "V": 3.0, "e": 0.75,
            "cue_mass": rng.uniform(0.3, 0.75), "ball_mass": rng.uniform(0.12, 0.25),
            "R": rng.uniform(0.024, 0.032), "dome": rng.uniform(0.006, 0.015), "end_mass": 0.0,
        }
        c["end_mass"] = c["ball_mass"] / (8 * 8 ** rng.uniform())
        if i % 4 == 0:
            c["elevation"] = 0.0
        if i % 6 == 1:
            c["height"] = 0.0
        yield {k: float("%.6g" % v) for k, v in c.items()}


def main():
    cases = []
    for c in inputs():
        nearest = abs(c["side"]) * (c["R"] + c["dome"]) - c["R"]  # where the turn is a right angle
        bridge = brentq(sideways, nearest + 1e-6, 100, args=(c,), xtol=1e-14, rtol=1e-15)
        if bridge > 0:
            cases.append({**c, "bridge": bridge})
    source = (
        "Bridges off which a hit, solved as a 3x3 linear system with numpy.linalg.solve (NumPy %s), sends the ball "
        "straight, found with scipy.optimize.brentq (SciPy %s), seed %d. Made by straight.py beside this file."
    ) % (np.__version__, scipy.__version__, SEED)
    units = "SI, radians; the names are those of strike.json; dome: the tip's radius; bridge: from the face of the ball"
    print("{")
    print(' "source": %s,\n "units": %s,\n "cases": [' % (json.dumps(source), json.dumps(units)))
    print(",\n".join("  " + json.dumps(c, allow_nan=False) for c in cases))
    print(" ]\n}")
    print("%d cases" % len(cases), file=sys.stderr)


if __name__ == "__main__":
    main()
