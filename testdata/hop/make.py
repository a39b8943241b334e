"""Integrates a steep hit, tip and bed in touch together, and prints hop.json.

    /usr/bin/python3 make.py > hop.json

Forces and torques go to a general-purpose stiff integrator (Radau) and every
change of contact is a root of its dense output. Nothing here steps by impulses
or knows the closed forms of a hit or a bounce.

Frame: x right, y down the table, z up; the cue comes down along d, and the
plane square to d has the axes side and height. Unknowns: velocity v and angular
velocity w of the ball, axial velocity of the cue, transverse velocity of the
end mass, squeeze of tip and bed.

Springs: loading stiffness k, unloading k/e^2 from the greatest squeeze, so an
unhindered contact gives back the share e of its speed and lasts
(pi/2)(1 + e) sqrt(mass/k).

Both frictions are Coulomb's with a stick that lets the slip relax in TAU.
"""

import json
import math
import random

import numpy as np
import scipy
from scipy.integrate import solve_ivp

TAU = 2e-7  # s: how fast a slip that friction can stop does stop


def stiffness(mass, time, e):
    return mass * (math.pi / 2 * (1 + e) / time) ** 2


class Spring:
    """off, loading or unloading; most: the greatest squeeze so far."""

    def __init__(self, k, e):
        self.k, self.e2, self.phase, self.most = k, e * e, "off", 0.0

    def rest(self):
        return self.most * (1 - self.e2)

    def force(self, squeeze):
        if self.phase == "loading":
            return self.k * squeeze
        if self.phase == "unloading":
            return self.k / self.e2 * (squeeze - self.rest())
        return 0.0


def run(p):
    R, m, M, mu_t, mu_b = p["R"], p["m"], p["M"], p["tip_friction"], p["slide"]
    me, I = m / p["k"], 0.4 * m * R * R
    h, th = p["heading"], p["elevation"]
    d = np.array([math.sin(h) * math.cos(th), math.cos(h) * math.cos(th), -math.sin(th)])
    e1 = np.array([math.cos(h), -math.sin(h), 0.0])
    e2 = np.array([math.sin(h) * math.sin(th), math.cos(h) * math.sin(th), math.cos(th)])
    E = np.array([e1, e2])
    off = p["side"] * e1 + p["height"] * e2
    c = math.sqrt(1 - off @ off)
    inward = c * d - off  # unit normal of the ball's face at the tip, inward
    rc, rb, up = R * (off - c * d), np.array([0.0, 0, -R]), np.array([0.0, 0, 1.0])
    red = p["ref_m"] * p["ref_M"] / (p["ref_m"] + p["ref_M"])
    tip = Spring(stiffness(red, p["T_tip"], p["e_tip"]), p["e_tip"])
    bed = Spring(stiffness(p["ref_m"], p["T_bed"], p["e_bed"]), p["e_bed"])

    def cross_matrix(a):
        return np.array([[0, -a[2], a[1]], [a[2], 0, -a[0]], [-a[1], a[0], 0]])

    def answer(ra, rb_):
        """Acceleration of the point at ra for a force at rb_."""
        return np.eye(3) / m - cross_matrix(ra) @ cross_matrix(rb_) / I

    tip_response = E @ answer(rc, rc) @ E.T + np.eye(2) / me
    bed_response = answer(rb, rb)[:2, :2]

    def field(t, s):
        v, w, V, we = s[0:3], s[3:6], s[6], s[7:9]
        F, N = max(tip.force(s[9]), 0.0), max(bed.force(s[10]), 0.0)
        up_tip, slip = v + np.cross(w, rc), (v + np.cross(w, rb))[:2]
        q, f = np.zeros(2), np.zeros(2)
        for _ in range(60):
            old = np.concatenate([q, f])
            if F > 0:
                force_bed = np.array([f[0], f[1], N])
                a0 = E @ (answer(rc, rc) @ (F * d) + answer(rc, rb) @ force_bed)
                q = -np.linalg.solve(tip_response, a0 + (E @ up_tip - we) / TAU)
                q = within_cone(F, q)
            if N > 0:
                a0 = (answer(rb, rc) @ (F * d + E.T @ q) + answer(rb, rb) @ np.array([0, 0, N]))[:2]
                f = -np.linalg.solve(bed_response, a0 + slip / TAU)
                if np.hypot(*f) > mu_b * N:
                    f *= mu_b * N / np.hypot(*f)
            if np.abs(np.concatenate([q, f]) - old).max() <= 1e-13 * (F + N):
                break
        on_tip, on_bed = F * d + E.T @ q, np.array([f[0], f[1], N])
        dv = (on_tip + on_bed) / m
        dw = (np.cross(rc, on_tip) + np.cross(rb, on_bed)) / I
        return np.concatenate([dv, dw, [-F / M], -q / me, [V - up_tip @ d, -v[2]], v])

    q0 = E @ (-off / c)  # per axial force: the push square to the face

    def within_cone(F, q):
        base, move = F * d + F * (E.T @ q0), E.T @ (q - F * q0)
        n0, n1 = base @ inward, move @ inward
        t1 = move - n1 * inward
        # |t1| s <= mu (n0 + s n1)
        limit = np.linalg.norm(t1) - mu_t * n1
        s = 1.0 if limit <= 0 else min(1.0, mu_t * n0 / limit)
        return F * q0 + s * (q - F * q0)

    s, t = np.zeros(14), 0.0
    s[6] = p["cue_speed"]
    tip.phase = "loading"
    bed.phase = "loading" if d[2] < 0 else "off"
    began, last_tip, last_bed = 0.0, 0.0, 0.0
    log = []
    for _ in range(200):
        events = {}

        def rate_tip(t, s):
            return s[6] - (s[0:3] + np.cross(s[3:6], rc)) @ d

        if tip.phase == "loading":
            events["tip turns"] = (rate_tip, -1)
        elif tip.phase == "unloading":
            events["tip off"] = (lambda t, s: s[9] - tip.rest(), -1)
            events["tip again"] = (lambda t, s: s[9] - tip.most, 1)
        else:
            events["tip on"] = (lambda t, s: s[9] - tip.rest(), 1)
        if bed.phase == "loading":
            events["bed turns"] = (lambda t, s: -s[2], -1)
        elif bed.phase == "unloading":
            events["bed off"] = (lambda t, s: s[10] - bed.rest(), -1)
            events["bed again"] = (lambda t, s: s[10] - bed.most, 1)
        else:
            events["bed on"] = (lambda t, s: s[10] - bed.rest(), 1)
        if tip.phase == "off" and (bed.phase == "off" and s[2] >= 0):
            break
        if tip.phase == "off" and bed.phase == "off" and s[2] < 0 and bed.most == 0:
            bed.phase = "loading"
            continue
        found = []
        for name, (fn, way) in events.items():
            g = lambda t, s, fn=fn: fn(t, s)
            g.terminal, g.direction = True, way
            found.append(g)
        r = solve_ivp(field, (t, t + 0.05), s, method="Radau", rtol=1e-8, atol=1e-10,
                      events=found, max_step=2e-5)
        assert r.status == 1, (p, r.message)
        name = next(n for n, at in zip(events, r.t_events) if len(at))
        t, s = r.t[-1], r.y[:, -1].copy()
        log.append((name, t))
        which, what = name.split()
        spring, squeeze = (tip, s[9]) if which == "tip" else (bed, s[10])
        if what == "turns":
            spring.most, spring.phase = squeeze, "unloading"
        elif what == "off":
            spring.phase = "off"
            if which == "tip":
                last_tip = t
            else:
                last_bed = t
        elif what == "again":
            spring.phase = "loading"
        elif what == "on":
            spring.phase = "unloading" if spring.most > 0 else "loading"
    else:
        raise AssertionError("no end")
    return {"v": list(s[0:3]), "w": list(s[3:6]), "cue": s[6], "tip_off": last_tip, "bed_off": last_bed,
            "moved": list(s[11:14]), "log": log}


BASE = dict(R=1.125 * 0.0254, m=0.17, M=0.54, k=32.0, tip_friction=0.6, slide=0.2, e_tip=0.75, e_bed=0.5,
            T_tip=1.2e-3, T_bed=0.7e-3, ref_m=0.17, ref_M=0.54, heading=0.0, elevation=math.radians(40),
            side=0.0, height=0.0, cue_speed=5.0)


def cases():
    named = [
        ("leather, 40 degrees", {}),
        ("hard tip", dict(T_tip=0.6e-3, e_tip=0.85)),
        ("hard tip on a light cue", dict(T_tip=0.6e-3, e_tip=0.85, M=0.28)),
        ("light cue", dict(M=0.28)),
        ("heavy end", dict(k=18.0)),
        ("light end", dict(k=60.0)),
        ("no end mass", dict(k=1e9)),
        ("short tip contact", dict(T_tip=2e-5)),
        ("soft tip, quick bed", dict(T_tip=2e-3, T_bed=0.5e-3)),
        ("flat", dict(elevation=math.radians(4))),
        ("steep", dict(elevation=math.radians(65))),
        ("very steep, the cue follows", dict(elevation=math.radians(80))),
        ("right english", dict(side=0.3, heading=-0.02)),
        ("left and low", dict(side=-0.3, height=-0.25)),
        ("high", dict(height=0.3, elevation=math.radians(30))),
        ("low, steep", dict(height=-0.35, elevation=math.radians(55))),
        ("slick cloth", dict(slide=0.05)),
        ("cloth that grips", dict(slide=0.8, elevation=math.radians(70), height=0.1)),
        ("hardly any chalk", dict(tip_friction=0.3, side=0.2)),
    ]
    rng = random.Random(15)
    for i in range(16):
        named.append(("mixed %d" % (i + 1), dict(
            elevation=math.radians(round(rng.uniform(5, 75), 1)), side=round(rng.uniform(-0.3, 0.3), 3),
            height=round(rng.uniform(-0.3, 0.25), 3), M=round(rng.uniform(0.25, 0.7), 3), k=round(rng.uniform(15, 70), 1),
            e_tip=round(rng.uniform(0.6, 0.9), 3), e_bed=round(rng.uniform(0.3, 0.7), 3), slide=round(rng.uniform(0.1, 0.4), 3),
            T_tip=round(rng.uniform(0.4e-3, 2e-3), 6), T_bed=round(rng.uniform(0.4e-3, 1.1e-3), 6),
            heading=round(rng.uniform(-0.05, 0.05), 4))))
    return named


def main():
    print("{")
    print(' "source": %s,' % json.dumps(
        "Equations of motion of cue, end mass and ball on springs, integrated by scipy.integrate.solve_ivp (SciPy %s, "
        "NumPy %s), Radau, rtol 1e-8, atol 1e-10; changes of contact are roots of its dense output. Made by make.py "
        "beside this file." % (scipy.__version__, np.__version__)))
    print(' "units": "SI, radians; offsets in ball radii; k: ball mass over end mass; T_tip: contact time on a free ball '
          'ref_m of a cue ref_M, T_bed: of that ball dropped on the bed; cue_speed: before; v, w, cue: after the last touch",')
    print(' "cases": [')
    out = []
    for name, more in cases():
        p = dict(BASE, **more)
        r = run(p)
        r.pop("log")
        r.pop("moved")
        out.append("  " + json.dumps({"name": name, **p, "after": r}, allow_nan=False))
    print(",\n".join(out))
    print(" ]\n}")


if __name__ == "__main__":
    main()
