"""Weighs sittings of strokes by brute force with NumPy and prints brute.json.

    /usr/bin/python3 brute.py > brute.json

Every unknown is drawn from its prior a million times, and each draw is weighed
by how likely it makes what was seen. These draws tell where the answer lies.
Further ones come from a mixture of a Normal distribution there and the prior,
and are weighed by the prior over the mixture as well (Owen and Zhou, J. Amer.
Statist. Assoc. 95 (2000) 135), until they are worth 200 000 draws from the
posterior itself. "error" is the largest standard error of a quantile, as a share
of the 90 % interval. Around each quantile stands where a little less and a little
more of the answer lies below: where strokes contradict each other an answer has
two places with next to nothing between them, and a quantile there says little. The path of the ball is worked out here from
the equations of motion, apart from the Go code: squirt by the end mass, the
cloth's answer to a cue that comes down, small hops, sliding, rolling.
"""

import json

import numpy as np

SEED, CHUNK, WANTED, MOST = 2024, 250_000, 200_000, 100
FROM_PRIOR, WIDER = 0.25, 1.5  # of the mixture: the prior's share, the Normal's variance over the posterior's
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


def unknowns(z):
    """What rows of standard Normal variables stand for."""
    pivot = LEAST * (MOST_PIVOT / LEAST) ** normal(z[0])
    scatter = 0.05 * DEGREE * 30 ** normal(z[1])
    return pivot, scatter, 0.25 * DEGREE * z[2], dict(zip(SIZES, z[3:]))


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


def likelihoods(strokes, z):
    pivot, scatter, aim, draw = unknowns(z)
    weight = np.ones(z.shape[1])
    for s in strokes:
        weight *= likelihood(s, crossing(s, pivot, draw), scatter, aim)
    return weight


def near(z, weight):
    """The Normal distribution with the mean and the widened covariance of weighed draws."""
    return np.average(z, axis=1, weights=weight), WIDER * np.cov(z, aweights=weight)


def mixture(rng, mean, cov):
    """Draws from prior and Normal, and the prior's density over the mixture's."""
    root = np.linalg.cholesky(cov)
    z = rng.standard_normal((len(mean), CHUNK))
    aimed = rng.random(CHUNK) >= FROM_PRIOR
    z[:, aimed] = mean[:, None] + root @ z[:, aimed]
    away = np.linalg.solve(root, z - mean[:, None])
    ratio = np.exp(((z * z).sum(axis=0) - (away * away).sum(axis=0)) / 2) / np.prod(np.diag(root))
    return z, 1 / (FROM_PRIOR + (1 - FROM_PRIOR) * ratio)


LEVELS = (0.05, 0.25, 0.5, 0.75, 0.95)
NEAR = 0.0068  # what a fiftieth of its 90 % interval holds at the end of a Normal distribution


def quantiles(row, weight):
    """The quantiles of weighed draws, each between its neighbours, and their standard errors."""
    order = np.argsort(row)
    row, weight = row[order], weight[order] / weight.sum()
    share = np.cumsum(weight)
    at = lambda q: row[np.searchsorted(share, np.clip(q, 0, share[-1]))]
    out, errors = [], []
    for q in LEVELS:
        out.append([at(q - NEAR), at(q), at(q + NEAR)])
        # Of the share that lies below: the delta method for a ratio of sums.
        sd = np.sqrt((weight**2 * ((row <= out[-1][1]) - q) ** 2).sum())
        errors.append((at(q + sd) - at(q - sd)) / 2)
    return np.array(out), np.array(errors)


def weigh(rng, strokes):
    z = rng.standard_normal((3 + len(SIZES), 4 * CHUNK))
    weight = np.concatenate([likelihoods(strokes, part) for part in np.split(z, 4, axis=1)])
    values, weights, effective, n = [], [], 0, 0
    while effective < WANTED and n < MOST:
        mean, cov = near(z, weight)
        z, weight = mixture(rng, mean, cov)
        weight *= likelihoods(strokes, z)
        n += 1
        if n == 1:  # nearer than the prior's draws told, and no more than that
            continue
        keep = weight > weight.max() * 1e-9
        z, weight = z[:, keep], weight[keep]
        values.append(z[:3])
        weights.append(weight)
        w = np.concatenate(weights)
        effective = w.sum() ** 2 / (w * w).sum()
    rows, w = np.concatenate(values, axis=1), np.concatenate(weights)
    out, error = {"effective": round(float(effective))}, 0
    pivot, scatter, aim, _ = unknowns(np.concatenate([rows, np.zeros((len(SIZES), rows.shape[1]))]))
    for name, row in (("pivot", np.log(pivot / INCH)), ("scatter", np.log(scatter / DEGREE)), ("aim", aim / DEGREE)):
        is_, errors = quantiles(row, w)
        error = max(error, (errors / (is_[-1, 1] - is_[0, 1])).max())
        out[name] = [[float("%.5g" % v) for v in near] for near in (is_ if name == "aim" else np.exp(is_))]
    return out | {"error": float("%.1g" % error)}


def main():
    cases = []
    for kinds in (["gate"] * 4, ["mark"] * 3, ["mark", "gate", "mark", "gate"]):
        for _ in range(10):
            rng = np.random.default_rng([SEED, len(cases)])
            strokes = sitting(rng, kinds, float(rng.choice([7, 9.5, 13, 19, 30])))
            cases.append({"strokes": strokes} | weigh(rng, strokes))
    print("{")
    print(' "source": %s,' % json.dumps("NumPy %s, seed %d, draws weighed by prior and likelihood. Made by brute.py beside this file." % (np.__version__, SEED)))
    print(' "units": "inches, mph, degrees, ball radii; read in mm. pivot, scatter and aim are the 5, 25, 50, 75 and 95 % quantiles, each between those 0.68 % below and above",')
    print(' "cases": [')
    print(",\n".join("  " + json.dumps(c) for c in cases))
    print(" ]\n}")


if __name__ == "__main__":
    main()
