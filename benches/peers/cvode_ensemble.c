/* Many plain straining runs on SUNDIALS, one after the other with one solver that is re-initialised for each.
 *
 *   cvode_ensemble DRAWS COUNT METHOD RTOL OUT
 *
 * DRAWS: six doubles a run, as in Batch of plain_straining.h. METHOD: bdf, adams (both CVODE, Newton, dense matrix), adams-fp
 * (CVODE, fixed point, no matrix) or erk (ARKODE, Dormand and Prince 5(4)); with -restart behind it the solver starts anew where
 * the cloth first lets honey through, which is a corner. OUT receives per run four doubles: 95 % drain time (s; NaN if never),
 * first overflow (s; infinity if none), honey over the rim (kg), honey through the cloth (kg).
 * Prints one JSON line: processor time of a run from its draws to its figures, after 100 runs to warm up.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <arkode/arkode_erkstep.h>
#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>
#include <sunnonlinsol/sunnonlinsol_fixedpoint.h>
#include "plain_straining.h"

enum { R_CLOTH, R_RIM, R_T95, R_HEEL, R_END, R_STALL, NROOT };
#define LONGEST 604800.0

typedef struct { double drain95S, firstOverflowS, overRimKg, strainedKg; } Figures;
typedef struct {
    SUNContext ctx;
    N_Vector y, at;
    void *mem;
    int erk, matrixFree, restart;
    long steps, rhs, rootEvaluations, restarts;
    Plain p;
} Solver;

static int rhs(realtype t, N_Vector y, N_Vector dy, void *ud)
{
    Algebra a;
    model(ud, t, N_VGetArrayPointer(y), N_VGetArrayPointer(dy), &a);
    return 0;
}

static int roots(realtype t, N_Vector yv, realtype *gout, void *ud)
{
    const Plain *p = ud;
    const double *y = N_VGetArrayPointer(yv);
    Algebra a;
    model(p, t, y, NULL, &a);
    gout[R_CLOTH] = a.d - a.ell;
    gout[R_RIM] = p->overRim ? -a.O : a.d - RIM;
    gout[R_T95] = (p->mT0 - y[0]) - 0.95 * p->Md;
    gout[R_HEEL] = p->heeled ? 1 : a.h - HEEL;
    gout[R_END] = p->heeled ? fmin(a.d - a.ell - DRY, a.runoff - NEGLIGIBLE * p->Md) : 1;
    gout[R_STALL] = (a.G + a.S + a.O) / p->stall - 1;
    return 0;
}

static void check(int flag, const char *what)
{
    if (flag < 0) { fprintf(stderr, "%s: %d\n", what, flag); exit(2); }
}

static void create(Solver *s, const char *method, double rtol)
{
    static int directions[NROOT] = {1, 1, 1, -1, -1, -1};
    s->erk = !strncmp(method, "erk", 3);
    s->restart = strstr(method, "-restart") != NULL;
    s->y = N_VNew_Serial(NEQ, s->ctx); s->at = N_VNew_Serial(NEQ, s->ctx);
    memset(N_VGetArrayPointer(s->y), 0, NEQ * sizeof(double));
    for (int i = 0; i < NEQ; i++) N_VGetArrayPointer(s->at)[i] = rtol * 0.1;     /* 0.1 kg, 0.1 K and 0.1 open share as the scale of "small" */
    if (s->erk) {
        s->mem = ERKStepCreate(rhs, 0.0, s->y, s->ctx);
        check(ERKStepSetTableNum(s->mem, ARKODE_DORMAND_PRINCE_7_4_5), "table");
        check(ERKStepSVtolerances(s->mem, rtol, s->at), "tolerances");
        check(ERKStepSetUserData(s->mem, &s->p), "user data");
        check(ERKStepRootInit(s->mem, NROOT, roots), "roots");
        check(ERKStepSetRootDirection(s->mem, directions), "directions");
        ERKStepSetNoInactiveRootWarn(s->mem);
        ERKStepSetMaxNumSteps(s->mem, 1000000);
        return;
    }
    s->mem = CVodeCreate(strncmp(method, "adams", 5) ? CV_BDF : CV_ADAMS, s->ctx);
    check(CVodeInit(s->mem, rhs, 0.0, s->y), "init");
    check(CVodeSVtolerances(s->mem, rtol, s->at), "tolerances");
    check(CVodeSetUserData(s->mem, &s->p), "user data");
    s->matrixFree = strstr(method, "-fp") != NULL;
    if (s->matrixFree)
        check(CVodeSetNonlinearSolver(s->mem, SUNNonlinSol_FixedPoint(s->y, 0, s->ctx)), "fixed point");
    else {
        SUNMatrix A = SUNDenseMatrix(NEQ, NEQ, s->ctx);
        check(CVodeSetLinearSolver(s->mem, SUNLinSol_Dense(s->y, A, s->ctx), A), "linear solver");
    }
    check(CVodeRootInit(s->mem, NROOT, roots), "roots");
    check(CVodeSetRootDirection(s->mem, directions), "directions");
    CVodeSetNoInactiveRootWarn(s->mem);
    CVodeSetMaxNumSteps(s->mem, 1000000);
}

static void count(Solver *s)
{
    long v;
    if (s->erk) {
        ERKStepGetNumSteps(s->mem, &v); s->steps += v;
        ERKStepGetNumRhsEvals(s->mem, &v); s->rhs += v;
        ERKStepGetNumGEvals(s->mem, &v); s->rootEvaluations += v;
        return;
    }
    CVodeGetNumSteps(s->mem, &v); s->steps += v;
    CVodeGetNumRhsEvals(s->mem, &v); s->rhs += v;
    if (!s->matrixFree) { CVodeGetNumLinRhsEvals(s->mem, &v); s->rhs += v; }
    CVodeGetNumGEvals(s->mem, &v); s->rootEvaluations += v;
}

static void begin(Solver *s, double t)
{
    if (s->erk) check(ERKStepReInit(s->mem, rhs, t, s->y), "restart");
    else check(CVodeReInit(s->mem, t, s->y), "restart");
    s->restarts++;
}

static Figures run(Solver *s, const Batch *batch)
{
    Figures f = {NAN, INFINITY, 0, 0};
    double t = 0, *y = N_VGetArrayPointer(s->y);
    int found[NROOT];
    setup(&s->p, batch);
    memset(y, 0, NEQ * sizeof *y);
    y[0] = s->p.mT0; y[4] = batch->honeyK; y[5] = batch->honeyK; y[6] = T_ROOM; y[7] = 1;
    s->p.overRim = s->p.heeled = 0;
    begin(s, 0);
    for (;;) {
        int flag = s->erk ? ERKStepEvolve(s->mem, LONGEST, s->y, &t, ARK_NORMAL) : CVode(s->mem, LONGEST, s->y, &t, CV_NORMAL);
        check(flag, "run");
        if (flag != CV_ROOT_RETURN) break;       /* the same number in ARKODE */
        if (s->erk) ERKStepGetRootInfo(s->mem, found); else CVodeGetRootInfo(s->mem, found);
        if (found[R_T95]) f.drain95S = t;
        if (found[R_END] || found[R_STALL]) break;
        int anew = found[R_CLOTH] && s->restart;
        if (found[R_HEEL]) { s->p.heeled = 1; anew = 1; }
        if (found[R_RIM] && !s->p.overRim) {
            s->p.overRim = 1; anew = 1;
            if (isinf(f.firstOverflowS)) f.firstOverflowS = t;
        }
        else if (s->p.overRim && (found[R_RIM] || found[R_HEEL])) {
            /* Just below the rim, so that the next overflow is seen as new. */
            double keep = (1 - 1e-12) * RIM * s->p.Asc * rho(&s->p, y[5]);
            y[3] += y[1] - keep; y[1] = keep;
            s->p.overRim = 0; anew = 1;
        }
        if (anew) { count(s); begin(s, t); }
    }
    count(s);
    f.overRimKg = y[3]; f.strainedKg = y[2];
    return f;
}

static double processorTime(void)
{
    struct timespec ts;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &ts);
    return ts.tv_sec + 1e-9 * ts.tv_nsec;
}

int main(int argc, char **argv)
{
    if (argc != 6) { fprintf(stderr, "cvode_ensemble DRAWS COUNT METHOD RTOL OUT\n"); return 1; }
    size_t runs = strtoul(argv[2], NULL, 10);
    double rtol = atof(argv[4]);
    Batch *batches = malloc(runs * sizeof *batches);
    Figures *figures = malloc(runs * sizeof *figures);
    FILE *in = fopen(argv[1], "rb");
    if (!in || fread(batches, sizeof *batches, runs, in) != runs) { fprintf(stderr, "%s: fewer than %zu runs\n", argv[1], runs); return 1; }
    fclose(in);

    Solver s = {0};
    SUNContext_Create(NULL, &s.ctx);
    create(&s, argv[3], rtol);
    for (size_t i = 0; i < runs && i < 100; i++) figures[i] = run(&s, &batches[i]);
    s.steps = s.rhs = s.rootEvaluations = s.restarts = 0;
    double before = processorTime();
    for (size_t i = 0; i < runs; i++) figures[i] = run(&s, &batches[i]);
    double us = (processorTime() - before) / runs * 1e6;

    FILE *out = fopen(argv[5], "wb");
    if (!out || fwrite(figures, sizeof *figures, runs, out) != runs) { fprintf(stderr, "%s: not written\n", argv[5]); return 1; }
    fclose(out);
    printf("{\"peer\":\"%s %s\",\"rtol\":%.0e,\"runs\":%zu,\"cpuUsPerRun\":%.3f,\"steps\":%.1f,\"rhs\":%.1f,\"rootEvaluations\":%.1f,\"starts\":%.2f}\n",
           s.erk ? "ARKODE" : "CVODE", argv[3], rtol, runs, us, (double)s.steps / runs, (double)s.rhs / runs, (double)s.rootEvaluations / runs, (double)s.restarts / runs);
    return 0;
}
