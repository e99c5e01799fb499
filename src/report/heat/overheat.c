/* SPDX-License-Identifier: MIT */
/* Loads above their limits: one that the file sets belongs to the answer, one of the medium is a note. */
#include "report/heat/report.h"

#include <math.h>

static const char *effect_of(const report_heat *heat, size_t i)
{
    return fv_limit_effect(&heat->result->plant->vessels[i]->load);
}

static bool is_over(const report_heat *heat, size_t i, bool said)
{
    return heat->result->vessels[i].over > 0 && fv_is_set(heat->result->plant->vessels[i]->at_most) == said;
}

/* Of those over a limit of their own, or over that of a medium for one reason, the one that is so for longest; -1:
 * none.
 */
static int longest(const report_heat *heat, const char *effect, size_t *count)
{
    int found = -1;
    *count = 0;
    for (size_t i = 0; i < heat->result->vessel_count; i++) {
        if (!is_over(heat, i, !effect) || (effect && effect_of(heat, i) != effect))
            continue;
        (*count)++;
        if (found < 0 || heat->result->vessels[i].over > heat->result->vessels[found].over)
            found = (int)i;
    }
    return found;
}

static void say_remedy(const report_heat *heat, size_t i, fv_text *out)
{
    const fv_overheat_row *row = &heat->overheat->vessels[i];
    if (report_is_bed(heat, i)) {
        fv_text_add(out,
                    " Free steam climbs through a bed at %s with any fire; only steam that air is blown into (aerated "
                    "steam) is cooler",
                    print_shown_as(heat->units, FV_SHOW_TEMPERATURE, heat->result->boiling_point).text);
        return;
    }
    if (isnan(row->fire) && isnan(row->open)) {
        fv_text_add(out, " No fire down to 5 %% keeps its chamber below that");
        return;
    }
    if (!isnan(row->fire))
        fv_text_add(out, " The fire kept at %s from the start holds its chamber below that",
                    print_shown_as(heat->units, FV_SHOW_SHARE, row->fire).text);
    if (!isnan(row->open))
        fv_text_add(out, "%s%s opened to %s", isnan(row->fire) ? " " : ", or ", row->valve,
                    print_shown_as(heat->units, FV_SHOW_SHARE, row->open).text);
    if (!isnan(row->open) && isnan(row->fire))
        fv_text_add(out, " keeps its chamber below that");
    if (!isnan(row->fire) && isnan(row->core))
        fv_text_add(out, "; with that fire its core does not get to %s", report_target(heat, i).text);
    else if (!isnan(row->fire))
        fv_text_add(out, "; with that fire its core is there %s%s", print_at(&heat->clock, row->core).text,
                    row->kept ? "" : ", but some of its load passes the limit still");
}

void report_heat_overheating(const report_heat *heat, fv_text *out)
{
    size_t count;
    const int i = longest(heat, NULL, &count);
    if (i < 0)
        return;
    const fv_vessel_history *h = &heat->result->vessels[i];
    const fv_vessel *v = heat->result->plant->vessels[i];
    fv_text_add(out, " %s of the load of %s passes its limit of %s, for %s",
                print_shown_said(heat->units, FV_SHOW_SHARE, round(1e2 * h->over_share) / 1e2).text, v->part.id,
                print_shown_said(heat->units, FV_SHOW_TEMPERATURE, v->at_most.v).text, print_shown_time(h->over).text);
    if (count > 1)
        fv_text_add(out, " (%zu more %s)", count - 1, count == 2 ? "passes its own" : "pass theirs");
    fv_text_add(out, ".");
    if (heat->overheat && heat->overheat->vessels[i].asked) {
        say_remedy(heat, (size_t)i, out);
        fv_text_add(out, ".");
    }
}

static void note(const report_heat *heat, const char *effect, print_notes *notes)
{
    size_t count;
    const int i = longest(heat, effect, &count);
    const fv_vessel_history *h = &heat->result->vessels[i];
    print_note_add(
        notes, "overheating",
        "up to %s of the load passes %s, some of it for %s: %s above that (common practice). Your own limit: "
        "at-most.",
        print_shown_said(heat->units, FV_SHOW_SHARE, round(1e2 * h->over_share) / 1e2).text,
        print_shown_said(heat->units, FV_SHOW_TEMPERATURE, fv_vessel_limit(heat->result->plant->vessels[i])).text,
        print_shown_time(h->over).text, effect);
    for (size_t k = 0; k < heat->result->vessel_count; k++)
        if (is_over(heat, k, false) && effect_of(heat, k) == effect)
            print_note_part(notes, heat->result->plant->vessels[k]->part.id);
}

void report_heat_overheating_notes(const report_heat *heat, print_notes *notes)
{
    for (size_t i = 0; i < heat->result->vessel_count; i++) {
        bool said = !is_over(heat, i, false);
        for (size_t k = 0; k < i && !said; k++)
            said = is_over(heat, k, false) && effect_of(heat, k) == effect_of(heat, i);
        if (!said)
            note(heat, effect_of(heat, i), notes);
    }
}
