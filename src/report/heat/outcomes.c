/* SPDX-License-Identifier: MIT */
/* How each vessel fares. */
#include "report/heat/report.h"

#include <math.h>

double report_heat_took(const report_heat *heat, size_t vessel)
{
    const fv_vessel_history *h = &heat->result->vessels[vessel];
    return h->core - h->opened;
}

const char *report_outcome_word(report_outcome outcome)
{
    static const char *const words[OUTCOMES] = {"never", "late", "unheld", "pending", "lagging", "fed", "shut"};
    return words[outcome];
}

const char *report_outcome_shown(report_outcome outcome)
{
    static const char *const words[OUTCOMES] = {"starved", "starved", "hold broken", "not yet",
                                                "lagging", "fed",     "shut"};
    return words[outcome];
}

static bool was_cut(const fv_heat_result *r)
{
    return r->stopped || r->end >= r->options.until - 1.0;
}

static report_outcome without_core(const fv_heat_result *r, size_t i)
{
    const fv_vessel_history *h = &r->vessels[i];
    bool settled = !isnan(h->settles) || h->arrival == FV_NOT_BOILING_POINT || h->arrival == FV_NOT_DRY;
    bool in_time = isnan(h->opened) || r->end < h->opened + r->plant->vessels[i]->within.v;
    if (!settled && in_time && was_cut(r))
        return OUTCOME_PENDING;
    return isnan(h->opened) && h->arrival != FV_NOT_DRY ? OUTCOME_SHUT : OUTCOME_NEVER;
}

report_outcome report_heat_outcome(const fv_heat_result *r, size_t i)
{
    const fv_vessel *vessel = r->plant->vessels[i];
    const fv_vessel_history *h = &r->vessels[i];
    if (h->verdict == FV_SHUT_OFF)
        return OUTCOME_SHUT;
    if (isnan(h->core))
        return without_core(r, i);
    if (h->core - h->opened > vessel->within.v)
        return OUTCOME_LATE;
    bool held = !isnan(h->hold) || h->hold_longest >= vessel->hold.v;
    if (!held && isnan(h->hold_broken) && was_cut(r))
        return OUTCOME_PENDING;
    if (!held || !isnan(h->hold_broken))
        return OUTCOME_UNHELD;
    return h->verdict == FV_LAGGING ? OUTCOME_LAGGING : OUTCOME_FED;
}
