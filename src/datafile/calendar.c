/* SPDX-License-Identifier: MIT */
/* Events by libical: local ("floating") times, each repeated every week. */
#include "farvessel/calendar.h"

#include <libical/ical.h>
#include <stdio.h>

enum { MONDAY = 2 }; /* as libical counts */

static struct icaltimetype date_of(const char *monday)
{
    unsigned year, month, day;
    int used = 0;
    struct icaltimetype t = icaltime_null_time();
    if (sscanf(monday, "%4u-%2u-%2u%n", &year, &month, &day, &used) != 3 || monday[used])
        return t;
    t.year = (int)year;
    t.month = (int)month;
    t.day = (int)day;
    const struct icaltimetype same = icaltime_normalize(t);
    if (same.month != t.month || same.day != t.day || icaltime_day_of_week(t) != MONDAY)
        return icaltime_null_time();
    return t;
}

static icalcomponent *event_of(const fv_calendar_event *event, struct icaltimetype monday, size_t number)
{
    char uid[64];
    struct icaltimetype begin = monday, stamp = monday;
    stamp.is_date = 0;
    stamp.zone = icaltimezone_get_utc_timezone(); /* a stamp is in universal time; the same plan gives the same file */
    begin.is_date = 0;
    icaltime_adjust(&begin, (int)event->day, 0, 0, (int)event->begins);
    struct icalrecurrencetype weekly;
    icalrecurrencetype_clear(&weekly);
    weekly.freq = ICAL_WEEKLY_RECURRENCE;
    snprintf(uid, sizeof uid, "week-%04d%02d%02d-%zu@farvessel", monday.year, monday.month, monday.day, number);
    icalcomponent *c =
        icalcomponent_vanew(ICAL_VEVENT_COMPONENT, icalproperty_new_uid(uid), icalproperty_new_dtstamp(stamp),
                            icalproperty_new_summary(event->summary), icalproperty_new_dtstart(begin),
                            icalproperty_new_duration(icaldurationtype_from_int((int)event->takes)),
                            icalproperty_new_rrule(weekly), (void *)0);
    if (event->description)
        icalcomponent_add_property(c, icalproperty_new_description(event->description));
    return c;
}

fv_status fv_calendar_write(const char *title, const char *monday, const fv_calendar_event *events, size_t count,
                            fv_text *out)
{
    if (!monday || (count > 0 && !events))
        return FV_FAIL;
    struct icaltimetype first = date_of(monday);
    if (icaltime_is_null_time(first))
        return FV_FAIL;
    icalcomponent *calendar = icalcomponent_vanew(ICAL_VCALENDAR_COMPONENT, icalproperty_new_version("2.0"),
                                                  icalproperty_new_prodid("-//farvessel//week//EN"), (void *)0);
    if (title) {
        icalproperty *name = icalproperty_new_x(title);
        icalproperty_set_x_name(name, "X-WR-CALNAME");
        icalcomponent_add_property(calendar, name);
    }
    for (size_t i = 0; i < count; i++)
        icalcomponent_add_component(calendar, event_of(&events[i], first, i + 1));
    char *text = icalcomponent_as_ical_string_r(calendar);
    if (text)
        fv_text_add(out, "%s", text);
    else
        out->failed = true;
    icalmemory_free_buffer(text);
    icalcomponent_free(calendar);
    return out->failed ? FV_FAIL : FV_OK;
}
