/* SPDX-License-Identifier: MIT */
#include "report/unreachable.h"
#include "print/names.h"
#include "print/show.h"

#include <math.h>

enum { NAMES_SHOWN = 4 };

static bool is_open(const fv_vessel *vessel)
{
    return fv_word(vessel->phase) != FV_PHASE_SHUT;
}

static bool is_unreachable(const fv_vessel *vessel, double boiling_point)
{
    return is_open(vessel) && vessel->target.v >= boiling_point;
}

/* Target, hold and z alike: one offer serves both. */
static bool is_alike(const fv_vessel *a, const fv_vessel *b)
{
    return a->target.v == b->target.v && a->hold.v == b->hold.v && a->z.v == b->z.v;
}

static print_shown temperature(fv_unit_system units, double kelvin)
{
    return print_shown_said(units, FV_SHOW_TEMPERATURE, kelvin);
}

static void say_offer(const fv_vessel *v, double boiling_point, fv_unit_system units, fv_text *out)
{
    const fv_equal_hold equal = fv_equal_hold_of(v->target.v, v->hold.v, v->z.v, boiling_point);
    if (isnan(equal.hold))
        fv_text_add(out,
                    " No hold that anybody would wait for makes up for that at a temperature that is reached: take "
                    "a lower target, or treat it otherwise.");
    else if (v->hold.v > 0.0)
        fv_text_add(out, " What would do as much as %s at %s: target=\"%s\" hold=\"%.1f h\" (z %s).",
                    print_shown_time(v->hold.v).text, temperature(units, v->target.v).text,
                    temperature(units, equal.temperature).text, ceil(equal.hold / 360.0) / 10.0,
                    print_shown_said(units, FV_SHOW_TEMPERATURE_DIFFERENCE, v->z.v).text);
    else
        fv_text_add(out, " %s is the most to ask for here.", temperature(units, equal.temperature).text);
}

/* All vessels like number `first`, in one sentence. */
static void say_group(const fv_plant *plant, size_t first, size_t open, double boiling_point, fv_unit_system units,
                      fv_text *out)
{
    const fv_vessel *one = plant->vessels[first];
    print_names names = {0};
    fv_arena *arena = fv_arena_new();
    out->failed = out->failed || !arena;
    for (size_t i = first; arena && i < plant->vessel_count; i++)
        if (is_unreachable(plant->vessels[i], boiling_point) && is_alike(one, plant->vessels[i]))
            out->failed = !print_names_push(&names, arena, plant->vessels[i]->part.id) || out->failed;
    names.all = names.count == open && open > 1 ? "any vessel" : NULL;
    fv_text_add(out, "No steam brings ");
    print_names_say(&names, NAMES_SHOWN, out);
    fv_text_add(out, " to %s: water boils at %s here, and a vented vessel gets no hotter.",
                temperature(units, one->target.v).text, print_shown_as(units, FV_SHOW_TEMPERATURE, boiling_point).text);
    say_offer(one, boiling_point, units, out);
    fv_arena_free(arena);
}

report_unreachable report_unreachable_say(const fv_plant *plant, double boiling_point, fv_unit_system units,
                                          fv_text *out)
{
    size_t open = 0, unreachable = 0;
    for (size_t i = 0; i < plant->vessel_count; i++) {
        open += is_open(plant->vessels[i]);
        unreachable += is_unreachable(plant->vessels[i], boiling_point);
    }
    for (size_t i = 0; i < plant->vessel_count; i++) {
        bool said = !is_unreachable(plant->vessels[i], boiling_point);
        for (size_t k = 0; k < i && !said; k++)
            said = is_unreachable(plant->vessels[k], boiling_point) && is_alike(plant->vessels[k], plant->vessels[i]);
        if (said)
            continue;
        fv_text_add(out, "%s", out->length > 0 ? " " : "");
        say_group(plant, i, open, boiling_point, units, out);
    }
    return unreachable == 0 ? UNREACHABLE_NONE : unreachable == open ? UNREACHABLE_ALL : UNREACHABLE_SOME;
}
