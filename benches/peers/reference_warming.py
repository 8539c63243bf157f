#!/usr/bin/python3
"""Expected values of warming runs, from SciPy's Radau at tight tolerance.

    /usr/bin/python3 benches/peers/reference_warming.py          regenerates expected.json beside batches.json
    /usr/bin/python3 benches/peers/reference_warming.py NAME...  prints those batches only; with --write, puts them in

The model is warming_model.py, written from docs/guides/model.md, on the same cells as the library's run: the two must agree to the
error of integration in time. The integrator is scipy.integrate.Radau (order 5, sparse Jacobian) at rtol = atol = 1e-9 in
units of about 1 K. Switchings, targets and the cut-out are located stops: the crossing is found on the dense output, then the
step is integrated anew to it and corrected. Integrals over time (energy, damage) take Radau's own nodes, which makes them
components of the same method. The highest enthalpy a cell has had moves on within a step as well. Each batch runs a second
time at 1e-7; the difference is stored as the estimated error, so it is that of the coarser run.
"""
import json, math, os, platform, sys, time
from concurrent.futures import ProcessPoolExecutor

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
import numpy as np
import scipy
from scipy.integrate import Radau
from scipy.optimize import brentq

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from warming_model import CHOICES, Model, U_SCALE, diastase_rate, hmf_high, hmf_low, hmf_rate

HERE = os.path.dirname(os.path.abspath(__file__))
DATA = os.path.join(HERE, "..", "..", "tests", "FlowSim.Tests", "Warming", "Reference")
RTOL, COARSE = 1e-9, 1e-7
NODES = ((4 - math.sqrt(6)) / 10, (4 + math.sqrt(6)) / 10, 1.0)
WEIGHTS = ((16 - math.sqrt(6)) / 36, (16 + math.sqrt(6)) / 36, 1 / 9)
K0 = 273.15


class Run:
    def __init__(r, batch, rtol=RTOL):
        r.b, r.rtol = batch, rtol
        r.m = m = Model(batch)
        r.n = m.n
        r.longest = batch["longestS"]
        r.t = 0.0
        r.start_u = m.start_u()
        r.top = r.start_u.copy()
        r.unlimited = m.power is None
        r.cut = None
        r.switchings = 0
        sp = m.setpoint(0.0)
        tb = sp if r.unlimited else m.body_start
        r.body_at_start = tb
        r.y = np.concatenate([r.start_u / U_SCALE, [tb, 0.0]])
        r.y[r.n + 1] = m.evaluate(r.y, r.top, tb)["S"]
        r.mode = "held" if r.unlimited else ("holding?" if m.hysteresis == 0 else ("on" if r.y[r.n + 1] < sp else "off"))
        r.targets = batch["targets"]
        r.reached = [None] * len(r.targets)
        r.hold_after = batch.get("holdAfterS", 0.0)
        r.heater = r.room = 0.0
        r.hmf, r.hmf_lo, r.hmf_hi, r.dia = (np.zeros(r.n) for _ in range(4))
        r.hottest_wall, r.hottest_wall_at, r.hottest, r.above = -1e9, 0.0, -1e9, -1e9
        r.max_step = batch.get("referenceMaxStepS", math.inf)
        r.steps = r.restarts = r.nfev = 0
        r.log = []

    # ---- the stretch from r.seg on: setpoint straight
    def sp(r, t):
        return r.seg[1] + r.seg[2] * (t - r.seg[0])

    def given(r, t):
        return r.sp(t) if r.mode in ("held", "hold") else None

    def look(r, t, y, top):
        e = r.m.evaluate(y, top, r.given(t))
        e["probe"] = y[r.n + 1] if r.m.lag > 0 else e["S"]
        e["P"] = {"held": lambda: e["drain"], "hold": lambda: e["drain"] + r.m.Cb * r.seg[2],
                  "on": lambda: r.m.power, "full": lambda: r.m.power, "off": lambda: 0.0}[r.mode]()
        return e

    def solver(r, t, y, top, t1):
        """`top` is changed in place by `march` after each step."""
        m, n = r.m, r.n
        given = r.mode in ("held", "hold")

        def rhs(t, y):
            r.nfev += 1
            e = r.look(t, y, top)
            dy = np.empty(n + 2)
            dy[:n] = e["q"] / (m.m * U_SCALE)
            dy[n] = r.seg[2] if given else (e["P"] - e["drain"]) / m.Cb
            dy[n + 1] = (e["S"] - y[n + 1]) / m.lag if m.lag > 0 else 0.0
            return dy

        def jac(t, y):
            return m.jacobian(r.look(t, y, top), not given, m.lag > 0)

        return Radau(rhs, t, y, t1, rtol=r.rtol, atol=r.rtol, jac=jac, max_step=min(r.max_step, t1 - t))

    def march(r, t, y, top, t1):
        """Steps from t to t1, each as (t0, t1, dense output, state after, highest enthalpy before, highest enthalpy after)."""
        top = top.copy()
        s = r.solver(t, y.copy(), top, t1)
        while s.status == "running":
            before = top.copy()
            msg = s.step()
            if s.status == "failed":
                raise RuntimeError(f"{r.b['name']}: {msg} at {s.t}")
            dense = s.dense_output()
            for c in NODES:
                np.maximum(top, dense(s.t_old + c * (s.t - s.t_old))[:r.n] * U_SCALE, out=top)
            yield s.t_old, s.t, dense, s.y.copy(), before, top.copy()

    def settle(r, t, y):
        """What does not follow from the rates: a body that is given, a probe without lag."""
        if r.mode in ("held", "hold"):
            y[r.n] = r.sp(t)
        return y

    def commit(r, piece):
        t0, t1, dense, y1, before, after = piece
        h = t1 - t0
        for c, w in zip(NODES, WEIGHTS):
            t = t0 + c * h
            e = r.look(t, dense(t), before)
            r.heater += w * h * e["P"]
            r.room += w * h * e["room"]
            r.hmf += w * h * hmf_rate(r.m.law, e["t"])
            r.hmf_lo += w * h * hmf_low(r.m.law, e["t"])
            r.hmf_hi += w * h * hmf_high(r.m.law, e["t"])
            r.dia += w * h * diastase_rate(e["t"])
            r.watch(t, e)
        r.t, r.y, r.top = t1, y1, after
        r.steps += 1

    def watch(r, t, e):
        wall = r.m.hottest_wall(e)
        if wall > r.hottest_wall:
            r.hottest_wall, r.hottest_wall_at = wall, t
        r.hottest = max(r.hottest, float(e["t"].max()))
        r.above = max(r.above, wall - e["probe"])

    # ---- what stops a stretch: name -> function of (t, look), which goes from negative to positive
    def events(r):
        m, ev = r.m, {}
        half = m.hysteresis / 2
        if r.mode == "on":
            ev["off"] = lambda t, e: e["probe"] - r.sp(t) - half
        elif r.mode == "off" and r.cut is None and m.hysteresis > 0:
            ev["on"] = lambda t, e: r.sp(t) - half - e["probe"]
        elif r.mode == "off" and r.cut is None:
            ev["hold"] = lambda t, e: r.sp(t) - e["tb"]
        elif r.mode == "full":
            ev["hold"] = lambda t, e: e["tb"] - r.sp(t)
        elif r.mode == "hold":
            ev["full"] = lambda t, e: (e["P"] - m.power) / m.power
            ev["idle"] = lambda t, e: -e["P"] / m.power
        if m.cut_out is not None and r.cut is None:
            ev["cut"] = lambda t, e: e["tb"] - m.cut_out
        for k, x in enumerate(r.targets):
            if r.reached[k] is None:
                ev[f"target {k}"] = r.target(x)
        return ev

    def target(r, x):
        m, kind = r.m, x["kind"]
        at = x.get("atK", K0) - K0
        if kind == "mean":
            return lambda t, e: m.mean(e["t"]) - at
        if kind == "coldest":
            return lambda t, e: float(e["t"].min()) - at
        if kind == "cooled":
            return lambda t, e: at - m.mean(e["t"])
        few = lambda e: 1.0 if m.x0 == 0 else 0.01 - m.crystals_left(e["F"]) / m.x0
        if kind == "crystals":
            return lambda t, e: few(e)
        if kind == "thin":
            return lambda t, e: min(math.log(x["viscosityPaS"] / m.hon.mu(m.mean(e["t"]))), few(e))
        if kind == "thick":
            return lambda t, e: math.log(m.hon.mu(m.mean(e["t"])) / x["viscosityPaS"])
        raise ValueError(kind)

    def apply(r, name, e):
        r.log.append((r.t, name))
        if name in ("on", "off"):
            r.mode = name
            r.switchings += 1
        elif name == "hold":
            r.mode = "hold"
            r.settle(r.t, r.y)
            power = r.look(r.t, r.y, r.top)["P"]     # honey warmer than the setpoint: the body goes on without the heater
            r.mode = "off" if power < 0 else "full" if power > r.m.power else "hold"
        elif name == "full":
            r.mode = "full"
        elif name == "idle":
            r.mode = "off"
        elif name == "cut":
            if r.mode in ("on",):
                r.switchings += 1
            r.mode, r.cut = "off", r.t
        else:
            r.reached[int(name.split()[1])] = r.t

    def enter(r):
        """At the start of a stretch: modes that the setpoint has left behind, and targets that hold already."""
        m = r.m
        if m.hysteresis == 0 and not r.unlimited and r.cut is None:
            tb, sp = r.y[r.n], r.sp(r.t)
            if r.mode == "holding?" or abs(tb - sp) > 1e-9:
                r.mode = "full" if tb < sp - 1e-9 else "off" if tb > sp + 1e-9 else "hold"
        r.settle(r.t, r.y)
        while True:
            e = r.look(r.t, r.y, r.top)
            done = [k for k, g in r.events().items() if g(r.t, e) >= 0 and (k.startswith("target") or k in ("on", "off", "cut"))]
            if not done:
                break
            r.apply(done[0], e)
        r.watch(r.t, r.look(r.t, r.y, r.top))

    def finish_at(r):
        if r.targets and None not in r.reached:
            return min(r.longest, max(r.reached) + r.hold_after)
        return r.longest

    def run(r):
        m = r.m
        breaks = sorted({s[0] for s in m.steps if s[0] > 0})
        while r.t < r.finish_at():
            r.seg = (r.t, m.setpoint(r.t), m.setpoint_slope(r.t))
            stop = min([x for x in breaks if x > r.t] + [r.longest])
            r.enter()
            while r.t < min(stop, r.finish_at()):
                r.restarts += 1
                hit = r.stretch(min(stop, r.finish_at()))
                if hit:
                    r.apply(hit, None)
                    r.settle(r.t, r.y)
                    e = r.look(r.t, r.y, r.top)
                    r.watch(r.t, e)
                    for k, g in r.events().items():      # what comes true by the same crossing
                        if k.startswith("target") and g(r.t, e) >= -1e-10:
                            r.apply(k, e)
        return r

    def stretch(r, t1):
        ev = r.events()
        e = r.look(r.t, r.y, r.top)
        last = {k: g(r.t, e) for k, g in ev.items()}
        for piece in r.march(r.t, r.y, r.top, t1):
            a, b, dense, y1, before, after = piece
            y0, top0 = r.y, r.top
            hits = []
            ts = [a] + [a + c * (b - a) for c in NODES]
            for k, g in ev.items():
                f = lambda t, g=g: g(t, r.look(t, dense(t), before))
                vs = [last[k]] + [f(t) for t in ts[1:]]
                for q in range(3):
                    if vs[q] < 0 <= vs[q + 1]:
                        tr = ts[q + 1] if vs[q + 1] == 0 else brentq(f, ts[q], ts[q + 1], xtol=1e-12 * max(1, b), rtol=8.9e-16)
                        hits.append((tr, k))
                        break
                last[k] = vs[3]
            if not hits:
                r.commit(piece)
                continue
            tr, k = min(hits)
            g = ev[k]
            f = lambda t: g(t, r.look(t, dense(t), before))
            for _ in range(6):
                pieces = list(r.march(a, y0, top0, tr))
                v = g(tr, r.look(tr, pieces[-1][3], pieces[-1][4]))
                d = 1e-3 * (b - a)
                slope = (f(tr) - f(tr - d)) / d
                if slope <= 0 or abs(v) < 1e-11 or abs(v / slope) < 1e-9 * max(tr, 1.0) * 1e-3:
                    break
                new = tr - v / slope
                if not a < new < b + (b - a):
                    break
                tr = new
            for p in pieces:
                r.commit(p)
            return k
        return None

    # ---- what is told
    def figures(r):
        m, n = r.m, r.n
        e = r.look(r.t, r.y, r.top)
        u = r.y[:n] * U_SCALE
        N, t = m.N, e["t"]
        share = m.m / m.mass
        into = N * float(m.m @ (u - r.start_u))
        F0 = 0.0 if m.x0 == 0 else min(max((m.t_start - m.t_from) / (m.t_to - m.t_from), 0), 1)
        melting = 0.0 if m.x0 == 0 else N * float(m.m @ (e["F"] - F0)) * m.lx
        into_body = 0.0 if r.unlimited else m.Cb * (e["tb"] - r.body_at_start)
        worst, worst_d = int(np.argmax(r.hmf)), int(np.argmax(r.dia))
        fl, sp = m.floral, m.spread
        reached = all(x is not None for x in r.reached) and r.targets
        left = lambda s, f: float(np.exp(-r.dia / f) @ share) if s is None else math.exp(-r.dia[s] / f)
        return {
            "status": "reached" if reached else "cut-out" if r.cut is not None else "time-limit",
            "endS": r.t, "targetTimesS": r.reached, "massKg": m.mass,
            "coldestK": float(t.min()) + K0, "meanK": m.mean(t) + K0, "hottestK": float(t.max()) + K0,
            "wallK": m.hottest_wall(e) + K0, "probeK": e["probe"] + K0, "bodyK": e["tb"] + K0,
            "hottestWallK": r.hottest_wall + K0, "hottestHoneyK": r.hottest + K0, "wallAboveProbeK": r.above,
            "crystalsLeft": m.crystals_left(e["F"]), "viscosityPaS": m.hon.mu(m.mean(t)), "enhancement": e["E"],
            "heaterJ": r.heater, "intoHoneyJ": into, "meltingJ": melting, "intoBodyJ": into_body, "toRoomJ": r.room,
            "balanceJ": r.heater - into - into_body - r.room,
            "cutOutS": r.cut, "switchings": r.switchings,
            "hmfLow": float(r.hmf_lo @ share) * fl / sp, "hmf": float(r.hmf @ share) * fl, "hmfHigh": float(r.hmf_hi @ share) * fl * sp,
            "worstHmfLow": r.hmf_lo[worst] * fl / sp, "worstHmf": r.hmf[worst] * fl, "worstHmfHigh": r.hmf_hi[worst] * fl * sp,
            "diastaseLeftLow": left(None, 0.5), "diastaseLeft": left(None, 1), "diastaseLeftHigh": left(None, 6),
            "worstDiastaseLeftLow": left(worst_d, 0.5), "worstDiastaseLeft": left(worst_d, 1), "worstDiastaseLeftHigh": left(worst_d, 6),
        }


def one(batch):
    start = time.time()
    r = Run(batch).run()
    f = r.figures()
    c = Run(batch, COARSE).run().figures()
    error = {}
    for key, v in f.items():
        if key == "targetTimesS":
            error[key] = [None if a is None or b is None else abs(a - b) for a, b in zip(v, c[key])]
        elif isinstance(v, float) and c[key] is not None:
            error[key] = abs(v - c[key])
    return {"name": batch["name"], "figures": f, "estimatedError": error}, r.log, (r.steps, r.restarts, r.nfev), time.time() - start


def worst_of(rec):
    """Largest estimated error: of times and energies relative, of temperatures in K."""
    f, e = rec["figures"], rec["estimatedError"]
    times = [d / t for t, d in zip(f["targetTimesS"], e["targetTimesS"]) if t]
    kelvins = [e[k] for k in e if k.endswith("K")]
    turned = max(abs(f[k]) for k in ("heaterJ", "intoHoneyJ", "toRoomJ"))
    joules = [e[k] / turned for k in e if k.endswith("J")]
    damage = [e[k] / max(abs(f[k]), 1e-3) for k in e if "hmf" in k.lower() or "diastase" in k.lower()]
    return max(times, default=0.0), max(kelvins), max(joules), max(damage)


def main():
    doc = json.load(open(os.path.join(DATA, "batches.json")))
    only = [a for a in sys.argv[1:] if not a.startswith("-")]
    batches = [b for b in doc["batches"] if not only or b["name"] in only]
    out = []
    with ProcessPoolExecutor(2) as pool:
        for rec, log, counts, secs in pool.map(one, batches):
            f, w = rec["figures"], worst_of(rec)
            print(f"{rec['name']:28} {f['status']:10} end {f['endS']:.7g} s  mean {f['meanK'] - K0:.4f} coldest {f['coldestK'] - K0:.4f} wall {f['wallK'] - K0:.4f} "
                  f"E {f['enhancement']:.2f}  targets {[None if x is None else round(x, 1) for x in f['targetTimesS']]}  errors t {w[0]:.0e} K {w[1]:.0e} J {w[2]:.0e} damage {w[3]:.0e} "
                  f"balance {f['balanceJ']:.0e} J of {f['heaterJ']:.3g}  switchings {f['switchings']}  {counts}  {secs:.0f} s", flush=True)
            if "--log" in sys.argv:
                for x in log:
                    print("      ", x)
            if only and "--write" not in sys.argv:
                print(json.dumps(f, indent=1))
            out.append(rec)
    if only and "--write" not in sys.argv:
        return
    if only:
        kept = {x["name"]: x for x in json.load(open(os.path.join(DATA, "expected.json")))["runs"]}
        kept.update({x["name"]: x for x in out})
        out = [kept[b["name"]] for b in doc["batches"]]
    header = {
        "what": "Warming runs of batches.json integrated by SciPy on the same cells; see docs/guides/model.md for the model",
        "regenerate": "/usr/bin/python3 benches/peers/reference_warming.py",
        "integrators": f"scipy.integrate.Radau rtol {RTOL} (values); estimatedError: difference to rtol {COARSE}",
        "versions": {"python": platform.python_version(), "numpy": np.__version__, "scipy": scipy.__version__},
        "choices": CHOICES,
        "units": "SI; the unit ends the key; HMF in mg/kg, diastase as shares",
        "worstEstimatedErrors": dict(zip(("timesRelative", "temperaturesK", "energiesRelative", "damageRelative"), [max(worst_of(r)[k] for r in out) for k in range(4)]))}
    with open(os.path.join(DATA, "expected.json"), "w") as fh:
        json.dump({"header": header, "runs": out}, fh, indent=1)
        fh.write("\n")


if __name__ == "__main__":
    main()
