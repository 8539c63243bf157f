#!/usr/bin/python3
"""The 48 h pail ("pail-still-air-default-cells") on scipy.integrate.solve_ivp: BDF with a sparse Jacobian, Radau for comparison.

    /usr/bin/python3 benches/peers/scipy_warming.py [repetitions]

One JSON line per method and tolerance; the error is the largest relative error of three times (mean 30, coldest 30, coldest
35 degC) against expected.json, taken from solve_ivp's events as a user would. The right-hand side is that of this pail alone,
on whole arrays; it must agree with warming_model.py, which is checked first. The Jacobian holds films and conductivities. No
damage is followed.
"""
import json, os, statistics, sys, time
from math import cbrt, exp, log, pi, sqrt

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
import numpy as np
import scipy
from scipy.integrate import solve_ivp
from scipy.sparse import csc_matrix

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from warming_model import G0, SIGMA, U_SCALE, Model

DATA = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "tests", "FlowSim.Tests", "Warming", "Reference")
BATCH = next(b for b in json.load(open(os.path.join(DATA, "batches.json")))["batches"] if b["name"] == "pail-still-air-default-cells")
M = Model(BATCH)
AIR = BATCH["kit"]["thermostat"]["schedule"][0]["setpointK"] - 273.15
END = 48 * 3600.0


def make():
    m, hon, nr, nz, n = M, M.hon, M.nr, M.nz, M.n
    a, b, aa, b2 = hon.a, hon.b, hon.a ** 2, 2 * hon.b
    l0, l1, l2 = (1.73e-3 * hon.lam_factor * x for x in (326.58, 1.0412, -0.00337))
    dz, dr = m.H / nz, m.R / nr
    ring = m.m[:nr] / (hon.rho(m.t_start) * dz)
    gr = np.array([2 * pi * (i + 1) * dz * 2 for i in range(nr - 1)])
    ga = 2 * ring / dz
    mass = m.m.reshape(nz, nr)
    share, per = m.m / m.mass, 1 / (mass * U_SCALE)
    end = ring / ring.sum()
    side, disc = 2 * pi * m.R * m.H, pi * m.R ** 2
    cell = np.array([side / nz])
    faces = {f.name: f for f in m.faces}
    spec = [(faces["side-body"], True, 0), (faces["floor"], False, -1), (faces["top"], False, 1)]
    spec = [(f.wall, f.widen, f.half, f.area, length, kind) for (f, upright, kind), length in zip(spec, (m.H, m.ro / 2, m.ro / 2))]
    eps, Ta, H, h_k, area = m.emissivity, AIR + 273.15, m.H, m.h_k, m.face_area
    hs, E_ = [5.0, 5.0, 5.0], [1.0]

    def film(kind, length, ts):
        Ts = ts + 273.15
        Tf = (Ts + Ta) / 2
        root = Tf * sqrt(Tf)
        rho, mu, lam = 101325 / (287.053 * Tf), 1.458e-6 * root / (Tf + 110.4), 2.64638e-3 * root / (Tf + 245.4 * 10 ** (-12 / Tf))
        nu, al = mu / rho, lam / (rho * 1007)
        ra = G0 / Tf * abs(Ts - Ta) * length ** 3 / (nu * al)
        if kind == 0:
            nusselt = (0.825 + 0.387 * ra ** (1 / 6) / (1 + (0.492 * al / nu) ** 0.5625) ** (8 / 27)) ** 2
        elif (kind > 0) == (Ts > Ta):
            nusselt = max(0.54 * ra ** 0.25, 0.15 * cbrt(ra))
        else:
            nusselt = 0.27 * ra ** 0.25
        return nusselt * lam / length + eps * SIGMA * (Ts * Ts + Ta * Ta) * (Ts + Ta)

    def closures(y):
        root = np.sqrt(aa + b2 * U_SCALE * y)
        t = (root - a) / b
        T, k = t.reshape(nz, nr), (l0 + t * (l1 + l2 * t)).reshape(nz, nr)
        tl, E = float(share @ t), E_[0]
        means = [(float(T[:, -1].mean()), float(k[:, -1].mean())), (float(end @ T[0]), float(end @ k[0])), (float(end @ T[-1]), float(end @ k[-1]))]
        for _ in range(100):
            worst = dsum = wsum = 0.0
            for q, ((wall, widen, half, ar, length, kind), (tm, km)) in enumerate(zip(spec, means)):
                out, inner = 1 / (hs[q] * widen), half / (km * E)
                flux = (AIR - tm) / (out + wall + inner)
                tw = tm + flux * inner
                dsum += ar * abs(tw - tl)
                wsum += ar * tw
                new = film(kind, length, AIR - flux * out)
                worst = max(worst, abs(new / hs[q] - 1))
                hs[q] += 0.85 * (new - hs[q])
            tm = (wsum / area + tl) / 2
            lm, rho = hon.lam(tm), hon.rho(tm)
            ra = G0 * hon.beta(tm) * dsum / area * H ** 3 / (hon.mu(tm) / rho * lm / (rho * hon.c(tm)))
            new = max(1.0, 0.55 * ra ** 0.25 / (H * h_k))
            worst = max(worst, abs(new / E - 1))
            E += 0.85 * (new - E)
            if worst < 1e-8:
                break
        E_[0] = E
        k = k * E
        G = [ar / (1 / (hs[q] * s[1]) + s[0] + s[2] / kk)
             for q, (s, kk, ar) in enumerate(zip(spec, (k[:, -1], k[0], k[-1]), (side / nz, ring, ring)))]
        kr = gr * k[:, 1:] * k[:, :-1] / (k[:, 1:] + k[:, :-1])
        ka = ga * k[1:] * k[:-1] / (k[1:] + k[:-1])
        return T, root, G, kr, ka

    def rhs(t, y):
        T, root, G, kr, ka = closures(y)
        q = np.zeros((nz, nr))
        flow = kr * (T[:, 1:] - T[:, :-1])
        q[:, :-1] += flow
        q[:, 1:] -= flow
        flow = ka * (T[1:] - T[:-1])
        q[:-1] += flow
        q[1:] -= flow
        q[:, -1] += G[0] * (AIR - T[:, -1])
        q[0] += G[1] * (AIR - T[0])
        q[-1] += G[2] * (AIR - T[-1])
        return (q * per).ravel()

    idx = np.arange(n).reshape(nz, nr)
    pairs = [(idx[:, :-1].ravel(), idx[:, 1:].ravel()), (idx[:-1].ravel(), idx[1:].ravel())]

    def jac(t, y):
        T, root, G, kr, ka = closures(y)
        d, im = U_SCALE / root, per.ravel()
        diag = np.zeros(n)
        rows, cols, vals = [idx.ravel()], [idx.ravel()], [diag]
        for (l, u), g in zip(pairs, (kr.ravel(), ka.ravel())):
            diag -= np.bincount(l, g, n) + np.bincount(u, g, n)
            rows += [l, u]
            cols += [u, l]
            vals += [g * d[u] * im[l], g * d[l] * im[u]]
        diag[idx[:, -1]] -= G[0]
        diag[idx[0]] -= G[1]
        diag[idx[-1]] -= G[2]
        diag *= d * im
        return csc_matrix((np.concatenate(vals), (np.concatenate(rows), np.concatenate(cols))), shape=(n, n))

    def temperatures(y):
        return (np.sqrt(aa + b2 * U_SCALE * y) - a) / b

    events = [lambda t, y: float(share @ temperatures(y)) - 30, lambda t, y: float(temperatures(y).min()) - 30, lambda t, y: float(temperatures(y).min()) - 35]
    return rhs, jac, events


def main():
    rhs, jac, events = make()
    y0 = M.start_u() / U_SCALE
    rng = np.random.default_rng(1)
    for y in (y0, y0 * (1 + 0.3 * rng.random(len(y0)))):
        e = M.evaluate(np.concatenate([y, [0, 0]]), y, AIR)
        assert np.allclose(rhs(0, y), e["q"] / (M.m * U_SCALE), rtol=1e-6, atol=1e-11)
    want = next(x for x in json.load(open(os.path.join(DATA, "expected.json")))["runs"] if x["name"] == BATCH["name"])["figures"]["targetTimesS"][:3]
    reps = int(sys.argv[1]) if len(sys.argv) > 1 else 7
    for method in ("BDF", "Radau"):
        for tol in (1e-3, 1e-4, 1e-5, 1e-6, 1e-7, 1e-8):
            def go():
                return solve_ivp(rhs, (0.0, END), y0, method, events=events, jac=jac, rtol=tol, atol=tol)
            s = go()
            cpu = []
            for _ in range(reps):
                c = time.process_time()
                go()
                cpu.append(time.process_time() - c)
            error = max(abs(s.t_events[i][0] / want[i] - 1) for i in range(3))
            print(json.dumps({
                "peer": f"scipy-{scipy.__version__}-{method}", "rtol": tol, "cpuUsPerRun": round(statistics.median(cpu) * 1e6, 1),
                "steps": len(s.t) - 1, "rhs": int(s.nfev), "jacobians": int(s.njev), "lu": int(s.nlu), "relErr": float(f"{error:.2e}")}), flush=True)


if __name__ == "__main__":
    main()
