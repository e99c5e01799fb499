/* SPDX-License-Identifier: MIT */
/* A tee: static pressure differences from the split of the flow, for every direction of flow in its three legs.
 *
 * Purpose   rho (p_0 - p_1) and rho (p_0 - p_2) with their derivatives: no constant K, but what the split asks.
 * Given     areas (m2) of the straight run, legs 0 and 1, and of the branch, leg 2; angle of the branch from leg 1's
 *           outward axis; mass flows into the tee, g (kg/s). A sum that is not zero is first spread evenly over the
 *           legs, so that an iterate out of balance has a value too; the derivatives are those of the whole.
 * Returned  (kg/s/m2)^2 and its derivatives by g. Homogeneous of degree 2; zeros at zero flow; C1 in g.
 * Valid     angle 30 to 150 degrees, branch and narrower run leg 1/25 of the wider run leg or more, branch at most 1.5
 *           times it (common practice, no source): outside FV_DOUBTFUL. Sharp edges, turbulent flow, small Mach number.
 *           FV_FAIL: area not positive, angle not within 0..pi, not finite.
 * Accuracy  in heads of the common leg, square tee of equal bores, against Gardel (1957): dividing branch within 0.11,
 *           run 0.15; combining branch within 0.24, run 0.39 (largest where nearly all comes from the branch); a
 *           dividing branch of half the bore within 0.14 of its own head. Published tees among themselves differ as
 *           much: 0.83 to 1.4 for the branch of a 2 inch tee. The tee takes power from the flow at every split, but for
 *           1e-4 of the kinetic energy within the blend.
 *
 * The closures, with G = g/area and c = cos(3 d/4), d the angle by which a stream is turned:
 *   dividing run     loss = G_c^2/2 (q^2 - 3 q/2 + 1/2), q the share that goes straight on (Bassett et al.), and the
 *                    loss of a change of bore on that share.
 *   dividing branch  loss = (G_c^2 + G_b^2 - 2 c G_c G_b)/2 (Hager), so rho (p_c - p_b) = G_b^2 - c G_c G_b. Also where
 *                    the branch flows in, to either side.
 *   combining run    both inlets at one pressure p; momentum p A_o + sum G^2 A c/rho = p_o A_o + G_o^2 A_o/rho. The
 *                    branch's stream counts with Hager's c, so that with the branch alone flowing the bend is the same
 *                    as when dividing.
 *   combining into   from both ends of the run: the same, with p + G^2/(4 rho) equal at both inlets, which is what the
 *    the branch      dividing run's 1/2 says of a leg about to turn round.
 *   narrow outlets   Hager's loss tends to one whole head of a narrow branch; a sharp entrance from still fluid loses
 *                    1/2. With a = A_o/A_i < 1 the loss is lowered by r (G_o^2 - G_o G_i)/2, r = (1 - a^2)(1 - c^2)/2:
 *                    no change at equal bores or equal speeds, 0.57 left of the head of a very narrow square branch,
 *                    never below zero (choice of this program). When combining, what that is for the bend alone counts,
 *                    times the stream's share. Straight on, where the run narrows, the loss is 0.5 (1 - ratio).
 * All are quadratic in g, and all agree where a leg's flow passes zero; their slopes there do not, so the two are
 * blended by a smoothstep over the last 1 % of flow on either side.
 *
 * Source    W. H. Hager, J. Fluids Eng. 106 (1984) 77 (turned streams, 3/4 of the angle); M. D. Bassett, D. E.
 *           Winterbone & R. J. Pearson, Proc. Inst. Mech. Eng. C 215 (2001) 861 (run); from memory. */
#include "farvessel/constants.h"
#include "farvessel/flow.h"
#include "flow/smooth.h"

#include <math.h>
#include <string.h>

#define BLEND 0.01 /* of the through flow, either side of a leg's zero */

typedef struct {
    double area[3];
    double turn[2]; /* c between leg 0 or 1 and the branch */
} geometry;

/* rho p of each leg, to a common constant, as quadratic forms: sum over j, k of at[leg][j][k] g_j g_k. */
typedef struct {
    double at[3][3][3];
} forms;

/* Share of a narrow outlet's head, times 1/2, that Hager's loss has too much when the turned stream is fast. */
static double relief(const geometry *tee, int from, int to)
{
    double ratio = tee->area[to] / tee->area[from];
    double c = tee->turn[from == 2 ? to : from];
    return ratio < 1.0 ? 0.25 * (1.0 - ratio * ratio) * (1.0 - c * c) : 0.0;
}

/* The same with all the flow through the bend, by g^2. */
static double bend_relief(const geometry *tee, int from, int to)
{
    return relief(tee, from, to) * (1.0 / tee->area[to] - 1.0 / tee->area[from]) / tee->area[to];
}

/* Loss of total pressure times density where a straight stream changes bore, by g^2. */
static double change_of_bore(double from, double to)
{
    double k;
    double small = fmin(from, to);
    double ratio = small / fmax(from, to);
    if ((to < from ? fv_flow_contraction(ratio, &k) : fv_flow_enlargement(ratio, &k)) == FV_FAIL)
        return 0.0;
    return 0.5 * k / (small * small);
}

/* Flow in by run leg c, out by the other and by the branch. */
static void divide_from_run(const geometry *tee, int c, forms *f)
{
    const double *a = tee->area;
    int s = 1 - c;
    double common = 1.0 / (a[c] * a[c]);
    f->at[s][s][s] = -(0.5 * common + change_of_bore(a[c], a[s]) + 0.5 / (a[s] * a[s]));
    f->at[s][s][c] = -0.75 * common;
    f->at[s][c][c] = 0.25 * common;
    f->at[2][2][2] = (relief(tee, c, 2) - 1.0) / (a[2] * a[2]);
    f->at[2][c][2] = (relief(tee, c, 2) - tee->turn[c]) / (a[c] * a[2]);
}

/* Flow in by the branch, out by both ends of the run. */
static void divide_from_branch(const geometry *tee, forms *f)
{
    const double *a = tee->area;
    for (int j = 0; j < 2; j++) {
        f->at[j][j][j] = (relief(tee, 2, j) - 1.0) / (a[j] * a[j]);
        f->at[j][j][2] = (relief(tee, 2, j) - tee->turn[j]) / (a[j] * a[2]);
    }
}

/* Flow out by run leg o, in by the other and by the branch. */
static void combine_into_run(const geometry *tee, int o, forms *f)
{
    const double *a = tee->area;
    int s = 1 - o;
    f->at[o][o][o] = -1.0 / (a[o] * a[o]);
    f->at[o][s][s] = 1.0 / (a[s] * a[o]);
    f->at[o][2][2] = tee->turn[o] / (a[2] * a[o]);
    f->at[o][2][o] = -bend_relief(tee, 2, o);
    // the momentum balance has Borda's loss in it, which is wrong where the run narrows
    if (a[o] < a[s]) {
        double borda = 1.0 / a[o] - 1.0 / a[s];
        f->at[o][s][o] = change_of_bore(a[s], a[o]) - 0.5 * borda * borda;
    }
}

/* Flow in by both ends of the run, out by the branch. */
static void combine_into_branch(const geometry *tee, forms *f)
{
    const double *a = tee->area;
    f->at[2][2][2] = -1.0 / (a[2] * a[2]);
    for (int j = 0; j < 2; j++) {
        f->at[1 - j][j][j] = 0.25 / (a[j] * a[j]);
        f->at[2][j][j] = tee->turn[j] / (a[j] * a[2]);
        f->at[2][j][2] = -bend_relief(tee, j, 2);
    }
}

/* rho (p_0 - p_i), i = 1, 2, and gradients. `divides`: one leg, `single`, flows in; else `single` is the one that flows
 * out. */
static void evaluate(const geometry *tee, bool divides, int single, const double g[3], double drop[2],
                     double slope[2][3])
{
    forms f;
    memset(&f, 0, sizeof f);
    if (single == 2)
        (divides ? divide_from_branch : combine_into_branch)(tee, &f);
    else
        (divides ? divide_from_run : combine_into_run)(tee, single, &f);
    for (int i = 0; i < 2; i++) {
        drop[i] = 0.0;
        for (int j = 0; j < 3; j++)
            slope[i][j] = 0.0;
        for (int j = 0; j < 3; j++) {
            for (int k = 0; k < 3; k++) {
                double term = f.at[0][j][k] - f.at[i + 1][j][k];
                drop[i] += term * g[j] * g[k];
                slope[i][j] += term * g[k];
                slope[i][k] += term * g[j];
            }
        }
    }
}

/* All regimes, for flows that sum to zero and are not all zero; gradient in the three flows as if independent. */
static void tee_balanced(const geometry *tee, const double g[3], double drop[2], double slope[2][3])
{
    int in = 0;
    int out = 0;
    for (int j = 1; j < 3; j++) {
        in = g[j] > g[in] ? j : in;
        out = g[j] < g[out] ? j : out;
    }
    int least = 3 - in - out;
    double through = 0.5 * (g[in] - g[out]);
    double t = g[least] / (BLEND * through);
    if (t <= -1.0 || t >= 1.0) {
        evaluate(tee, t <= -1.0, t <= -1.0 ? in : out, g, drop, slope);
        return;
    }
    double drop_c[2], slope_c[2][3], dw;
    evaluate(tee, true, in, g, drop, slope);
    evaluate(tee, false, out, g, drop_c, slope_c);
    double w = smooth_step(0.5 * (1.0 + t), &dw);
    double dw_dg[3];
    dw_dg[least] = 0.5 * dw / (BLEND * through);
    dw_dg[in] = -0.25 * dw * t / through;
    dw_dg[out] = 0.25 * dw * t / through;
    for (int i = 0; i < 2; i++) {
        double gap = drop_c[i] - drop[i];
        for (int j = 0; j < 3; j++)
            slope[i][j] += w * (slope_c[i][j] - slope[i][j]) + gap * dw_dg[j];
        drop[i] += w * gap;
    }
}

static fv_status check_geometry(const double area[3], double angle)
{
    for (int i = 0; i < 3; i++) {
        if (!(area[i] > 0.0) || !isfinite(area[i]))
            return FV_FAIL;
    }
    if (!(angle > 0.0) || !(angle < FV_PI))
        return FV_FAIL;
    double run = fmax(area[0], area[1]);
    double least = fmin(fmin(area[0], area[1]), area[2]);
    bool usual =
        least >= run / 25.0 && area[2] <= 1.5 * run && angle >= FV_PI / 6.0 - 1e-9 && angle <= FV_PI * 5.0 / 6.0 + 1e-9;
    return usual ? FV_OK : FV_DOUBTFUL;
}

fv_status fv_flow_tee(const double area[3], double angle, const double g[3], double drop[2], double jacobian[2][3])
{
    if (!area || !g || !drop || !jacobian)
        return FV_FAIL;
    fv_status status = check_geometry(area, angle);
    if (status == FV_FAIL || !isfinite(g[0]) || !isfinite(g[1]) || !isfinite(g[2]))
        return FV_FAIL;
    geometry tee = {{area[0], area[1], area[2]}, {cos(0.75 * angle), cos(0.75 * (FV_PI - angle))}};
    double excess = (g[0] + g[1] + g[2]) / 3.0;
    double balanced[3] = {g[0] - excess, g[1] - excess, g[2] - excess};
    memset(drop, 0, 2 * sizeof *drop);
    memset(jacobian, 0, 2 * sizeof *jacobian);
    if (balanced[0] == 0.0 && balanced[1] == 0.0 && balanced[2] == 0.0)
        return status;
    tee_balanced(&tee, balanced, drop, jacobian);
    for (int i = 0; i < 2; i++) {
        double mean = (jacobian[i][0] + jacobian[i][1] + jacobian[i][2]) / 3.0;
        for (int j = 0; j < 3; j++)
            jacobian[i][j] -= mean;
    }
    return status;
}
