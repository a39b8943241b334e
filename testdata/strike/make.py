"""Solves the hit of tip on ball as rigid-body mechanics and prints strike.json.

    /usr/bin/python3 make.py > strike.json

The three components of the impulse P on the ball are the unknowns of one
linear system. No closed form of squirt, speed or spin goes into the numbers;
`closed_form` only measures how far apart the two are, on standard error.

At the contact point, r from the ball's centre, the ball answers an impulse P
with the velocity W P, W = 1/m + [r]x^T I^-1 [r]x. The cue has mass M along its
own direction d and only its end mass across it. So
    along d    d.W P - (V - d.P/M) = e V    (the gap opens at e times V)
    across d   W P = -P/end_mass            (tip and ball move together)
"""

import json
import math
import sys

import numpy as np

SEED, COUNT = 2001, 200


def cross_matrix(r):
    return np.array([[0, -r[2], r[1]], [r[2], 0, -r[0]], [-r[1], r[0], 0]])


def axes(heading, elevation):
    """Cue direction, side axis and height axis."""
    sd, cd = math.sin(heading), math.cos(heading)
    st, ct = math.sin(elevation), math.cos(elevation)
    return (np.array([sd * ct, cd * ct, -st]),
            np.array([cd, -sd, 0.0]),
            np.array([sd * st, cd * st, ct]))


def solve(c):
    d, side, height = axes(c["heading"], c["elevation"])
    s, h, m, R = c["side"], c["height"], c["ball_mass"], c["R"]
    r = R * (s * side + h * height - math.sqrt(1 - s * s - h * h) * d)
    inertia = 0.4 * m * R * R * np.eye(3)
    rx = cross_matrix(r)
    W = np.eye(3) / m + rx.T @ np.linalg.inv(inertia) @ rx
    rows, right = [d @ W + d / c["cue_mass"]], [(1 + c["e"]) * c["V"]]
    for across in (side, height):
        # times end_mass, so that none at all is no special case
        rows.append(c["end_mass"] * (across @ W) + across)
        right.append(0.0)
    P = np.linalg.solve(np.array(rows), np.array(right))
    if s or h:
        n = (s * side + h * height) / math.hypot(s, h)
        assert abs(P @ np.cross(d, n)) < 1e-13 * np.linalg.norm(P), "impulse out of the plane of cue and centre"
    return P / m, np.linalg.inv(inertia) @ np.cross(r, P)


def closed_form(c):
    d, side, height = axes(c["heading"], c["elevation"])
    s, h, m, R = c["side"], c["height"], c["ball_mass"], c["R"]
    rho = math.hypot(s, h)
    n = (s * side + h * height) / rho if rho else side
    cos = math.sqrt(1 - rho * rho)
    tan = 2.5 * rho * cos / (1 + m / c["end_mass"] + 2.5 * cos * cos) if c["end_mass"] else 0.0
    J = m * c["V"] * (1 + c["e"]) / (1 + m / c["cue_mass"] + 2.5 * rho * (rho - cos * tan))
    P = J * (d - tan * n)
    return P / m, np.cross(R * (rho * n - cos * d), P) / (0.4 * m * R * R)


def inputs():
    rng = np.random.default_rng(SEED)
    for i in range(COUNT):
        rho, turn = 0.75 * math.sqrt(rng.uniform()), rng.uniform(-math.pi, math.pi)
        c = {
            "side": rho * math.sin(turn), "height": rho * math.cos(turn),
            "heading": rng.uniform(-0.3, 0.3), "elevation": rng.uniform(0, 1.45),
            "V": 0.2 * 60 ** rng.uniform(), "cue_mass": rng.uniform(0.3, 0.75),
            "ball_mass": rng.uniform(0.12, 0.25), "R": rng.uniform(0.024, 0.032),
            "end_mass": 0.0, "e": rng.uniform(0.5, 0.95),
        }
        c["end_mass"] = c["ball_mass"] / (5 * 40 ** rng.uniform())
        # the plain corners: a level cue, no end mass, one part of the offset alone, the centre
        if i % 8 == 0:
            c["elevation"] = 0.0
        if i % 10 == 1:
            c["end_mass"] = 0.0
        if i % 20 in (4, 6):
            c["side"] = 0.0
        if i % 20 in (5, 6):
            c["height"] = 0.0
        yield {k: float("%.6g" % v) for k, v in c.items()}


def main():
    source = (
        "Rigid-body impulse of a cue (mass along its direction, end mass across it) on a ball, solved as one "
        "3x3 linear system with numpy.linalg.solve (NumPy %s), seed %d. Made by make.py beside this file."
    ) % (np.__version__, SEED)
    units = (
        "SI, radians; x right, y down the table, z up; side and height of the contact point in units of R, "
        "right and up positive; heading positive to the right; elevation positive for a cue coming down; "
        "V cue speed before the hit; end_mass 0 means none; v, w: of the ball as the tip lets go"
    )
    cases, worst = [], 0.0
    for c in inputs():
        v, w = solve(c)
        v2, w2 = closed_form(c)
        worst = max(worst, np.linalg.norm(v - v2) / np.linalg.norm(v),
                    np.linalg.norm(w - w2) * c["R"] / np.linalg.norm(v))
        cases.append({**c, "v": list(v), "w": list(w)})
    print("largest difference from the closed form, relative to the ball's speed: %.2g" % worst, file=sys.stderr)
    print("{")
    print(' "source": %s,\n "units": %s,\n "cases": [' % (json.dumps(source), json.dumps(units)))
    print(",\n".join("  " + json.dumps(c, allow_nan=False) for c in cases))
    print(" ]\n}")


if __name__ == "__main__":
    main()
