#!/usr/bin/python3
"""A published inference from a warming curve, done again by quadrature: expected values of Waqar2023Tests.

    /usr/bin/python3 benches/peers/reference_lime.py

F. G. Waqar, S. Patel, C. M. Simon, "A tutorial on the Bayesian statistical approach to inverse problems", APL Machine Learning 1, 041101
(2023), doi 10.1063/5.0154773: a lime warms in a room, T(t) = T_air + (T_0 - T_air) exp(-t/lambda). Their model: lambda ~ N(1 h, 0.3 h) above
0, sigma ~ U(0, 1 K), T_0 and T_air normal about what was measured with sd sigma, readings normal about T with sd sigma. For given lambda and
sigma the readings are linear in T_0 and T_air, which are integrated in closed form; the other two on a fine grid.
"""
import json
import numpy as np
from scipy.optimize import least_squares

T0, AIR = 6.54, 18.47
t = np.array([0.17206416666666666, 0.3836194444444444, 0.49080805555555557, 0.9929019444444445, 1.3229305555555555,
              1.830666111111111, 2.7022786111111112, 4.107020555555556, 8.087124166666667, 8.293040555555555])
y = np.array([8.73, 10.71, 11.62, 14.18, 15.33, 16.61, 17.66, 18.43, 18.7, 18.57])

# least squares over lambda, T_0, T_air, the two direct readings being readings like the others
res = lambda p: np.concatenate([p[2] + (p[1] - p[2]) * np.exp(-t / p[0]) - y, [p[1] - T0, p[2] - AIR]])
s = least_squares(res, [1.0, T0, AIR], xtol=1e-15, ftol=1e-15, gtol=1e-15)
rss = 2 * s.cost
cov = np.linalg.inv(s.jac.T @ s.jac) * rss / (len(y) + 2 - 3)
r = -res(s.x)[:10]
print("least squares", s.x.tolist(), "se", np.sqrt(np.diag(cov)).tolist(), "rss", rss)
print("residuals", np.round(r, 3).tolist())

lam = np.linspace(0.5, 2.0, 3001)
sig = np.linspace(1e-3, 1.0, 4000)
n = len(y) + 2
Q, D = np.empty(len(lam)), np.empty(len(lam))      # minimal rss and log det of the 2 x 2 normal matrix
for i, l in enumerate(lam):
    e = np.exp(-t / l)
    A = np.vstack([np.column_stack([e, 1 - e]), np.eye(2)])
    b = np.concatenate([y, [T0, AIR]])
    x, *_ = np.linalg.lstsq(A, b, rcond=None)
    Q[i] = np.sum((A @ x - b) ** 2)
    D[i] = np.linalg.slogdet(A.T @ A)[1]
logp = -((lam[:, None] - 1) / 0.3) ** 2 / 2 - Q[:, None] / (2 * sig[None] ** 2) - (n - 2) * np.log(sig)[None] - D[:, None] / 2
p = np.exp(logp - logp.max())
pl, ps = p.sum(1), p.sum(0)
def facts(x, w):
    w = w / w.sum()
    m = (x * w).sum()
    c = np.cumsum(w) - w / 2
    return {"mean": m, "sd": float(np.sqrt(((x - m) ** 2 * w).sum())), "q05": float(np.interp(0.05, c, x)), "q50": float(np.interp(0.5, c, x)), "q95": float(np.interp(0.95, c, x))}
print("lambda", json.dumps(facts(lam, pl)))
print("sigma", json.dumps(facts(sig, ps)))
