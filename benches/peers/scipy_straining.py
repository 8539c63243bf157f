#!/usr/bin/python3
"""The plain straining run ("plain-pail") on scipy.integrate.solve_ivp: LSODA, BDF, Radau, and DOP853 for comparison.

    /usr/bin/python3 benches/peers/scipy_straining.py [repetitions]

One JSON line per method and tolerance; errors against expected.json. The right-hand side is the plain run alone, scalar
floats, as fast as plain Python allows; it must agree with straining_model.py, which is checked first. The 95 % drain time
comes from solve_ivp's event on the dense output, as a user would take it. The gate's flow ends at the heel, so a run is two
calls: to the heel, and on until the strainer has run through.
"""
import json, os, statistics, sys, time
from math import exp, pi, sqrt

import numpy as np
import scipy
from scipy.integrate import solve_ivp

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from straining_model import DRY, G0, NEGLIGIBLE, Model

DATA = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "tests", "FlowSim.Tests", "Straining", "Reference")
BATCH = next(b for b in json.load(open(os.path.join(DATA, "batches.json")))["batches"] if b["name"] == "plain-pail")
M = Model(BATCH)
M.set_opening(BATCH["control"]["opening"], 0.0, M.y0())


def make():
    g, rho20, T0, c0, c1 = G0, M.hon.rho20, M.hon.T0, M.hon.c0, M.hon.c1
    At, per, h0, Rh, Bh = M.tank.a, 2 * pi * M.tank.r, M.ho, M.Rh, M.Bh
    As, r, sig, dmin, MP0 = M.form.a, M.r[0], M.sig[0], M.dmin, M.MP0
    Ar, HR, perR, MR0, Tr, k, kR = M.rec.a, M.HR, 2 * pi * M.rec.r, M.MR0, M.Troom, M.kT, M.kR
    mt = 0.001 * M.mT0

    def algebra(heeled, t, mT, mP, S, TT, TP, TR, phi):
        x = TT - 293.15
        rT, muT = rho20 - (0.538 + 0.00094 * x) * x, exp(-11.0449 + 1449.73 / (TT - T0))
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
        lr = min(S / (rho20 - (0.538 + 0.00094 * x) * x) / Ar, HR)
        ell = max(lr - HR, dmin)
        Sp = rP * rP * g / exp(-11.0449 + 1449.73 / (TP - T0)) * As * (d - ell) * phi / r if d > ell else 0.0
        return h, d, ell, G, Sp, rP, lr

    def rhs_of(heeled):
        def rhs(t, y):
            mT, mP, S, O, TT, TP, TR, phi = y.tolist()
            h, d, ell, G, Sp, rP, lr = algebra(heeled, t, mT, mP, S, TT, TP, TR, phi)
            return (-G, G - Sp, Sp, 0.0,
                    -k * (2 * At + per * h) * (TT - Tr) / ((c0 + c1 * (TT - 273.15)) * (mT + mt)),
                    (G * (TT - TP) - k * 2 * As * (TP - Tr) / (c0 + c1 * (TP - 273.15))) / (mP + MP0),
                    (Sp * (TP - TR) - kR * (2 * Ar + perR * lr) * (TR - Tr) / (c0 + c1 * (TR - 273.15))) / (S + MR0),
                    -sig * phi * Sp / rP / As)

        return rhs

    def parts(t, y):
        mT, mP, S, O, TT, TP, TR, phi = y.tolist()
        return algebra(False, t, mT, mP, S, TT, TP, TR, phi)

    def t95(t, y): return (M.mT0 - y[0]) - 0.95 * M.Md
    t95.direction = 1

    def heel(t, y): return parts(t, y)[0] - M.h_heel
    heel.direction, heel.terminal = -1, True

    def through(t, y):
        h, d, ell, G, Sp, rP, lr = parts(t, y)
        return min(d - ell - DRY, rP * As * (d - ell) - NEGLIGIBLE * M.Md)
    through.direction, through.terminal = -1, True

    def rim(t, y): return parts(t, y)[1] - M.rim
    rim.direction, rim.terminal = 1, True
    return rhs_of(False), [t95, heel, rim], rhs_of(True), [through]


def main():
    rhs, events, rhs2, events2 = make()
    y0 = np.array(M.y0())
    for t, y in ((0.0, y0), (50.0, np.array([18.0, 5.0, 3.5, 0.0, 307.5, 306.9, 304.0, 0.97])), (1.0, np.array([26.0, 0.1, 0, 0, 308.1, 308, 295.2, 1]))):
        for f, M.heeled in ((rhs2, True), (rhs, False)):
            a, b = np.array(f(t, y)), np.array(M.evaluate(t, y.tolist(), "free")[0])
            assert np.allclose(a, b, rtol=1e-13, atol=1e-18), (a, b)
    exp_ = next(x for x in json.load(open(os.path.join(DATA, "expected.json")))["runs"] if x["name"] == "plain-pail")["figures"]
    reps = int(sys.argv[1]) if len(sys.argv) > 1 else 15
    for method in ("LSODA", "BDF", "Radau", "DOP853"):
        for rtol in (1e-3, 1e-4, 1e-5, 1e-6, 1e-7, 1e-8, 1e-9, 1e-10):
            def go():
                s = solve_ivp(rhs, (0.0, 604800.0), y0, method, events=events, rtol=rtol, atol=rtol * 0.1)
                z = solve_ivp(rhs2, (s.t[-1], 604800.0), s.y[:, -1], method, events=events2, rtol=rtol, atol=rtol * 0.1)
                return s, z
            s, z = go()
            wall, cpu = [], []
            for _ in range(reps):
                w, c = time.perf_counter(), time.process_time()
                go()
                wall.append(time.perf_counter() - w)
                cpu.append(time.process_time() - c)
            assert s.status == z.status == 1 and len(s.t_events[1]) == len(z.t_events[0]) == 1
            t95, S = s.t_events[0][0], z.y_events[0][0][2]
            print(json.dumps({
                "peer": f"scipy-{scipy.__version__}-{method}", "rtol": rtol,
                "cpuUsPerRun": round(statistics.median(cpu) * 1e6, 1), "wallUsPerRunMin": round(min(wall) * 1e6, 1),
                "wallUsPerRunMedian": round(statistics.median(wall) * 1e6, 1),
                "steps": len(s.t) + len(z.t) - 2, "rhs": int(s.nfev + z.nfev), "jacobians": int(s.njev + z.njev), "drain95S": float(t95), "strainedKg": float(S),
                "endS": float(z.t[-1]), "relErrDrain95": float(f"{abs(t95 / exp_['drain95S'] - 1):.2e}"),
                "relErrStrained": float(f"{abs(S / exp_['passedClothKg'] - 1):.2e}")}), flush=True)


if __name__ == "__main__":
    main()
