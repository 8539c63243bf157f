#!/usr/bin/python3
"""The posterior of a fit by sampling, to see how far its Gaussian stands from it: quantiles of the scores, written into fits.json.

    /usr/bin/python3 benches/peers/fit_sampling.py CASE [steps]

CASE is tank-level-200 or receiver-mass-200. The stretch move of Goodman and Weare (2010), written down here, on the fast equations of
scipy_fit.py; 64 walkers in two halves, a = 2, started about the mode, a fifth of the steps thrown away. What the sampling itself leaves open is the
standard deviation of each quantile over eight parts of the walkers.
"""
import json, os, sys, time

import numpy as np

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from fit_straining import DATA
from scipy_fit import problem

WALKERS, LEVELS = 64, (0.025, 0.16, 0.5, 0.84, 0.975)


def main():
    name, steps = sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 3000
    path = os.path.join(DATA, "fits.json")
    case = next(c for c in json.load(open(path))["cases"] if c["name"] == name)
    residuals, _, _ = problem(case, "LSODA", 1e-6, False)

    def log_density(z):
        return -np.inf if np.max(np.abs(z)) > 6 else -0.5 * float(np.sum(residuals(z) ** 2))

    rng = np.random.default_rng(20260)
    mode, covariance = np.array(case["fit"]["scores"]), np.array(case["fit"]["covariance"])
    x = rng.multivariate_normal(mode, covariance, WALKERS)
    p = np.array([log_density(z) for z in x])
    n, half = len(mode), WALKERS // 2
    chain, taken, began = [], 0, time.time()
    for step in range(steps):
        for first in (0, half):
            mine, others = np.arange(first, first + half), np.arange(half - first, WALKERS - first)
            s = (1 + rng.random(half)) ** 2 / 2            # g(s) ~ 1/sqrt(s) on (1/2, 2)
            partner = x[rng.choice(others, half)]
            new = partner + s[:, None] * (x[mine] - partner)
            density = np.array([log_density(z) for z in new])
            accept = np.log(rng.random(half)) < (n - 1) * np.log(s) + density - p[mine]
            x[mine[accept]], p[mine[accept]] = new[accept], density[accept]
            taken += int(accept.sum())
        chain.append(x.copy())
        if step % 500 == 499:
            print(f"{name}: {step + 1} steps, {time.time() - began:.0f} s, {taken / (step + 1) / WALKERS:.2f} accepted", flush=True)
    kept = np.array(chain[steps // 5:])
    tau = [autocorrelation(kept[:, :, i]) for i in range(n)]
    parts = np.array([np.quantile(kept[:, k::8].reshape(-1, n), LEVELS, axis=0) for k in range(8)])
    q = np.quantile(kept.reshape(-1, n), LEVELS, axis=0)
    record = {"levels": LEVELS, "quantiles": q.T.tolist(), "open": (parts.std(0, ddof=1) / np.sqrt(8)).T.tolist(),
              "draws": int(kept.shape[0] * WALKERS), "autocorrelationSteps": [round(t, 1) for t in tau], "accepted": round(taken / steps / WALKERS, 3)}
    sd = np.sqrt(np.diag(covariance))
    for i in range(n):
        print(f"  {i}: quantiles {np.round(q[:, i], 3)}, Gaussian {np.round(mode[i] + sd[i] * np.array([-1.96, -0.994, 0, 0.994, 1.96]), 3)}, open {np.round(record['open'][i], 3)}, tau {tau[i]:.0f}")
    everything = json.load(open(path))                    # read again: the other case may have been written meanwhile
    next(c for c in everything["cases"] if c["name"] == name)["sampled"] = record
    with open(path, "w") as fh:
        json.dump(everything, fh, indent=1)
        fh.write("\n")


def autocorrelation(c):
    """Integrated, in steps, averaged over the walkers; Sokal's window of five times itself."""
    c = c - c.mean()
    size = 1 << (2 * len(c) - 1).bit_length()
    f = np.fft.rfft(c, size, axis=0)
    a = np.fft.irfft(f * np.conj(f), size, axis=0)[:len(c)].mean(1)
    a /= a[0]
    t = 2 * np.cumsum(a) - 1
    w = np.arange(len(t)) >= 5 * t
    return float(t[np.argmax(w)]) if w.any() else float(t[-1])


if __name__ == "__main__":
    main()
