/* SPDX-License-Identifier: MIT */
/* The reasons of all vessels on one screen: what many share is said once. */
#include "report/heat/report.h"
#include "report/slow_load.h"
#include "print/screen.h"

#include <math.h>
#include <string.h>

enum { REASONS_SHOWN = 8 };

typedef bool (*picks)(const report_heat *heat, size_t vessel);

static bool is_slow(const report_heat *heat, size_t i)
{
    return (heat->outcomes[i] == OUTCOME_LATE || heat->outcomes[i] == OUTCOME_LAGGING) &&
           !isnan(heat->result->vessels[i].full) && !report_is_bed(heat, i);
}
static bool is_short(const report_heat *heat, size_t i)
{
    return is_slow(heat, i) && report_short_of_steam(heat, i);
}
static bool is_heavy(const report_heat *heat, size_t i)
{
    return is_slow(heat, i) && !report_short_of_steam(heat, i);
}

typedef struct {
    double least, most;
    size_t first, last; /* vessels */
} range;

static void widen(range *r, double value, size_t vessel)
{
    if (!(value >= r->least)) {
        r->least = value;
        r->first = vessel;
    }
    if (!(value <= r->most)) {
        r->most = value;
        r->last = vessel;
    }
}

/* "4 h 10 min", or "3 h (bin1) to 4 h (bin6)" */
static void say_range(const report_heat *heat, const range *r, fv_text *out)
{
    fv_vessel *const *vessels = heat->result->plant->vessels;
    print_shown least = print_shown_time(r->least), most = print_shown_time(r->most);
    if (strcmp(least.text, most.text) == 0)
        fv_text_add(out, "%s", most.text);
    else
        fv_text_add(out, "%s (%s) to %s (%s)", least.text, vessels[r->first]->part.id, most.text,
                    vessels[r->last]->part.id);
}

static void say_group(const report_heat *heat, picks is, const char *before, const char *between, const char *after,
                      print_notes *notes)
{
    range wait = {NAN, NAN, 0, 0}, ample = {NAN, NAN, 0, 0};
    fv_text text = {0};
    for (size_t i = 0; i < heat->result->vessel_count; i++)
        if (is(heat, i)) {
            const fv_vessel_history *h = &heat->result->vessels[i];
            widen(&wait, h->full - h->opened, i);
            widen(&ample, h->core_ample, i);
        }
    fv_text_add(&text, "%s", before);
    say_range(heat, &wait, &text);
    if (!isnan(ample.most)) {
        fv_text_add(&text, "%s", between);
        say_range(heat, &ample, &text);
        fv_text_add(&text, "%s", after);
        const fv_vessel *vessel = heat->result->plant->vessels[ample.last];
        if (report_is_slow_load(vessel, ample.most)) {
            fv_text_add(&text, ", ");
            report_slow_load(vessel, &text);
        }
    }
    print_note_add(notes, "why", "%s.", text.text ? text.text : "");
    notes->failed = notes->failed || text.failed;
    for (size_t i = 0; i < heat->result->vessel_count; i++)
        if (is(heat, i))
            print_note_part(notes, heat->result->plant->vessels[i]->part.id);
    fv_text_free(&text);
}

static size_t count(const report_heat *heat, picks is)
{
    size_t sum = 0;
    for (size_t i = 0; i < heat->result->vessel_count; i++)
        sum += is(heat, i);
    return sum;
}

/* Equal reasons once, with all vessels they are about. False: enough was said. */
static bool say_one(const report_heat *heat, size_t i, print_notes *notes)
{
    for (size_t k = 0; k < i; k++)
        if (heat->why[k] && strcmp(heat->why[k], heat->why[i]) == 0)
            return true;
    if (notes->count >= REASONS_SHOWN)
        return false;
    print_note_add(notes, "why", "%s", heat->why[i]);
    for (size_t k = i; k < heat->result->vessel_count; k++)
        if (heat->why[k] && strcmp(heat->why[k], heat->why[i]) == 0)
            print_note_part(notes, heat->result->plant->vessels[k]->part.id);
    return true;
}

size_t report_heat_reason_notes(const report_heat *heat, print_notes *notes)
{
    bool group_short = count(heat, is_short) > 1, group_heavy = count(heat, is_heavy) > 1;
    size_t left = 0;
    if (group_short)
        say_group(heat, is_short, "short of steam: full of it only after ",
                  "; with steam in plenty from the start the core would take ", " in all", notes);
    if (group_heavy)
        say_group(heat, is_heavy, "the load is slow: full of steam already after ",
                  ", but even with steam in plenty from the start the core takes ", "", notes);
    for (size_t i = 0; i < heat->result->vessel_count; i++) {
        bool grouped = (group_short && is_short(heat, i)) || (group_heavy && is_heavy(heat, i));
        if (heat->why[i] && !grouped && !say_one(heat, i, notes))
            left++;
    }
    return left;
}

void report_heat_reasons_text(const report_heat *heat, fv_text *out)
{
    print_notes notes = {0};
    size_t left = report_heat_reason_notes(heat, &notes);
    if (notes.count > 0)
        print_section(out, "Why");
    print_notes_text(&notes, out);
    if (left > 0)
        print_sayf(out, "  - ", "%zu more: --format csv --table vessels.", left);
    print_notes_free(&notes);
}
