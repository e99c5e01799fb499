/* SPDX-License-Identifier: MIT */
/* Why a vessel is starved, late, lagging or not through with its hold, in words. */
#include "report/heat/report.h"
#include "report/slow_load.h"

#include <math.h>
#include <string.h>

#define HOUR 3600.0
#define HARDLY 0.05     /* K an hour */
#define AIR_DENSITY 1.2 /* kg/m3, that a vessel holds before its steam comes */
#define SHORT_OF_STEAM                                                                                                 \
    0.3 /* of the time to the core until the chamber is full: steam, not the load, is what is slow                     \
         */

print_shown report_target(const report_heat *heat, size_t vessel)
{
    const fv_attr *attr = fv_attr_find(fv_element_find("vessel"), "target");
    return print_shown_value(heat->units, attr, heat->result->plant->vessels[vessel]->target.v);
}

static print_shown show(const report_heat *heat, fv_show show, double si)
{
    return print_shown_as(heat->units, show, si);
}

/* The fire of a boiler just before event `until`. */
static double fire_before(const fv_heat_result *r, const char *boiler, size_t until)
{
    int index = fv_plant_boiler_index(r->plant, boiler);
    double fire = index < 0 ? 0.0 : r->plant->boilers[index]->fire.v;
    for (size_t i = 0; i < until; i++) {
        const fv_heat_event *h = &r->events[i];
        const fv_action *a = h->kind == FV_HEAT_EVENT_ACTION ? r->plant->actions[h->action] : NULL;
        if (a && a->boiler && fv_is_set(a->fire) && strcmp(a->boiler, boiler) == 0)
            fire = a->fire.v;
    }
    return fire;
}

int report_turndown_before(const report_heat *heat, double time)
{
    const fv_heat_result *r = heat->result;
    int last = -1;
    for (size_t i = 0; i < r->event_count && r->events[i].time <= time; i++) {
        const fv_heat_event *h = &r->events[i];
        const fv_action *a = h->kind == FV_HEAT_EVENT_ACTION ? r->plant->actions[h->action] : NULL;
        if (a && a->boiler && fv_is_set(a->fire) && a->fire.v < fire_before(r, a->boiler, i))
            last = (int)i;
    }
    return last;
}

double report_starved_at(const report_heat *heat, size_t vessel)
{
    const fv_heat_result *r = heat->result;
    for (size_t k = 0; k < r->event_count; k++)
        if (r->events[k].kind == FV_HEAT_EVENT_STARVED && r->events[k].vessel == (int)vessel)
            return r->events[k].time;
    return (double)NAN;
}

/* ---- the core does not arrive ---- */

static void too_hot(const report_heat *heat, size_t i, fv_text *out)
{
    const fv_site *site = &heat->result->plant->site;
    fv_text_add(out, "vented steam here gets no hotter than %s",
                show(heat, FV_SHOW_TEMPERATURE, heat->result->boiling_point).text);
    if (fv_is_set(site->altitude) && !fv_is_set(site->pressure))
        fv_text_add(out, " (%s above the sea)", show(heat, FV_SHOW_LENGTH, site->altitude.v).text);
    fv_text_add(out, ", which does not reach its target of %s. Set a lower target and hold longer.",
                report_target(heat, i).text);
}

static void no_steam(const report_heat *heat, size_t i, fv_text *out)
{
    int stop = report_stop_before(heat, i);
    if (stop < 0) {
        fv_text_add(out, "no steam gets to it.");
        return;
    }
    const fv_line *line = heat->result->plant->lines[stop];
    const fv_line_result *state = &heat->result->at_first_steam->lines[stop];
    if (state->shut)
        fv_text_add(out, "a valve in %s is shut.", line->part.id);
    else if (state->blocked)
        fv_text_add(
            out,
            "the %s of water in the sag of %s hold back all steam: the pressure does not lift them. Lay it with "
            "a steady fall.",
            show(heat, FV_SHOW_BORE, line->sag.v).text, line->part.id);
    else
        fv_text_add(out, "all steam on its way condenses in %s. Lag it, or shorten it.", line->part.id);
}

static void not_enough(const report_heat *heat, size_t i, fv_text *out)
{
    const fv_vessel_history *h = &heat->result->vessels[i];
    fv_text_add(
        out,
        "what steam it gets is all taken by its losses: its chamber settles at %s, below the target of %s. More "
        "steam to it, or better walls.",
        show(heat, FV_SHOW_TEMPERATURE, h->settles).text, report_target(heat, i).text);
}

/* Cold air that came in by a low opening while steam rose out of a higher one, where it is more than the vessel holds
 * anyway; and what keeps it out. False: nothing to say. */
static bool say_draught(const report_heat *heat, size_t i, fv_text *out)
{
    const fv_vessel *vessel = heat->result->plant->vessels[i];
    const double air = heat->result->vessels[i].air_to_core;
    const fv_opening *lowest = NULL, *highest = NULL;
    for (size_t j = 0; j < vessel->opening_count; j++) {
        const fv_opening *o = vessel->openings[j];
        lowest = lowest && lowest->height.v <= o->height.v ? lowest : o;
        highest = highest && highest->height.v >= o->height.v ? highest : o;
    }
    if (!(air > AIR_DENSITY * vessel->volume.v) || !lowest || lowest == highest)
        return false;
    const bool dry_drain = lowest->kind == FV_OPENING_DRAIN && !fv_is_set(lowest->seal);
    const bool inches = heat->units == FV_US;
    fv_text_add(out, "; %s of air came in by its %s meanwhile, while steam rose out of its %s: %s",
                show(heat, FV_SHOW_MASS, air).text, dry_drain ? "open drain" : "lowest opening",
                highest->kind == FV_OPENING_VENT ? "vent" : "highest opening",
                dry_drain && inches ? "a water seal on the drain (seal=\"2 in\") or a smaller vent keeps it out"
                : dry_drain         ? "a water seal on the drain (seal=\"50 mm\") or a smaller vent keeps it out"
                                    : "a smaller opening at the top keeps it out");
    return true;
}

static void air_keeps_cold(const report_heat *heat, size_t i, fv_text *out)
{
    const fv_series *s = &heat->result->series;
    const fv_vessel_history *h = &heat->result->vessels[i];
    fv_text_add(out, "air drawn in at its openings keeps its chamber at %s",
                show(heat, FV_SHOW_TEMPERATURE, h->settles).text);
    if (s->count > 0)
        fv_text_add(out, " (%s of the gas in it is air)",
                    show(heat, FV_SHOW_SHARE, s->air_share[(s->count - 1) * heat->result->vessel_count + i]).text);
    fv_text_add(out, say_draught(heat, i, out) ? "." : ". A smaller opening at the top stops the draught.");
}

int report_dry_boiler(const report_heat *heat)
{
    const fv_heat_result *r = heat->result;
    int first = -1;
    for (size_t k = 0; k < r->boiler_count; k++)
        if (!isnan(r->boilers[k].dry) && (first < 0 || r->boilers[k].dry < r->boilers[first].dry))
            first = (int)k;
    return first;
}

static void ran_dry(const report_heat *heat, fv_text *out)
{
    int dry = report_dry_boiler(heat);
    if (dry >= 0)
        fv_text_add(out, "%s ran dry %s, before its core was through.", heat->result->plant->boilers[dry]->part.id,
                    print_at(&heat->clock, heat->result->boilers[dry].dry).text);
}

static void still_moving(const report_heat *heat, size_t i, fv_text *out)
{
    const fv_heat_result *r = heat->result;
    const fv_vessel_history *h = &r->vessels[i];
    double before = report_series_at(heat, r->series.core, r->vessel_count, i, r->end - HOUR);
    fv_text_add(out, "its core was at %s, its chamber at %s when the run ended %s",
                show(heat, FV_SHOW_TEMPERATURE, h->core_end).text, show(heat, FV_SHOW_TEMPERATURE, h->chamber_end).text,
                print_at(&heat->clock, r->end).text);
    double change = fabs(h->core_end - before);
    if (change < HARDLY)
        fv_text_add(out, ", hardly changing any more");
    else if (!isnan(change))
        fv_text_add(out, ", %s by %s an hour", h->core_end < before ? "falling" : "rising",
                    show(heat, FV_SHOW_TEMPERATURE_DIFFERENCE, change).text);
    fv_text_add(out, ".");
}

static void why_not(const report_heat *heat, size_t i, fv_text *out)
{
    switch (heat->result->vessels[i].arrival) {
    case FV_NOT_BOILING_POINT:
        too_hot(heat, i, out);
        break;
    case FV_NOT_SUPPLY:
        not_enough(heat, i, out);
        break;
    case FV_NOT_AIR:
        air_keeps_cold(heat, i, out);
        break;
    case FV_NOT_STEAM:
        no_steam(heat, i, out);
        break;
    case FV_NOT_THERMOSTAT:
        fv_text_add(out, "a thermostat keeps its chamber at %s at the most, and its target is %s.",
                    print_shown_said(heat->units, FV_SHOW_TEMPERATURE, heat->result->vessels[i].settles).text,
                    report_target(heat, i).text);
        break;
    case FV_NOT_DRY:
        ran_dry(heat, out);
        break;
    default:
        still_moving(heat, i, out);
        break;
    }
}

/* ---- the core arrives late ---- */

bool report_is_bed(const report_heat *heat, size_t vessel)
{
    return fv_word(heat->result->plant->vessels[vessel]->load.form) == FV_FORM_BED;
}

/* The chamber over a bed fills when steam breaks through, whatever the supply: it is the front that tells. */
bool report_short_of_steam(const report_heat *heat, size_t vessel)
{
    const fv_vessel_history *h = &heat->result->vessels[vessel];
    if (report_is_bed(heat, vessel))
        return !((1.0 - SHORT_OF_STEAM) * report_heat_took(heat, vessel) <= h->core_ample);
    return !(h->full - h->opened <= SHORT_OF_STEAM * report_heat_took(heat, vessel));
}

static void why_slow(const report_heat *heat, size_t i, fv_text *out)
{
    const fv_vessel_history *h = &heat->result->vessels[i];
    double wait = h->full - h->opened;
    print_shown ample = print_shown_time(h->core_ample);
    bool known = !isnan(h->core_ample);
    if (report_is_bed(heat, i))
        fv_text_add(out, report_short_of_steam(heat, i)
                             ? "short of steam: its bed condenses all that comes, and the front rises no faster"
                             : "its bed is slow");
    else if (isnan(wait))
        fv_text_add(out, "its chamber never fills with steam");
    else if (report_short_of_steam(heat, i))
        fv_text_add(out, "short of steam: its chamber is full only after %s", print_shown_time(wait).text);
    else
        fv_text_add(out, "its load is slow: its chamber is full after %s already", print_shown_time(wait).text);
    if (report_short_of_steam(heat, i) && !report_is_bed(heat, i))
        say_draught(heat, i, out);
    if (known && report_short_of_steam(heat, i))
        fv_text_add(out, "; with steam in plenty its core would take %s in all", ample.text);
    else if (known)
        fv_text_add(out, ", and even with steam in plenty from the start its core takes %s", ample.text);
    if (report_is_slow_load(heat->result->plant->vessels[i], h->core_ample)) {
        fv_text_add(out, ", ");
        report_slow_load(heat->result->plant->vessels[i], out);
    }
    fv_text_add(out, ".");
}

/* ---- the hold breaks ---- */

static void after_which_fire(const report_heat *heat, double since, fv_text *out)
{
    int fire = report_turndown_before(heat, since);
    if (fire < 0)
        return;
    const fv_heat_event *h = &heat->result->events[fire];
    const fv_action *action = heat->result->plant->actions[h->action];
    fv_text_add(out, " after the fire of %s was set to %s %s", action->boiler,
                show(heat, FV_SHOW_SHARE, action->fire.v).text, print_at(&heat->clock, h->time).text);
}

static void why_unheld(const report_heat *heat, size_t i, fv_text *out)
{
    const fv_vessel_history *h = &heat->result->vessels[i];
    const fv_plant *plant = heat->result->plant;
    double since = report_starved_at(heat, i);
    if (isnan(h->hold_broken))
        fv_text_add(out, "its core is above %s for %s of the %s it should hold", report_target(heat, i).text,
                    print_shown_time(h->hold_longest).text, print_shown_time(plant->vessels[i]->hold.v).text);
    else
        fv_text_add(out, "its core falls below %s %s", report_target(heat, i).text,
                    print_at(&heat->clock, h->hold_broken).text);
    if (!isnan(since)) {
        int sag = report_sag_before(heat, i);
        fv_text_add(out, ": its steam no longer covers its losses from %s on",
                    isnan(heat->clock.start) ? print_shown_time(since).text : print_when(&heat->clock, since).text);
        after_which_fire(heat, since, out);
        if (sag >= 0)
            fv_text_add(out, ", too little to lift the %s of water in the sag of %s",
                        show(heat, FV_SHOW_BORE, plant->lines[sag]->sag.v).text, plant->lines[sag]->part.id);
    }
    fv_text_add(out, ".");
}

char *report_heat_why(const report_heat *heat, size_t vessel)
{
    fv_text text = {0};
    switch (heat->outcomes[vessel]) {
    case OUTCOME_NEVER:
        why_not(heat, vessel, &text);
        break;
    case OUTCOME_LATE:
    case OUTCOME_LAGGING:
        why_slow(heat, vessel, &text);
        break;
    case OUTCOME_UNHELD:
        why_unheld(heat, vessel, &text);
        break;
    case OUTCOME_PENDING:
        still_moving(heat, vessel, &text);
        break;
    default:
        break;
    }
    char *copy = text.text && !text.failed ? fv_arena_copy(heat->arena, text.text) : NULL;
    fv_text_free(&text);
    return copy;
}
