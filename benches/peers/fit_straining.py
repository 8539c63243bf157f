#!/usr/bin/python3
"""Fits of the straining model to readings, a second time: SciPy's least squares on straining_model.py.

    /usr/bin/python3 benches/peers/fit_straining.py            all cases, on all processors; writes fits.json
    /usr/bin/python3 benches/peers/fit_straining.py NAME ...   some of them, printed only

The posterior. Every unknown is a normal score z; its value is the quantile of its prior at Phi(z), so that its prior is the
residual z. A series of readings has two more, clock and zero of the scale, both normal about 0: a reading y at the time t by its
clock leaves (y - model(t + clock) - zero)/s, s the known noise. Before the opening all is as at the start, after the run's
end as at its end. The mode is where half the sum of squares is least; the covariance of the scores is the inverse of J'J there
(Gauss and Newton), and that of the whole second derivative beside it. No loss but squares, no noise but the known one, so that
the answer does not depend on how a program estimates either.

Readings are made from the same model at drawn scores, with noise from numpy's generator; every seed is in the file.
"""
import json, os, platform, sys, time
from concurrent.futures import ProcessPoolExecutor
from copy import deepcopy
from math import exp, log

import numpy as np
import scipy
from scipy.integrate import solve_ivp
from scipy.optimize import least_squares
from scipy.special import ndtr, ndtri

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from straining_model import DRY, NEGLIGIBLE, Model

TESTS = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "tests", "FlowSim.Tests")
DATA = os.path.join(TESTS, "Calibration", "Reference")
BATCHES = {b["name"]: b for b in json.load(open(os.path.join(TESTS, "Straining", "Reference", "batches.json")))["batches"]}
RTOL = 1e-11


# ---------------------------------------------------------------- one run
class Course:
    """The state of a run as a function of time: solve_ivp from stop to stop. Open gate or schedule; over the rim and back."""

    def __init__(c, batch, until, rtol=RTOL):
        c.m = m = Model(batch)
        c.parts, c.mode = [], "free"
        t, y = 0.0, np.array(m.y0())
        steps = list(m.steps)
        started = False
        while True:
            while steps and steps[0][0] <= t:
                m.set_opening(steps.pop(0)[1], t, y)
            end = min([until] + [s[0] for s in steps[:1]])
            if t >= until:
                break
            mode = c.mode
            q = lambda t, y: m.evaluate(t, y.tolist(), mode)
            stops = []

            def stop(name, fun, direction):
                fun.terminal, fun.direction = True, direction
                stops.append((name, fun))
            if not started:
                stop("cloth", lambda t, y: (lambda e: e[9] - e[13] - e[12])(q(t, y)), 1)
            if not m.heeled:
                stop("heel", lambda t, y: q(t, y)[5] - m.h_heel, -1)
            else:
                stop("through", lambda t, y: (lambda e: min(e[9] - e[13] - e[12] - DRY, e[18] - NEGLIGIBLE * m.Md))(q(t, y)), -1)
            if mode == "free":
                stop("rim", lambda t, y: q(t, y)[9] - m.rim, 1)
            else:
                stop("surplus", lambda t, y: q(t, y)[3], -1)
            for k in m.tank.kinks:
                stop("kink", lambda t, y, k=k: q(t, y)[5] - k, -1)
            s = solve_ivp(m.rhs(mode), (t, end), y, "DOP853", dense_output=True, events=[f for _, f in stops], rtol=rtol, atol=rtol * 1e-2)
            assert s.status >= 0, s.message
            c.parts.append((t, s.t[-1], s.sol, mode, m.s, m.heeled, m.opened, m.ho, m.Wo))
            t, y = s.t[-1], s.y[:, -1]
            if s.status == 0:
                continue
            name = next(n for (n, _), e in zip(stops, s.t_events) if len(e))
            if name == "cloth":
                started = True
            elif name == "heel":
                m.heeled = True
            elif name == "rim":
                c.mode = "over"
            elif name == "surplus":
                c.mode = "free"
                y[1] -= 1e-12 * m.hon.rho(y[5])
            elif name == "through":
                break
            elif name == "kink":
                y, t = s.sol(t), t
                m.tank.kinks = tuple(k for k in m.tank.kinks if abs(q(t, y)[5] - k) > 1e-9)

    @property
    def end(c): return c.parts[-1][1]

    def read(c, quantity, t):
        m = c.m
        t = min(max(t, 0.0), c.end)
        start, _, sol, mode, m.s, m.heeled, m.opened, m.ho, m.Wo = next(p for p in c.parts if t <= p[1])
        y = sol(t)
        if quantity == "tank-mass":
            return y[0]
        e = m.evaluate(t, y.tolist(), mode)
        if quantity == "tank-level":
            return e[5]
        if quantity == "pond-depth":
            return e[9]
        if quantity == "receiver-level":
            return e[16]
        if quantity == "receiver-mass":
            return m.receiver_mass(y[2], y[3])
        raise ValueError(quantity)


# ---------------------------------------------------------------- what is free
INPUTS = {
    "honey.moisture": (lambda b: b, "moisturePercent", 100.0),
    "honey.temperature": (lambda b: b, "honeyTemperatureK", 1.0),
    "honey.lot_factor": (lambda b: b, "lotFactor", 1.0),
    "room.temperature": (lambda b: b, "roomTemperatureK", 1.0),
    "tank.level": (lambda b: b["tank"], "levelM", 1.0),
    "tank.heat_loss": (lambda b: b["tank"], "heatLossWPerM2K", 1.0),
    "gate.factor": (lambda b: b["gate"], "factor", 1.0),
    "gate.opening": (lambda b: b["control"], "opening", 1.0),
    "screen.factor": (lambda b: b["strainer"], "factor", 1.0),
    "debris.load": (lambda b: b["debris"], "load", 1.0),
    "debris.median_size": (lambda b: b["debris"], "medianSizeM", 1.0),
    "debris.capture": (lambda b: b["debris"], "captureEfficiency", 1.0),
    "receiver.heat_loss": (lambda b: b["receiver"], "heatLossWPerM2K", 1.0),
}


def quantile(prior, z):
    if prior["kind"] == "normal":
        return prior["mean"] + prior["sd"] * z
    if prior["kind"] == "log-normal":
        if "allowedUpTo" in prior:                  # the prior ends where the input's range does
            z = float(ndtri(ndtr(z) * ndtr(log(prior["allowedUpTo"] / prior["median"]) / prior["logSd"])))
        return prior["median"] * exp(prior["logSd"] * z)
    return prior["low"] + (prior["high"] - prior["low"]) * ndtr(z)


class Posterior:
    """Scores: shared inputs, then each run's own, then clock and zero of each series."""

    def __init__(p, case, rtol=RTOL):
        p.case, p.rtol = case, rtol
        p.slots = [(None, f) for f in case["shared"]]
        for r, run in enumerate(case["runs"]):
            p.slots += [(r, f) for f in run["own"]]
        p.series = [(r, s) for r, run in enumerate(case["runs"]) for s in run["series"]]
        p.n = len(p.slots) + 2 * len(p.series)

    def batch(p, r, z):
        b = deepcopy(p.case["runs"][r]["batch"])
        for (owner, f), score in zip(p.slots, z):
            if owner is None or owner == r:
                place, key, per = INPUTS[f["input"]]
                place(b)[key] = per * quantile(f["prior"], score)
        return b

    def course(p, r, z):
        late = max((s["times"][-1] + 8 * s["clockSd"] for q, s in p.series if q == r))
        return Course(p.batch(r, z), late, p.rtol)

    def predictions(p, z):
        courses = [p.course(r, z) for r in range(len(p.case["runs"]))]
        out = []
        for i, (r, s) in enumerate(p.series):
            clock, zero = (z[len(p.slots) + 2 * i + k] * s[("clockSd", "zeroSd")[k]] for k in (0, 1))
            out.append(np.array([courses[r].read(s["quantity"], t + clock) for t in s["times"]]) + zero)
        return out

    def residuals(p, z):
        made = p.predictions(z)
        return np.concatenate([(np.array(s["values"]) - v) / s["noise"] for (_, s), v in zip(p.series, made)] + [z])


# ---------------------------------------------------------------- the fit
def fit(case):
    p = Posterior(case)
    t = time.time()
    s = least_squares(p.residuals, np.zeros(p.n), jac="3-point", method="trf", diff_step=1e-4, xtol=1e-12, ftol=1e-13, gtol=1e-8, x_scale=1.0, max_nfev=60)
    z = s.x
    # A last look from central differences of fourth order: one Gauss-Newton step further, and its size as what is left.
    left = []
    for _ in range(2):
        J = jacobian(p, z)
        f = p.residuals(z)
        step = -np.linalg.solve(J.T @ J, J.T @ f)
        z = z + step
        left.append(float(np.max(np.abs(step) / np.sqrt(np.diag(np.linalg.inv(J.T @ J))))))
    J, f = jacobian(p, z), p.residuals(z)
    gauss = np.linalg.inv(J.T @ J)
    whole = np.linalg.inv(hessian(p, z, gauss))
    return {"scores": z, "values": [quantile(q["prior"], a) for (_, q), a in zip(p.slots, z)], "halfSumOfSquares": 0.5 * float(f @ f),
            "covariance": gauss, "covarianceOfWholeSecondDerivative": whole, "lastStepInSd": left[-1],
            "seconds": time.time() - t, "evaluations": int(s.nfev)}


def jacobian(p, z, h=1e-3):
    J = np.empty((len(p.residuals(z)), p.n))
    for i in range(p.n):
        e = np.zeros(p.n)
        e[i] = h
        J[:, i] = (8 * (p.residuals(z + e) - p.residuals(z - e)) - p.residuals(z + 2 * e) + p.residuals(z - 2 * e)) / (12 * h)
    return J


def hessian(p, z, gauss, h=0.05):
    """Of half the sum of squares: fourth order along the axes of the Gauss-Newton ellipsoid, where all directions are alike."""
    L = np.linalg.cholesky(gauss)
    n, c0 = p.n, 0.5 * float(np.sum(p.residuals(z) ** 2))
    cost = lambda u: 0.5 * float(np.sum(p.residuals(z + L @ u) ** 2)) - c0
    e = np.eye(n) * h
    H = np.empty((n, n))
    for i in range(n):
        H[i, i] = (16 * (cost(e[i]) + cost(-e[i])) - cost(2 * e[i]) - cost(-2 * e[i])) / (12 * h * h)
        for j in range(i):
            mixed = lambda k: (cost(k * (e[i] + e[j])) - cost(k * (e[i] - e[j])) - cost(k * (e[j] - e[i])) + cost(-k * (e[i] + e[j]))) / (4 * k * k * h * h)
            H[i, j] = H[j, i] = (4 * mixed(1) - mixed(2)) / 3
    back = np.linalg.inv(L)
    return back.T @ H @ back


# ---------------------------------------------------------------- the cases
def normal(mean, sd): return {"kind": "normal", "mean": mean, "sd": sd}
def factor(median, log_sd): return {"kind": "log-normal", "median": median, "logSd": log_sd}
def even(low, high): return {"kind": "uniform", "low": low, "high": high}


def common(b):
    """The four that a timed run is to tell: lot factor, gate, cloth, debris."""
    return [
        {"input": "honey.lot_factor", "prior": factor(b["lotFactor"], 0.30)},
        {"input": "gate.factor", "prior": factor(1.0, log(1.1))},
        {"input": "screen.factor", "prior": even(0.62 * b["strainer"]["factor"], b["strainer"]["factor"])},
        {"input": "debris.load", "prior": factor(b["debris"]["load"], log(3) / float(ndtri(0.9)))},
    ]


def series(quantity, times, clock, zero, noise):
    return {"quantity": quantity, "times": [float(t) for t in times], "clockSd": clock, "zeroSd": zero, "noise": noise}


def changed(name, **parts):
    b = deepcopy(BATCHES[name])
    for key, value in parts.items():
        b[key] = {**b[key], **value} if isinstance(value, dict) else value
    return b


def cases():
    pail = BATCHES["plain-pail"]
    even_times = lambda n, end: np.round(np.linspace(end / n, end, n), 2)
    out = []

    def case(name, about, seed, shared, runs):
        out.append({"name": name, "about": about, "seed": seed, "shared": shared, "runs": runs})

    case("tank-level-200", "a rule in a pail, 200 readings", 1, common(pail),
         [{"batch": pail, "own": [], "series": [series("tank-level", even_times(200, 130), 5.0, 0.002, 0.002)]}])
    case("receiver-mass-200", "a scale under the receiver, 200 readings", 2, common(pail),
         [{"batch": pail, "own": [], "series": [series("receiver-mass", even_times(200, 160), 5.0, 0.1, 0.05)]}])
    case("level-and-mass", "both at once, each by its own clock", 3, common(pail),
         [{"batch": pail, "own": [], "series": [series("tank-level", even_times(40, 120), 5.0, 0.002, 0.002),
                                                series("receiver-mass", even_times(60, 200), 2.0, 0.1, 0.03)]}])
    thin = changed("plain-pail", control={"opening": 0.30})
    warm = changed("plain-pail", honeyTemperatureK=313.15, control={"opening": 0.22}, tank={"levelM": 0.25})
    case("two-runs", "two runs of one honey and kit, each with its own opening, level and temperature", 4, common(pail),
         [{"batch": b, "own": [{"input": "honey.temperature", "prior": normal(b["honeyTemperatureK"], 1.0)},
                               {"input": "tank.level", "prior": normal(b["tank"]["levelM"], 0.005)},
                               {"input": "gate.opening", "prior": normal(b["control"]["opening"], 0.02)}],
           "series": [series("receiver-mass", even_times(50, end), 5.0, 0.1, 0.04)]} for b, end in ((thin, 180), (warm, 150))])
    everything = common(pail) + [
        {"input": "honey.moisture", "prior": normal(0.178, 0.002)},
        {"input": "debris.median_size", "prior": factor(0.0005, log(1.3))},
        {"input": "debris.capture", "prior": even(0.3, 0.7)},
        {"input": "tank.heat_loss", "prior": factor(8.0, log(1.5))},
        {"input": "receiver.heat_loss", "prior": factor(8.0, log(1.5))}]
    case("everything-free", "all that commonly varies, so that little is told apart", 5, everything,
         [{"batch": pail, "own": [{"input": "honey.temperature", "prior": normal(308.15, 1.0)}, {"input": "room.temperature", "prior": normal(295.15, 2.0)},
                                  {"input": "tank.level", "prior": normal(0.298, 0.005)}, {"input": "gate.opening", "prior": normal(0.35, 0.02)}],
           "series": [series("tank-level", even_times(60, 130), 5.0, 0.002, 0.002), series("receiver-mass", even_times(60, 220), 5.0, 0.1, 0.05)]}])
    basket = changed("rectangular-basket-standard", control={"opening": 0.35})
    case("basket-pond-depth", "the depth of the pond in a basket below a rectangular tank, standard blocking", 6, common(basket),
         [{"batch": basket, "own": [], "series": [series("pond-depth", None or even_times(80, 1.0), 5.0, 0.002, 0.001)]}])
    cone = BATCHES["cone-tank-cone-strainer"]
    case("cone-tank-mass", "a cone-bottomed tank on a scale above a cone of cloth", 7, common(cone),
         [{"batch": cone, "own": [], "series": [series("tank-mass", even_times(80, 1.0), 5.0, 0.2, 0.1)]}])
    cake = changed("plain-pail", debris={"load": 0.002, "law": "cake"}, control={"opening": 0.25})
    much = common(cake)
    much[3]["prior"]["allowedUpTo"] = 0.02
    case("cake-receiver-level", "much debris that forms a cake, its prior cut at the 2 % that are allowed; the receiver's level by a rule", 8, much,
         [{"batch": cake, "own": [], "series": [series("receiver-level", even_times(120, 1.0), 5.0, 0.002, 0.001)]}])
    return out


def prepare(case):
    """Scores, readings and noise from the seed. A series whose times end at 1 is stretched to what the drawn run takes to its heel."""
    rng = np.random.default_rng(case["seed"])
    p = Posterior(case)
    z = rng.standard_normal(p.n).clip(-1.5, 1.5)
    for r, run in enumerate(case["runs"]):
        for s in run["series"]:
            if s["times"][-1] == 1.0:
                c = Course(p.batch(r, z), 86400.0)
                heel = next(a[0] for a in c.parts if a[5]) if any(a[5] for a in c.parts) else c.end
                s["times"] = [float(f"{t * 0.95 * heel:.4g}") for t in s["times"]]
    case["drawnScores"] = [float(v) for v in z]
    for (_, s), v in zip(p.series, p.predictions(z)):
        s["values"] = [float(f"{x:.7g}") for x in v + s["noise"] * rng.standard_normal(len(v))]
    return case


def one(case):
    case = prepare(case)
    r = fit(case)
    seconds = r.pop("seconds")
    log_line = (f"{case['name']:20s} {Posterior(case).n:3d} unknowns, {sum(len(s['times']) for q in case['runs'] for s in q['series'])} readings, "
                f"{seconds:.0f} s, {r.pop('evaluations')} evaluations, last step {r['lastStepInSd']:.1e} sd, half sum of squares {r['halfSumOfSquares']:.3f}")
    case["fit"] = {k: (v.tolist() if isinstance(v, np.ndarray) else v) for k, v in r.items()}
    return case, log_line


def main():
    wanted = sys.argv[1:]
    todo = [c for c in cases() if not wanted or c["name"] in wanted]
    done = []
    with ProcessPoolExecutor(max_workers=2) as pool:
        for case, line in pool.map(one, todo):
            print(line, flush=True)
            f = case["fit"]
            sd, sd2 = np.sqrt(np.diag(f["covariance"])), np.sqrt(np.diag(f["covarianceOfWholeSecondDerivative"]))
            print("   scores", np.round(f["scores"], 4).tolist(), "\n   sd    ", np.round(sd, 4).tolist(), "\n   sd'   ", np.round(sd2, 4).tolist(), "\n   drawn ", np.round(case["drawnScores"], 3).tolist(), flush=True)
            done.append(case)
    if not wanted:
        with open(os.path.join(DATA, "fits.json"), "w") as fh:
            json.dump({"about": "Readings made and fitted by benches/peers/fit_straining.py; see there for what the numbers mean. Scores: shared inputs, each run's own, then clock and zero of each series.",
                       "made": {"scipy": scipy.__version__, "numpy": np.__version__, "python": platform.python_version()}, "cases": done}, fh, indent=1)
            fh.write("\n")


if __name__ == "__main__":
    main()
