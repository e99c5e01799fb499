/* SPDX-License-Identifier: MIT */
/* log from question to answer: each probe's time at its target, s, judged at the low end of its error's band. Lethality
 * and rules: spans.h, rules.c. */
#include "farvessel/constants.h"
#include "farvessel/log.h"
#include "study/log/spans.h"
#include "study/readings.h"

#include "farvessel/steady.h"
#include "study/answer.h"

#include <math.h>

static const double USUAL_TARGET = 60 + FV_CELSIUS, USUAL_HOLD = 1800, USUAL_Z = 10;

void fv_log_defaults(fv_log_options *options)
{
    if (!options)
        return;
    *options = (fv_log_options){NAN, NAN, NAN, NAN};
}

const char *fv_log_verdict_word(fv_log_verdict verdict)
{
    static const char *const words[] = {"held", "short", "not_reached", "cannot_tell"};
    return words[verdict];
}

static double first_of(double asked, double otherwise)
{
    return isnan(asked) ? otherwise : asked;
}

/* As asked, else the vessel's own, else what is usual in nurseries. */
static void set_target(const fv_log_answer *a, fv_log_probe *p)
{
    const fv_vessel *v = a->plant && p->readings.vessel >= 0 ? a->plant->vessels[p->readings.vessel] : NULL;
    p->target = first_of(a->options.target, v ? v->target.v : USUAL_TARGET);
    p->hold = first_of(a->options.hold, v ? v->hold.v : USUAL_HOLD);
    p->reference = first_of(a->options.reference, v ? v->reference_temperature.v : p->target);
    p->z = first_of(a->options.z, v ? v->z.v : USUAL_Z);
}

/* At the low end of its band; what the high end would not bear out, either, is short. */
static void judge(fv_log_probe *p)
{
    p->short_by = NAN;
    if (p->low.longest >= p->hold) {
        p->verdict = FV_LOG_HELD;
    } else if (p->high.longest >= p->hold) {
        p->verdict = FV_LOG_CANNOT_TELL;
    } else if (isnan(p->high.first)) {
        p->verdict = FV_LOG_NOT_REACHED;
    } else {
        p->verdict = FV_LOG_SHORT;
    }
    if (p->verdict == FV_LOG_SHORT || p->verdict == FV_LOG_CANNOT_TELL)
        p->short_by = p->hold - p->low.longest;
}

static fv_status fill_probe(fv_log_answer *a, fv_log_probe *p)
{
    size_t count;
    const fv_log_rule *rules = fv_log_rules(&count);
    set_target(a, p);
    p->low = log_span(p, -p->readings.reach);
    p->as_read = log_span(p, 0);
    p->high = log_span(p, p->readings.reach);
    p->going_on = log_goes_on(p);
    p->rules = fv_arena_alloc(a->arena, count + 1, sizeof *p->rules);
    for (size_t i = 0; i < count && p->rules; i++)
        p->rules[i] = (fv_log_rule_share){log_rule_share(&p->readings, &rules[i], 0),
                                          log_rule_share(&p->readings, &rules[i], -p->readings.reach)};
    judge(p);
    return p->rules ? FV_OK : FV_FAIL;
}

/* How good a verdict is, and within equal ones how long the low end held. */
static bool is_worse(const fv_log_probe *a, const fv_log_probe *b)
{
    static const int rank[] = {
        [FV_LOG_HELD] = 3, [FV_LOG_CANNOT_TELL] = 2, [FV_LOG_SHORT] = 1, [FV_LOG_NOT_REACHED] = 0};
    if (rank[a->verdict] != rank[b->verdict])
        return rank[a->verdict] < rank[b->verdict];
    const double x = a->low.longest - a->hold, y = b->low.longest - b->hold;
    return x != y ? x < y : a->as_read.highest < b->as_read.highest;
}

static void find_coldest(fv_log_answer *a)
{
    a->coldest = -1;
    for (size_t i = 0; i < a->probe_count; i++)
        if (a->probes[i].readings.at == FV_PROBE_CORE &&
            (a->coldest < 0 || is_worse(&a->probes[i], &a->probes[a->coldest])))
            a->coldest = (int)i;
    a->verdict = a->coldest >= 0 ? a->probes[a->coldest].verdict : FV_LOG_CANNOT_TELL;
}

static bool answer_question(fv_log_answer *a, fv_faults *faults)
{
    study_readings readings;
    if (a->plant)
        a->boiling_point = fv_sat_t(fv_sat_line(), fv_site_pressure(&a->plant->site), NULL);
    if (study_readings_find(a->plant, a->log, a->boiling_point, a->arena, &readings, faults) == FV_FAIL)
        return false;
    a->probes = fv_arena_alloc(a->arena, readings.count + 1, sizeof *a->probes);
    fv_status status = a->probes ? FV_OK : FV_FAIL;
    for (size_t i = 0; i < readings.count && status == FV_OK; i++) {
        a->probes[i].readings = readings.list[i];
        status = fill_probe(a, &a->probes[i]);
    }
    a->probe_count = readings.count;
    if (status == FV_FAIL)
        fv_error(faults, FV_ERR_SYSTEM, (fv_loc){a->log->file, 0}, "out of memory");
    else
        find_coldest(a);
    return status == FV_OK;
}

fv_log_answer *fv_log_run(const fv_plant *plant, const fv_logfile *log, const fv_log_options *options,
                          fv_faults *faults)
{
    if (!log || !options) /* a log can do without a plant */ {
        fv_error_null(faults, __func__);
        return NULL;
    }
    fv_arena *arena;
    fv_log_answer *a = study_answer_new(sizeof *a, (fv_loc){log->file, 0}, &arena, faults);
    if (!a)
        return NULL;
    *a = (fv_log_answer){.plant = plant, .log = log, .options = *options, .boiling_point = NAN, .arena = arena};
    if (answer_question(a, faults))
        return a;
    fv_log_free(a);
    return NULL;
}

void fv_log_free(fv_log_answer *answer)
{
    if (answer)
        fv_arena_free(answer->arena);
}
