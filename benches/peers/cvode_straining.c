/* The plain straining run ("plain-pail" of tests/FlowSim.Tests/Straining/Reference/batches.json) on SUNDIALS CVODE:
 * BDF and Adams, Newton, dense matrix, root finding for the cloth's start, the rim, the 95 % drain time, the heel (where it
 * restarts, since the gate's flow ends there), standstill and the end.
 *
 *   make -C benches/peers run          builds and runs with the reference figures of expected.json
 *   ./cvode_straining T95 STRAINED     reference drain time (s) and strained mass (kg); without them CVODE's own 1e-12 run
 *
 * One JSON line per tolerance. The Jacobian is CVODE's difference quotient: it takes 16 to 120 of the right-hand sides of a
 * run (see rhsForJacobian and nsPerRhs in the output), under one per cent of the time, so an analytic one gains nothing.
 * The Adams lines are there because this run is hardly stiff: the fair peer is the faster of the two at equal error.
 * Equations: DEVELOPERS.md, "The model of a straining run", for a round tank, straight blade,
 * flat disc, vented, one cloth, intermediate blocking. The general forms are in straining_model.py.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunmatrix/sunmatrix_dense.h>
#include <sunlinsol/sunlinsol_dense.h>

#define NEQ 8
#define PI 3.14159265358979323846
static const double g = 9.80665;
/* the batch */
static const double MOISTURE = 17.8, T_HONEY = 308.15, T_ROOM = 295.15;
static const double D_TANK = 0.285, LEVEL = 0.298, BORE = 0.038, TUBE = 0.040, OPENING = 0.35;
static const double D_SCREEN = 0.285, RIM = 0.100, W_CLOTH = 400e-6, D_WIRE = 250e-6, D_MIN = 0.002;
static const double LOAD = 0.0003, MEDIAN = 0.0005, SPREAD = 0.6, CAPTURE = 0.5, RHO_DEBRIS = 960.0;
static const double D_REC = 0.300, H_REC = 0.400, K_TANK = 8.0, K_REC = 8.0;
static const double HEEL = 0.002, DRY = 0.001, NEGLIGIBLE = 0.001;

typedef struct {
    double T0, rho20, c0, c1, rhoH, mT0, Md, Atank, W0, wallPerM, Rhat, Bhat, Asc, r, sigma, MP0, Arec, Vcap, MR0, stall;
    int overRim, heeled;
} Plain;

static inline double rho(const Plain *p, double T) { double x = T - 293.15; return p->rho20 - (0.538 + 0.00094 * x) * x; }
static inline double drho(double T) { return -0.538 - 0.00188 * (T - 293.15); }
static inline double mu(const Plain *p, double T) { return exp(-11.0449 + 1449.73 / (T - p->T0)); }
static inline double cp(const Plain *p, double T) { return p->c0 + p->c1 * (T - 273.15); }
static double ncdf(double x) { return 0.5 * erfc(-x / sqrt(2.0)); }

static void setup(Plain *p)
{
    double w = MOISTURE, x = w - 17, b = 100 - w;
    p->T0 = 187.31 - 3.7019 * x;
    p->rho20 = 998.2 * (1.42347 - 0.0063017 * x - 0.00020097 * x * x);
    p->c0 = 4186.8 - 25.1 * b; p->c1 = 0.075 * b;
    p->rhoH = rho(p, T_HONEY);
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
    p->r = 8.61 * aa * aa * 2 * D_WIRE / (eps * eps);
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

static int rhs(realtype t, N_Vector y, N_Vector dy, void *ud)
{
    Algebra a;
    model(ud, t, N_VGetArrayPointer(y), N_VGetArrayPointer(dy), &a);
    return 0;
}

enum { R_CLOTH, R_RIM, R_T95, R_HEEL, R_END, R_STALL, NROOT };
static int roots(realtype t, N_Vector yv, realtype *gout, void *ud)
{
    const Plain *p = ud;
    const double *y = N_VGetArrayPointer(yv);
    Algebra a;
    model(p, t, y, NULL, &a);
    gout[R_CLOTH] = a.d - a.ell;
    gout[R_RIM] = p->overRim ? a.O : a.d - RIM;
    gout[R_T95] = (p->mT0 - y[0]) - 0.95 * p->Md;
    gout[R_HEEL] = p->heeled ? 1 : a.h - HEEL;
    gout[R_END] = p->heeled ? fmin(a.d - a.ell - DRY, a.runoff - NEGLIGIBLE * p->Md) : 1;
    gout[R_STALL] = (a.G + a.S + a.O) / p->stall - 1;
    return 0;
}

typedef struct { double t95, strained, tEnd; long steps, nfe, nfeLS, njac, nge, setups; int flag; } Result;
typedef struct { SUNContext ctx; N_Vector y, at; SUNMatrix A; SUNLinearSolver ls; void *cv; Plain p; int restartAtKink, lmm; } Solver;

static void initial(Solver *s)
{
    double *y = N_VGetArrayPointer(s->y);
    memset(y, 0, NEQ * sizeof *y);
    y[0] = s->p.mT0; y[4] = T_HONEY; y[5] = T_HONEY; y[6] = T_ROOM; y[7] = 1;
    s->p.overRim = s->p.heeled = 0;
}

static void create(Solver *s)
{
    static int dirs[NROOT] = {0, 0, 1, -1, -1, -1};
    s->y = N_VNew_Serial(NEQ, s->ctx); s->at = N_VNew_Serial(NEQ, s->ctx);
    initial(s);
    s->cv = CVodeCreate(s->lmm, s->ctx);
    CVodeInit(s->cv, rhs, 0.0, s->y);
    CVodeSetUserData(s->cv, &s->p);
    s->A = SUNDenseMatrix(NEQ, NEQ, s->ctx); s->ls = SUNLinSol_Dense(s->y, s->A, s->ctx);
    CVodeSetLinearSolver(s->cv, s->ls, s->A);
    CVodeRootInit(s->cv, NROOT, roots);
    CVodeSetRootDirection(s->cv, dirs);
    CVodeSetNoInactiveRootWarn(s->cv);
    CVodeSetMaxNumSteps(s->cv, 1000000);
}

static void destroy(Solver *s)
{
    CVodeFree(&s->cv); SUNLinSolFree(s->ls); SUNMatDestroy(s->A); N_VDestroy(s->y); N_VDestroy(s->at);
}

static void tolerances(Solver *s, double rtol)
{
    double *a = N_VGetArrayPointer(s->at);
    for (int i = 0; i < NEQ; i++) a[i] = rtol * 0.1;     /* 0.1 kg, 0.1 K and 0.1 open share as the scale of "small" */
    CVodeSVtolerances(s->cv, rtol, s->at);
}

static void addStats(Solver *s, Result *r)
{
    long v;
    CVodeGetNumSteps(s->cv, &v); r->steps += v;
    CVodeGetNumRhsEvals(s->cv, &v); r->nfe += v;
    CVodeGetNumLinRhsEvals(s->cv, &v); r->nfeLS += v;
    CVodeGetNumJacEvals(s->cv, &v); r->njac += v;
    CVodeGetNumGEvals(s->cv, &v); r->nge += v;
}

static Result run(Solver *s)
{
    Result r = {0};
    double t = 0;
    int found[NROOT];
    initial(s);
    CVodeReInit(s->cv, 0.0, s->y);
    for (;;) {
        r.flag = CVode(s->cv, 604800.0, s->y, &t, CV_NORMAL);
        if (r.flag != CV_ROOT_RETURN) break;
        CVodeGetRootInfo(s->cv, found);
        if (found[R_T95]) r.t95 = t;
        if (found[R_END] || found[R_STALL]) break;
        if (found[R_RIM]) s->p.overRim = !s->p.overRim;
        if (found[R_HEEL]) s->p.heeled = 1;
        if (found[R_RIM] || found[R_HEEL] || (found[R_CLOTH] && s->restartAtKink)) {
            addStats(s, &r);
            CVodeReInit(s->cv, t, s->y);
        }
    }
    addStats(s, &r);
    r.tEnd = t; r.strained = N_VGetArrayPointer(s->y)[2];
    return r;
}

static double clock_s(clockid_t id)
{
    struct timespec ts;
    clock_gettime(id, &ts);
    return ts.tv_sec + 1e-9 * ts.tv_nsec;
}
#define wall() clock_s(CLOCK_MONOTONIC)
#define cpu() clock_s(CLOCK_PROCESS_CPUTIME_ID)

static int cmp(const void *a, const void *b) { double x = *(double *)a - *(double *)b; return (x > 0) - (x < 0); }

int main(int argc, char **argv)
{
    Solver s;
    SUNContext_Create(NULL, &s.ctx);
    setup(&s.p);
    double ref95, refS;
    s.lmm = CV_BDF;
    create(&s);
    if (argc > 2) { ref95 = atof(argv[1]); refS = atof(argv[2]); }
    else { s.restartAtKink = 1; tolerances(&s, 1e-12); Result r = run(&s); ref95 = r.t95; refS = r.strained; }
    const double tols[] = {1e-3, 1e-4, 1e-5, 1e-6, 1e-7, 1e-8, 1e-9, 1e-10, 1e-11};
    for (int k = 0; k <= 3; k++) {
        s.restartAtKink = k & 1;
        if (k == 2) { destroy(&s); s.lmm = CV_ADAMS; create(&s); }
        for (unsigned i = 0; i < sizeof tols / sizeof *tols; i++) {
            tolerances(&s, tols[i]);
            Result r = run(&s);
            /* Short blocks, because neighbours share the machine: the median of the processor time and the smallest wall
             * time (a block that was not interrupted) both say what a quiet machine would show. */
            enum { BLOCKS = 201 };
            double us[BLOCKS], cs[BLOCKS], fs[BLOCKS];
            double t0 = cpu(), w0;
            for (int j = 0; j < 10; j++) run(&s);
            int n = (int)fmax(1, 0.002 / ((cpu() - t0) / 10));
            for (int b = 0; b < BLOCKS; b++) {
                w0 = wall(); t0 = cpu();
                for (int j = 0; j < n; j++) run(&s);
                cs[b] = (cpu() - t0) / n * 1e6; us[b] = (wall() - w0) / n * 1e6;
            }
            for (int b = 0; b < BLOCKS; b++) {
                t0 = cpu();
                for (int j = 0; j < n; j++) {
                    Solver f = s;
                    create(&f); tolerances(&f, tols[i]); run(&f); destroy(&f);
                }
                fs[b] = (cpu() - t0) / n * 1e6;
            }
            qsort(us, BLOCKS, sizeof *us, cmp); qsort(cs, BLOCKS, sizeof *cs, cmp); qsort(fs, BLOCKS, sizeof *fs, cmp);
            printf("{\"peer\":\"cvode-6.4.1-%s-dense\",\"restartAtClothStart\":%s,\"rtol\":%.0e,\"cpuUsPerRun\":%.2f,"
                   "\"wallUsPerRunMin\":%.2f,\"wallUsPerRunMedian\":%.2f,\"cpuUsPerRunWithCreate\":%.2f,"
                   "\"steps\":%ld,\"rhs\":%ld,\"rhsForJacobian\":%ld,\"jacobians\":%ld,\"rootEvaluations\":%ld,"
                   "\"drain95S\":%.12g,\"strainedKg\":%.12g,\"endS\":%.12g,\"relErrDrain95\":%.2e,\"relErrStrained\":%.2e}\n",
                   s.lmm == CV_BDF ? "bdf" : "adams", s.restartAtKink ? "true" : "false", tols[i], cs[BLOCKS / 2], us[0], us[BLOCKS / 2], fs[BLOCKS / 2], r.steps, r.nfe, r.nfeLS, r.njac, r.nge,
                   r.t95, r.strained, r.tEnd, fabs(r.t95 / ref95 - 1), fabs(r.strained / refS - 1));
            fflush(stdout);
        }
    }
    /* What one right-hand side costs: with rhsForJacobian above, the most an analytic Jacobian could save. */
    s.p.overRim = s.p.heeled = 0;
    double y[NEQ] = {18, 5, 3.5, 0, 307.5, 306.9, 304, 0.97}, dy[NEQ], sum = 0, best = 1e9;
    for (int b = 0; b < 50; b++) {
        double t0 = cpu();
        for (int j = 0; j < 10000; j++) { Algebra a; y[0] = 18 + 1e-6 * j; y[4] = 307.5 + 1e-6 * j; y[5] = 306.9 + 1e-6 * j; model(&s.p, 50.0, y, dy, &a); sum += dy[0]; }
        best = fmin(best, (cpu() - t0) / 10000);
    }
    printf("{\"peer\":\"cvode-6.4.1\",\"nsPerRhs\":%.1f,\"checksum\":%.6g}\n", best * 1e9, sum);
    destroy(&s);
    SUNContext_Free(&s.ctx);
    return 0;
}
