"""The straining run of docs/guides/model.md, "The model of a straining run", written a second time in plain Python.

Written from that text, not from the C# code, so that the two can disagree. SI units throughout; T in K = t/degC + 273.15.
Shared by reference_straining.py (expected values) and scipy_straining.py (timing peer).

Where the text leaves something open, the choice made here is a numbered comment "CHOICE n", repeated in CHOICES, which goes
into the header of expected.json.
"""
import math
from bisect import bisect_right
from math import acos, cos, erfc, exp, log, pi, sin, sqrt

CHOICES = {
    "1 level-volume table": "wall = that of a round vessel of each section, floor = the first slope; ledges are not counted",
    "2 head integral": "I(x) = integral of A_wet from 0 to x; 0 for x <= 0",
    "3 bag": "a cylinder of cloth closed by a half sphere of the same diameter",
    "4 round-holed blade": "a hole of the bore's size in the blade, centres bore (1 - s) apart",
    "5 e of a submerged outlet": "3 by the setting, also while the outlet is still in the air",
    "6 before the first opening step": "the gate is shut",
    "7 stalled": "an opening step to come counts even after the heel; the run through is looked at first",
}

G0 = 9.80665
P_ATM = 101325.0
HEEL = 0.002                  # m over the gate's axis
DRY = 0.001                   # m of driving head
NEGLIGIBLE = 0.001            # share of M_d
HELD_BACK = 0.002             # m over the minimum head
BELOW_RIM = 1e-12             # m
STALL_HORIZON = 7 * 86400.0


# ---------------------------------------------------------------- properties (physics of honey, moisture w in % by mass)
class Honey:
    def __init__(self, w, lot, fixed=None):
        self.w, self.lot, self.fixed = w, lot, fixed
        self.T0 = 187.31 - 3.7019 * (w - 17.0)
        sg = 1.42347 - 0.0063017 * (w - 17.0) - 0.00020097 * (w - 17.0) ** 2
        self.rho20 = 998.2 * sg
        brix = 100.0 - w
        self.c0, self.c1 = 4186.8 - 25.1 * brix, 0.075 * brix

    def mu(self, T):
        if self.fixed:
            return self.fixed[0]
        return self.lot * exp(-11.0449 + 1449.73 / (T - self.T0))

    def rho(self, T):
        if self.fixed:
            return self.fixed[1]
        x = T - 273.15 - 20.0
        return self.rho20 - (0.538 + 0.00094 * x) * x

    def drho(self, T):
        return 0.0 if self.fixed else -0.538 - 0.00188 * (T - 273.15 - 20.0)

    def cp(self, T):
        return self.c0 + self.c1 * (T - 273.15)


# ---------------------------------------------------------------- vessels: volume, level, free surface, wall + floor
class UprightCylinder:
    def __init__(s, p):
        s.r = p["diameterM"] / 2
        s.H = p["heightM"]
        s.a = pi * s.r ** 2
        s.kinks = ()

    def volume(s, h): return s.a * h
    def level(s, V): return V / s.a
    def area(s, h): return s.a
    def wall(s, h): return s.a + 2 * pi * s.r * h


class Rectangular:
    def __init__(s, p):
        s.l, s.b, s.H = p["lengthM"], p["widthM"], p["heightM"]
        s.a = s.l * s.b
        s.kinks = ()

    def volume(s, h): return s.a * h
    def level(s, V): return V / s.a
    def area(s, h): return s.a
    def wall(s, h): return s.a + 2 * (s.l + s.b) * h


class ConeBottomed:
    """Frustum of bottomDiameterM -> diameterM over coneHeightM, then a cylinder of cylinderHeightM. Level from the bottom."""

    def __init__(s, p):
        s.R, s.rb = p["diameterM"] / 2, p["bottomDiameterM"] / 2
        s.hc, s.H = p["coneHeightM"], p["coneHeightM"] + p["cylinderHeightM"]
        s.k = (s.R - s.rb) / s.hc                     # radius grows k per metre
        s.x0 = s.rb / s.k                             # apex lies x0 below the bottom
        s.Vc = pi * s.k ** 2 * ((s.x0 + s.hc) ** 3 - s.x0 ** 3) / 3
        s.kinks = (s.hc,)

    def volume(s, h):
        if h > s.hc:
            return s.Vc + pi * s.R ** 2 * (h - s.hc)
        h = max(h, 0.0)
        return pi * s.k ** 2 * (3 * s.x0 ** 2 * h + 3 * s.x0 * h * h + h ** 3) / 3

    def level(s, V):
        if V > s.Vc:
            return s.hc + (V - s.Vc) / (pi * s.R ** 2)
        return (s.x0 ** 3 + 3 * max(V, 0.0) / (pi * s.k ** 2)) ** (1 / 3) - s.x0

    def area(s, h):
        r = s.rb + s.k * min(max(h, 0.0), s.hc)
        return pi * r * r

    def wall(s, h):
        hc = min(max(h, 0.0), s.hc)
        r = s.rb + s.k * hc
        w = pi * s.rb ** 2 + pi * (s.rb + r) * hc * sqrt(1 + s.k ** 2)
        return w + 2 * pi * s.R * max(0.0, h - s.hc)


class HorizontalCylinder:
    """Axis level, flat ends."""

    def __init__(s, p):
        s.R, s.L = p["diameterM"] / 2, p["lengthM"]
        s.H = 2 * s.R
        s.kinks = ()

    def theta(s, h): return acos(min(1.0, max(-1.0, 1 - h / s.R)))

    def volume(s, h):
        th = s.theta(h)
        return s.L * s.R ** 2 * (th - sin(th) * cos(th))

    def level(s, V):
        v = V / (s.L * s.R ** 2)
        if v <= 0:
            return 0.0
        if v >= pi:
            return 2 * s.R
        lo, hi = 0.0, pi
        th = min(max((1.5 * v) ** (1 / 3), 1e-8), pi - 1e-8) if v < 1 else pi / 2 + (v - pi / 2) / 2.5
        for _ in range(100):
            f = th - sin(th) * cos(th) - v
            if f > 0:
                hi = th
            else:
                lo = th
            new = th - f / (2 * sin(th) ** 2)
            if not lo < new < hi:
                new = 0.5 * (lo + hi)
            if abs(new - th) < 2e-16 * (1 + th):
                th = new
                break
            th = new
        return 2 * s.R * sin(th / 2) ** 2

    def area(s, h): return 2 * s.R * sin(s.theta(h)) * s.L

    def wall(s, h):
        th = s.theta(h)
        return 2 * s.R * th * s.L + 2 * s.R ** 2 * (th - sin(th) * cos(th))


class LevelVolumeTable:
    """CHOICE 1: volume linear between the points; free surface = slope; wall = that of a round vessel of that section,
    floor = the first slope; the ledges where the slope changes are not counted."""

    def __init__(s, p):
        s.h, s.V = list(p["levelsM"]), list(p["volumesM3"])
        assert s.h[0] == 0 and s.V[0] == 0
        s.H = s.h[-1]
        s.a = [(s.V[i + 1] - s.V[i]) / (s.h[i + 1] - s.h[i]) for i in range(len(s.h) - 1)]
        s.w = [s.a[0]]
        for i, a in enumerate(s.a):
            s.w.append(s.w[-1] + 2 * sqrt(pi * a) * (s.h[i + 1] - s.h[i]))
        s.kinks = tuple(x for i, x in enumerate(s.h[1:-1]) if abs(s.a[i + 1] / s.a[i] - 1) > 1e-12)

    def _i(s, x, xs): return min(max(bisect_right(xs, x) - 1, 0), len(s.a) - 1)

    def volume(s, h):
        i = s._i(h, s.h)
        return s.V[i] + s.a[i] * (h - s.h[i])

    def level(s, V):
        i = s._i(V, s.V)
        return s.h[i] + (V - s.V[i]) / s.a[i]

    def area(s, h): return s.a[s._i(h, s.h)]

    def wall(s, h):
        i = s._i(h, s.h)
        return s.w[i] + 2 * sqrt(pi * s.a[i]) * (h - s.h[i])


VESSELS = {"upright-cylinder": UprightCylinder, "rectangular": Rectangular, "cone-bottomed": ConeBottomed,
           "horizontal-cylinder": HorizontalCylinder, "level-volume-table": LevelVolumeTable}


# ---------------------------------------------------------------- strainers: depth, volume, wet cloth, free surface, head integral
# CHOICE 2: the head integral is I(x) = int_0^x A_wet(z) dz (the local head x - z summed over the wet cloth), 0 for x <= 0.
class FlatDisc:
    """A disc of cloth under a solid round rim of the same diameter."""

    def __init__(s, D, rim):
        s.a, s.rim, s.kinks = pi * D * D / 4, rim, ()

    def depth(s, V): return V / s.a
    def volume(s, d): return s.a * d
    def wet(s, d): return s.a
    def surface(s, d): return s.a
    def I(s, x): return s.a * x if x > 0 else 0.0


class Cone:
    """Apex down, all cloth; diameterM at the rim, rimHeightM from apex to rim."""

    def __init__(s, D, rim):
        s.k, s.rim, s.kinks = D / 2 / rim, rim, ()
        s.w = pi * s.k * sqrt(1 + s.k ** 2)

    def depth(s, V): return (3 * max(V, 0.0) / (pi * s.k ** 2)) ** (1 / 3)
    def volume(s, d): return pi * s.k ** 2 * d ** 3 / 3
    def wet(s, d): return s.w * d * d
    def surface(s, d): return pi * s.k ** 2 * d * d
    def I(s, x): return s.w * x ** 3 / 3 if x > 0 else 0.0


class Basket:
    """Upright cylinder, bottom and side of cloth."""

    def __init__(s, D, rim):
        s.a, s.c, s.rim, s.kinks = pi * D * D / 4, pi * D, rim, ()

    def depth(s, V): return V / s.a
    def volume(s, d): return s.a * d
    def wet(s, d): return s.a + s.c * max(d, 0.0)
    def surface(s, d): return s.a
    def I(s, x): return s.a * x + s.c * x * x / 2 if x > 0 else 0.0


class Bag:
    """CHOICE 3: a cylinder of cloth closed by a half sphere of the same diameter; depth from the lowest point."""

    def __init__(s, D, rim):
        s.R, s.rim = D / 2, rim
        s.Vs = 2 * pi * s.R ** 3 / 3
        s.kinks = (s.R,) if rim > s.R else ()

    def depth(s, V):
        R = s.R
        if V >= s.Vs:
            return R + (V - s.Vs) / (pi * R * R)
        if V <= 0:
            return 0.0
        # Newton on V = pi d^2 (R - d/3), convex on (0, R); the closed form would cancel for a small V.
        d = sqrt(V / (pi * R))
        for _ in range(60):
            f = pi * d * d * (R - d / 3) - V
            step = f / (pi * d * (2 * R - d))
            d -= step
            if abs(step) < 1e-16 * d:
                break
        return d

    def volume(s, d):
        return pi * d * d * (s.R - d / 3) if d <= s.R else s.Vs + pi * s.R ** 2 * (d - s.R)

    def wet(s, d): return 2 * pi * s.R * max(d, 0.0)

    def surface(s, d):
        return pi * d * (2 * s.R - d) if d < s.R else pi * s.R ** 2

    def I(s, x): return pi * s.R * x * x if x > 0 else 0.0


FORMS = {"flat-disc": FlatDisc, "cone": Cone, "basket": Basket, "bag": Bag}
LAWS = {"complete": 0.0, "standard": 0.5, "intermediate": 1.0, "cake": 2.0}


# ---------------------------------------------------------------- gate, cloth, debris
def gate_resistances(gate, s, e):
    """R^ (1/m^3) and B^ (1/m^4) at opening s, the blade's travel as a share of the bore."""
    a, L = gate["boreM"] / 2, gate["tubeLengthM"]
    if gate["blade"] == "straight":
        al = acos(max(-1.0, 1 - 2 * s))
        A, P = a * a * (al - sin(al) * cos(al)), 2 * a * (al + sin(al))
    else:
        # CHOICE 4: round-holed = a hole of the bore's size in the blade; what is open is the lens of two equal circles
        # whose centres are 2a(1 - s) apart.
        ga = acos(1 - s)
        A, P = 2 * a * a * (ga - sin(ga) * cos(ga)), 4 * a * ga
    K = 2.69 - 0.39 * A / (pi * a * a)
    R = e / a ** 3 + 8 * L / (pi * a ** 4) + (3 * pi * P / (2 * A * A) - 3 / a ** 3)
    return gate.get("factor", 1.0) * R, K / (2 * A * A)


def cloth_resistance(w, d):
    p = w + d
    q = sqrt(p * p + d * d)
    a = pi * q / p ** 2
    eps = 1 - pi * d * q / (4 * p * p)
    return 8.61 * a * a * (2 * d) / eps ** 2


def norm_cdf(x): return 0.5 * erfc(-x / sqrt(2))


def blinding_sigmas(debris, cloths, rho_h):
    """1/m. Size classes for cloth j: D > w_j, cut at the openings of the cloths above it; a class coarser than an earlier
    cloth i arrives with the share (1 - E) that cloth let by; a finer one arrives whole."""
    c, med, sd, E = debris["load"], debris["medianSizeM"], debris["sizeSpread"], debris["captureEfficiency"]

    def partial(lo, hi):  # E[1/D; lo < D < hi]
        u = lambda x: (log(x / med) + sd * sd) / sd
        top = 0.0 if hi is None else norm_cdf(-u(hi))
        return exp(sd * sd / 2) / med * (norm_cdf(-u(lo)) - top)

    out = []
    for j, cl in enumerate(cloths):
        w = cl["openingM"]
        cuts = [w] + sorted({x["openingM"] for x in cloths[:j] if x["openingM"] > w}) + [None]
        tot = 0.0
        for lo, hi in zip(cuts, cuts[1:]):
            share = 1.0
            for x in cloths[:j]:
                if x["openingM"] <= lo:
                    share *= 1 - E
            tot += share * partial(lo, hi)
        out.append(1.5 * rho_h / debris["densityKgPerM3"] * c * E * tot)
    return out


def heel_level(tank, lowest, bore_area):
    """Lowest level at or above `lowest` where the free surface is at least the bore's area."""
    if tank.area(lowest) >= bore_area:
        return lowest
    lo, hi = lowest, None
    for k in range(1, 1001):                        # the first section that is wide enough, then bisection
        x = lowest + (tank.H - lowest) * k / 1000
        if tank.area(x) >= bore_area:
            hi = x
            break
        lo = x
    if hi is None:
        raise ValueError("the tank is nowhere as wide as the bore")
    while True:
        x = 0.5 * (lo + hi)
        if not lo < x < hi:
            return hi
        if tank.area(x) >= bore_area:
            hi = x
        else:
            lo = x


# ---------------------------------------------------------------- the model
class Model:
    """Equations 1-8. y = [m_T, m_P, S, O, T_T, T_P, T_R, phi_1, ...]. mode is 'free', 'over' or 'ridden'."""

    def __init__(m, b, fixed=None, g=G0):
        m.b, m.g = b, g
        m.hon = Honey(b["moisturePercent"], b["lotFactor"], fixed)
        t, s, r, gt, ct = b["tank"], b["strainer"], b["receiver"], b["gate"], b["control"]
        m.Troom = b["roomTemperatureK"]
        T0 = b["honeyTemperatureK"]
        m.rho_h = m.hon.rho(T0)
        m.tank = VESSELS[t["shape"]](t)
        m.h0, m.zg, m.film, m.held, m.kT = t["levelM"], t["gateHeightM"], t["wallFilm"], t["held"], t["heatLossWPerM2K"]
        m.mT0 = m.rho_h * m.tank.volume(m.h0)
        m.h_heel = heel_level(m.tank, m.zg + HEEL, pi * gt["boreM"] ** 2 / 4)
        m.Md = m.mT0 - m.rho_h * m.tank.volume(m.h_heel)
        m.submerged = gt["outlet"] == "submerged"
        m.zout = gt["outletAboveScreenM"] if m.submerged else None
        m.e = 3.0 if m.submerged else 1.5          # CHOICE 5: by the setting, not by whether d has reached the outlet
        m.ride = ct["kind"] == "ride"
        m.wanted = ct["pondDepthM"] if m.ride else None
        # CHOICE 6: shut before the first step.
        m.steps = [(x[0], x[1]) for x in ct["steps"]] if ct["kind"] == "schedule" else [(0.0, ct["opening"])]
        m.form = FORMS[s["form"]](s["diameterM"], s["rimHeightM"])
        m.rim = s["rimHeightM"]
        m.f, m.dmin = s["factor"], s["minimumHeadM"]
        m.sealed, m.bypass = s["venting"] == "sealed", s["overflow"] == "bypass"
        m.r = [cloth_resistance(c["openingM"], c["wireM"]) for c in s["cloths"]]
        m.n = len(m.r)
        m.sig = blinding_sigmas(b["debris"], s["cloths"], m.rho_h)
        m.law = LAWS[b["debris"]["law"]]
        m.MP0 = m.rho_h * max(m.dmin, 0.001) * m.form.wet(m.rim)
        m.Vrim = m.form.volume(m.rim)
        m.rec = VESSELS[r["shape"]](r)
        m.HR, m.Vcap = m.rec.H, m.rec.volume(m.rec.H)
        m.screen = m.HR + r["spacerM"]
        m.kR, m.shut = r["heatLossWPerM2K"], r["shutWhenFull"]
        TR = r["startTemperatureK"]
        if TR is None:
            TR = m.Troom
        m.TR0 = TR
        m.mR0 = r["alreadyInM3"] * m.hon.rho(TR)
        m.Vair0 = max(m.Vcap - r["alreadyInM3"], 1e-6 * m.Vcap)
        m.MR0 = 0.001 * m.rho_h * m.Vcap
        # discrete state
        m.opened = None         # time the gate was first opened; the film is measured from the level ho it had then
        m.ho = m.Wo = None
        m.heeled = False        # the tank has been at its heel
        m.full = None           # (S, O) when the receiver became full
        m.s = 0.0

    def y0(m):
        return [m.mT0, 0.0, 0.0, 0.0, m.b["honeyTemperatureK"], m.b["honeyTemperatureK"], m.TR0] + [1.0] * m.n

    def set_opening(m, s, t, y):
        m.s = s
        if s > 0:
            m.Rh, m.Bh = gate_resistances(m.b["gate"], s, m.e)
            if m.opened is None:
                m.opened = t
                m.ho = m.tank.level(y[0] / m.hon.rho(y[4]))
                m.Wo = m.tank.wall(m.ho)

    def receiver_mass(m, S, O):
        if m.full is not None:
            S, O = m.full
        return m.mR0 + S + (O if m.bypass else 0.0)

    def evaluate(m, t, y, mode):
        """All algebraic quantities and the derivative; a tuple, for speed."""
        hon, g = m.hon, m.g
        mT, mP, S, O, TT, TP, TR = y[0], y[1], y[2], y[3], y[4], y[5], y[6]
        # 1 film
        rT, muT = hon.rho(TT), hon.mu(TT)
        VT = mT / rT
        ht = m.tank.level(VT)
        z = -1.0 if m.opened is None else m.ho - ht
        F = 0.0
        if m.film and z > 0 and t > m.opened:
            F = (2 / 3) * sqrt(muT / rT * z / (g * (t - m.opened))) * (m.Wo - m.tank.wall(ht))
        beyond = F - VT
        if beyond > 0:
            F = VT
        h = m.tank.level(VT - F) if F > 0 else ht
        # 3 pond
        rP, muP = hon.rho(TP), hon.mu(TP)
        VP = mP / rP
        d = m.form.depth(VP)
        # 2 gate (at its widest when ridden)
        H = h - m.zg
        if m.submerged and d > m.zout:
            H -= d - m.zout
        Gm = 0.0
        if m.s > 0 and H > 0 and not m.heeled:
            dp, R, B = rT * g * H, muT * m.Rh, rT * m.Bh
            Gm = rT * 2 * dp / (R + sqrt(R * R + 4 * B * dp))
        # 4 back-up, trapped air
        rR = hon.rho(TR)
        mR = m.receiver_mass(S, O)
        VR = mR / rR
        lR = min(m.rec.level(VR), m.HR)
        b = lR - m.screen
        ell = b if b > m.dmin else m.dmin
        ap = raw = 0.0
        if m.sealed:
            raw = P_ATM / (rP * g) * (m.Vair0 / max(m.Vair0 - S / m.rho_h, 1e-6 * m.Vcap) - 1)
            ap = raw
        # 5 cloth
        res = 0.0
        for j in range(m.n):
            res += m.r[j] / y[7 + j]
        dI = m.form.I(d - ap) - m.form.I(ell)
        Sp = rP * (rP * g / (muP * m.f)) * dI / res if dI > 0 else 0.0
        # 7 pond temperature (linear in G), and what keeps the pond's volume: c = V dT_P'
        wet = m.form.wet(d)
        loss = m.kT * (m.form.surface(d) + wet) * (TP - m.Troom) / hon.cp(TP)
        MP = mP + m.MP0
        G, Op = Gm, 0.0
        slope = hon.drho(TP)
        if mode == "ridden":
            q = VP * slope / MP
            G = (Sp - q * loss) / (1 - q * (TT - TP))
            TPp = (G * (TT - TP) - loss) / MP
            c = VP * slope * TPp
            mPp = c
        else:
            TPp = (G * (TT - TP) - loss) / MP
            c = VP * slope * TPp
            mPp = G - Sp
            if mode == "over":
                Op = G - Sp - c
                mPp = c
        # 6 blinding
        dphi = []
        if Sp > 0:
            U = Sp / rP / wet
            for j in range(m.n):
                ph = y[7 + j]
                dphi.append(-m.sig[j] * ph ** m.law * U)
        else:
            dphi = [0.0] * m.n
        # 7 tank and receiver
        TTp = 0.0
        if not m.held:
            TTp = -m.kT * (m.tank.wall(h) + m.tank.area(h)) * (TT - m.Troom) / (hon.cp(TT) * (mT + 0.001 * m.mT0))
        Qin = 0.0 if m.full is not None else Sp + (Op if m.bypass else 0.0)
        TRp = (Qin * (TP - TR) - m.kR * (m.rec.wall(lR) + m.rec.area(lR)) * (TR - m.Troom) / hon.cp(TR)) / (mR + m.MR0)
        dy = [-G, mPp, Sp, Op, TTp, TPp, TRp] + dphi
        runoff = rP * (VP - m.form.volume(ell + ap))
        return dy, G, Sp, Op, c, h, ht, z, F * rT, d, H, b, ell, ap, VR, Gm, lR, raw, runoff, beyond

    def held_back(m, y):
        """kg of the pond above the minimum head and 2 mm."""
        rP = m.hon.rho(y[5])
        return y[1] - rP * m.form.volume(m.dmin + HELD_BACK)

    def rhs(m, mode):
        ev = m.evaluate
        return lambda t, y: ev(t, y.tolist() if hasattr(y, "tolist") else y, mode)[0]
