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
 * Equations: plain_straining.h.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunmatrix/sunmatrix_dense.h>
#include <sunlinsol/sunlinsol_dense.h>

#include "plain_straining.h"

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
    y[0] = s->p.mT0; y[4] = s->p.honeyK; y[5] = s->p.honeyK; y[6] = T_ROOM; y[7] = 1;
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
    setup(&s.p, &PLAIN);
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
