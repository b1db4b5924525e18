/* The outside anchor of the benchmark: one package by a published stiff solver (CVODE of SUNDIALS, variable-order BDF), one thread.
 *
 * cvode tuned REPEATS < cases   rtol 1e-4, daily means of all drivers tabulated once, analytic Jacobian
 * cvode full REPEATS < cases    rtol 1e-6, the day's swing followed, analytic Jacobian
 *
 * A case is one line of numbers: dry mass, GAB monolayer, C, K, volume, conductance and activation energy for water, oxygen, carbon dioxide and
 * nitrogen, uptake per day at 23 C, Q10, respiratory quotient, then of the climate mean C, annual C, daily C, phase, mean humidity, annual humidity,
 * phase, pressure, then the starting activity, then how many quarters. Printed for each: seconds of CPU, then a row a quarter of moisture (dry basis)
 * and the pressures of oxygen, carbon dioxide and all gas with vapour, means of the day that begins with the quarter.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#define R 8.314462618
#define WATER 0.01801528
#define DAYS 365
#define DRIVERS 11

typedef struct {
    double dry, monolayer, c, k, volume, g[4], e[4], uptake, q10, rq;
    double mean, annual, daily, phase, rh, rh_annual, rh_phase, pressure, start;
    int quarters, tuned;
    double table[DAYS + 1][DRIVERS]; /* f psat, f e of water; f T and f (P - e) of three gases; uptake; T; psat */
} package;

static const double share[3] = {0.2095, 0.00042, 0.7901};

static double psat(double t) /* Hyland and Wexler 1983 over liquid water */
{
    return exp(-0.58002206e4 / t + 0.13914993e1 - 0.48640239e-1 * t + 0.41764768e-4 * t * t - 0.14452093e-7 * t * t * t + 0.65459673e1 * log(t));
}

static void drivers_at(const package *p, double day, double *d)
{
    double year = 2 * M_PI * day / DAYS;
    double t = 273.15 + p->mean + p->annual * sin(year + p->phase) + p->daily * sin(2 * M_PI * day);
    double rh = p->rh + p->rh_annual * sin(year + p->rh_phase), sat = psat(t), inverse = 1 / 296.15 - 1 / t;
    double f = exp(p->e[0] / R * inverse);
    d[0] = f * sat;
    d[1] = f * sat * rh;
    for (int i = 0; i < 3; i++) {
        f = exp(p->e[i + 1] / R * inverse);
        d[2 + 2 * i] = f * t;
        d[3 + 2 * i] = f * (p->pressure - rh * sat);
    }
    d[8] = pow(p->q10, (t - 296.15) / 10);
    d[9] = t;
    d[10] = sat;
}

static void tabulate(package *p)
{
    double d[DRIVERS];
    for (int day = 0; day <= DAYS; day++) {
        memset(p->table[day], 0, sizeof p->table[day]);
        for (int hour = 0; hour < 24; hour++) {
            drivers_at(p, day + (hour + 0.5) / 24, d);
            for (int i = 0; i < DRIVERS; i++)
                p->table[day][i] += d[i] / 24;
        }
    }
}

static void drivers(const package *p, double day, double *d)
{
    if (!p->tuned) {
        drivers_at(p, day, d);
        return;
    }
    double at = fmod(day - 0.5 + DAYS, DAYS);
    int i = (int)at;
    double part = at - i;
    for (int k = 0; k < DRIVERS; k++)
        d[k] = p->table[i][k] + part * (p->table[i + 1][k] - p->table[i][k]);
}

static double activity(const package *p, double x)
{
    double u = x / p->monolayer, square = u * (p->c - 1), linear = p->c - u * (p->c - 2), root = sqrt(linear * linear + 4 * square * u);
    return (linear >= 0 ? 2 * u / (linear + root) : (root - linear) / (2 * square)) / p->k;
}

static double moisture(const package *p, double a)
{
    double y = p->k * a;
    return p->monolayer * p->c * y / ((1 - y) * (1 + (p->c - 1) * y));
}

static double slope(const package *p, double a)
{
    double y = p->k * a, below = (1 - y) * (1 + (p->c - 1) * y);
    return p->monolayer * p->c * p->k * (1 + (p->c - 1) * y * y) / (below * below);
}

static int rate(realtype t, N_Vector state, N_Vector result, void *user)
{
    const package *p = user;
    const double *y = N_VGetArrayPointer(state);
    double *r = N_VGetArrayPointer(result), d[DRIVERS];
    if (y[0] < 0)
        return 1;
    drivers(p, t, d);
    r[0] = -p->g[0] * 86400 * WATER / p->dry * (d[0] * activity(p, y[0]) - d[1]);
    double taken = p->uptake * d[8] * y[1];
    for (int i = 0; i < 3; i++)
        r[1 + i] = p->g[i + 1] * 86400 * (share[i] * d[3 + 2 * i] - d[2 + 2 * i] * R / p->volume * y[1 + i]);
    r[1] -= taken;
    r[2] += p->rq * taken;
    return 0;
}

static int jacobian(realtype t, N_Vector state, N_Vector result, SUNMatrix j, void *user, N_Vector a, N_Vector b, N_Vector c)
{
    (void)result; (void)a; (void)b; (void)c;
    const package *p = user;
    double d[DRIVERS];
    drivers(p, t, d);
    SUNMatZero(j);
    SM_ELEMENT_D(j, 0, 0) = -p->g[0] * 86400 * WATER / p->dry * d[0] / slope(p, activity(p, N_VGetArrayPointer(state)[0]));
    for (int i = 0; i < 3; i++)
        SM_ELEMENT_D(j, 1 + i, 1 + i) = -p->g[i + 1] * 86400 * d[2 + 2 * i] * R / p->volume;
    SM_ELEMENT_D(j, 1, 1) -= p->uptake * d[8];
    SM_ELEMENT_D(j, 2, 1) = p->rq * p->uptake * d[8];
    return 0;
}

static void told(const package *p, double day, const double *y, double *row)
{
    double d[DRIVERS];
    drivers(p, day, d);
    double per = R * d[9] / p->volume;
    row[0] = y[0];
    row[1] = y[1] * per;
    row[2] = y[2] * per;
    row[3] = (y[1] + y[2] + y[3]) * per + activity(p, y[0]) * d[10];
}

static int run(package *p, double (*rows)[4])
{
    SUNContext context;
    SUNContext_Create(NULL, &context);
    N_Vector y = N_VNew_Serial(4, context), tolerance = N_VNew_Serial(4, context);
    double *s = N_VGetArrayPointer(y), relative = p->tuned ? 1e-4 : 1e-6, kelvin = 0;
    for (int hour = 0; hour < 24; hour++) {
        double d[DRIVERS];
        drivers_at(p, (hour + 0.5) / 24, d);
        kelvin += d[9] / 24;
    }
    double moles = (p->pressure - p->start * psat(kelvin)) * p->volume / (R * kelvin);
    s[0] = moisture(p, p->start);
    for (int i = 0; i < 3; i++)
        s[1 + i] = moles * share[i];
    N_VGetArrayPointer(tolerance)[0] = relative * 1e-2;
    for (int i = 1; i < 4; i++)
        N_VGetArrayPointer(tolerance)[i] = relative * 1e-2 * moles;
    void *solver = CVodeCreate(CV_BDF, context);
    CVodeInit(solver, rate, 0, y);
    CVodeSVtolerances(solver, relative, tolerance);
    CVodeSetUserData(solver, p);
    CVodeSetMaxNumSteps(solver, 10000000);
    SUNMatrix matrix = SUNDenseMatrix(4, 4, context);
    SUNLinearSolver linear = SUNLinSol_Dense(y, matrix, context);
    CVodeSetLinearSolver(solver, linear, matrix);
    CVodeSetJacFn(solver, jacobian);
    int failed = 0, instants = p->tuned ? 1 : 24;
    for (int quarter = 1; quarter <= p->quarters && !failed; quarter++) {
        double row[4], t;
        memset(rows[quarter - 1], 0, sizeof rows[0]);
        for (int i = 0; i < instants && !failed; i++) {
            double at = floor(quarter * 91.25) + (i + 0.5) / instants;
            failed = CVode(solver, at, y, &t, CV_NORMAL) < 0;
            told(p, at, s, row);
            for (int k = 0; k < 4; k++)
                rows[quarter - 1][k] += row[k] / instants;
        }
    }
    CVodeFree(&solver);
    SUNLinSolFree(linear);
    SUNMatDestroy(matrix);
    N_VDestroy(y);
    N_VDestroy(tolerance);
    SUNContext_Free(&context);
    return failed;
}

static double cpu(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return t.tv_sec + 1e-9 * t.tv_nsec;
}

int main(int count, char **arguments)
{
    if (count < 3)
        return 2;
    static package p;
    static double rows[4000][4];
    int repeats = atoi(arguments[2]);
    p.tuned = strcmp(arguments[1], "tuned") == 0;
    while (scanf("%lf %lf %lf %lf %lf", &p.dry, &p.monolayer, &p.c, &p.k, &p.volume) == 5) {
        for (int i = 0; i < 4; i++)
            if (scanf("%lf %lf", &p.g[i], &p.e[i]) != 2)
                return 2;
        if (scanf("%lf %lf %lf %lf %lf %lf %lf %lf %lf %lf %lf %lf %d", &p.uptake, &p.q10, &p.rq, &p.mean, &p.annual, &p.daily, &p.phase, &p.rh,
                  &p.rh_annual, &p.rh_phase, &p.pressure, &p.start, &p.quarters) != 13)
            return 2;
        double begin = cpu();
        if (p.tuned)
            tabulate(&p);
        int failed = 0;
        for (int i = 0; i < repeats; i++)
            failed |= run(&p, rows);
        printf("%d %.9g\n", failed, (cpu() - begin) / repeats);
        for (int quarter = 0; quarter < p.quarters; quarter++)
            printf("%.9g %.9g %.9g %.9g\n", rows[quarter][0], rows[quarter][1], rows[quarter][2], rows[quarter][3]);
    }
    return 0;
}
