/* SPDX-License-Identifier: MIT */
/* Notes on a heat answer: results held against limits of practice. Where a limit has no source it is common practice.
 */
#include "report/heat/report.h"

#include "farvessel/constants.h"
#include "report/assumptions.h"

#include <math.h>

#define NEAR_BOILING 2.0   /* K */
#define LID_PRESSURE 200.0 /* Pa gauge: vents are sized for 1 to 2 mbar with all steam in one vessel */
#define SUMP_DEPTH 0.005   /* m of condensate over the holes */
#define VENTED_SHARE 0.3   /* of the steam that reached the vessels */
#define DEMAND_MARGIN 1.02 /* above it, the chambers could take more than comes */
#define HOLD_AIR 0.005     /* by volume, while the chamber should be full of steam */
#define NEARLY_FULL 5.0    /* K below boiling: colder, it starves, and draws air for that */
#define STOCK_SHARE 0.8    /* of the usable water */
#define RELIEF_MARGIN 0.9  /* of the relief valve's setting */
#define LINING_SHARE 0.03  /* of the heat into the walls */
#define NO_STEAM 1e-9      /* kg/s */

static print_shown show(const report_heat *heat, fv_show show, double si)
{
    return print_shown_as(heat->units, show, si);
}

static const fv_vessel_history *history(const report_heat *heat, size_t i)
{
    return &heat->result->vessels[i];
}

static const char *name(const report_heat *heat, size_t i)
{
    return heat->result->plant->vessels[i]->part.id;
}

static double shut_at(const report_heat *heat, size_t i)
{
    return isnan(history(heat, i)->hold) ? heat->result->steam_end : history(heat, i)->hold;
}

/* ---- starved in the course of the run; a boiler that ran dry has a note of its own ---- */

static bool starves_later(const report_heat *heat, size_t i)
{
    const fv_vessel_history *h = history(heat, i);
    if (heat->result->thermostat_count > 0 && isnan(h->hold_broken))
        return false; /* it was switched off */
    return report_dry_boiler(heat) < 0 && (!isnan(report_starved_at(heat, i)) || h->steam_least_in_hold <= NO_STEAM);
}

static void note_trap(const report_heat *heat, size_t i, print_notes *notes)
{
    const fv_heat_result *r = heat->result;
    double starved = report_starved_at(heat, i);
    int fire = report_turndown_before(heat, isnan(starved) ? shut_at(heat, i) : starved),
        sag = report_sag_before(heat, i);
    fv_text text = {0};
    if (fire >= 0) {
        const fv_heat_event *turned = &r->events[fire];
        const fv_action *action = r->plant->actions[turned->action];
        long sample = report_sample_before(heat, turned->time - 1.0);
        double before = sample < 0 ? (double)NAN : r->series.vessel_steam[(size_t)sample * r->vessel_count + i];
        fv_text_add(&text, "turn-down trap: fed while heating");
        if (!isnan(before))
            fv_text_add(&text, " (%s)", show(heat, FV_SHOW_STEAM, before).text);
        fv_text_add(&text, ", starved when the fire of %s is set to %s %s", action->boiler,
                    show(heat, FV_SHOW_SHARE, action->fire.v).text, print_at(&heat->clock, turned->time).text);
    } else {
        fv_text_add(&text, "fed at first, starved later: its steam no longer covers its losses");
    }
    if (sag >= 0)
        fv_text_add(&text,
                    ". The pressure that is left does not lift the %s of water in the sag of %s (%s): it passes no "
                    "steam. Lay %s with a steady fall, or turn down less",
                    show(heat, FV_SHOW_BORE, r->plant->lines[sag]->sag.v).text, r->plant->lines[sag]->part.id,
                    show(heat, FV_SHOW_PRESSURE, fabs(r->at_first_steam->lines[sag].drop_sag)).text,
                    r->plant->lines[sag]->part.id);
    else
        fv_text_add(&text, ". What is left goes to the vessels that it reaches more easily; turn down less");
    print_note_add(notes, fire >= 0 ? "turndown_trap" : "starved_later", "%s.", text.text ? text.text : "");
    print_note_part(notes, name(heat, i));
    notes->failed = notes->failed || text.failed;
    fv_text_free(&text);
}

/* ---- rules that pick vessels ---- */

static bool is_near_boiling(const report_heat *heat, size_t i)
{
    return heat->outcomes[i] != OUTCOME_SHUT &&
           heat->result->plant->vessels[i]->target.v > heat->result->boiling_point - NEAR_BOILING;
}
static bool lifts_lid(const report_heat *heat, size_t i)
{
    return history(heat, i)->pressure_most > LID_PRESSURE;
}
static bool is_flooded(const report_heat *heat, size_t i)
{
    return history(heat, i)->sump > fv_or(heat->result->plant->vessels[i]->water, 0.0) + SUMP_DEPTH;
}
/* A draught goes in low and out high; a water seal stops it. */
static bool may_draw(const fv_vessel *vessel)
{
    double low = INFINITY, high = -INFINITY;
    for (size_t j = 0; j < vessel->opening_count; j++)
        if (!(fv_or(vessel->openings[j]->seal, 0) > 0)) {
            low = fmin(low, vessel->openings[j]->height.v);
            high = fmax(high, vessel->openings[j]->height.v);
        }
    return low < high;
}
/* With the steam on and the chamber full, gas inside is still lighter than the air below it. */
static bool draws_air(const report_heat *heat, size_t i)
{
    const fv_series *s = &heat->result->series;
    const fv_vessel_history *h = history(heat, i);
    size_t n = heat->result->vessel_count;
    double warm = heat->result->boiling_point - NEARLY_FULL;
    if (h->arrival == FV_NOT_AIR)
        return true;
    for (size_t k = 0; k < s->count && may_draw(heat->result->plant->vessels[i]); k++)
        if (s->time[k] > h->full && s->time[k] < shut_at(heat, i) && s->vessel_steam[k * n + i] > 0.0 &&
            s->vessel_pressure[k * n + i] < 0.0 && s->chamber[k * n + i] > warm && s->air_share[k * n + i] > HOLD_AIR)
            return true;
    return false;
}
static bool takes_water(const report_heat *heat, size_t i)
{
    return history(heat, i)->moisture_gain > 0.0;
}
/* Vapour in closed foam or through a sealed lining is nothing beside what is conducted. */
static bool has_wet_linings(const report_heat *heat, size_t i)
{
    return history(heat, i)->heat_linings > LINING_SHARE * history(heat, i)->heat_walls;
}
static bool stays_hot(const report_heat *heat, size_t i)
{
    return !isnan(history(heat, i)->hold) && isnan(history(heat, i)->cool);
}

static double sump_depth(const report_heat *heat, size_t i)
{
    return history(heat, i)->sump;
}
static double water_taken(const report_heat *heat, size_t i)
{
    return history(heat, i)->moisture_gain;
}

static double lining_heat(const report_heat *heat, size_t i)
{
    return history(heat, i)->heat_linings;
}

typedef struct {
    const char *id;
    bool (*is)(const report_heat *heat, size_t i);
    double (*value)(const report_heat *heat, size_t i); /* the largest is named; NULL: none */
    fv_show show;
    const char *before, *after; /* around the largest value */
} rule;

static const rule rules[] = {
    {"draws_air", draws_air, NULL, FV_SHOW_NUMBER,
     "air is drawn in at the bottom while it should be full of steam: its top opening is so large that steam, "
     "half as heavy as air, rises out of it like up a chimney. A water seal on its drain keeps it out, or a smaller "
     "vent.",
     ""},
    {"sump", is_flooded, sump_depth, FV_SHOW_BORE, "condensate stands up to ",
     " over the holes: the drain does not cope, the steam must push it away, and low pieces get wet. A larger drain."},
    {"near_boiling", is_near_boiling, NULL, FV_SHOW_NUMBER,
     "the target lies within 2 K of the boiling point here, or above it: the time to reach it swings with the weather "
     "and with every trace of air.",
     ""},
    {"takes_condensate", takes_water, water_taken, FV_SHOW_MASS, "the load soaks up to ",
     " of condensate; mix it that much drier."},
    {"wet_linings", has_wet_linings, lining_heat, FV_SHOW_ENERGY,
     "vapour gets through the inner layers of the walls and condenses behind them: so up to ",
     " is lost, and what insulates stays wet from batch to batch (soaked), which costs more. A sealed lining or foam "
     "of "
     "closed cells keeps it out."},
    {"stays_hot", stays_hot, NULL, FV_SHOW_NUMBER,
     "not cool enough to inoculate when the run ends: it is too short, or little that the plant file names takes the "
     "heat "
     "away.",
     ""},
};

static void apply(const rule *rule, const report_heat *heat, print_notes *notes)
{
    double most = 0.0;
    size_t count = 0, n = heat->result->vessel_count;
    for (size_t i = 0; i < n; i++) {
        if (!rule->is(heat, i))
            continue;
        count++;
        most = rule->value ? fmax(most, rule->value(heat, i)) : most;
    }
    if (count == 0)
        return;
    print_note_add(notes, rule->id, "%s%s%s", rule->before, rule->value ? show(heat, rule->show, most).text : "",
                   rule->after);
    for (size_t i = 0; i < n; i++)
        if (rule->is(heat, i))
            print_note_part(notes, name(heat, i));
}

/* What the pressure lifts, on the square that people think in. */
static void note_lids(const report_heat *heat, print_notes *notes)
{
    const double square = heat->units == FV_US ? FV_FOOT * FV_FOOT : 1.0; /* m2 */
    double most = 0.0;
    for (size_t i = 0; i < heat->result->vessel_count; i++)
        most = fmax(most, history(heat, i)->pressure_most);
    if (!(most > LID_PRESSURE))
        return;
    print_note_add(notes, "lid_pressure",
                   "pressure in the chamber reaches %s, %s on each square %s: a lid lifts or its seal blows. Vents are "
                   "sized for %s at most. A larger vent, or less steam once it is full.",
                   show(heat, FV_SHOW_PRESSURE, most).text, show(heat, FV_SHOW_MASS, most / FV_GRAVITY * square).text,
                   heat->units == FV_US ? "foot" : "metre", show(heat, FV_SHOW_PRESSURE, LID_PRESSURE).text);
    for (size_t i = 0; i < heat->result->vessel_count; i++)
        if (lifts_lid(heat, i))
            print_note_part(notes, name(heat, i));
}

/* ---- boilers ---- */

/* A run dry, what it takes an hour, and when to pour in how much. */
static void note_dry(const report_heat *heat, const fv_boiler *boiler, const fv_boiler_history *h, print_notes *notes)
{
    const double usable = 1000.0 * fv_or(boiler->usable, fv_or(boiler->water, 0.0)); /* kg */
    const double hourly = usable / (h->dry - h->steam_up) * 3.6;                     /* m3 of cold water an hour */
    if (isnan(h->refill_mass)) {
        print_note_add(notes, "boiler_dry",
                       "runs dry %s: its usable %s have boiled away in %s of steam, and the low-water cut-off ends "
                       "the fire. Feed it, or it ends the batch.",
                       print_at(&heat->clock, h->dry).text, show(heat, FV_SHOW_MASS, usable).text,
                       print_shown_time(h->dry - h->steam_up).text);
        return;
    }
    print_note_add(
        notes, "boiler_dry",
        "runs dry %s: its usable %s have boiled away in %s of steam, %s an hour, and the low-water cut-off "
        "ends the fire. It neither runs dry nor overfills if you add %s %s, then %s, and so on every %s while "
        "the fire burns like this; what the gauge glass shows goes before the clock.",
        print_at(&heat->clock, h->dry).text, show(heat, FV_SHOW_MASS, usable).text,
        print_shown_time(h->dry - h->steam_up).text, show(heat, FV_SHOW_VOLUME, hourly).text,
        show(heat, FV_SHOW_VOLUME, h->refill_mass / 1000).text, print_at(&heat->clock, h->refill_first).text,
        print_at(&heat->clock, h->refill_first + h->refill_every).text, print_shown_time(h->refill_every).text);
}

static void note_boilers(const report_heat *heat, print_notes *notes)
{
    const fv_heat_result *r = heat->result;
    for (size_t i = 0; i < r->boiler_count; i++) {
        const fv_boiler *boiler = r->plant->boilers[i];
        const fv_boiler_history *h = &r->boilers[i];
        bool by_hand = fv_word(boiler->feeding) == FV_FEED_BY_HAND;
        double usable = 1000.0 * fv_or(boiler->usable, fv_or(boiler->water, 0.0)); /* kg */
        size_t before = notes->count;
        if (!isnan(h->dry))
            note_dry(heat, boiler, h, notes);
        else if (by_hand && h->water > STOCK_SHARE * usable)
            print_note_add(notes, "boiler_low", "uses %s of its usable %s of water.",
                           show(heat, FV_SHOW_WATER, h->water).text, show(heat, FV_SHOW_WATER, usable).text);
        if (notes->count > before)
            print_note_part(notes, boiler->part.id);
        before = notes->count;
        if (fv_is_set(boiler->relief) && h->pressure_most > RELIEF_MARGIN * boiler->relief.v)
            print_note_add(notes, "relief_near", "its pressure reaches %s; the relief valve opens at %s.",
                           show(heat, FV_SHOW_PRESSURE, h->pressure_most).text,
                           show(heat, FV_SHOW_PRESSURE, boiler->relief.v).text);
        if (notes->count > before)
            print_note_part(notes, boiler->part.id);
    }
}

/* ---- supply against demand ---- */

static double boilers_give(const fv_heat_result *r, size_t sample)
{
    double sum = 0.0;
    for (size_t i = 0; i < r->boiler_count; i++)
        sum += r->series.boiler_steam[sample * r->boiler_count + i];
    return sum;
}

/* True if some boiler that gives steam is below the pressure it holds: it gives all it can. */
static bool is_flat_out(const fv_heat_result *r, size_t sample)
{
    for (size_t i = 0; i < r->boiler_count; i++) {
        size_t at = sample * r->boiler_count + i;
        if (r->series.boiler_steam[at] > 0.0 && r->series.boiler_pressure[at] < 0.999 * r->plant->boilers[i]->holds.v)
            return true;
    }
    return false;
}

/* When the last core has arrived, or the end of the run where one never does. */
static double heating_ends(const report_heat *heat)
{
    double last = 0.0;
    for (size_t i = 0; i < heat->result->vessel_count; i++) {
        if (heat->outcomes[i] == OUTCOME_SHUT || history(heat, i)->arrival == FV_NOT_STEAM)
            continue;
        if (isnan(history(heat, i)->core))
            return heat->result->end;
        last = fmax(last, history(heat, i)->core);
    }
    return last;
}

static void note_supply(const report_heat *heat, print_notes *notes)
{
    const fv_heat_result *r = heat->result;
    long last = -1, some = -1;
    double until = heating_ends(heat);
    for (size_t k = 0; k < r->thermostat_count; k++)      /* from then on less comes because less is let */
        until = fmin(until, r->thermostats[k].first_off); /* NaN: never */
    for (size_t k = 0; k < r->series.count && r->series.time[k] <= until; k++) {
        double gives = boilers_give(r, k);
        if (!(gives > 0.0) || !(r->series.demand[k] > DEMAND_MARGIN * gives))
            continue;
        some = some < 0 ? (long)k : some;
        last = (long)k;
    }
    if (last < 0 || last == some)
        return;
    size_t middle = (size_t)(some + (last - some) / 2);
    double gives = boilers_give(r, middle);
    if (is_flat_out(r, middle))
        print_note_add(notes, "short_of_fire",
                       "Until %s the chambers could condense more than comes, with the boilers giving all they can "
                       "(%s). More fire, or fewer vessels at a time, shortens that.",
                       print_when(&heat->clock, r->series.time[last]).text, show(heat, FV_SHOW_STEAM, gives).text);
    else
        print_note_add(notes, "short_of_bore",
                       "Until %s the chambers could condense more than comes, but the lines and holes pass no more "
                       "than %s at the pressure that the boilers hold. Wider hoses or more holes shorten that.",
                       print_when(&heat->clock, r->series.time[last]).text, show(heat, FV_SHOW_STEAM, gives).text);
}

static void note_vented(const report_heat *heat, print_notes *notes)
{
    const fv_heat_result *r = heat->result;
    double steam = 0.0, vented = 0.0, last_core = heating_ends(heat);
    bool all_through = true;
    for (size_t i = 0; i < r->vessel_count; i++) {
        steam += history(heat, i)->steam;
        vented += history(heat, i)->vented;
        all_through = all_through && (heat->outcomes[i] == OUTCOME_SHUT || !isnan(history(heat, i)->core));
    }
    if (!(vented > VENTED_SHARE * steam))
        return;
    bool turned_down = r->thermostat_count > 0 || report_turndown_before(heat, r->end) >= 0;
    long sample = all_through && !turned_down ? report_sample_before(heat, last_core) : -1;
    fv_text text = {0};
    fv_text_add(&text, "%s of the steam that reaches the vessels goes out of their openings unused.",
                show(heat, FV_SHOW_SHARE, vented / steam).text);
    if (sample >= 0 && boilers_give(r, (size_t)sample) > 2.0 * r->series.demand[sample])
        fv_text_add(
            &text,
            " When the last core arrives (%s) the chambers condense only %s of the %s that the boilers give: "
            "turning the fire down then (an <action> in the plant file) saves most of it, if no vessel drops out.",
            print_when(&heat->clock, last_core).text, show(heat, FV_SHOW_STEAM, r->series.demand[sample]).text,
            show(heat, FV_SHOW_STEAM, boilers_give(r, (size_t)sample)).text);
    print_note_add(notes, "vented", "%s", text.text ? text.text : "");
    notes->failed = notes->failed || text.failed;
    fv_text_free(&text);
}

static void note_assumptions(const report_heat *heat, print_notes *notes)
{
    fv_text text = {0};
    if (!heat->assumed || heat->assumed->row_count == 0)
        return;
    report_assumed_say(heat->assumed, heat->units, &text);
    print_note_add(notes, "assumptions", "%s", text.text ? text.text : "");
    notes->failed = notes->failed || text.failed;
    fv_text_free(&text);
}

void report_heat_notes(const report_frame *frame, print_notes *notes)
{
    const report_heat *heat = frame->answer;
    for (size_t i = 0; i < heat->result->vessel_count; i++)
        if (starves_later(heat, i))
            note_trap(heat, i, notes);
    note_boilers(heat, notes);
    for (size_t i = 0; i < sizeof rules / sizeof *rules; i++)
        apply(&rules[i], heat, notes);
    note_lids(heat, notes);
    report_heat_overheating_notes(heat, notes);
    note_supply(heat, notes);
    note_vented(heat, notes);
    note_assumptions(heat, notes);
    print_note_sources(heat->result->plant, notes);
}
