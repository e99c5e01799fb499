/* SPDX-License-Identifier: MIT */
/* What happens in a run, in words. */
#include "report/heat/report.h"

bool report_event_is_said(const fv_heat_result *result, size_t i)
{
    const fv_heat_event *h = &result->events[i];
    if (h->kind == FV_HEAT_EVENT_SWITCHED_ON || h->kind == FV_HEAT_EVENT_SWITCHED_OFF)
        return h->time > result->thermostats[h->action].first_off;
    return h->kind == FV_HEAT_EVENT_SHUT && result->vessels[h->vessel].hold == h->time;
}

const char *report_event_word(fv_heat_event_kind kind)
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

const char *report_event_part(const report_heat *heat, const fv_heat_event *event)
{
    const fv_plant *plant = heat->result->plant;
    if (event->boiler >= 0)
        return plant->boilers[event->boiler]->part.id;
    if (event->vessel >= 0)
        return plant->vessels[event->vessel]->part.id;
    if (event->action < 0)
        return "";
    if (event->kind == FV_HEAT_EVENT_SWITCHED_ON || event->kind == FV_HEAT_EVENT_SWITCHED_OFF)
        return report_turned_by(plant->thermostats[event->action]);
    const fv_action *a = plant->actions[event->action];
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

void report_event_text(const report_heat *heat, const fv_heat_event *event, const char *names, fv_text *out)
{
    const fv_heat_result *r = heat->result;
    switch (event->kind) {
    case FV_HEAT_EVENT_STEAM_UP:
        fv_text_add(out, "%s: gives steam", names);
        break;
    case FV_HEAT_EVENT_STEAM_ON:
        fv_text_add(out, "%s: steam arrives", names);
        break;
    case FV_HEAT_EVENT_FULL:
        fv_text_add(out, "%s: full of steam", names);
        break;
    case FV_HEAT_EVENT_CORE:
        fv_text_add(out, "%s: core at %s", names, report_target(heat, (size_t)event->vessel).text);
        break;
    case FV_HEAT_EVENT_HOLD:
        fv_text_add(out, "%s: hold done, steam shut", names);
        break;
    case FV_HEAT_EVENT_BROKEN:
        fv_text_add(out, "%s: hold broken, core below %s", names, report_target(heat, (size_t)event->vessel).text);
        break;
    case FV_HEAT_EVENT_COOL:
        fv_text_add(out, "%s: all of its load at %s, cool enough to inoculate", names,
                    print_shown_said(heat->units, FV_SHOW_TEMPERATURE, r->plant->vessels[event->vessel]->cool.v).text);
        break;
    case FV_HEAT_EVENT_DRY:
        fv_text_add(out, "%s: runs dry, no usable water is left", names);
        break;
    case FV_HEAT_EVENT_STARVED:
        fv_text_add(out, "%s: starved, its steam no longer covers its losses", names);
        break;
    case FV_HEAT_EVENT_ACTION:
        action_text(heat, r->plant->actions[event->action], out);
        break;
    case FV_HEAT_EVENT_SHUT:
        fv_text_add(out, "%s: steam shut", names);
        break;
    case FV_HEAT_EVENT_REFILLED:
        fv_text_add(out, "%s: water is poured in, no steam until it is hot", names);
        break;
    case FV_HEAT_EVENT_DETACHED:
        fv_text_add(out, "%s: off the line%s", names,
                    fv_word(r->plant->vessels[event->vessel]->cooling) == FV_COOL_SHELVES
                        ? ", its load on shelves, the vessel free"
                        : "");
        break;
    case FV_HEAT_EVENT_SWITCHED_ON:
    case FV_HEAT_EVENT_SWITCHED_OFF:
        switched_text(heat, r->plant->thermostats[event->action], event->kind == FV_HEAT_EVENT_SWITCHED_ON, out);
        break;
    case FV_HEAT_EVENT_SETTLED:
        fv_text_add(out, "%s: settles, its core will not arrive", names);
        break;
    }
}
