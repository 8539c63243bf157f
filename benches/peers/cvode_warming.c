/* The 48 h pail ("pail-still-air-default-cells" of tests/FlowSim.Tests/Warming/Reference/batches.json) on SUNDIALS CVODE: BDF,
 * Newton, root finding for the three times that are compared; once with CVODE's band matrix and once with a sparse one (KLU).
 *
 *   make -C benches/peers run-warming             builds and runs with the reference times of expected.json
 *   ./cvode_warming T_MEAN30 T_COLD30 T_COLD35 [RADIAL AXIAL]
 *
 * One JSON line per tolerance; the error is the largest relative error of the three times. Cells in the order ring by ring
 * within a row, so the half bandwidth is the number of rings. The Jacobian is written out with films and conductivities held,
 * which is all that Newton's iteration needs (CVODE's own difference quotients would cost 42 right-hand sides each).
 * Films and enhancement are iterated to 1e-8 from those of the call before, as in the library. No damage is followed.
 * Equations: docs/guides/model.md, "The model of a warming run", for a closed round pail on a rack in still air. The general forms
 * are in warming_model.py.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunmatrix/sunmatrix_band.h>
#include <sunlinsol/sunlinsol_band.h>
#include <sunmatrix/sunmatrix_sparse.h>
#include <sunlinsol/sunlinsol_klu.h>

#define PI 3.14159265358979323846
static const double g0 = 9.80665, SIGMA = 5.670374419e-8;
/* the batch */
static const double MOISTURE = 17.5, T_START = 18.0, T_AIR = 40.0, DIAMETER = 0.285, LEVEL = 0.298, HOURS = 48;
static const double WALL = 0.002, WALL_W = 0.45, EMISSIVITY = 0.9, LID_GAP = 1 / 6.0, U_SCALE = 2000.0;

enum { SIDE, FLOOR, TOP, FACES };
typedef struct {
    int nr, nz, n;
    double R, H, ro, dr, dz, a, b, rho20, t0, lamFactor, hk, E;
    double *ring, *m, *t, *k, *dtdu;
    double h[FACES], area[FACES], wall[FACES], half[FACES], widen[FACES];
} Pail;

static double rho(const Pail *p, double t) { double x = t - 20; return p->rho20 - 0.538 * x - 0.00094 * x * x; }
static double lambda(const Pail *p, double t) { return 1.73e-3 * (326.58 + t * (1.0412 - 0.00337 * t)) * p->lamFactor; }
static double mu(const Pail *p, double t) { return exp(-11.0449 + 1449.73 / (t + 273.15 - p->t0)); }

static void setup(Pail *p, int nr, int nz)
{
    double w = MOISTURE, x = w - 17, solids = 100 - w;
    p->nr = nr; p->nz = nz; p->n = nr * nz;
    p->R = DIAMETER / 2; p->H = LEVEL; p->ro = p->R + WALL;
    p->dr = p->R / nr; p->dz = p->H / nz;
    p->a = 4186.8 - 25.1 * solids; p->b = 0.075 * solids;
    p->rho20 = 998.2 * (1.42347 - 0.0063017 * x - 0.00020097 * x * x);
    p->t0 = 187.31 - 3.7019 * x;
    p->lamFactor = 0.46 + 0.54 * w / 100;
    double V = PI * p->R * p->R * p->H, A = 2 * PI * p->R * (p->R + p->H), z = 2.404826 / p->R, y = PI / p->H;
    p->hk = V / A * (z * z + y * y);
    p->ring = malloc(nr * sizeof(double)); p->m = malloc(nr * sizeof(double));
    p->t = malloc(p->n * sizeof(double)); p->k = malloc(p->n * sizeof(double)); p->dtdu = malloc(p->n * sizeof(double));
    for (int i = 0; i < nr; i++) {
        p->ring[i] = PI * p->dr * p->dr * (2 * i + 1);
        p->m[i] = rho(p, T_START) * p->ring[i] * p->dz;
    }
    p->area[SIDE] = 2 * PI * p->R * p->H; p->area[FLOOR] = p->area[TOP] = PI * p->R * p->R;
    p->wall[SIDE] = p->R / WALL_W * log(p->ro / p->R); p->wall[FLOOR] = WALL / WALL_W; p->wall[TOP] = LID_GAP;
    p->half[SIDE] = p->dr / 2; p->half[FLOOR] = p->half[TOP] = p->dz / 2;
    p->widen[SIDE] = p->ro / p->R; p->widen[FLOOR] = p->widen[TOP] = 1;
}

static double film(const Pail *p, int face, double ts)
{
    double Ts = ts + 273.15, Ta = T_AIR + 273.15, Tf = (Ts + Ta) / 2, root = Tf * sqrt(Tf);
    double r = 101325 / (287.053 * Tf), mu = 1.458e-6 * root / (Tf + 110.4), lam = 2.64638e-3 * root / (Tf + 245.4 * pow(10, -12 / Tf));
    double nu = mu / r, a = lam / (r * 1007), pr = nu / a, L = face == SIDE ? p->H : p->ro / 2, nusselt;
    double ra = g0 / Tf * fabs(Ts - Ta) * L * L * L / (nu * a);
    if (face == SIDE) {
        double s = 0.825 + 0.387 * pow(ra, 1 / 6.0) / pow(1 + pow(0.492 / pr, 9 / 16.0), 8 / 27.0);
        nusselt = s * s;
    } else if ((face == TOP) == (Ts > Ta))
        nusselt = fmax(0.54 * sqrt(sqrt(ra)), 0.15 * cbrt(ra));
    else
        nusselt = 0.27 * sqrt(sqrt(ra));
    return nusselt * lam / L + EMISSIVITY * SIGMA * (Ts * Ts + Ta * Ta) * (Ts + Ta);
}

/* temperatures, conductivities, films, enhancement */
static void closures(Pail *p, const double *y)
{
    int nr = p->nr, nz = p->nz;
    double tl = 0, mass = 0, T[FACES] = {0}, k0[FACES] = {0};
    for (int j = 0; j < nz; j++)
        for (int i = 0; i < nr; i++) {
            int c = j * nr + i;
            double e = y[c] * U_SCALE, root = sqrt(p->a * p->a + 2 * p->b * e);
            p->t[c] = 2 * e / (p->a + root);
            p->dtdu[c] = 1 / root;
            p->k[c] = lambda(p, p->t[c]);
            tl += p->m[i] * p->t[c]; mass += p->m[i];
        }
    tl /= mass;
    for (int j = 0; j < nz; j++) { T[SIDE] += p->t[j * nr + nr - 1] / nz; k0[SIDE] += p->k[j * nr + nr - 1] / nz; }
    for (int i = 0; i < nr; i++) {
        double w = p->ring[i] / p->area[FLOOR];
        T[FLOOR] += w * p->t[i]; k0[FLOOR] += w * p->k[i];
        T[TOP] += w * p->t[(nz - 1) * nr + i]; k0[TOP] += w * p->k[(nz - 1) * nr + i];
    }
    for (int sweep = 0; sweep < 100; sweep++) {
        double worst = 0, dsum = 0, wsum = 0, asum = 0;
        for (int f = 0; f < FACES; f++) {
            double out = 1 / (p->h[f] * p->widen[f]), inner = p->half[f] / (k0[f] * p->E);
            double flux = (T_AIR - T[f]) / (out + p->wall[f] + inner), wall = T[f] + flux * inner;
            double next = film(p, f, T_AIR - flux * out);
            asum += p->area[f]; dsum += p->area[f] * fabs(wall - tl); wsum += p->area[f] * wall;
            worst = fmax(worst, fabs(next / p->h[f] - 1));
            p->h[f] += 0.85 * (next - p->h[f]);
        }
        double tm = (wsum / asum + tl) / 2, lm = lambda(p, tm), r = rho(p, tm);
        double ra = g0 * (0.538 + 0.00188 * (tm - 20)) / r * (dsum / asum) * p->H * p->H * p->H / (mu(p, tm) / r * lm / (r * (p->a + p->b * tm)));
        double next = fmax(1, 0.55 * sqrt(sqrt(ra)) / (p->H * p->hk));
        worst = fmax(worst, fabs(next / p->E - 1));
        p->E += 0.85 * (next - p->E);
        if (worst < 1e-8) break;
    }
    for (int c = 0; c < p->n; c++) p->k[c] *= p->E;
}

static double face(const Pail *p, int f, int c, double area) { return area / (1 / (p->h[f] * p->widen[f]) + p->wall[f] + p->half[f] / p->k[c]); }

static int rhs(realtype time, N_Vector yv, N_Vector dv, void *ud)
{
    (void)time;
    Pail *p = ud;
    int nr = p->nr, nz = p->nz;
    double *d = N_VGetArrayPointer(dv), *t = p->t, *k = p->k;
    closures(p, N_VGetArrayPointer(yv));
    memset(d, 0, p->n * sizeof *d);
    for (int j = 0; j < nz; j++) {
        int row = j * nr;
        for (int i = 0; i < nr - 1; i++) {
            int c = row + i;
            double q = 2 * PI * (i + 1) * p->dz * 2 * k[c] * k[c + 1] / (k[c] + k[c + 1]) * (t[c + 1] - t[c]);
            d[c] += q; d[c + 1] -= q;
        }
        d[row + nr - 1] += face(p, SIDE, row + nr - 1, 2 * PI * p->R * p->dz) * (T_AIR - t[row + nr - 1]);
        if (j + 1 < nz)
            for (int i = 0; i < nr; i++) {
                int c = row + i;
                double q = p->ring[i] / p->dz * 2 * k[c] * k[c + nr] / (k[c] + k[c + nr]) * (t[c + nr] - t[c]);
                d[c] += q; d[c + nr] -= q;
            }
    }
    for (int i = 0; i < nr; i++) {
        int c = (nz - 1) * nr + i;
        d[i] += face(p, FLOOR, i, p->ring[i]) * (T_AIR - t[i]);
        d[c] += face(p, TOP, c, p->ring[i]) * (T_AIR - t[c]);
    }
    for (int j = 0; j < nz; j++)
        for (int i = 0; i < nr; i++) d[j * nr + i] /= p->m[i] * U_SCALE;
    return 0;
}

/* Where entry (r, c) of the matrix is kept. Sparse: five entries a column in the order of their rows, fewer at the edges. */
static double *entry(const Pail *p, SUNMatrix J, int r, int c)
{
    if (SUNMatGetID(J) == SUNMATRIX_BAND) return &SM_ELEMENT_B(J, r, c);
    sunindextype *col = SM_INDEXPTRS_S(J), *row = SM_INDEXVALS_S(J);
    for (sunindextype k = col[c]; k < col[c + 1]; k++) if (row[k] == r) return &SM_DATA_S(J)[k];
    fprintf(stderr, "no entry %d %d of %d\n", r, c, p->n);
    exit(1);
}

static void pattern(const Pail *p, SUNMatrix J)
{
    sunindextype *col = SM_INDEXPTRS_S(J), *row = SM_INDEXVALS_S(J), at = 0;
    for (int c = 0; c < p->n; c++) {
        int i = c % p->nr, j = c / p->nr;
        col[c] = at;
        if (j > 0) row[at++] = c - p->nr;
        if (i > 0) row[at++] = c - 1;
        row[at++] = c;
        if (i + 1 < p->nr) row[at++] = c + 1;
        if (j + 1 < p->nz) row[at++] = c + p->nr;
    }
    col[p->n] = at;
}

static int jacobian(realtype time, N_Vector yv, N_Vector fy, SUNMatrix J, void *ud, N_Vector w1, N_Vector w2, N_Vector w3)
{
    (void)time; (void)fy; (void)w1; (void)w2; (void)w3;
    Pail *p = ud;
    int nr = p->nr, nz = p->nz;
    double *k = p->k, *x = p->dtdu;
    closures(p, N_VGetArrayPointer(yv));
    if (SUNMatGetID(J) == SUNMATRIX_SPARSE) {
        pattern(p, J);
        memset(SM_DATA_S(J), 0, SM_NNZ_S(J) * sizeof(double));
    }
#define ADD(r, c, v) (*entry(p, J, r, c) += (v) / p->m[(r) % nr] * x[c])
    for (int j = 0; j < nz; j++)
        for (int i = 0; i < nr; i++) {
            int c = j * nr + i;
            if (i + 1 < nr) {
                double G = 2 * PI * (i + 1) * p->dz * 2 * k[c] * k[c + 1] / (k[c] + k[c + 1]);
                ADD(c, c, -G); ADD(c, c + 1, G); ADD(c + 1, c, G); ADD(c + 1, c + 1, -G);
            } else
                ADD(c, c, -face(p, SIDE, c, 2 * PI * p->R * p->dz));
            if (j + 1 < nz) {
                double G = p->ring[i] / p->dz * 2 * k[c] * k[c + nr] / (k[c] + k[c + nr]);
                ADD(c, c, -G); ADD(c, c + nr, G); ADD(c + nr, c, G); ADD(c + nr, c + nr, -G);
            } else
                ADD(c, c, -face(p, TOP, c, p->ring[i]));
            if (j == 0) ADD(c, c, -face(p, FLOOR, c, p->ring[i]));
        }
    return 0;
}

static int roots(realtype time, N_Vector yv, realtype *out, void *ud)
{
    (void)time;
    const Pail *p = ud;
    const double *y = N_VGetArrayPointer(yv);
    double mean = 0, mass = 0, coldest = 1e9;
    for (int c = 0; c < p->n; c++) {
        double e = y[c] * U_SCALE, t = 2 * e / (p->a + sqrt(p->a * p->a + 2 * p->b * e));
        mean += p->m[c % p->nr] * t; mass += p->m[c % p->nr];
        coldest = fmin(coldest, t);
    }
    out[0] = mean / mass - 30; out[1] = coldest - 30; out[2] = coldest - 35;
    return 0;
}

typedef struct { double at[3], coldest; long steps, nfe, njac, setups; int flag; } Result;
typedef struct { SUNContext ctx; N_Vector y; SUNMatrix A; SUNLinearSolver ls; void *cv; Pail p; } Solver;

static void initial(Solver *s)
{
    double *y = N_VGetArrayPointer(s->y), e = (s->p.a + s->p.b * T_START / 2) * T_START;
    for (int c = 0; c < s->p.n; c++) y[c] = e / U_SCALE;
    for (int f = 0; f < FACES; f++) s->p.h[f] = 5;
    s->p.E = 1;
}

static void create(Solver *s, int nr, int nz, int sparse)
{
    setup(&s->p, nr, nz);
    s->y = N_VNew_Serial(s->p.n, s->ctx);
    initial(s);
    s->cv = CVodeCreate(CV_BDF, s->ctx);
    CVodeInit(s->cv, rhs, 0, s->y);
    CVodeSetUserData(s->cv, &s->p);
    s->A = sparse ? SUNSparseMatrix(s->p.n, s->p.n, 5 * s->p.n, CSC_MAT, s->ctx) : SUNBandMatrix(s->p.n, nr, nr, s->ctx);
    s->ls = sparse ? SUNLinSol_KLU(s->y, s->A, s->ctx) : SUNLinSol_Band(s->y, s->A, s->ctx);
    CVodeSetLinearSolver(s->cv, s->ls, s->A);
    CVodeSetJacFn(s->cv, jacobian);
    CVodeRootInit(s->cv, 3, roots);
    CVodeSetNoInactiveRootWarn(s->cv);
    CVodeSetMaxNumSteps(s->cv, 1000000);
}

static Result run(Solver *s, double tol)
{
    Result r = {{0, 0, 0}, 0, 0, 0, 0, 0, 0};
    realtype t = 0, end = HOURS * 3600;
    int info[3];
    initial(s);
    CVodeReInit(s->cv, 0, s->y);
    CVodeSStolerances(s->cv, tol, tol);
    CVodeSetStopTime(s->cv, end);
    while ((r.flag = CVode(s->cv, end, s->y, &t, CV_NORMAL)) == CV_ROOT_RETURN) {
        CVodeGetRootInfo(s->cv, info);
        for (int i = 0; i < 3; i++) if (info[i]) r.at[i] = t;
    }
    CVodeGetNumSteps(s->cv, &r.steps); CVodeGetNumRhsEvals(s->cv, &r.nfe); CVodeGetNumJacEvals(s->cv, &r.njac);
    CVodeGetNumLinSolvSetups(s->cv, &r.setups);
    realtype out[3];
    roots(t, s->y, out, &s->p);
    r.coldest = out[1] + 30;
    return r;
}

static double now(void) { struct timespec t; clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t); return t.tv_sec + 1e-9 * t.tv_nsec; }
static int ascending(const void *a, const void *b) { double x = *(const double *)a, y = *(const double *)b; return (x > y) - (x < y); }

int main(int argc, char **argv)
{
    Solver s;
    SUNContext_Create(NULL, &s.ctx);
    for (int sparse = 0; sparse <= 1; sparse++) {
        create(&s, argc > 5 ? atoi(argv[4]) : 20, argc > 5 ? atoi(argv[5]) : 30, sparse);
        Result best = run(&s, 1e-11);
        double ref[3];
        for (int i = 0; i < 3; i++) ref[i] = argc > 3 && argc <= 5 ? atof(argv[i + 1]) : best.at[i];
        fprintf(stderr, "tight: %.6f %.6f %.6f s, coldest at the end %.6f C\n", best.at[0], best.at[1], best.at[2], best.coldest);
        for (int e = 6; e <= 18; e++) {
            enum { BLOCKS = 31 };
            double tol = pow(10, -e / 2.0), block[BLOCKS], worst = 0;
            Result r = run(&s, tol);
            for (int b = 0; b < BLOCKS; b++) {
                double before = now();
                run(&s, tol);
                block[b] = now() - before;
            }
            qsort(block, BLOCKS, sizeof *block, ascending);
            for (int i = 0; i < 3; i++) worst = fmax(worst, fabs(r.at[i] / ref[i] - 1));
            printf("{\"peer\": \"cvode-6.4.1-%s\", \"rtol\": %.2e, \"cpuUsPerRun\": %.1f, \"steps\": %ld, \"rhs\": %ld, \"jacobians\": %ld, \"setups\": %ld, \"coldest35S\": %.9g, \"relErr\": %.2e, \"flag\": %d}\n",
                   sparse ? "klu" : "band", tol, block[BLOCKS / 2] * 1e6, r.steps, r.nfe, r.njac, r.setups, r.at[2], worst, r.flag);
            fflush(stdout);
        }
    }
    return 0;
}
