/* SPDX-License-Identifier: MIT */
#include "report/remedy.h"

#include "print/safe.h"

#include <stdio.h>
#include <string.h>

static print_shown bore(fv_unit_system units, double si)
{
    return print_shown_brief(units, FV_SHOW_BORE, si);
}

static print_shown length(fv_unit_system units, double si)
{
    return print_shown_brief(units, FV_SHOW_LENGTH, si);
}

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
    } kinds[] = {{"open", "valve"}, {"k", "washer"}, {"start", "start"}};
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

static void say_vessel_remedy(fv_unit_system units, const fv_why_remedy *r, fv_text *out)
{
    const print_shown parts = parts_of(r);
    switch (r->kind) {
    case FV_REMEDY_WATER:
        fv_text_add(out, "%s: drain the water over the holes before the start", parts.text);
        break;
    case FV_REMEDY_SUMP:
        fv_text_add(out, "%s: a drained floor, so that no water gathers", parts.text);
        break;
    case FV_REMEDY_CLEAN:
        fv_text_add(out, "%s: clean the holes", parts.text);
        break;
    case FV_REMEDY_DRILL:
        fv_text_add(out, "%s: drill the holes out to %s", parts.text, bore(units, r->to).text);
        break;
    case FV_REMEDY_DRILL_OTHERS:
    case FV_REMEDY_DRILL_ALL:
        fv_text_add(out, "%s: new coils, %s holes", parts.text, bore(units, r->to).text);
        break;
    case FV_REMEDY_BLANK_OTHERS:
        fv_text_add(out, "%s: plug one hole in four", parts.text);
        break;
    case FV_REMEDY_COIL_BORE:
        fv_text_add(out, "%s: coil of %s bore", parts.text, bore(units, r->to).text);
        break;
    case FV_REMEDY_LID:
        fv_text_add(out, "%s: close the gaps in the lid", parts.text);
        break;
    case FV_REMEDY_SEAL:
        fv_text_add(out, "%s: drains under %s of water", parts.text, bore(units, r->to).text);
        break;
    case FV_REMEDY_VENT:
        fv_text_add(out, "%s: vent to half its area, never shut", parts.text);
        break;
    case FV_REMEDY_WALLS:
        fv_text_add(out, "%s: a quilt of %s around it", parts.text, bore(units, r->to).text);
        break;
    case FV_REMEDY_LOOSE:
        fv_text_add(out, "%s: stack loosely", parts.text);
        break;
    case FV_REMEDY_LESS_LOAD:
        fv_text_add(out, "%s: a quarter less in it", parts.text);
        break;
    case FV_REMEDY_HANDS:
        say_hands(r, out);
        break;
    default:
        fv_text_add(out, "%s: start %s later", parts.text, print_shown_time(r->to - r->from).text);
        break;
    }
}

void report_remedy(fv_unit_system units, const fv_why_remedy *r, fv_text *out)
{
    const print_shown parts = parts_of(r);
    switch (r->kind) {
    case FV_REMEDY_HOSE_BORE:
    case FV_REMEDY_HEADER_BORE:
        fv_text_add(out, "%s: %s bore instead of %s", parts.text, bore(units, r->to).text, bore(units, r->from).text);
        break;
    case FV_REMEDY_HOSE_LENGTH:
        fv_text_add(out, "%s: %s long instead of %s", parts.text, length(units, r->to).text,
                    length(units, r->from).text);
        break;
    case FV_REMEDY_COUPLINGS:
        fv_text_add(out, "%s: full-bore barbs and unions", parts.text);
        break;
    case FV_REMEDY_VALVE_OPEN:
        fv_text_add(out, "%s: open the valve all the way", parts.text);
        break;
    case FV_REMEDY_VALVES_OTHERS:
        fv_text_add(out, "%s: valves only %s open", parts.text, print_shown_said(units, FV_SHOW_SHARE, r->to).text);
        break;
    case FV_REMEDY_SAG:
        fv_text_add(out, "%s: hang it up, no sag", parts.text);
        break;
    case FV_REMEDY_LAG_LINES:
        fv_text_add(out, "%s: lagging of %s", parts.text, bore(units, r->to).text);
        break;
    case FV_REMEDY_SHELTER:
        fv_text_add(out, "%s: out of the wind", parts.text);
        break;
    case FV_REMEDY_FIRE:
        fv_text_add(out, "%s: full fire", parts.text);
        break;
    case FV_REMEDY_CONTROL:
        fv_text_add(out, "%s: control at %s", parts.text, print_shown_brief(units, FV_SHOW_PRESSURE, r->to).text);
        break;
    case FV_REMEDY_FEED:
        fv_text_add(out, "%s: fed as its water boils away", parts.text);
        break;
    case FV_REMEDY_BOILER:
        fv_text_add(out, "%s: %s instead of %s", parts.text, print_shown_brief(units, FV_SHOW_POWER, r->to).text,
                    print_shown_brief(units, FV_SHOW_POWER, r->from).text);
        break;
    default:
        say_vessel_remedy(units, r, out);
        break;
    }
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
