#!/usr/bin/python3
"""Many plain straining runs on scipy.integrate.solve_ivp, one after the other.

    /usr/bin/python3 benches/peers/scipy_ensemble.py DRAWS COUNT METHOD RTOL OUT

DRAWS, OUT and the printed line as in cvode_ensemble.c; METHOD is what solve_ivp takes. The right-hand side is the plain run
alone, scalar floats, as fast as plain Python allows; it is checked against straining_model.py first, over the rim too. Times
come from solve_ivp's events on the dense output, as a user would take them; at a change of mode the next call begins.
"""
import json, os, sys, time
from math import exp, inf, isinf, log, nan, pi, sqrt

import numpy as np
import scipy
from scipy.integrate import solve_ivp

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from straining_model import DRY, G0, NEGLIGIBLE, Model

DATA = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "tests", "FlowSim.Tests", "Straining", "Reference")
PLAIN = next(b for b in json.load(open(os.path.join(DATA, "batches.json")))["batches"] if b["name"] == "plain-pail")


def model_of(draw):
    moisture, honey_k, lot, screen, load, opening = draw
    b = {**PLAIN, "moisturePercent": 100 * moisture, "honeyTemperatureK": honey_k, "lotFactor": lot,
         "strainer": {**PLAIN["strainer"], "factor": screen}, "debris": {**PLAIN["debris"], "load": load},
         "control": {**PLAIN["control"], "opening": opening}}
    m = Model(b)
    m.set_opening(opening, 0.0, m.y0())
    return m


def equations(M):
    """rhs(over, heeled) and events(over, heeled) of one run."""
    g, rho20, T0, c0, c1 = G0, M.hon.rho20, M.hon.T0, M.hon.c0, M.hon.c1
    A = -11.0449 + log(M.hon.lot)
    At, per, h0, Rh, Bh = M.tank.a, 2 * pi * M.tank.r, M.ho, M.Rh, M.Bh
    As, r, sig, dmin, MP0 = M.form.a, M.f * M.r[0], M.sig[0], M.dmin, M.MP0
    Ar, HR, perR, MR0, Tr, k, kR = M.rec.a, M.HR, 2 * pi * M.rec.r, M.MR0, M.Troom, M.kT, M.kR
    mt, mT0, Md, h_heel, rim_m = 0.001 * M.mT0, M.mT0, M.Md, M.h_heel, M.rim

    def algebra(heeled, t, mT, mP, into, TT, TP, TR, phi):
        x = TT - 293.15
        rT, muT = rho20 - (0.538 + 0.00094 * x) * x, exp(A + 1449.73 / (TT - T0))
        V = mT / rT
        z = h0 - V / At
        h = (V - (min(V, 2 / 3 * sqrt(muT / rT * z / (g * t)) * per * z) if t > 0 and z > 0 else 0.0)) / At
        G = 0.0
        if h > 0 and not heeled:
            dp, R = rT * g * h, muT * Rh
            G = rT * 2 * dp / (R + sqrt(R * R + 4 * rT * Bh * dp))
        x = TP - 293.15
        rP = rho20 - (0.538 + 0.00094 * x) * x
        d = mP / rP / As
        x = TR - 293.15
        lr = min(into / (rho20 - (0.538 + 0.00094 * x) * x) / Ar, HR)
        ell = max(lr - HR, dmin)
        Sp = rP * rP * g / exp(A + 1449.73 / (TP - T0)) * As * (d - ell) * phi / r if d > ell else 0.0
        return h, d, ell, G, Sp, rP, lr

    def pond(G, Sp, mP, TT, TP, rP):
        rate = (G * (TT - TP) - k * 2 * As * (TP - Tr) / (c0 + c1 * (TP - 273.15))) / (mP + MP0)
        return rate, (-0.538 - 0.00188 * (TP - 293.15)) * mP / rP * rate

    def rhs_of(over, heeled):
        def rhs(t, y):
            mT, mP, S, O, TT, TP, TR, phi = y.tolist()
            h, d, ell, G, Sp, rP, lr = algebra(heeled, t, mT, mP, S + O, TT, TP, TR, phi)
            rate, c = pond(G, Sp, mP, TT, TP, rP)
            Op, mPp = (G - Sp - c, c) if over else (0.0, G - Sp)
            return (-G, mPp, Sp, Op,
                    -k * (2 * At + per * h) * (TT - Tr) / ((c0 + c1 * (TT - 273.15)) * (mT + mt)),
                    rate,
                    ((Sp + Op) * (TP - TR) - kR * (2 * Ar + perR * lr) * (TR - Tr) / (c0 + c1 * (TR - 273.15))) / (S + O + MR0),
                    -sig * phi * Sp / rP / As)

        return rhs

    def events_of(over, heeled):
        def parts(t, y):
            mT, mP, S, O, TT, TP, TR, phi = y.tolist()
            return algebra(heeled, t, mT, mP, S + O, TT, TP, TR, phi)

        def t95(t, y): return (mT0 - y[0]) - 0.95 * Md
        t95.direction = 1

        def heel(t, y): return parts(t, y)[0] - h_heel
        heel.direction, heel.terminal = -1, True

        def through(t, y):
            h, d, ell, G, Sp, rP, lr = parts(t, y)
            return min(d - ell - DRY, rP * As * (d - ell) - NEGLIGIBLE * Md)
        through.direction, through.terminal = -1, True

        def rim(t, y): return parts(t, y)[1] - rim_m
        rim.direction, rim.terminal = 1, True

        def surplus(t, y):
            h, d, ell, G, Sp, rP, lr = parts(t, y)
            return G - Sp - pond(G, Sp, y[1], y[4], y[5], rP)[1]
        surplus.direction, surplus.terminal = -1, True
        return {"rim": surplus if over else rim, **({"through": through} if heeled else {"t95": t95, "heel": heel})}

    return rhs_of, events_of


def run(draw, method, rtol):
    M = model_of(draw)
    rhs_of, events_of = equations(M)
    over = heeled = False
    t, y = 0.0, np.array(M.y0())
    drain, first, steps, evaluations = nan, inf, 0, 0
    while True:
        events = events_of(over, heeled)
        s = solve_ivp(rhs_of(over, heeled), (t, 604800.0), y, method, events=list(events.values()), rtol=rtol, atol=rtol * 0.1)
        assert s.status >= 0, s.message
        t, y = s.t[-1], s.y[:, -1]
        steps, evaluations = steps + len(s.t) - 1, evaluations + s.nfev
        happened = {name: times[0] for name, times in zip(events, s.t_events) if len(times)}
        drain = happened.get("t95", drain)
        if s.status == 0 or "through" in happened:
            return (drain, first, y[3], y[2]), steps, evaluations
        if "rim" in happened and not over:
            over = True
            if isinf(first):
                first = t
        elif over:
            over = False
            keep = (1 - 1e-12) * M.rim * M.form.a * M.hon.rho(y[5])
            y[3] += y[1] - keep
            y[1] = keep
        heeled = heeled or "heel" in happened


def check():
    """The equations above against straining_model.py."""
    M = model_of((0.181, 309.0, 1.3, 0.8, 0.001, 0.37))
    rhs_of, _ = equations(M)
    for t, y in ((0.0, np.array(M.y0())), (50.0, np.array([18.0, 5.0, 3.5, 0.2, 307.5, 306.9, 304.0, 0.97])), (1.0, np.array([26.0, 0.1, 0, 0, 308.1, 308, 295.2, 1]))):
        for over in (False, True):
            for M.heeled in (False, True):
                a, b = np.array(rhs_of(over, M.heeled)(t, y)), np.array(M.evaluate(t, y.tolist(), "over" if over else "free")[0])
                assert np.allclose(a, b, rtol=1e-12, atol=1e-17), (a, b)


def main():
    draws, count, method, rtol, out = sys.argv[1], int(sys.argv[2]), sys.argv[3], float(sys.argv[4]), sys.argv[5]
    check()
    rows = np.fromfile(draws, "<f8", 6 * count).reshape(-1, 6).tolist()
    run(rows[0], method, rtol)
    before = time.process_time()
    results = [run(row, method, rtol) for row in rows]
    us = (time.process_time() - before) / count * 1e6
    np.array([r[0] for r in results], "<f8").tofile(out)
    print(json.dumps({"peer": f"SciPy {method}", "version": scipy.__version__, "rtol": rtol, "runs": count, "cpuUsPerRun": round(us, 1),
                      "steps": sum(r[1] for r in results) / count, "rhs": sum(r[2] for r in results) / count}))


if __name__ == "__main__":
    main()
