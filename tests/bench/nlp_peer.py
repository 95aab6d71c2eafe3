"""The routing problem as one nonlinear programme for a general solver: scipy's SLSQP (Kraft, 1988).

Reads problems as JSON, one a line; answers each with one line. Variables: both legs and the inner points of every primary. Equality:
every length. Inequalities: straights, angles, gaps of every two primaries, of each to itself, to the head, the collector and the
keep-outs. Every primary is told its number of bends and their radii; which inlet it takes is drawn anew for every start. With `cost`
the bending is to be least, weighed as the router weighs it; without, there is nothing to minimise. Random starts until a local
optimum keeps all limits, or until time is up.

Gaps are taken between chains of links, as a general solver would be given them: smooth between kinks, cheap, differentiated by forward
differences in one batch. What is found must then hold on dense points.
"""

import json
import sys
import time

import numpy as np
from scipy.optimize import minimize

LINKS = 5  # a bend's
ALONG = 8  # points of a straight looked at for kept-out space
MARGIN = 0.4  # mm, what chains may be wrong by
EPS = 1e-6


def unit(v):
    return v / np.maximum(np.linalg.norm(v, axis=-1, keepdims=True), 1e-12)


class Tube:
    def __init__(self, t):
        self.__dict__.update(t)
        for name in ("start", "startAxis", "clr"):
            setattr(self, name, np.array(getattr(self, name), float))
        self.inner = len(self.clr) - 2
        self.size = 2 + 3 * self.inner

    def end_at(self, inlet):
        self.end, self.endAxis = (np.array(inlet[name], float) for name in ("origin", "axis"))

    def polygon(self, x):
        """Points of a batch of variables (batch, size) -> (batch, points, 3)."""
        b = x.shape[0]
        first = self.start + x[:, 0:1] * self.startAxis
        last = self.end - x[:, 1:2] * self.endAxis
        middle = x[:, 2:].reshape(b, self.inner, 3)
        ends = [np.broadcast_to(p, (b, 3))[:, None, :] for p in (self.start, self.end)]
        return np.concatenate([ends[0], first[:, None, :], middle, last[:, None, :], ends[1]], axis=1)

    def shape(self, x, links, along, run_in):
        """Straights, angles, length; the chain of links; and points along for kept-out space, all batched."""
        p = self.polygon(x)
        leg = p[:, 1:] - p[:, :-1]
        size = np.linalg.norm(leg, axis=2)
        d = leg / np.maximum(size, 1e-12)[:, :, None]
        u, v = d[:, :-1], d[:, 1:]
        angle = np.arctan2(np.linalg.norm(np.cross(u, v), axis=2), np.sum(u * v, axis=2))
        angle = np.minimum(angle, 3.0)
        tangent = self.clr * np.tan(angle / 2)
        straight = size.copy()
        straight[:, :-1] -= tangent
        straight[:, 1:] -= tangent
        arc = self.clr * angle
        length = straight.sum(axis=1) + arc.sum(axis=1)
        n = angle.shape[1]
        side = unit(v - u * np.cos(angle)[:, :, None])
        chain, run, points = [p[:, 0:1]], [np.zeros((x.shape[0], 1))], []
        at = np.zeros(x.shape[0])
        f = (np.arange(along) + 0.5) / along
        from_ = p[:, 0]
        for i in range(n + 1):
            s = np.maximum(straight[:, i], 0)
            points.append(from_[:, None] + (s[:, None] * f)[:, :, None] * d[:, i][:, None])
            if i == n:
                cut = np.maximum(s - run_in, 0)
                chain.append((from_ + cut[:, None] * d[:, i])[:, None])
                run.append((at + cut)[:, None])
                break
            at = at + s
            from_ = p[:, i + 1] - tangent[:, i : i + 1] * u[:, i]
            phi = angle[:, i : i + 1] * np.arange(links + 1) / links
            out = np.ones_like(phi)
            out[:, 1:-1] += (1 - np.cos(angle[:, i : i + 1] / links / 2)) / 2
            rho = self.clr[i] * out
            ahead, across = rho * np.sin(phi), self.clr[i] - rho * np.cos(phi)
            bend = from_[:, None] + ahead[:, :, None] * u[:, i][:, None] + across[:, :, None] * side[:, i][:, None]
            chain.append(bend)
            points.append(bend)
            run.append(at[:, None] + self.clr[i] * phi)
            at = at + arc[:, i]
            from_ = p[:, i + 1] + tangent[:, i : i + 1] * v[:, i]
        chain.append(p[:, -1:])
        run.append(length[:, None])
        points.append(p[:, -1:])
        return straight, angle, length, np.concatenate(chain, 1), np.concatenate(run, 1), np.concatenate(points, 1)


def link_distance(a0, a1, b0, b1):
    """Distance of every link of one chain to every one of another: (batch, links, 3) -> (batch, links, links)."""
    d1, d2 = a1 - a0, b1 - b0
    r = a0[:, :, None] - b0[:, None]
    a = np.einsum("bij,bij->bi", d1, d1)[:, :, None] + 1e-12
    e = np.einsum("bij,bij->bi", d2, d2)[:, None] + 1e-12
    b = np.einsum("bik,bjk->bij", d1, d2)
    c = np.einsum("bik,bijk->bij", d1, r)
    f = np.einsum("bjk,bijk->bij", d2, r)
    s = np.minimum(np.maximum((b * f - c * e) / np.maximum(a * e - b * b, 1e-9), 0), 1)
    t = (b * s + f) / e
    s = np.where(t < 0, -c / a, np.where(t > 1, (b - c) / a, s))
    s = np.minimum(np.maximum(s, 0), 1)
    t = np.minimum(np.maximum(t, 0), 1)
    # |r + s d1 - t d2|^2 by its products
    rr = np.einsum("bijk,bijk->bij", r, r)
    return np.sqrt(np.maximum(rr + 2 * s * c - 2 * t * f + s * s * a + t * t * e - 2 * s * t * b, 1e-12))


def box_like(past):
    deepest = np.max(past, axis=0)
    return np.where(deepest <= 0, deepest, np.sqrt(sum(np.maximum(q, 0) ** 2 for q in past)))


def distance_to(k, p):
    """Signed distance of points (..., 3) to a keep-out."""
    if k["kind"] == "half-space":
        return (p - np.array(k["point"])) @ np.array(k["normal"])
    lo, hi = np.array(k["from"], float), np.array(k["to"], float)
    if k["kind"] == "box":
        return box_like([np.maximum(lo[i] - p[..., i], p[..., i] - hi[i]) for i in range(3)])
    axis = hi - lo
    l = np.linalg.norm(axis)
    h = (p - lo) @ (axis / l)
    r = np.sqrt(np.maximum(np.sum((p - lo) ** 2, -1) - h * h, 0))
    past = np.maximum(-h, h - l)
    if k["kind"] == "capsule":
        return np.hypot(r, np.maximum(past, 0)) - k["diameter"] / 2
    return box_like([r - k["diameter"] / 2, past])


def leaving_gap(gap, limit):
    """Slack of points that first move away from what they stand on: free while they do."""
    left = np.cumsum(np.diff(gap, axis=1) < -1e-9, axis=1) > 0
    away = np.concatenate([np.zeros((gap.shape[0], 1), bool), left], axis=1)
    away[:, :-1] |= left
    away |= np.cumsum(gap >= limit, axis=1) > 0
    return np.where(away, gap - limit, 10.0)


class Problem:
    def __init__(self, q):
        self.q = q
        self.tubes = [Tube(t) for t in q["tubes"]]
        at = np.cumsum([0] + [t.size for t in self.tubes])
        self.parts = [slice(at[i], at[i + 1]) for i in range(len(self.tubes))]
        self.size = int(at[-1])
        self.radius = q["od"] / 2
        self.cache = (None, None)

    def limits(self, batches, links=LINKS, along=ALONG, margin=MARGIN):
        """
        Every block of limits with the tubes it depends on: (tubes, equations, inequalities, cost), batched. `batches` has the variables of
        every tube, the first row its place and the others that place moved along one variable. A block of two tubes has the first
        row, then the moved rows of the one, then those of the other: no limit is worked out for a variable it does not depend on.
        """
        q, shapes = self.q, []
        r = self.radius
        for i, (t, x) in enumerate(zip(self.tubes, batches)):
            straight, angle, length, chain, run, points = t.shape(x, links, along, q["runIn"])
            shapes.append((chain, run, length))
            least = np.full(straight.shape[1], float(q["minStraight"]))
            least[0], least[-1] = t.minFirst, q["minStraightInlet"]
            slack = [straight - least, 50 * (t.maxAngle - angle)]
            slack.append(leaving_gap(distance_to(q["head"], points) - r, q["head"]["limit"] + margin))
            back = distance_to(q["collector"], points)[:, ::-1] - r
            slack.append(leaving_gap(back, q["collector"]["limit"] + margin))
            if q["keepOuts"]:
                gaps = [distance_to(k, points) - r - k["limit"] - margin for k in q["keepOuts"]]
                slack.append(np.min(gaps, axis=0))
            own = link_distance(chain[:, :-1], chain[:, 1:], chain[:, :-1], chain[:, 1:]) - 2 * r
            apart = run[:, None, :-1] - run[:, 1:, None] > 6 * r
            slack.append(np.min(np.where(apart, own, 1e3), axis=(1, 2))[:, None] - q["selfGap"] - margin)
            bending = np.sum(angle * (q["turning"] + q["tightness"] * q["od"] / t.clr), axis=1)
            yield (i,), length[:, None] - q["target"], np.concatenate(slack, 1), bending[:, None]
        for i in range(len(self.tubes)):
            for j in range(i + 1, len(self.tubes)):
                (a, ra, la), (b, rb, lb) = shapes[i], shapes[j]
                one = np.r_[np.arange(len(a)), np.zeros(len(b) - 1, int)]
                two = np.r_[np.zeros(len(a), int), np.arange(1, len(b))]
                gap = link_distance(a[one, :-1], a[one, 1:], b[two, :-1], b[two, 1:]) - 2 * r
                inA = (ra[:, :-1] >= la[:, None] - q["runIn"] - 1e-6)[one]
                inB = (rb[:, :-1] >= lb[:, None] - q["runIn"] - 1e-6)[two]
                both = inA[:, :, None] & inB[:, None]
                main = np.min(np.where(both, 1e3, gap), axis=2) - q["clearance"] - margin
                run_in = np.min(np.where(both, gap, 1e3), axis=(1, 2))
                run_in = run_in[:, None] - min(q["runInGap"], q["clearance"]) + 0.05
                nothing = np.zeros((len(one), 0))
                yield (i, j), nothing, np.concatenate([main, run_in], 1), nothing

    def at(self, x):
        """Equations, inequalities, costs of the tubes, and the Jacobians of all three, by forward differences."""
        if self.cache[0] is not None and np.array_equal(self.cache[0], x):
            return self.cache[1]
        batches = [np.concatenate([x[None, p], x[None, p] + EPS * np.eye(p.stop - p.start)]) for p in self.parts]
        values, jacobians = ([], [], []), ([], [], [])
        for tubes, *block in self.limits(batches):
            columns = np.concatenate([np.arange(self.parts[i].start, self.parts[i].stop) for i in tubes])
            for k, m in enumerate(block):
                jac = np.zeros((m.shape[1], self.size))
                jac[:, columns] = (m[1:] - m[0]).T / EPS
                values[k].append(m[0])
                jacobians[k].append(jac)
        self.cache = (x.copy(), [np.concatenate(v) for v in (*values, *jacobians)])
        return self.cache[1]

    def random_start(self, rng):
        """As the router's own trials: legs a little beyond their least, inner points thrown off the line between."""
        self.cache = (None, None)
        inlets = self.q["inlets"]
        for t, i in zip(self.tubes, rng.permutation(len(inlets))):
            t.end_at(inlets[i])
        x = []
        for t in self.tubes:
            legs = []
            for least, radius in ((t.minFirst, t.clr[0]), (self.q["minStraightInlet"], t.clr[-1])):
                leg = least + radius * (0.3 + rng.random())
                legs.append(leg + (rng.exponential(0.12 * self.q["target"]) if rng.random() < 0.5 else 0))
            a = t.start + legs[0] * t.startAxis
            b = t.end - legs[1] * t.endAxis
            way = unit(rng.normal(size=3))
            x += legs
            for i in range(t.inner):
                d = way if i == 0 else unit(way + 0.8 * rng.normal(size=3))
                reach = 0.25 * self.q["target"] * (0.3 + rng.random())
                x += list(a + (b - a) * (i + 1) / (t.inner + 1) + d * reach)
        return np.array(x)

    def holds(self, x):
        """The limits themselves, on chains of many links and dense points."""
        fine = self.limits([x[None, p] for p in self.parts], links=24, along=60, margin=-0.03)
        return all(np.all(np.abs(equal) < 1e-7) and np.all(slack > -1e-6) for _, equal, slack, _ in fine)


def solve(q):
    problem = Problem(q)
    rng = np.random.default_rng(q["seed"])
    begun = time.process_time()
    starts = 0
    spent = lambda: time.process_time() - begun

    class OutOfTime(Exception):
        pass

    def tick(_):
        if spent() > q["budget"]:
            raise OutOfTime

    constraints = [
        {"type": "eq", "fun": lambda x: problem.at(x)[0], "jac": lambda x: problem.at(x)[3]},
        {"type": "ineq", "fun": lambda x: problem.at(x)[1], "jac": lambda x: problem.at(x)[4]},
    ]
    none = np.zeros(problem.size)
    bending = (lambda x: np.sum(problem.at(x)[2]), lambda x: np.sum(problem.at(x)[5], axis=0))
    nothing = (lambda x: 0.0, lambda x: none)

    def descend(x, cost, most, close):
        options = {"maxiter": most, "ftol": close}
        return minimize(cost[0], x, jac=cost[1], method="SLSQP", constraints=constraints, callback=tick, options=options).x

    while spent() < q["budget"]:
        starts += 1
        try:
            found = problem.random_start(rng)
            # ftol is what limits may be missed by, too: the bending is brought near its least first, then the limits are met
            if q["cost"]:
                found = descend(found, bending, 100, 0.1)
            found = descend(found, nothing, 60, 1e-9)
        except OutOfTime:
            break
        if np.all(np.isfinite(found)) and problem.holds(found):
            seconds = spent()
            polygons = [t.polygon(found[None, part])[0].tolist() for t, part in zip(problem.tubes, problem.parts)]
            return {"ok": seconds <= q["budget"], "seconds": seconds, "starts": starts, "polygons": polygons}
    return {"ok": False, "seconds": spent(), "starts": starts, "polygons": []}


for line in sys.stdin:
    print(json.dumps(solve(json.loads(line))), flush=True)
