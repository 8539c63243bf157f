#!/usr/bin/python3
"""The posterior of a fit by sampling, to see how far its Gaussian stands from it: quantiles of the scores, written into fits.json.

    /usr/bin/python3 benches/peers/fit_sampling.py CASE [draws [steps]]

CASE is tank-level-200 or receiver-mass-200; the posterior is that of fit_straining.py on the fast equations of scipy_fit.py. First importance
sampling: draws from Student's t with five degrees of freedom about the mode, its shape that of the Gauss-Newton covariance a fifth wider, weighted by
the posterior over the proposal. Where the draws are worth less than a tenth of their number, the stretch move of Goodman and Weare (2010) instead, written
down here: 48 walkers in two halves, a = 2, started from the weighted draws, a quarter of the steps thrown away. What the sampling leaves open is
the standard deviation of each quantile over parts of the draws (ten) or of the walkers (six).
"""
import json, os, sys, time

import numpy as np

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from fit_straining import DATA
from scipy_fit import problem

LEVELS, FREEDOM, WIDER, PARTS, WALKERS = (0.025, 0.16, 0.5, 0.84, 0.975), 5, 1.2, 10, 48


def quantiles(x, w):
    order = np.argsort(x)
    c = np.cumsum(w[order]) - 0.5 * w[order]
    return np.interp(LEVELS, c / w.sum(), x[order])


def stretch(residuals, x, rng, steps):
    density = lambda z: -np.inf if np.max(np.abs(z)) > 6 else -0.5 * float(np.sum(residuals(z) ** 2))
    n, half = x.shape[1], WALKERS // 2
    p = np.array([density(z) for z in x])
    chain = np.empty((steps, WALKERS, n))
    for step in range(steps):
        for first in (0, half):
            mine, others = np.arange(first, first + half), np.arange(half - first, WALKERS - first)
            s = (1 + rng.random(half)) ** 2 / 2            # g(s) ~ 1/sqrt(s) on (1/2, 2)
            partner = x[rng.choice(others, half)]
            new = partner + s[:, None] * (x[mine] - partner)
            there = np.array([density(z) for z in new])
            yes = np.log(rng.random(half)) < (n - 1) * np.log(s) + there - p[mine]
            x[mine[yes]], p[mine[yes]] = new[yes], there[yes]
        chain[step] = x
    kept = chain[steps // 4:]
    q = np.quantile(kept.reshape(-1, n), LEVELS, axis=0).T
    parts = np.array([np.quantile(kept[:, k::6].reshape(-1, n), LEVELS, axis=0).T for k in range(6)])
    worth = kept.shape[0] * WALKERS / max(autocorrelation(kept[:, :, i]) for i in range(n))
    return q, parts.std(0, ddof=1) / np.sqrt(6), worth, kept.shape[0] * WALKERS


def autocorrelation(c):
    """Integrated, in steps, averaged over the walkers; Sokal's window of five times itself."""
    c = c - c.mean()
    size = 1 << (2 * len(c) - 1).bit_length()
    f = np.fft.rfft(c, size, axis=0)
    a = np.fft.irfft(f * np.conj(f), size, axis=0)[:len(c)].mean(1)
    t = 2 * np.cumsum(a / a[0]) - 1
    done = np.arange(len(t)) >= 5 * t
    return float(t[np.argmax(done)] if done.any() else t[-1])


def main():
    name, draws = sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 5000
    path = os.path.join(DATA, "fits.json")
    case = next(c for c in json.load(open(path))["cases"] if c["name"] == name)
    residuals, _, _ = problem(case, "LSODA", 1e-6, False)
    rng = np.random.default_rng(20260)
    mode, covariance = np.array(case["fit"]["scores"]), np.array(case["fit"]["covariance"])
    n = len(mode)
    L = WIDER * np.linalg.cholesky(covariance)
    began = time.process_time()
    g = rng.standard_normal((draws, n)) / np.sqrt(rng.chisquare(FREEDOM, draws) / FREEDOM)[:, None]
    z = mode + g @ L.T
    log_weight = np.array([-0.5 * float(np.sum(residuals(a) ** 2)) for a in z]) + 0.5 * (FREEDOM + n) * np.log1p((g ** 2).sum(1) / FREEDOM)
    w = np.exp(log_weight - log_weight.max())
    effective = float(w.sum() ** 2 / (w ** 2).sum())
    q = np.array([quantiles(z[:, i], w) for i in range(n)])
    parts = np.array([[quantiles(z[k::PARTS, i], w[k::PARTS]) for i in range(n)] for k in range(PARTS)])
    open_ = parts.std(0, ddof=1) / np.sqrt(PARTS)
    sd = np.sqrt(np.diag(covariance))
    print(f"{name}: {draws} draws, worth {effective:.0f}, heaviest {w.max() / w.sum():.4f}, {time.process_time() - began:.0f} s of processor time", flush=True)
    method = "importance"
    if effective < draws / 10:
        method = "stretch"
        steps = int(sys.argv[3]) if len(sys.argv) > 3 else 500
        q, open_, effective, draws = stretch(residuals, z[rng.choice(draws, WALKERS, p=w / w.sum())] + 0.1 * rng.multivariate_normal(0 * mode, covariance, WALKERS), rng, steps)
        print(f"  stretch moves, worth {effective:.0f}, {time.process_time() - began:.0f} s of processor time")
    for i in range(n):
        print(f"  {i}: quantiles {np.round(q[i], 3)}, Gaussian {np.round(mode[i] + sd[i] * np.array([-1.96, -0.994, 0, 0.994, 1.96]), 3)}, open {np.round(open_[i], 3)}")
    everything = json.load(open(path))                    # read again: the other case may have been written meanwhile
    next(c for c in everything["cases"] if c["name"] == name)["sampled"] = {
        "method": method, "levels": LEVELS, "quantiles": q.tolist(), "open": open_.tolist(), "draws": draws, "effectiveDraws": round(effective)}
    with open(path, "w") as fh:
        json.dump(everything, fh, indent=1)
        fh.write("\n")


if __name__ == "__main__":
    main()
