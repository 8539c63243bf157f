/* The plain straining run ("plain-pail" of tests/FlowSim.Tests/Straining/Reference/batches.json) in plain C, for the peers: the
 * equations of docs/guides/model.md, "The model of a straining run", for a round tank, straight blade, flat disc, vented, one cloth,
 * intermediate blocking. What an ensemble varies is in Batch, everything else is compiled in. The general forms are in
 * straining_model.py. */
#ifndef PLAIN_STRAINING_H
#define PLAIN_STRAINING_H
#include <math.h>

#define NEQ 8
#define PI 3.14159265358979323846
static const double g = 9.80665;
/* the batch */
static const double T_ROOM = 295.15;
static const double D_TANK = 0.285, LEVEL = 0.298, BORE = 0.038, TUBE = 0.040;
static const double D_SCREEN = 0.285, RIM = 0.100, W_CLOTH = 400e-6, D_WIRE = 250e-6, D_MIN = 0.002;
static const double MEDIAN = 0.0005, SPREAD = 0.6, CAPTURE = 0.5, RHO_DEBRIS = 960.0;
static const double D_REC = 0.300, H_REC = 0.400, K_TANK = 8.0, K_REC = 8.0;
static const double HEEL = 0.002, DRY = 0.001, NEGLIGIBLE = 0.001;

/* In the order of the ensemble's draws: share of mass, K, factors, share of mass, share of the bore. */
typedef struct { double moisture, honeyK, lot, screen, load, opening; } Batch;
static const Batch PLAIN = {0.178, 308.15, 1, 1, 0.0003, 0.35};

typedef struct {
    double T0, rho20, c0, c1, rhoH, mT0, Md, Atank, W0, wallPerM, Rhat, Bhat, Asc, r, sigma, MP0, Arec, Vcap, MR0, stall, honeyK, viscA;
    int overRim, heeled;
} Plain;

static inline double rho(const Plain *p, double T) { double x = T - 293.15; return p->rho20 - (0.538 + 0.00094 * x) * x; }
static inline double drho(double T) { return -0.538 - 0.00188 * (T - 293.15); }
static inline double mu(const Plain *p, double T) { return exp(p->viscA + 1449.73 / (T - p->T0)); }
static inline double cp(const Plain *p, double T) { return p->c0 + p->c1 * (T - 273.15); }
static double ncdf(double x) { return 0.5 * erfc(-x / sqrt(2.0)); }

static void setup(Plain *p, const Batch *batch)
{
    const double LOAD = batch->load, OPENING = batch->opening;
    p->honeyK = batch->honeyK;
    p->viscA = -11.0449 + log(batch->lot);
    double w = 100 * batch->moisture, x = w - 17, b = 100 - w;
    p->T0 = 187.31 - 3.7019 * x;
    p->rho20 = 998.2 * (1.42347 - 0.0063017 * x - 0.00020097 * x * x);
    p->c0 = 4186.8 - 25.1 * b; p->c1 = 0.075 * b;
    p->rhoH = rho(p, p->honeyK);
    p->Atank = PI * D_TANK * D_TANK / 4; p->wallPerM = PI * D_TANK;
    p->W0 = p->Atank + p->wallPerM * LEVEL;
    p->mT0 = p->rhoH * p->Atank * LEVEL;
    p->Md = p->mT0 - p->rhoH * p->Atank * HEEL;
    p->stall = p->Md / (7 * 86400.0);
    double a = BORE / 2, al = acos(1 - 2 * OPENING);
    double A = a * a * (al - sin(al) * cos(al)), P = 2 * a * (al + sin(al));
    p->Rhat = 1.5 / (a * a * a) + 8 * TUBE / (PI * a * a * a * a) + 3 * PI * P / (2 * A * A) - 3 / (a * a * a);
    p->Bhat = (2.69 - 0.39 * A / (PI * a * a)) / (2 * A * A);
    p->Asc = PI * D_SCREEN * D_SCREEN / 4;
    double pt = W_CLOTH + D_WIRE, q = sqrt(pt * pt + D_WIRE * D_WIRE), aa = PI * q / (pt * pt);
    double eps = 1 - PI * D_WIRE * q / (4 * pt * pt);
    p->r = batch->screen * 8.61 * aa * aa * 2 * D_WIRE / (eps * eps);
    double u = (log(W_CLOTH / MEDIAN) + SPREAD * SPREAD) / SPREAD;
    p->sigma = 1.5 * p->rhoH / RHO_DEBRIS * LOAD * CAPTURE * exp(SPREAD * SPREAD / 2) / MEDIAN * ncdf(-u);
    p->MP0 = p->rhoH * fmax(D_MIN, 0.001) * p->Asc;
    p->Arec = PI * D_REC * D_REC / 4; p->Vcap = p->Arec * H_REC; p->MR0 = 0.001 * p->rhoH * p->Vcap;
}

typedef struct { double h, d, ell, G, S, O, runoff; } Algebra;

static void model(const Plain *p, double t, const double *y, double *dy, Algebra *out)
{
    double mT = y[0], mP = y[1], TT = y[4], TP = y[5], TR = y[6];
    double rT = rho(p, TT), muT = mu(p, TT), V = mT / rT, ht = V / p->Atank, z = LEVEL - ht, F = 0;
    if (t > 0 && z > 0)
        F = 2.0 / 3.0 * sqrt(muT / rT * z / (g * t)) * p->wallPerM * z;
    double h = (V - fmin(F, V)) / p->Atank, G = 0;
    if (h > 0 && !p->heeled) {
        double dp = rT * g * h, R = muT * p->Rhat, B = rT * p->Bhat;
        G = rT * 2 * dp / (R + sqrt(R * R + 4 * B * dp));
    }
    double rP = rho(p, TP), VP = mP / rP, d = VP / p->Asc, mR = y[2] + y[3];
    double lr = fmin(mR / rho(p, TR) / p->Arec, H_REC), ell = fmax(lr - H_REC, D_MIN);
    double S = d > ell ? rP * rP * g / mu(p, TP) * p->Asc * (d - ell) * y[7] / p->r : 0;
    double loss = K_TANK * 2 * p->Asc * (TP - T_ROOM) / cp(p, TP);
    double dTP = (G * (TT - TP) - loss) / (mP + p->MP0), c = drho(TP) * VP * dTP, O = 0, dmP = G - S;
    if (p->overRim) { O = G - S - c; dmP = c; }
    out->h = h; out->d = d; out->ell = ell; out->G = G; out->S = S; out->O = O;
    out->runoff = rP * (VP - p->Asc * ell);
    if (!dy) return;
    dy[0] = -G; dy[1] = dmP; dy[2] = S; dy[3] = O;
    dy[4] = -K_TANK * (2 * p->Atank + p->wallPerM * h) * (TT - T_ROOM) / (cp(p, TT) * (mT + 0.001 * p->mT0));
    dy[5] = dTP;
    dy[6] = ((S + O) * (TP - TR) - K_REC * (2 * p->Arec + PI * D_REC * lr) * (TR - T_ROOM) / cp(p, TR)) / (mR + p->MR0);
    dy[7] = -p->sigma * y[7] * S / rP / p->Asc;
}

#endif
