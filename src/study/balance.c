/* SPDX-License-Identifier: MIT */
#include "study/balance.h"

#include "farvessel/flow.h"
#include "farvessel/steady.h"
#include "num/quiet.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double CLOSE = 1e-10;  /* of the logarithms of shares */
static const double USABLE = 1e-3;  /* good enough for places that are rounded */
static const double NUDGE = 1e-4;   /* of a resistance's logarithm, for slopes */
static const double LONGEST = 1.0;  /* of a step */
static const double TIGHTEST = 6.0; /* the resistance's logarithm: e^6 of the open valve's root */
enum { STEPS = 40, REFERENCES = 8 };

/* One vessel that takes part. */
typedef struct {
    size_t knob, vessel;
    fv_valve_curve curve;
} branch;

typedef struct {
    const study_handling *h;
    branch *branches;
    size_t count, reference;
    const double *wishes;
    double *values;   /* by knob */
    double *x;        /* by branch: logarithm of the resistance's root over that of the open valve; 0: wide open */
    double *residual; /* by branch; 0 for the reference */
    bool no_memory;
} balance;

/* The opening at which the valve passes this share of its full flow. */
static double opening_of(fv_valve_curve curve, double share)
{
    double low = 0, high = 1, at;
    for (int i = 0; i < 200 && high - low > 1e-16; i++) {
        const double middle = 0.5 * (low + high);
        fv_flow_valve_opening(curve, middle, &at);
        *(at < share ? &low : &high) = middle;
    }
    return high;
}

static double value_of(const branch *b, const study_knob *knob, double x)
{
    return knob->kind == STUDY_KNOB_WASHER ? expm1(2 * x) : x <= 0 ? 1 : opening_of(b->curve, exp(-x));
}

/* A washer of any loss, none included, in place of the one that may be there. Nobody said it, so that the losses found
 * at its joints stay. */
static void add_loss(fv_plant *plant, const char *id, double k)
{
    for (size_t i = 0; i < plant->line_count; i++) {
        fv_line *line = plant->lines[i];
        if (strcmp(line->part.id, id) != 0)
            continue;
        line->k.v = fv_or(line->k, 0) + k;
        line->washer = (fv_value){.v = NAN};
    }
}

fv_plant *study_balanced(const study_handling *h, const double *values, fv_faults *faults)
{
    study_settings settings;
    study_settings_open(&settings);
    for (size_t i = 0; i < h->count; i++) {
        const study_knob *knob = &h->knobs[i];
        if (knob->kind == STUDY_KNOB_OPEN)
            study_setting_add(&settings, knob->path, knob->attribute, values[i]);
    }
    fv_plant *plant = settings.failed ? NULL : fv_change_copy(&settings.change, h->plant, faults);
    for (size_t i = 0; i < h->count && plant; i++)
        if (h->knobs[i].kind == STUDY_KNOB_WASHER)
            add_loss(plant, h->knobs[i].path, values[i]);
    study_settings_free(&settings);
    return plant;
}

/* Residuals at x. False: no solution there. */
static bool evaluate(balance *b, const double *x, double *residual)
{
    fv_faults *faults = fv_faults_new();
    for (size_t i = 0; i < b->count; i++)
        b->values[b->branches[i].knob] = value_of(&b->branches[i], &b->h->knobs[b->branches[i].knob], x[i]);
    fv_plant *plant = faults ? study_balanced(b->h, b->values, faults) : NULL;
    fv_flow_options options;
    fv_flow_defaults(&options);
    options.phase = FV_PHASE_HEATING;
    options.turndown = false;
    options.predict = false;
    fv_flow_answer *flow = plant ? fv_flow_answer_new(plant, &options, NULL, faults) : NULL;
    bool good = flow != NULL;
    const branch *r = &b->branches[b->reference];
    for (size_t i = 0; i < b->count && good; i++) {
        const branch *v = &b->branches[i];
        const double mine = flow->state->vessels[v->vessel].steam, theirs = flow->state->vessels[r->vessel].steam;
        good = mine > 0 && theirs > 0;
        residual[i] = good ? log(mine / theirs) - log(b->wishes[v->vessel] / b->wishes[r->vessel]) : NAN;
    }
    b->no_memory = b->no_memory || (!flow && fv_faults_blame_system(faults));
    fv_flow_answer_free(flow);
    fv_plant_free(plant);
    fv_faults_free(faults);
    return good;
}

static double norm(const balance *b, const double *residual)
{
    double most = 0;
    for (size_t i = 0; i < b->count; i++)
        most = fmax(most, fabs(residual[i]));
    return most;
}

/* Slopes by differences; row and column of the reference are those of the identity. */
static bool find_slopes(balance *b, gsl_matrix *slopes)
{
    double *x = malloc(b->count * sizeof *x), *there = malloc(b->count * sizeof *there);
    bool good = x && there;
    b->no_memory = b->no_memory || !good;
    gsl_matrix_set_identity(slopes);
    for (size_t j = 0; j < b->count && good; j++) {
        if (j == b->reference)
            continue;
        memcpy(x, b->x, b->count * sizeof *x);
        x[j] += NUDGE;
        good = evaluate(b, x, there);
        for (size_t i = 0; i < b->count && good; i++)
            if (i != b->reference)
                gsl_matrix_set(slopes, i, j, (there[i] - b->residual[i]) / NUDGE);
    }
    free(x);
    free(there);
    return good;
}

/* step = -slopes^-1 residual, no longer than LONGEST; `scratch` is as large as the slopes. */
static bool find_step(balance *b, const gsl_matrix *slopes, gsl_matrix *scratch, double *step)
{
    gsl_vector_const_view right = gsl_vector_const_view_array(b->residual, b->count);
    gsl_vector_view left = gsl_vector_view_array(step, b->count);
    gsl_matrix_memcpy(scratch, slopes);
    const int solved = gsl_linalg_HH_solve(scratch, &right.vector, &left.vector);
    b->no_memory = b->no_memory || solved == GSL_ENOMEM;
    if (solved != GSL_SUCCESS)
        return false;
    double most = 0;
    for (size_t i = 0; i < b->count; i++)
        most = fmax(most, fabs(step[i]));
    for (size_t i = 0; i < b->count; i++)
        step[i] *= -(most > LONGEST ? LONGEST / most : 1);
    return true;
}

/* Broyden's update from what the step brought. */
static void update(const balance *b, gsl_matrix *slopes, const double *step, const double *before)
{
    double square = 0;
    for (size_t i = 0; i < b->count; i++)
        square += step[i] * step[i];
    for (size_t i = 0; i < b->count && square > 0; i++) {
        double predicted = 0;
        for (size_t j = 0; j < b->count; j++)
            predicted += gsl_matrix_get(slopes, i, j) * step[j];
        const double missed = b->residual[i] - before[i] - predicted;
        for (size_t j = 0; j < b->count && i != b->reference; j++)
            gsl_matrix_set(slopes, i, j, gsl_matrix_get(slopes, i, j) + missed * step[j] / square);
    }
}

/* With this reference. Ends early where another valve should be wide open. */
static bool solve(balance *b, gsl_matrix *slopes, gsl_matrix *scratch, double *step, double *before)
{
    bool good = evaluate(b, b->x, b->residual) && find_slopes(b, slopes);
    for (int k = 0; k < STEPS && good && norm(b, b->residual) > CLOSE; k++) {
        memcpy(before, b->residual, b->count * sizeof *before);
        if (!find_step(b, slopes, scratch, step))
            return false;
        for (size_t i = 0; i < b->count; i++) {
            const double to = fmin(TIGHTEST, b->x[i] + step[i]);
            step[i] = to - b->x[i];
            b->x[i] = to;
        }
        for (size_t i = 0; i < b->count; i++)
            if (b->x[i] < -0.5)
                return true;
        good = evaluate(b, b->x, b->residual);
        if (good)
            update(b, slopes, step, before);
    }
    return good;
}

/* Another reference where some valve would have to be more than wide open. */
static fv_status solve_all(balance *b, gsl_matrix *slopes, gsl_matrix *scratch, double *step, double *before)
{
    for (int k = 0; k < REFERENCES; k++) {
        if (!solve(b, slopes, scratch, step, before))
            return FV_FAIL;
        size_t widest = b->reference;
        for (size_t i = 0; i < b->count; i++)
            if (b->x[i] < b->x[widest])
                widest = i;
        if (widest == b->reference || b->x[widest] >= 0) {
            const double left = norm(b, b->residual);
            evaluate(b, b->x, b->residual);
            return left <= 10 * CLOSE ? FV_OK : FV_DOUBTFUL;
        }
        const double shift = b->x[widest];
        for (size_t i = 0; i < b->count; i++)
            b->x[i] = i == widest ? 0 : fmax(0, b->x[i] - shift);
        b->reference = widest;
    }
    evaluate(b, b->x, b->residual);
    return FV_DOUBTFUL;
}

static bool open_branches(balance *b)
{
    const study_handling *h = b->h;
    for (size_t i = 0; i < h->count; i++) {
        const study_knob *knob = &h->knobs[i];
        b->values[i] = knob->kind == STUDY_KNOB_OPEN ? 1 : 0;
        if ((knob->kind != STUDY_KNOB_OPEN && knob->kind != STUDY_KNOB_WASHER) || !(b->wishes[knob->vessel] > 0))
            continue;
        branch *v = &b->branches[b->count++];
        *v = (branch){.knob = i, .vessel = knob->vessel};
        const fv_element *element;
        const fv_fitting *f = knob->kind == STUDY_KNOB_OPEN ? fv_plant_find(h->plant, knob->path, &element) : NULL;
        const fv_fitting_entry *entry = f ? fv_fitting_entry_of(f) : NULL;
        v->curve = entry ? (fv_valve_curve)entry->curve : FV_VALVE_LINEAR;
    }
    return b->count >= 2;
}

fv_status study_balance(const study_handling *h, const double *wishes, double *values, bool *no_memory)
{
    balance b = {.h = h, .wishes = wishes, .values = values};
    fv_status status = FV_FAIL;
    num_quiet();
    b.branches = calloc(h->count + 1, sizeof *b.branches);
    double *room = calloc(4 * h->count + 4, sizeof *room);
    if (b.branches && room && open_branches(&b)) {
        b.x = room;
        b.residual = room + h->count + 1;
        gsl_matrix *slopes = gsl_matrix_alloc(b.count, b.count), *scratch = gsl_matrix_alloc(b.count, b.count);
        b.no_memory = !slopes || !scratch;
        if (!b.no_memory)
            status = solve_all(&b, slopes, scratch, room + 2 * (h->count + 1), room + 3 * (h->count + 1));
        if (status != FV_FAIL && norm(&b, b.residual) > USABLE)
            status = FV_DOUBTFUL;
        gsl_matrix_free(slopes);
        gsl_matrix_free(scratch);
    }
    *no_memory = !b.branches || !room || b.no_memory;
    free(b.branches);
    free(room);
    return status;
}

void study_balance_round(const study_handling *h, const double *values, int *point)
{
    for (size_t i = 0; i < h->count; i++) {
        const study_knob *knob = &h->knobs[i];
        if (knob->kind == STUDY_KNOB_OPEN)
            point[i] = study_knob_place(knob, values[i]);
        if (knob->kind != STUDY_KNOB_WASHER)
            continue;
        int best = 0;
        double least = fabs(log1p(values[i]));
        for (int place = 1; place < knob->places; place++) {
            const double ratio = study_knob_value(knob, place) / knob->bore;
            double k = 0;
            fv_flow_diaphragm(fmin(1, ratio * ratio), &k);
            const double off = fabs(log1p(values[i]) - log1p(k));
            best = off < least ? place : best;
            least = fmin(least, off);
        }
        point[i] = best;
    }
}
