/* SPDX-License-Identifier: MIT */
/* What happens in a run, in words. */
#include "report/heat/report.h"

bool report_happening_is_said(const fv_heat_result *result, size_t i)
{
    const fv_happening *h = &result->happenings[i];
    if (h->kind == FV_HAPPENED_SWITCHED_ON || h->kind == FV_HAPPENED_SWITCHED_OFF)
        return h->time > result->thermostats[h->action].first_off;
    return h->kind == FV_HAPPENED_SHUT && result->vessels[h->vessel].hold == h->time;
}

const char *report_happening_word(fv_happening_kind kind)
{
    static const char *const words[] = {"steam_up", "steam_on", "full",        "core",        "hold", "broken",
                                        "cool",     "dry",      "starved",     "action",      "shut", "settled",
                                        "refilled", "detached", "switched_on", "switched_off"};
    return words[kind];
}

const char *report_turned_by(const fv_thermostat *t)
{
    return t->boiler ? t->boiler : t->valve;
}

static void switched_text(const report_heat *heat, const fv_thermostat *t, bool on, fv_text *out)
{
    fv_text_add(out, "%s: its thermostat switches %s, %s %s %s", report_turned_by(t), on ? "on" : "off", t->on,
                on ? "down to" : "up to",
                print_shown_said(heat->units, FV_SHOW_TEMPERATURE, on ? t->below.v : t->above.v).text);
}

const char *report_happening_part(const report_heat *heat, const fv_happening *happening)
{
    const fv_plant *plant = heat->result->plant;
    if (happening->boiler >= 0)
        return plant->boilers[happening->boiler]->part.id;
    if (happening->vessel >= 0)
        return plant->vessels[happening->vessel]->part.id;
    if (happening->action < 0)
        return "";
    if (happening->kind == FV_HAPPENED_SWITCHED_ON || happening->kind == FV_HAPPENED_SWITCHED_OFF)
        return report_turned_by(plant->thermostats[happening->action]);
    const fv_action *a = plant->actions[happening->action];
    return a->boiler ? a->boiler : a->valve ? a->valve : a->vessel ? a->vessel : "";
}

static void action_text(const report_heat *heat, const fv_action *a, fv_text *out)
{
    static const char *const acts[] = {"its steam is shut", "its steam is opened", "it is taken off the line"};
    const char *between = "";
    fv_text_add(out, "as planned: ");
    if (a->boiler && fv_is_set(a->fire)) {
        fv_text_add(out, "the fire of %s is set to %s", a->boiler,
                    print_shown_as(heat->units, FV_SHOW_SHARE, a->fire.v).text);
        between = ", ";
    }
    if (a->valve && fv_is_set(a->open)) {
        fv_text_add(out, "%s%s is set to %s open", between, a->valve,
                    print_shown_as(heat->units, FV_SHOW_SHARE, a->open.v).text);
        between = ", ";
    }
    if (a->vessel && fv_is_set(a->act))
        fv_text_add(out, "%s%s: %s", between, a->vessel, acts[fv_word(a->act)]);
}

void report_happening_text(const report_heat *heat, const fv_happening *happening, const char *names, fv_text *out)
{
    const fv_heat_result *r = heat->result;
    switch (happening->kind) {
    case FV_HAPPENED_STEAM_UP:
        fv_text_add(out, "%s: gives steam", names);
        break;
    case FV_HAPPENED_STEAM_ON:
        fv_text_add(out, "%s: steam arrives", names);
        break;
    case FV_HAPPENED_FULL:
        fv_text_add(out, "%s: full of steam", names);
        break;
    case FV_HAPPENED_CORE:
        fv_text_add(out, "%s: core at %s", names, report_target(heat, (size_t)happening->vessel).text);
        break;
    case FV_HAPPENED_HOLD:
        fv_text_add(out, "%s: hold done, steam shut", names);
        break;
    case FV_HAPPENED_BROKEN:
        fv_text_add(out, "%s: hold broken, core below %s", names, report_target(heat, (size_t)happening->vessel).text);
        break;
    case FV_HAPPENED_COOL:
        fv_text_add(
            out, "%s: all of its load at %s, cool enough to inoculate", names,
            print_shown_said(heat->units, FV_SHOW_TEMPERATURE, r->plant->vessels[happening->vessel]->cool.v).text);
        break;
    case FV_HAPPENED_DRY:
        fv_text_add(out, "%s: runs dry, no usable water is left", names);
        break;
    case FV_HAPPENED_STARVED:
        fv_text_add(out, "%s: starved, its steam no longer covers its losses", names);
        break;
    case FV_HAPPENED_ACTION:
        action_text(heat, r->plant->actions[happening->action], out);
        break;
    case FV_HAPPENED_SHUT:
        fv_text_add(out, "%s: steam shut", names);
        break;
    case FV_HAPPENED_REFILLED:
        fv_text_add(out, "%s: water is poured in, no steam until it is hot", names);
        break;
    case FV_HAPPENED_DETACHED:
        fv_text_add(out, "%s: off the line%s", names,
                    fv_word(r->plant->vessels[happening->vessel]->cooling) == FV_COOL_SHELVES
                        ? ", its load on shelves, the vessel free"
                        : "");
        break;
    case FV_HAPPENED_SWITCHED_ON:
    case FV_HAPPENED_SWITCHED_OFF:
        switched_text(heat, r->plant->thermostats[happening->action], happening->kind == FV_HAPPENED_SWITCHED_ON, out);
        break;
    case FV_HAPPENED_SETTLED:
        fv_text_add(out, "%s: settles, its core will not arrive", names);
        break;
    }
}
