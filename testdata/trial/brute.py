"""Weighs sittings of strokes by brute force with NumPy and prints brute.json.

    /usr/bin/python3 brute.py > brute.json

Every unknown is drawn from its prior, millions of times over, and each draw is
weighed by how likely it makes what was seen. The path of the ball is worked out
here from the equations of motion, apart from the Go code: squirt by the end
mass, the cloth's answer to a cue that comes down, small hops, sliding, rolling.
"""

import json

import numpy as np

SEED, CHUNK, WANTED, MOST = 2024, 500_000, 40_000, 100
INCH, DEGREE, MPH, G = 0.0254, np.pi / 180, 0.44704, 9.80665
R, DOME, REBOUND, SLIDE, ROLL, REFERENCE = 1.125 * INCH, 0.0106, 0.5, 0.2, 0.01, 0.5
LEAST, MOST_PIVOT = 4 * INCH, 80 * INCH
GAP, ACROSS, WRONG = 2.75 * INCH, 50 * INCH, 0.02
SIZES = {"elevation": 1 * DEGREE, "bridge": 0.25 * INCH, "offset": 0.02, "speed": 0.15, "slide": 0.15}


def squirt(rho, k):
    c = np.sqrt(1 - rho * rho)
    return 2.5 * rho * c / (1 + k + 2.5 * c * c)  # tan α


def ratio(pivot):
    alpha = np.arcsin(REFERENCE * (R + DOME) / (pivot + R))
    c = np.sqrt(1 - REFERENCE**2)
    return 2.5 * REFERENCE * c / np.tan(alpha) - 1 - 2.5 * c * c


def touch(v, w, slide):
    """The cloth's answer to a ball that comes down on it."""
    down = -v[2]
    slip = np.array([v[0] - R * w[1], v[1] + R * w[0]])
    size = np.hypot(*slip)
    f = np.minimum(slide * (1 + REBOUND) * down, 2 * size / 7)
    kick = -f * slip / np.where(size > 0, size, 1)
    v = np.array([v[0] + kick[0], v[1] + kick[1], REBOUND * down])
    # −R ẑ × kick, per unit mass, over 2/5 R²
    w = np.array([w[0] + 2.5 / R * kick[1], w[1] - 2.5 / R * kick[0], w[2]])
    return v, w


def crossing(stroke, pivot, draw):
    """Where the ball's centre crosses the stroke's line, sideways; NaN: nowhere."""
    n = len(pivot)
    elevation = np.clip(3 * DEGREE + SIZES["elevation"] * draw["elevation"], 0, None)
    bridge = stroke["bridge"] * INCH + SIZES["bridge"] * draw["bridge"]
    side = stroke["side"] + np.sign(stroke["side"]) * SIZES["offset"] * draw["offset"]
    speed = stroke["speed"] * MPH * np.maximum(0.05, 1 + SIZES["speed"] * draw["speed"])
    slide = SLIDE * np.maximum(0.05, 1 + SIZES["slide"] * draw["slide"])
    line = stroke["line"] * INCH

    rho = np.abs(side)
    t = squirt(rho, ratio(pivot))
    sin = side * (R + DOME) / (bridge + R) if stroke["hands"] == "back" else np.zeros(n)
    cos = np.sqrt(1 - sin * sin)
    st, ct = np.sin(elevation), np.cos(elevation)
    d = np.array([sin * ct, cos * ct, -st])
    out = np.sign(side) * np.array([cos, -sin, np.zeros(n)])
    v = speed / np.sqrt(1 + t * t) * (d - t * out)
    arm = rho * out - np.sqrt(1 - rho * rho) * d
    w = 2.5 / R * np.cross(arm, v, axis=0)

    x, y, found = np.zeros(n), np.zeros(n), np.full(n, np.nan)
    v, w = touch(v, w, slide)
    for _ in range(12):
        up = v[2] > 0.01
        flight = np.where(up, 2 * v[2] / G, 0)
        passes = up & np.isnan(found) & (y + v[1] * flight >= line)
        found = np.where(passes, x + v[0] / v[1] * (line - y), found)
        x, y = x + v[0] * flight, y + v[1] * flight
        down = np.array([v[0], v[1], -v[2]])
        v2, w2 = touch(down, w, slide)
        v = np.where(up, v2, np.array([v[0], v[1], np.zeros(n)]))
        w = np.where(up, w2, w)

    slip = np.array([v[0] - R * w[1], v[1] + R * w[0]])
    size = np.hypot(*slip)
    time = 2 * size / (7 * slide * G)
    ax, ay = -slide * G * slip / np.where(size > 0, size, 1)
    root = np.sqrt(np.maximum(v[1] ** 2 + 2 * ay * (line - y), 0))
    when = 2 * (line - y) / (v[1] + root)
    slides = np.isnan(found) & (when <= time) & (v[1] ** 2 + 2 * ay * (line - y) >= 0)
    found = np.where(slides, x + v[0] * when + ax * when**2 / 2, found)
    x, y = x + v[0] * time + ax * time**2 / 2, y + v[1] * time + ay * time**2 / 2
    v = v[:2] - 2 / 7 * slip
    far = np.hypot(*v) ** 2 / (2 * ROLL * G) * v[1] / np.hypot(*v)
    rolls = np.isnan(found) & (y + far >= line)
    return np.where(rolls, x + v[0] / v[1] * (line - y), found)


def normal(z):
    from scipy.special import ndtr
    return ndtr(z)


def likelihood(stroke, at, scatter, aim):
    line = stroke["line"] * INCH
    at = at + line * aim
    if stroke["seen"] == "mark":
        sd = np.hypot(line * scatter, stroke["read"] * 1e-3)
        p = np.exp(-(((stroke["at"] * INCH - at) / sd) ** 2) / 2) / sd / np.sqrt(2 * np.pi)
        odds = 1 / ACROSS
    else:
        half, sd = GAP / 2 - R, line * scatter
        left, right = normal((-half - at) / sd), normal((at - half) / sd)
        p = {"left": left, "right": right, "clean": 1 - left - right}[stroke["seen"]]
        odds = 1 / 3
    return (1 - WRONG) * np.where(np.isnan(p), 0, p) + WRONG * odds


def draws(rng, n):
    pivot = LEAST * (MOST_PIVOT / LEAST) ** rng.random(n)
    scatter = 0.05 * DEGREE * 30 ** rng.random(n)
    aim = 0.25 * DEGREE * rng.standard_normal(n)
    return pivot, scatter, aim, {name: rng.standard_normal(n) for name in SIZES}


def sitting(rng, kinds, pivot):
    """What a tester with such a cue might see in a few strokes."""
    scatter, aim = 0.25 * DEGREE * 1.5 ** rng.standard_normal(), 0.25 * DEGREE * rng.standard_normal()
    draw = {name: np.array([rng.standard_normal()]) for name in SIZES}
    strokes = []
    for i, kind in enumerate(kinds):
        s = {
            "bridge": round(float(rng.uniform(7, 20))), "side": 0.4 if i % 2 == 0 else -0.4,
            "speed": float(rng.choice([7, 12])), "line": float(rng.choice([24, 30])),
            "hands": str(rng.choice(["back", "parallel"])),
        }
        at = crossing(s, np.array([pivot * INCH]), draw)[0] + s["line"] * INCH * (aim + scatter * rng.standard_normal())
        if kind == "mark":
            s |= {"seen": "mark", "read": float(rng.choice([1, 3])), "at": round(float(at / INCH) * 16) / 16}
        else:
            half = GAP / 2 - R
            s["seen"] = "left" if at < -half else "right" if at > half else "clean"
        strokes.append(s)
    return strokes


def weigh(rng, strokes):
    values, weights, effective = [], [], 0
    for _ in range(MOST):
        pivot, scatter, aim, draw = draws(rng, CHUNK)
        weight = np.ones(CHUNK)
        for s in strokes:
            weight *= likelihood(s, crossing(s, pivot, draw), scatter, aim)
        keep = weight > weight.max() * 1e-9
        values.append(np.stack([pivot[keep], scatter[keep], aim[keep]]))
        weights.append(weight[keep])
        w = np.concatenate(weights)
        effective = w.sum() ** 2 / (w * w).sum()
        if effective > WANTED:
            break
    v, w = np.concatenate(values, axis=1), np.concatenate(weights)
    out = {"effective": round(float(effective))}
    for name, row, unit in zip(("pivot", "scatter", "aim"), v, (INCH, DEGREE, DEGREE)):
        order = np.argsort(row)
        share = np.cumsum(w[order]) / w.sum()
        out[name] = [float("%.4g" % (row[order][np.searchsorted(share, q)] / unit)) for q in (0.05, 0.25, 0.5, 0.75, 0.95)]
    return out


def main():
    rng = np.random.default_rng(SEED)
    cases = []
    for kinds in (["gate"] * 4, ["mark"] * 3, ["mark", "gate", "mark", "gate"]):
        for i in range(10):
            strokes = sitting(rng, kinds, float(rng.choice([7, 9.5, 13, 19, 30])))
            cases.append({"strokes": strokes} | weigh(rng, strokes))
    print("{")
    print(' "source": %s,' % json.dumps("NumPy %s, seed %d, prior draws weighed by the likelihood. Made by brute.py beside this file." % (np.__version__, SEED)))
    print(' "units": "inches, mph, degrees, ball radii; read in mm. pivot, scatter and aim are the 5, 25, 50, 75 and 95 % quantiles",')
    print(' "cases": [')
    print(",\n".join("  " + json.dumps(c) for c in cases))
    print(" ]\n}")


if __name__ == "__main__":
    main()
