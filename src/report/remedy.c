/* SPDX-License-Identifier: MIT */
#include "report/remedy.h"

#include "print/safe.h"

#include <stdio.h>
#include <string.h>

/* The other one of two parts that are changed, of `length`; NULL: the settings do not name it. */
static const char *second_of(const fv_why_remedy *r, int *length)
{
    for (size_t i = 0; i < r->change.count; i++) {
        const char *path = r->change.settings[i].path;
        *length = (int)strcspn(path, ".");
        if (strncmp(path, r->part, (size_t)*length) != 0 || r->part[*length] != '\0')
            return path;
    }
    return NULL;
}

/* "s6", "s5 and s6", or "h1 and 5 more" */
static print_shown parts_of(const fv_why_remedy *r)
{
    print_shown shown;
    int length = 0;
    const char *second = r->part_count == 2 ? second_of(r, &length) : NULL;
    if (second)
        snprintf(shown.text, sizeof shown.text, "%.38s and %.*s", r->part, length > 38 ? 38 : length, second);
    else if (r->part_count > 1)
        snprintf(shown.text, sizeof shown.text, "%.60s and %zu more", r->part, r->part_count - 1);
    else
        snprintf(shown.text, sizeof shown.text, "%.80s", r->part);
    return shown;
}

/* "hands: 5 valves, 1 start, 2 turned later, as below" */
static void say_hands(const fv_why_remedy *r, fv_text *out)
{
    static const struct {
        const char *attribute, *one;
    } kinds[] = {{"open", "valve"}, {"washer", "washer"}, {"start", "start"}};
    const char *between = "";
    fv_text_add(out, "hands: ");
    for (size_t k = 0; k < sizeof kinds / sizeof *kinds; k++) {
        size_t count = 0;
        for (size_t i = 0; i < r->change.count; i++)
            count += strcmp(r->change.settings[i].attribute, kinds[k].attribute) == 0;
        if (count > 0) {
            fv_text_add(out, "%s%zu %s%s", between, count, kinds[k].one, count > 1 ? "s" : "");
            between = ", ";
        }
    }
    if (r->change.action_count > 0)
        fv_text_add(out, "%s%zu turned later", between, r->change.action_count);
    fv_text_add(out, ", as below");
}

/* What is said of each kind after the parts that it changes: words around the new size, and of some the old one. */
static const struct {
    const char *before, *after; /* `after` NULL: without a size */
    fv_show show;
    bool instead;
} sayings[FV_REMEDIES] = {
    [FV_REMEDY_HOSE_BORE] = {"", " bore", FV_SHOW_BORE, true},
    [FV_REMEDY_HOSE_LENGTH] = {"", " long", FV_SHOW_LENGTH, true},
    [FV_REMEDY_HEADER_BORE] = {"", " bore", FV_SHOW_BORE, true},
    [FV_REMEDY_COUPLINGS] = {"full-bore barbs and unions", NULL, FV_SHOW_NUMBER, false},
    [FV_REMEDY_VALVE_OPEN] = {"open the valve all the way", NULL, FV_SHOW_NUMBER, false},
    [FV_REMEDY_VALVES_OTHERS] = {"valves only ", " open", FV_SHOW_SHARE, false},
    [FV_REMEDY_SAG] = {"hang it up, no sag", NULL, FV_SHOW_NUMBER, false},
    [FV_REMEDY_WATER] = {"drain the water over the holes before the start", NULL, FV_SHOW_NUMBER, false},
    [FV_REMEDY_SUMP] = {"a drained floor, so that no water gathers", NULL, FV_SHOW_NUMBER, false},
    [FV_REMEDY_CLEAN] = {"clean the holes", NULL, FV_SHOW_NUMBER, false},
    [FV_REMEDY_DRILL] = {"drill the holes out to ", "", FV_SHOW_BORE, false},
    [FV_REMEDY_DRILL_OTHERS] = {"new coils, ", " holes", FV_SHOW_BORE, false},
    [FV_REMEDY_DRILL_ALL] = {"new coils, ", " holes", FV_SHOW_BORE, false},
    [FV_REMEDY_BLANK_OTHERS] = {"plug one hole in four", NULL, FV_SHOW_NUMBER, false},
    [FV_REMEDY_COIL_BORE] = {"coil of ", " bore", FV_SHOW_BORE, false},
    [FV_REMEDY_LAG_LINES] = {"lagging of ", "", FV_SHOW_BORE, false},
    [FV_REMEDY_SHELTER] = {"out of the wind", NULL, FV_SHOW_NUMBER, false},
    [FV_REMEDY_LID] = {"close the gaps in the lid", NULL, FV_SHOW_NUMBER, false},
    [FV_REMEDY_SEAL] = {"drains under ", " of water", FV_SHOW_BORE, false},
    [FV_REMEDY_VENT] = {"vent to half its area, never shut", NULL, FV_SHOW_NUMBER, false},
    [FV_REMEDY_WIDER_VENT] = {"a vent of ", "", FV_SHOW_BORE, false},
    [FV_REMEDY_WALLS] = {"a quilt of ", " around it", FV_SHOW_BORE, false},
    [FV_REMEDY_FIRE] = {"full fire", NULL, FV_SHOW_NUMBER, false},
    [FV_REMEDY_CONTROL] = {"control at ", "", FV_SHOW_PRESSURE, false},
    [FV_REMEDY_BOILER] = {"", "", FV_SHOW_POWER, true},
    [FV_REMEDY_FEED] = {"fed as its water boils away", NULL, FV_SHOW_NUMBER, false},
    [FV_REMEDY_LOOSE] = {"stack loosely", NULL, FV_SHOW_NUMBER, false},
    [FV_REMEDY_LESS_LOAD] = {"a quarter less in it", NULL, FV_SHOW_NUMBER, false},
};

void report_remedy(fv_unit_system units, const fv_why_remedy *r, fv_text *out)
{
    const print_shown parts = parts_of(r);
    const char *before = sayings[r->kind].before, *after = sayings[r->kind].after;
    const fv_show show = sayings[r->kind].show;
    if (r->kind == FV_REMEDY_HANDS)
        say_hands(r, out);
    else if (!before)
        fv_text_add(out, "%s: start %s later", parts.text, print_shown_time(r->to - r->from).text);
    else if (!after)
        fv_text_add(out, "%s: %s", parts.text, before);
    else
        fv_text_add(out, "%s: %s%s%s", parts.text, before, print_shown_brief(units, show, r->to).text, after);
    if (sayings[r->kind].instead)
        fv_text_add(out, " instead of %s", print_shown_brief(units, show, r->from).text);
}

/* `"text"` where a shell would split it. */
static void quoted(const char *option, const fv_text *text, const char *before, fv_text *out)
{
    const char *quote = text->text && strpbrk(text->text, " +") ? "\"" : "";
    fv_text_add(out, "%s%s %s%s%s", before, option, quote, text->text ? text->text : "", quote);
    out->failed = out->failed || text->failed;
}

void report_change(const fv_plant *plant, const fv_change *change, const char *between, fv_text *out)
{
    for (size_t i = 0; i < change->count + change->action_count; i++) {
        const bool setting = i < change->count;
        fv_text text = {0};
        const bool good = setting ? fv_setting_write(&change->settings[i], plant, &text)
                                  : fv_change_action_write(&change->actions[i - change->count], &text);
        quoted(setting ? "--set" : "--do", &text, i ? between : "", out);
        out->failed = out->failed || !good;
        fv_text_free(&text);
    }
}

void report_command(const fv_plant *plant, const char *verb, const fv_change *change, const char *between, fv_text *out)
{
    fv_text_add(out, "farvessel %s ", verb);
    print_shell_word(plant->file ? plant->file : "plant.xml", out);
    if (change && change->count + change->action_count > 0) {
        fv_text_add(out, "%s", between);
        report_change(plant, change, between, out);
    }
}
