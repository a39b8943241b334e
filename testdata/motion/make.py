"""Integrates a ball's equations of motion and prints ode.json.

    /usr/bin/python3 make.py > ode.json

Nothing here knows the closed forms (parabola, straight roll, quadratics and
quartics of the crossings): forces and torques go to a general-purpose
integrator and every event is a root of its dense output.

State: x, y, z, vx, vy, vz, wx, wy, wz. The mass cancels; forces are per unit
mass and the moment of inertia per unit mass is 2/5 R^2.
"""

import json
import math
import random

import numpy as np
import scipy
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

G = 9.80665
LIFT = 0.01  # m/s: a ball leaving the cloth faster than this flies
STILL = 1e-10  # m/s: slip or speed that counts as none when a phase begins
STEP = {"air": 0.02, "slide": 0.02, "roll": 0.25, "rest": 1.0}  # s, longest step

INCH = 0.0254
POOL = dict(R=1.125 * INCH, mu_s=0.2, mu_r=0.01, spindown=10.0, e_t=0.5)
SNOOKER = dict(R=0.02625, mu_s=0.18, mu_r=0.013, spindown=7.0, e_t=0.45)
WORN = dict(R=0.02625, mu_s=0.28, mu_r=0.02, spindown=14.0, e_t=0.35)
CAROM = dict(R=0.03075, mu_s=0.15, mu_r=0.006, spindown=6.0, e_t=0.6)


def slip(s, R):
    """Velocity of the ball's lowest point: v + w x (-R z)."""
    down = np.array([0.0, 0.0, -R])
    return (s[3:6] + np.cross(s[6:9], down))[:2]


def push(force, R):
    """Angular acceleration (or step) from a horizontal force at the lowest point."""
    down = np.array([0.0, 0.0, -R])
    return np.cross(down, force) / (0.4 * R * R)


def answer(s, p):
    """The table's impulse on a ball that comes down on it, and whether it flies after."""
    s = s.copy()
    s[2] = 0.0
    if s[5] < 0:
        N = (1 + p["e_t"]) * -s[5]
        s[5] *= -p["e_t"]
        u = slip(s, p["R"])
        size = math.hypot(*u)
        if size > 0:
            kick = np.append(-min(p["mu_s"] * N, 2 * size / 7) * u / size, 0.0)
            s[3:6] += kick
            s[6:9] += push(kick, p["R"])
    assert abs(s[5] - LIFT) > 1e-6, "too near the limit for a fair comparison"
    if s[5] > LIFT:
        return s, True
    s[5] = 0.0
    return s, False


def field(phase, s0, p):
    """Right-hand side of the phase that starts in s0.

    Friction is against the slip (or the rolling velocity) of the moment. Its
    direction is singular where the slip vanishes, so beyond that point, which
    trial stages of the integrator do visit, the force is continued instead of
    reversed: `ahead` is the sign of the slip along the slip at the start.
    """
    R = p["R"]
    drag = -math.copysign(p["spindown"], s0[8]) if s0[8] != 0 else 0.0
    u0, v0 = slip(s0, R), s0[3:5].copy()

    def air(t, s):
        return np.concatenate([s[3:6], [0, 0, -G, 0, 0, 0]])

    def slide(t, s):
        u = slip(s, R)
        ahead = math.copysign(1.0, u @ u0)
        force = np.append(-p["mu_s"] * G * ahead * u / math.hypot(*u), 0.0)
        return np.concatenate([s[3:6], force, push(force, R) + [0, 0, drag]])

    def roll(t, s):
        v = s[3:5]
        ahead = math.copysign(1.0, v @ v0)
        a = -p["mu_r"] * G * ahead * v / math.hypot(*v)
        # no slip: wx = -vy/R, wy = vx/R
        return np.concatenate([s[3:6], a, [0, -a[1] / R, a[0] / R, drag]])

    def rest(t, s):
        return np.concatenate([np.zeros(8), [drag]])

    return {"air": air, "slide": slide, "roll": roll, "rest": rest}[phase]


def events(phase, s0, p):
    """Named terminal events of the phase that starts in s0."""
    u0, v0 = slip(s0, p["R"]), s0[3:5].copy()
    found = {}
    if phase == "air":
        # Up and down are integrated apart: z is zero at both ends of a hop.
        if s0[5] > 0:
            found["top"] = lambda t, s: s[5]
        else:
            found["land"] = lambda t, s: s[2]
    elif s0[8] != 0:
        found["unspun"] = lambda t, s: s[8]
    if phase == "slide":
        found["grip"] = lambda t, s: slip(s, p["R"]) @ u0
    if phase == "roll":
        found["stop"] = lambda t, s: s[3:5] @ v0
    for event in found.values():
        event.terminal = True
    return found


def grounded(s, p):
    """Phase of a ball on the cloth, with what is already still made exactly so."""
    s = s.copy()
    if math.hypot(*slip(s, p["R"])) > STILL:
        return "slide", s
    if math.hypot(*s[3:5]) > STILL:
        return "roll", s
    s[3:8] = 0.0
    return "rest", s


def run(v, w, p):
    """All pieces of one motion: (phase, OdeResult), and its marks."""
    s, flies = answer(np.array([0.0, 0, 0, *v, *w]), p)
    marks = {"answered": s, "landings": [], "roll": None, "stop": None}
    phase, s = ("air", s) if flies else grounded(s, p)
    pieces, t = [], 0.0
    while True:
        if phase == "roll" and marks["roll"] is None:
            marks["roll"] = (t, *s[:2])
        if phase == "rest" and marks["stop"] is None:
            marks["stop"] = (t, *s[:2])
            marks["roll"] = marks["roll"] or marks["stop"]
        ends = events(phase, s, p)
        if not ends:
            marks["end"], marks["final"] = t, s
            return pieces, marks
        r = solve_ivp(field(phase, s, p), (t, t + 1e4), s, method="DOP853",
                      rtol=1e-13, atol=1e-14, max_step=STEP[phase],
                      events=list(ends.values()), dense_output=True)
        assert r.status == 1, r.message
        pieces.append((phase, r))
        name = next(n for n, at in zip(ends, r.t_events) if len(at))
        t, s = r.t[-1], r.y[:, -1].copy()
        if name == "top":
            s[5] = 0.0
        elif name == "land":
            s, flies = answer(s, p)
            marks["landings"].append((t, *s[:2]))
            phase, s = ("air", s) if flies else grounded(s, p)
        elif name == "unspun":
            s[8] = 0.0
        elif name == "grip":
            assert math.hypot(*slip(s, p["R"])) < STILL
            phase, s = grounded(s, p)
        elif name == "stop":
            assert math.hypot(*s[3:5]) < STILL
            s[3:8] = 0.0
            phase = "rest"


def at(t, pieces, marks):
    """Phase and state at time t."""
    for phase, r in pieces:
        if t < r.t[-1]:
            return phase, r.sol(t)
    return "rest", marks["final"]


def crossing(f, pieces):
    """Time and state at the first rise of f(state) through zero, or None."""
    for _, r in pieces:
        for a, b in zip(r.t[:-1], r.t[1:]):
            ts = np.linspace(a, b, 9)
            fs = [f(s) for s in r.sol(ts).T]
            for i in range(8):
                if fs[i] < 0 <= fs[i + 1]:
                    t = brentq(lambda t: f(r.sol(t)), ts[i], ts[i + 1], xtol=1e-15, rtol=1e-15)
                    return t, r.sol(t)
    return None


def crossings(D, pieces):
    line = crossing(lambda s: s[1] - D, pieces)
    circle = crossing(lambda s: math.hypot(s[0], s[1]) - D, pieces)
    return {
        "D": D,
        "line": line and {"t": line[0], "x": line[1][0]},
        "circle": circle and {"t": circle[0], "x": circle[1][0], "y": circle[1][1]},
    }


def sample_times(pieces, marks):
    """A few times in every phase and after it all, none on a border between phases."""
    spans = {"air": [], "slide": [], "roll": []}
    for phase, r in pieces:
        if phase in spans:
            spans[phase].append((r.t[0], r.t[-1]))
    times = [0.5 * (a + b) for a, b in spans["air"][:3]]
    times += [a + 0.37 * (b - a) for a, b in spans["air"][3:][-1:]]
    for name, parts in (("slide", (0.25, 0.8)), ("roll", (0.07, 0.4, 0.93))):
        if spans[name]:
            a, b = spans[name][0][0], spans[name][-1][1]
            times += [a + q * (b - a) for q in parts]
    times += [marks["stop"][0] + 0.3, marks["end"] + 1.0]
    return sorted(times)


def outcome(name, p, v, w):
    pieces, marks = run(v, w, p)
    far = max([math.hypot(*q) for _, r in pieces for q in r.y[:2].T], default=0.0)
    Ds = [0.25, 2.0, float("%.2g" % (0.6 * far)), float("%.2g" % (1.3 * far + 0.01))]
    samples = []
    for t in sample_times(pieces, marks):
        phase, s = at(t, pieces, marks)
        samples.append({"t": t, "phase": phase, "pos": list(s[:3]), "v": list(s[3:6]), "w": list(s[6:9])})
    spot = lambda mark: dict(zip(("t", "x", "y"), mark))
    return {
        "name": name, **p, "v": v, "w": w,
        "answered": {"v": list(marks["answered"][3:6]), "w": list(marks["answered"][6:9])},
        "landings": [spot(m) for m in marks["landings"]],
        "roll": spot(marks["roll"]), "stop": spot(marks["stop"]),
        "crossings": [crossings(D, pieces) for D in sorted(set(Ds)) if D > 0],
        "samples": samples,
    }


def starts():
    """Name, ball and cloth, velocity and angular velocity as the tip lets go."""
    R = POOL["R"]

    def spun(V, right, high, lift=0.0):
        """Straight shot of speed V; spin in units of V/R about z and -x; lift is vz."""
        return [0.0, V, lift], [round(-high * V / R, 6), 0.0, round(right * V / R, 6)]

    plain = [
        ("stun slow", POOL, *spun(0.3, 0, 0)),
        ("stun", POOL, *spun(2.0, 0, 0)),
        ("stun fast", POOL, *spun(12.0, 0, 0)),
        ("stun, snooker", SNOOKER, *spun(1.5, 0, 0)),
        ("bowling-like slide", dict(POOL, mu_s=0.21), *spun(8.5, 0, 0)),
        ("natural roll", POOL, [0.0, 1.5, 0.0], [-1.5 / R, 0.0, 0.0]),
        ("half roll", POOL, *spun(3.0, 0, 0.5)),
        ("follow", POOL, *spun(2.5, 0, 1.25)),
        ("follow fast", POOL, *spun(9.0, 0, 1.2)),
        ("follow with right", POOL, *spun(3.0, 0.8, 0.9)),
        ("draw that dies forward", POOL, *spun(1.0, 0, -0.8)),
        ("draw", POOL, *spun(2.5, 0, -1.25)),
        ("draw past the reversing spin", POOL, *spun(2.0, 0, -3.2)),
        ("draw comes back, snooker", SNOOKER, *spun(1.2, 0, -4.0)),
        ("draw comes back with left", WORN, *spun(0.8, -1.0, -3.5)),
        ("draw that stops dead", POOL, [0.0, 1.0, 0.0], [2.5 / R, 0.0, 0.0]),
        ("draw backwards over the start", POOL, [0.0, 0.5, 0.0], [160.0, 0.0, 30.0]),
        ("sidespin right on stun", POOL, *spun(2.0, 1.2, 0)),
        ("sidespin left on stun", CAROM, *spun(2.0, -1.2, 0)),
        ("sidespin outlives the roll", dict(POOL, mu_r=0.05, spindown=4.0), *spun(1.0, 1.25, 0)),
        ("sidespin dies in the slide", dict(POOL, spindown=60.0), *spun(6.0, 0.08, 0)),
        ("natural roll with sidespin", POOL, [0.0, 1.0, 0.0], [-1.0 / R, 0.0, -40.0]),
        ("spinning on the spot", POOL, [0.0, 0.0, 0.0], [0.0, 0.0, 55.0]),
        ("no speed, topspin", POOL, [0.0, 0.0, 0.0], [-80.0, 0.0, 0.0]),
        ("no speed, spin askew", SNOOKER, [0.0, 0.0, 0.0], [-60.0, 45.0, -20.0]),
        ("across", POOL, [1.2, 0.4, 0.0], [10.0, -20.0, 15.0]),
        ("backwards start", POOL, [0.1, -0.9, 0.0], [-70.0, 12.0, 0.0]),
    ]
    curved = [
        ("swerve right", POOL, [-0.05, 2.0, 0.0], [10.0, -18.0, 60.0]),
        ("swerve left", POOL, [0.04, 2.0, 0.0], [10.0, 18.0, -60.0]),
        ("masse", POOL, [0.0, 1.0, 0.0], [30.0, 90.0, 40.0]),
        ("masse, hard", POOL, [0.3, 1.2, 0.0], [95.0, -140.0, 90.0]),
        ("masse fast, snooker", SNOOKER, [-0.2, 3.0, 0.0], [60.0, 150.0, -60.0]),
        ("masse carom, spin along the path", CAROM, [0.0, 1.5, 0.0], [0.0, -110.0, 30.0]),
        ("masse, worn cloth", WORN, [0.2, 0.6, 0.0], [50.0, -90.0, 70.0]),
        ("masse that turns sideways", CAROM, [-0.4, 0.7, 0.0], [110.0, 100.0, 0.0]),
        ("masse driven into the cloth", POOL, [0.02, 0.6, -1.1], [70.0, -120.0, 40.0]),
        ("masse driven into worn cloth", WORN, [-0.1, 0.9, -1.5], [60.0, 110.0, -55.0]),
        ("masse driven, carom", CAROM, [0.15, 0.8, -0.9], [90.0, -80.0, 35.0]),
    ]
    hops = [
        ("small hop", POOL, *spun(3.0, 0, 0, -0.3)),
        ("hop, stays down at once", POOL, *spun(2.0, 0.4, 0, -0.015)),
        ("hop, one tiny bounce", POOL, *spun(2.0, -0.4, -0.3, -0.03)),
        ("hop with follow", POOL, *spun(4.0, 0.5, 1.0, -0.5)),
        ("hop with draw", POOL, *spun(4.0, -0.5, -1.2, -0.7)),
        ("several bounces", POOL, *spun(5.0, 0, 0, -1.0)),
        ("many bounces, carom", CAROM, *spun(6.0, 0.8, -0.5, -1.3)),
        ("jump", POOL, *spun(3.0, 0, -0.4, -1.5)),
        ("jump fast, snooker", SNOOKER, *spun(10.0, 0.3, 0.2, -1.5)),
        ("bounces until it grips", POOL, [0.1, 0.4, -1.2], [4.0, 6.0, 12.0]),
        ("drops while rolling", POOL, [0.0, 1.1, -0.4], [-1.1 / R, 0.0, 5.0]),
        ("drops straight down", POOL, [0.0, 0.0, -0.8], [0.0, 0.0, 25.0]),
        ("drops spinning", POOL, [0.0, 0.0, -0.9], [60.0, -40.0, 0.0]),
        ("dead cloth", dict(POOL, e_t=0.0), [0.1, 2.0, -0.8], [20.0, -30.0, 10.0]),
        ("slow hop, reverses", WORN, [0.0, 0.5, -0.6], [130.0, 10.0, -9.0]),
        ("lifted a little, stays down", POOL, *spun(3.0, 0.2, -1.0, 0.006)),
        ("lifted a little, flies", POOL, *spun(3.0, 0.2, -1.0, 0.05)),
        ("lifted", POOL, *spun(7.0, -0.7, -1.1, 0.35)),
        ("lobbed", SNOOKER, [0.3, 2.0, 1.5], [40.0, -25.0, 18.0]),
        ("straight up", POOL, [0.0, 0.0, 0.9], [0.0, 0.0, 0.0]),
    ]
    rng = random.Random(20)
    mixed = []
    for i in range(8):
        p = (POOL, SNOOKER, WORN, CAROM)[i % 4]
        V, bearing = 0.3 * 40 ** rng.random(), rng.uniform(-0.6, 0.6)
        v = [V * math.sin(bearing), V * math.cos(bearing), rng.uniform(-1.3, 0.4)]
        w = [rng.uniform(-1.3, 1.3) * V / p["R"] for _ in range(3)]
        mixed.append(("mixed %d" % (i + 1), p, [round(q, 6) for q in v], [round(q, 6) for q in w]))
    return plain + curved + hops + mixed


def main():
    source = (
        "Newton's and Euler's equations of a ball on cloth, integrated by scipy.integrate.solve_ivp "
        "(SciPy %s, NumPy %s), DOP853, rtol 1e-13, atol 1e-14. Friction is taken against the slip of the moment; "
        "a slide ends at the root of (slip . slip at the phase's start), a roll at the root of "
        "(v . v at the phase's start), the field being continued through the singular point. "
        "Crossings: brentq on the dense output. Made by make.py beside this file."
    ) % (scipy.__version__, np.__version__)
    units = (
        "SI, radians; x right, y down the table, z up; z is the height of the centre above its resting height; "
        "g = 9.80665 m/s^2; v and w of a case: as the tip lets go, before the table answers"
    )
    print("{")
    print(' "source": %s,\n "units": %s,\n "cases": [' % (json.dumps(source), json.dumps(units)))
    print(",\n".join("  " + json.dumps(outcome(*s), allow_nan=False) for s in starts()))
    print(" ]\n}")


if __name__ == "__main__":
    main()
