/* SPDX-License-Identifier: MIT */
/* Causes and remedies in a grower's words. */
#include "report/remedy.h"
#include "report/why/report.h"

#include <math.h>
#include <stdio.h>

enum { PARTS_SHOWN = 3 };

/* Into the arena; releases the text. NULL: out of memory. */
static const char *kept(const report_why *why, fv_text *text)
{
    const char *copy = text->failed || !text->text ? NULL : fv_arena_copy(why->arena, text->text);
    fv_text_free(text);
    return copy;
}

bool report_why_make(const fv_why_answer *answer, fv_unit_system units, report_why *why)
{
    *why = (report_why){.answer = answer, .units = units, .arena = fv_arena_new()};
    if (!why->arena)
        return false;
    why->remedies = fv_arena_alloc(why->arena, answer->remedy_count + 1, sizeof *why->remedies);
    why->commands = fv_arena_alloc(why->arena, answer->remedy_count + 1, sizeof *why->commands);
    why->parts = fv_arena_alloc(why->arena, answer->plant->vessel_count + 1, sizeof *why->parts);
    bool good = why->remedies && why->commands && why->parts;
    for (size_t i = 0; good && i < answer->remedy_count; i++) {
        fv_text what = {0}, command = {0};
        report_remedy(units, &answer->remedies[i], &what);
        report_change(answer->plant, &answer->remedies[i].change, " ", &command);
        why->remedies[i] = kept(why, &what);
        why->commands[i] = kept(why, &command);
        good = why->remedies[i] && why->commands[i];
    }
    for (size_t i = 0; good && i < answer->plant->vessel_count; i++)
        why->parts[i] = (print_names){.list = answer->vessels[i].parts, .count = answer->vessels[i].part_count};
    return good;
}

void report_why_free(report_why *why)
{
    fv_arena_free(why->arena);
}

const char *report_why_noun(fv_why_cause cause)
{
    static const char *const nouns[] = {
        "the boiler",    "the header", "the hose", "fittings", "the sag",         "standing water", "the holes",
        "the coil pipe", "openings",   "the air",  "walls",    "heat on the way", "the load",       "nothing",
    };
    return nouns[cause];
}

/* "h1, h2 and 4 more" */
static void list_parts(const char *const *parts, size_t count, fv_text *out)
{
    const size_t shown = count > PARTS_SHOWN + 1 ? PARTS_SHOWN : count;
    for (size_t i = 0; i < shown; i++)
        fv_text_add(out, "%s%s", i ? ", " : "", parts[i]);
    if (shown < count)
        fv_text_add(out, " and %zu more", count - shown);
}

/* ---- causes ---- */

static const fv_vessel *vessel_of(const report_why *why, size_t vessel)
{
    return why->answer->plant->vessels[vessel];
}

static print_shown length(const report_why *why, double si)
{
    return print_shown_brief(why->units, FV_SHOW_LENGTH, si);
}

static print_shown bore(const report_why *why, double si)
{
    return print_shown_brief(why->units, FV_SHOW_BORE, si);
}

/* Narrowest bore, whole length and deepest sag of the lines that the cause is about. */
typedef struct {
    double bore, length, sag;
} lines_in_sum;

static lines_in_sum sum_lines(const report_why *why, const fv_why_vessel *v)
{
    const fv_plant *plant = why->answer->plant;
    lines_in_sum sum = {INFINITY, 0, 0};
    for (size_t i = 0; i < v->part_count; i++) {
        const int index = fv_plant_line_index(plant, v->parts[i]);
        if (index < 0)
            continue;
        const fv_line *line = plant->lines[index];
        sum.bore = fmin(sum.bore, line->bore.v);
        sum.length += line->length.v;
        sum.sag = fmax(sum.sag, line->sag.v);
    }
    return sum;
}

static void say_lines(const report_why *why, const fv_why_vessel *v, const char *what, fv_text *out)
{
    const lines_in_sum sum = sum_lines(why, v);
    fv_text_add(out, "%s (", what);
    list_parts(v->parts, v->part_count, out);
    if (v->first == FV_WHY_SAG)
        fv_text_add(out, ", %s deep", bore(why, sum.sag).text);
    else if (v->first == FV_WHY_HEADER || v->first == FV_WHY_HOSE)
        fv_text_add(out, ", %s of %s", length(why, sum.length).text, bore(why, sum.bore).text);
    fv_text_add(out, ")");
}

static void say_holes(const report_why *why, size_t vessel, fv_text *out)
{
    const fv_coil *coil = &vessel_of(why, vessel)->coil;
    if (why->answer->vessels[vessel].part_here == 0) {
        fv_text_add(out, "the holes of the other vessels let too much of the steam out");
        return;
    }
    fv_text_add(out, "its holes let too little steam in (");
    if (coil->hole_count > 0)
        fv_text_add(out, "%zu places", coil->hole_count);
    else
        fv_text_add(out, "%.0f of %s", coil->holes.v, bore(why, coil->drill.v).text);
    if (coil->clogged.v > 0)
        fv_text_add(out, ", %s clogged", print_shown_said(why->units, FV_SHOW_SHARE, coil->clogged.v).text);
    fv_text_add(out, ")");
}

static void say_load(const report_why *why, size_t vessel, fv_text *out)
{
    const fv_load *load = &vessel_of(why, vessel)->load;
    if (fv_word(load->packing) == FV_PACKING_PACKED)
        fv_text_add(out, "its load is packed tight and heats as one body");
    else if (fv_word(load->packing) == FV_PACKING_ROWS)
        fv_text_add(out, "its load stands in rows that touch, %s to a brick", load->of);
    else
        fv_text_add(out, "there is more in it, or in bigger pieces, than in the others (%s)",
                    print_shown_as(why->units, FV_SHOW_MASS, fv_load_mass(load)).text);
}

static void say_boiler(const report_why *why, fv_text *out)
{
    const fv_plant *plant = why->answer->plant;
    double output = 0;
    const fv_boiler_history *run = why->answer->now ? why->answer->now->boilers : NULL;
    for (size_t i = 0; i < plant->boiler_count && run; i++)
        if (!isnan(run[i].dry)) {
            fv_text_add(out, "%s runs dry %s after lighting", plant->boilers[i]->part.id,
                        print_shown_time(run[i].dry).text);
            return;
        }
    for (size_t i = 0; i < plant->boiler_count; i++)
        output += plant->boilers[i]->output.v * plant->boilers[i]->fire.v;
    fv_text_add(out,
                plant->boiler_count > 1 ? "the boilers are too small for all that (%s together)"
                                        : "the boiler is too small for all that (%s)",
                print_shown_as(why->units, FV_SHOW_POWER, output).text);
}

/* Causes that sit in a vessel, here or elsewhere. */
static void say_inside(const report_why *why, size_t vessel, fv_text *out)
{
    const fv_why_vessel *v = &why->answer->vessels[vessel];
    const char *whose = v->part_here == 0 ? "others'" : "its";
    if (v->first == FV_WHY_WATER)
        fv_text_add(out, "water stands over %s holes", whose);
    else if (v->first == FV_WHY_COIL)
        fv_text_add(out, "%s coil pipe is narrow", whose);
    else if (v->first == FV_WHY_OPENINGS && v->part_here != 0 && v->vent > 0)
        fv_text_add(out, "its vent is too small, and the pressure in its chamber, up to %s, keeps steam and air back",
                    print_shown_as(why->units, FV_SHOW_PRESSURE, why->answer->now->vessels[vessel].pressure_most).text);
    else if (v->first == FV_WHY_OPENINGS)
        fv_text_add(out, "%s lid and vents let steam out%s", whose,
                    why->answer->now->vessels[vessel].air > 0 ? " and cold air in" : "");
    else if (v->first == FV_WHY_AIR)
        fv_text_add(out, "there is much air in it to sweep out");
    else
        fv_text_add(out, "%s walls take up and lose too much heat", whose);
    if (v->first == FV_WHY_WATER && v->part_here != 0 && vessel_of(why, vessel)->water.v > 0)
        fv_text_add(out, " (%s)", bore(why, vessel_of(why, vessel)->water.v).text);
    if (v->first == FV_WHY_COIL && v->part_here != 0)
        fv_text_add(out, " (%s)", bore(why, vessel_of(why, vessel)->coil.bore.v).text);
}

void report_why_cause(const report_why *why, size_t vessel, fv_text *out)
{
    const fv_why_vessel *v = &why->answer->vessels[vessel];
    const bool elsewhere = v->part_count == 0;
    switch (v->first) {
    case FV_WHY_BOILER:
        say_boiler(why, out);
        break;
    case FV_WHY_HEADER:
        say_lines(why, v, "the header is narrow", out);
        break;
    case FV_WHY_HOSE:
        say_lines(why, v, elsewhere ? "hoses elsewhere take the steam" : "its hose is long or narrow", out);
        break;
    case FV_WHY_FITTINGS:
        say_lines(why, v, "barbs, unions or valves on its way are tight", out);
        break;
    case FV_WHY_SAG:
        say_lines(why, v, "water stands in a sag on its way", out);
        break;
    case FV_WHY_LINE_LOSS:
        say_lines(why, v, "heat is lost on the way", out);
        break;
    case FV_WHY_HOLES:
        say_holes(why, vessel, out);
        break;
    case FV_WHY_LOAD:
        say_load(why, vessel, out);
        break;
    case FV_WHY_NOTHING:
        fv_text_add(out, "nothing holds it up: this is about as fast as such a load can heat");
        break;
    default:
        say_inside(why, vessel, out);
        break;
    }
}

print_shown report_why_cost(const report_why *why, const fv_why_remedy *remedy)
{
    print_shown shown;
    const char *currency = why->answer->plant->currency;
    if (remedy->effort == FV_EFFORT_FREE)
        snprintf(shown.text, sizeof shown.text, "nothing to buy");
    else if (isnan(remedy->cost))
        snprintf(shown.text, sizeof shown.text, "price not known");
    else
        snprintf(shown.text, sizeof shown.text, "%.20s%s%.0f", currency ? currency : "", currency ? " " : "",
                 remedy->cost);
    return shown;
}
