/* SPDX-License-Identifier: MIT */
/* The heat answer as a screen: the sentence, the clock, why, curves, what happens, what it takes, notes, cautions. */
#include "report/heat/report.h"
#include "print/cautions.h"
#include "print/screen.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { EVENTS_SHOWN = 40, NAMES_SHOWN = 6 };
static const double PAST_LIMITS = 0.5; /* K by which a chamber on a thermostat may go past them unremarked */

static void say_setting(const report_heat *heat, fv_text *out)
{
    const fv_heat_result *r = heat->result;
    fv_text line = {0};
    if (r->plant->title)
        fv_text_add(&line, "%s: ", r->plant->title);
    if (isnan(heat->clock.start))
        fv_text_add(&line, "times in hours:minutes from the start, --start 06:00 gives clock times. ");
    else
        fv_text_add(&line, "start %s; day 2 is the next day. ", print_when(&heat->clock, 0.0).text);
    if (r->options.fire != 1.0)
        fv_text_add(&line, "Fire %s. ", print_shown_as(heat->units, FV_SHOW_SHARE, r->options.fire).text);
    fv_text_add(&line, "Water boils at %s here.",
                print_shown_as(heat->units, FV_SHOW_TEMPERATURE, r->boiling_point).text);
    print_say(out, "", &line);
}

static void timeline_words(const report_heat *heat, fv_text *out)
{
    print_sayf(out, "  ",
               "starved: the core does not reach its target in the time allowed; lagging: in time, with less "
               "than %s of it to spare; fed: the rest.",
               print_shown_said(heat->units, FV_SHOW_SHARE, FV_SPARE_LEAST).text);
}

/* No time is a clearance: what must be true is said beside it. */
static void opening_words(const report_heat *heat, fv_text *out)
{
    const fv_plant *plant = heat->result->plant;
    bool same = true;
    for (size_t i = 1; i < plant->vessel_count; i++)
        same = same && plant->vessels[i]->cool.v == plant->vessels[0]->cool.v;
    fv_text words = {0};
    fv_text_add(&words, "cool, to inoculate: all of its load at %s. Safe to open is what no time tells: ",
                same ? print_shown_said(heat->units, FV_SHOW_TEMPERATURE, plant->vessels[0]->cool.v).text
                     : "what the file says of it");
    print_safe_to_open(heat->units, &words);
    fv_text_add(&words, ".");
    print_say(out, "  ", &words);
}

/* The run takes a load out at once; people cannot. */
static void shelf_words(const report_heat *heat, fv_text *out)
{
    const fv_plant *plant = heat->result->plant;
    bool any = false;
    for (size_t i = 0; i < plant->vessel_count; i++)
        any = any || fv_word(plant->vessels[i]->cooling) == FV_COOL_SHELVES;
    if (any)
        print_sayf(
            out, "  ",
            "On shelves: the run unloads at the end of the hold, at once; the load is then near boiling hot, and "
            "the vessel must be safe to open first. Cool is what its pieces are in the open, spaced, out of "
            "their rows or stack.");
}

/* One line where all vessels count with the same, which is the rule. */
static void effort_words(const report_heat *heat, fv_text *out)
{
    const fv_plant *plant = heat->result->plant;
    const fv_vessel *first = plant->vessels[0];
    bool same = true, bed = false;
    for (size_t i = 0; i < plant->vessel_count; i++) {
        bed = bed || report_is_bed(heat, i);
        same = same && plant->vessels[i]->reference_temperature.v == first->reference_temperature.v &&
               plant->vessels[i]->z.v == first->z.v;
    }
    fv_text line = {0};
    fv_text_add(&line,
                "core took: from the opening of its steam; in plenty: the same if its chamber were full of steam "
                "at once%s; held: longest unbroken. lethality: time at ",
                bed ? ", of a bed if all boilers at full fire fed it alone" : "");
    if (same)
        fv_text_add(&line, "%s (z %s) that would do the same to the core.",
                    print_shown_as(heat->units, FV_SHOW_TEMPERATURE, first->reference_temperature.v).text,
                    print_shown_as(heat->units, FV_SHOW_TEMPERATURE_DIFFERENCE, first->z.v).text);
    else
        fv_text_add(&line, "each vessel's own reference temperature that would do the same to the core.");
    print_say(out, "  ", &line);
}

/* Kinds that the table of times does not show already. */
static bool is_special(const fv_heat_event *h)
{
    return h->kind == FV_HEAT_EVENT_STEAM_UP || h->kind == FV_HEAT_EVENT_BROKEN || h->kind == FV_HEAT_EVENT_DRY ||
           h->kind == FV_HEAT_EVENT_STARVED || h->kind == FV_HEAT_EVENT_ACTION || h->kind == FV_HEAT_EVENT_SETTLED ||
           h->kind == FV_HEAT_EVENT_SWITCHED_OFF;
}

/* Same kind, same time to the minute, and the same words: one line. */
static bool is_same(const report_heat *heat, const fv_heat_event *a, const fv_heat_event *b)
{
    const fv_plant *plant = heat->result->plant;
    return a->kind == b->kind && a->kind != FV_HEAT_EVENT_ACTION && (a->vessel >= 0) == (b->vessel >= 0) &&
           strcmp(print_when(&heat->clock, a->time).text, print_when(&heat->clock, b->time).text) == 0 &&
           (a->vessel < 0 || plant->vessels[a->vessel]->target.v == plant->vessels[b->vessel]->target.v);
}

static void say_event(const report_heat *heat, size_t i, bool *said, fv_text *out)
{
    const fv_heat_result *r = heat->result;
    print_names names = {0};
    fv_text who = {0}, text = {0};
    for (size_t k = i; k < r->event_count; k++) {
        if (said[k] || !is_same(heat, &r->events[i], &r->events[k]))
            continue;
        said[k] = true;
        out->failed = out->failed || !print_names_push(&names, heat->arena, report_event_part(heat, &r->events[k]));
    }
    said[i] = true;
    print_names_say(&names, NAMES_SHOWN, &who);
    out->failed = out->failed || who.failed;
    report_event_text(heat, &r->events[i], who.text ? who.text : "", &text);
    char lead[64];
    snprintf(lead, sizeof lead, "  %11.30s  ", print_when(&heat->clock, r->events[i].time).text);
    print_say(out, lead, &text);
    fv_text_free(&who);
}

static void events(const report_heat *heat, fv_text *out)
{
    const fv_heat_result *r = heat->result;
    bool *said = fv_arena_alloc(heat->arena, r->event_count + 1, sizeof(bool));
    size_t unsaid = 0;
    for (size_t i = 0; i < r->event_count; i++)
        unsaid += !report_event_is_said(r, i);
    bool all = unsaid <= EVENTS_SHOWN;
    if (!said) {
        out->failed = true;
        return;
    }
    print_section(out, all ? "What happens" : "What happens besides (all: --format csv --table happenings)");
    for (size_t i = 0; i < r->event_count; i++)
        if (!said[i] && !report_event_is_said(r, i) && (all || is_special(&r->events[i])))
            say_event(heat, i, said, out);
}

/* What a thermostat's figures mean, and how far one on a core is carried past its limits. */
static void thermostats(const report_frame *frame, fv_text *out)
{
    const report_heat *heat = frame->answer;
    const fv_heat_result *r = heat->result;
    bool core = false, past = false;
    if (r->thermostat_count == 0)
        return;
    report_frame_table(frame, HEAT_THERMOSTATS, "Thermostats", out);
    for (size_t i = 0; i < r->thermostat_count; i++) {
        const fv_thermostat *t = r->plant->thermostats[i];
        const fv_thermostat_history *h = &r->thermostats[i];
        core = core || t->of_core;
        past = past || (!t->of_core && fmax(h->most - t->above.v, t->below.v - h->least) > PAST_LIMITS);
    }
    print_sayf(out, "  ",
               "cycles: from one switching off to the next; on: share of their time; least and most: of what it feels, "
               "after it first switched off. Before least-on or least-off is over it waits.");
    if (past)
        print_sayf(out, "  ",
                   "A chamber that goes past its limits does so in the time that it waits: a smaller fire or opening "
                   "while on, or shorter least-on and least-off, keep it closer.");
    if (core)
        print_sayf(out, "  ",
                   "A core follows its chamber late: one that is kept by its core goes past both limits by what the "
                   "load still takes in or gives up, and its chamber goes farther. Keep the chamber instead where "
                   "that matters.");
}

static void split(const report_heat *heat, fv_text *out)
{
    const fv_unit_system units = heat->units;
    const print_grid_column columns[] = {
        {"heat", fv_show_unit(units, FV_SHOW_ENERGY), false}, {"share", "%", false}, {"where", "", true}};
    print_grid *grid = print_grid_new(columns, sizeof columns / sizeof *columns);
    for (size_t i = 0; i < HEAT_SHARES; i++) {
        const report_heat_share *s = &heat->shares[i];
        if (!(fabs(s->share) > 5e-5))
            continue;
        print_grid_show(grid, units, FV_SHOW_ENERGY, s->heat);
        print_grid_show(grid, units, FV_SHOW_SHARE, s->share);
        print_grid_add(grid, s->what);
    }
    print_grid_section(grid, "Where the heat went", out);
    print_sayf(out, "  ", "All %s of the fuel, until %s %s.",
               print_shown_as(units, FV_SHOW_ENERGY, heat->supplied).text,
               heat->result->steam_end < heat->result->end ? "the last steam was shut" : "the run ended",
               print_at(&heat->clock, heat->result->steam_end).text);
}

void report_heat_method(const report_frame *frame, fv_text *out)
{
    const fv_heat_audit *a = &((const report_heat *)frame->answer)->result->audit;
    fv_text_add(out,
                "Audit: the fuel's heat and all it went to agree to %s of it; in the worst of %zu states of the "
                "network steam agreed to %s, energy to %s of the boilers'. %zu steps.",
                print_tiny(a->relative).text, a->solves, print_tiny(a->worst_mass).text,
                print_tiny(a->worst_energy).text, a->steps);
}

void report_heat_lead(const report_frame *frame, fv_text *out)
{
    say_setting(frame->answer, out);
}

void report_heat_table(const report_frame *frame, fv_text *out)
{
    report_frame_table(frame, HEAT_TIMELINE, "When", out);
    if (frame->brief)
        return;
    timeline_words(frame->answer, out);
    opening_words(frame->answer, out);
    shelf_words(frame->answer, out);
}

void report_heat_reasons(const report_frame *frame, fv_text *out)
{
    report_heat_reasons_text(frame->answer, out);
}

void report_heat_details(const report_frame *frame, fv_text *out)
{
    const report_heat *heat = frame->answer;
    report_heat_curves(heat, out);
    report_frame_table(frame, HEAT_EFFORT, "What each takes", out);
    effort_words(heat, out);
    events(heat, out);
    thermostats(frame, out);
    report_frame_table(frame, HEAT_BOILERS, "Boilers", out);
    if (heat->supplied > 0.0)
        split(heat, out);
}
