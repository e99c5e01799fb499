/* SPDX-License-Identifier: MIT */
/* Where a vessel's chamber, as it holds, stands just below the limit: by all fires, or by the valve on its own line. */
#include "farvessel/overheat.h"
#include "num/root.h"
#include "study/ways.h"

#include <math.h>
#include <stdlib.h>

static const double FIRE_LEAST = 0.05, OPEN_LEAST = 0.01; /* nobody turns farther down */
static const double SETTLED = 1e-3;                       /* of a setting: finer than hands do */

typedef struct {
    fv_plant *plant; /* a copy */
    size_t vessel;
    fv_value *open; /* of its valve, which is set; NULL: the fires are */
    double fire, wanted;
    fv_faults *faults;
} search;

/* K that its chamber stands below what is wanted; NaN: no solution. */
static double below(double setting, void *context)
{
    const search *s = context;
    fv_flow_options options;
    fv_flow_defaults(&options);
    options.turndown = options.predict = false;
    options.phase = FV_PHASE_HOLDING;
    options.fire = s->open ? s->fire : setting;
    if (s->open)
        *s->open = fv_given(setting);
    if (fv_plant_link(s->plant, s->faults) == FV_FAIL)
        return NAN;
    fv_flow_answer *answer = fv_flow_answer_new(s->plant, &options, NULL, s->faults);
    const double t = answer ? answer->state->vessels[s->vessel].chamber_temperature : (double)NAN;
    fv_flow_answer_free(answer);
    return s->wanted - t;
}

static double find(search *s, double least, double most)
{
    double root;
    return least < most && num_root_between(below, s, least, most, SETTLED, 0, &root) == FV_OK ? root : (double)NAN;
}

static void try_fire(const fv_heat_result *now, size_t vessel, const fv_progress *progress, fv_overheat_row *row,
                     fv_faults *own)
{
    fv_heat_options options = now->options;
    options.fire = row->fire;
    options.stop_at_core = true;
    fv_heat_result *tried = fv_heat_run(now->plant, &options, progress, own);
    row->core = tried ? tried->vessels[vessel].core : (double)NAN;
    row->kept = tried && !(tried->vessels[vessel].over > 0);
    fv_heat_free(tried);
}

static bool work_out(const fv_heat_result *now, size_t i, const fv_progress *progress, fv_overheat_row *row,
                     fv_faults *own)
{
    const fv_vessel *vessel = now->plant->vessels[i];
    *row = (fv_overheat_row){.fire = NAN, .core = NAN, .open = NAN};
    row->asked = fv_is_set(vessel->at_most) && now->vessels[i].over > 0;
    if (!row->asked || fv_word(vessel->load.form) == FV_FORM_BED)
        return true;
    fv_arena *arena = fv_arena_new();
    study_ways ways;
    search s = {.plant = fv_plant_copy(now->plant),
                .vessel = i,
                .fire = now->options.fire,
                .wanted = vessel->at_most.v - FV_OVERHEAT_BELOW,
                .faults = own};
    const bool good = arena && s.plant && study_ways_find(s.plant, arena, &ways);
    if (good) {
        size_t line, place;
        row->fire = find(&s, FIRE_LEAST, now->options.fire);
        if (now->vessel_count > 1 && study_own_valve(now->plant, &ways, i, &line, &place)) {
            const fv_fitting *valve = now->plant->lines[line]->fittings[place];
            row->valve = valve->part.id;
            s.open = &s.plant->lines[line]->fittings[place]->open;
            row->open = valve->part.id ? find(&s, OPEN_LEAST, valve->open.v) : NAN;
        }
        if (!isnan(row->fire))
            try_fire(now, i, progress, row, own);
    }
    fv_arena_free(arena);
    fv_plant_free(s.plant);
    return good && !(fv_faults_errors(own) > 0 && fv_faults_blame_system(own));
}

fv_overheat_answer *fv_overheat_run(const fv_heat_result *now, const fv_progress *progress, fv_faults *faults)
{
    if (!now) {
        fv_error_null(faults, __func__);
        return NULL;
    }
    fv_overheat_answer *answer = calloc(1, sizeof *answer);
    fv_faults *own = fv_faults_new();
    if (answer)
        answer->vessels = calloc(now->vessel_count + 1, sizeof *answer->vessels);
    bool good = answer && own && answer->vessels;
    for (size_t i = 0; good && i < now->vessel_count; i++)
        good = work_out(now, i, progress, &answer->vessels[i], own);
    fv_faults_free(own);
    if (good)
        return answer;
    fv_error(faults, FV_ERR_SYSTEM, now->plant->loc, "out of memory");
    fv_overheat_free(answer);
    return NULL;
}

void fv_overheat_free(fv_overheat_answer *answer)
{
    if (answer)
        free(answer->vessels);
    free(answer);
}
