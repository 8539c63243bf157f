#!/usr/bin/python3
"""Two fits of the plain pail, 200 readings each, by scipy.optimize.least_squares on scipy.integrate.solve_ivp: how long they take.

    /usr/bin/python3 benches/peers/scipy_fit.py CASE [repetitions]

CASE is tank-level-200 or receiver-mass-200 of fits.json. The unknowns and residuals are those of fit_straining.py. The equations are
those of the plain run alone, as fast as plain Python allows (scipy_ensemble.py), read at the readings' times as a user would: t_eval,
the heel and the rim as events. Derivatives are differences by the four inputs and the clock, forward or central; the zero's is written
down. Each integrator runs at several tolerances; one JSON line each, with how far its mode lies from the one of fits.json, in standard
deviations.
"""
import json, os, statistics, sys, time

import numpy as np
import scipy
from scipy.integrate import solve_ivp
from scipy.optimize import least_squares

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from fit_straining import DATA, Posterior
from scipy_ensemble import check, equations
from straining_model import Model

STEP = 1e-3   # of a score; the runs' own errors divided by it are what the derivatives err by


def problem(case, method, rtol, central):
    p = Posterior(case)
    s = case["runs"][0]["series"][0]
    times, values = np.array(s["times"]), np.array(s["values"])
    level = s["quantity"] == "tank-level"
    count = {"runs": 0}

    def course(z):
        count["runs"] += 1
        M = Model(p.batch(0, z))
        M.set_opening(M.b["control"]["opening"], 0.0, M.y0())
        rhs_of, events_of = equations(M)
        at = times + z[4] * s["clockSd"]
        t, y, done = 0.0, np.array(M.y0()), int(np.searchsorted(at, 0.0, side="right"))
        out = np.empty(len(at))
        out[:done] = M.h0 if level else 0.0
        over = heeled = False
        while done < len(at):
            events = events_of(over, heeled)
            events.pop("t95", None)
            r = solve_ivp(rhs_of(over, heeled), (t, at[-1]), y, method, t_eval=at[done:], events=list(events.values()), rtol=rtol, atol=rtol * 0.1)
            n = r.t.size
            if n:
                Y = r.y
                out[done:done + n] = levels(M, r.t, Y) if level else Y[2] + Y[3]
                done += n
            if r.status == 0:
                break
            happened = [k for k, e in zip(events, r.t_events) if len(e)]
            i = list(events).index(happened[0])
            t, y = r.t_events[i][0], r.y_events[i][0]
            if "through" in happened:
                out[done:] = levels(M, np.array([t]), y[:, None])[0] if level else y[2] + y[3]
                break
            if "rim" in happened:
                if over:
                    keep = (1 - 1e-12) * M.rim * M.form.a * M.hon.rho(y[5])
                    y[3] += y[1] - keep
                    y[1] = keep
                over = not over
            heeled = heeled or "heel" in happened
        return out

    def levels(M, t, Y):
        x = Y[4] - 293.15
        rho = M.hon.rho20 - (0.538 + 0.00094 * x) * x
        mu = M.hon.lot * np.exp(-11.0449 + 1449.73 / (Y[4] - M.hon.T0))
        V = Y[0] / rho
        z = np.maximum(M.ho - V / M.tank.a, 0.0)
        film = np.where(t > 0, 2 / 3 * np.sqrt(mu / rho * z / (M.g * np.maximum(t, 1e-300))) * 2 * np.pi * M.tank.r * z, 0.0)
        return (V - np.minimum(film, V)) / M.tank.a

    def residuals(z):
        return np.concatenate([(values - course(z) - z[5] * s["zeroSd"]) / s["noise"], z])

    def jacobian(z):
        f = residuals(z)
        J = np.zeros((len(f), 6))
        for i in range(5):
            e = np.zeros(6)
            e[i] = STEP
            J[:, i] = (residuals(z + e) - residuals(z - e)) / (2 * STEP) if central else (residuals(z + e) - f) / STEP
        J[:len(values), 5] = -s["zeroSd"] / s["noise"]
        J[len(values) + 5, 5] = 1.0
        return J

    return residuals, jacobian, count


def main():
    check()
    name = sys.argv[1]
    repetitions = int(sys.argv[2]) if len(sys.argv) > 2 else 5
    case = next(c for c in json.load(open(os.path.join(DATA, "fits.json")))["cases"] if c["name"] == name)
    mode, sd = np.array(case["fit"]["scores"]), np.sqrt(np.diag(case["fit"]["covariance"]))
    for method in ("LSODA", "DOP853", "RK45"):
        for central in (False, True):
            for rtol in (1e-4, 1e-5, 1e-6, 1e-7):
                residuals, jacobian, count = problem(case, method, rtol, central)
                for optimiser in ("trf",):                 # "lm" takes up to three times the runs here
                    best = lambda: least_squares(residuals, np.zeros(6), jac=jacobian, method=optimiser, xtol=1e-6, ftol=1e-8, gtol=1e-6)
                    r = best()
                    count["runs"] = 0
                    cpu = []
                    for _ in range(repetitions):
                        c = time.process_time()
                        best()
                        cpu.append(time.process_time() - c)
                    runs = count["runs"] / repetitions
                    J = jacobian(r.x)
                    own = np.sqrt(np.diag(np.linalg.inv(J.T @ J)))
                    print(json.dumps({"peer": f"SciPy {scipy.__version__} {method}, {optimiser}, {'central' if central else 'forward'}", "rtol": rtol,
                                      "cpuUsPerRun": round(statistics.median(cpu) * 1e6, 1), "modelRuns": runs,
                                      "modeErrorInSd": float(f"{np.max(np.abs(r.x - mode) / sd):.2e}"),
                                      "sdErrorRelative": float(f"{np.max(np.abs(own / sd - 1)):.2e}"), "stop": int(r.status)}), flush=True)


if __name__ == "__main__":
    main()
