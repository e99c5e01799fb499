/* SPDX-License-Identifier: MIT */
/* The log answer in sentences. */
#include "report/log/report.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const char *report_log_verdict(fv_log_verdict verdict)
{
    static const char *const words[] = {"held", "short", "not reached", "cannot be told"};
    return words[verdict];
}

print_shown report_log_time(const report_log *log, double time)
{
    const fv_logfile *l = log->answer->log;
    print_shown shown = {"-"};
    char stamp[32];
    if (isnan(time))
        return shown;
    fv_logfile_stamp(l, time, stamp, sizeof stamp);
    char *clock = strchr(stamp, ' ');
    const bool one_day = l->count == 0 || floor(l->time[0] / 86400) == floor(l->time[l->count - 1] / 86400);
    char *text = clock && one_day ? clock + 1 : stamp;
    text[strlen(text) - 3] = '\0'; /* whole minutes are enough */
    snprintf(shown.text, sizeof shown.text, "%s", text);
    return shown;
}

print_shown report_log_place(const report_log *log, size_t probe)
{
    const fv_probe_readings *r = &log->answer->probes[probe].readings;
    print_shown shown;
    static const char *const at[] = {"core", "chamber", "air", "at its depth"};
    if (r->vessel >= 0)
        snprintf(shown.text, sizeof shown.text, "%.40s %s", log->answer->plant->vessels[r->vessel]->part.id, at[r->at]);
    else
        snprintf(shown.text, sizeof shown.text, "%.60s", r->probe ? at[r->at] : r->name);
    return shown;
}

static void say_verdict(const report_log *log, const fv_log_probe *p, fv_text *out)
{
    fv_text_add(out, "at %s or above for %s at the low end of its band, ",
                print_shown_said(log->units, FV_SHOW_TEMPERATURE, p->target).text,
                print_shown_time(60 * round(p->low.longest / 60)).text);
    fv_text_add(out, "%s as read, ", print_shown_time(60 * round(p->as_read.longest / 60)).text);
    fv_text_add(out, "of %s that are asked", print_shown_time(p->hold).text);
}

void report_log_sentence(const report_frame *frame, fv_text *out)
{
    const report_log *log = frame->answer;
    const fv_log_answer *a = log->answer;
    if (a->coldest < 0) {
        fv_text_add(out, "No probe is in a core, so it cannot be told whether the batch was treated.");
        return;
    }
    const fv_log_probe *p = &a->probes[a->coldest];
    switch (p->verdict) {
    case FV_LOG_HELD:
        fv_text_add(out, "Held: the coldest probe, %s, was ", report_log_place(log, (size_t)a->coldest).text);
        break;
    case FV_LOG_SHORT:
        fv_text_add(out, "Short by %s: the coldest probe, %s, was ", print_shown_time(60 * ceil(p->short_by / 60)).text,
                    report_log_place(log, (size_t)a->coldest).text);
        break;
    case FV_LOG_NOT_REACHED:
        fv_text_add(out, "Not reached: the coldest probe, %s, came to %s at most, and its target is %s.",
                    report_log_place(log, (size_t)a->coldest).text,
                    print_shown_as(log->units, FV_SHOW_TEMPERATURE, p->as_read.highest).text,
                    print_shown_said(log->units, FV_SHOW_TEMPERATURE, p->target).text);
        return;
    default:
        fv_text_add(out, "Cannot be told: the coldest probe, %s, was ", report_log_place(log, (size_t)a->coldest).text);
        break;
    }
    say_verdict(log, p, out);
    if (p->verdict == FV_LOG_CANNOT_TELL)
        fv_text_add(out, "; its error of %s decides",
                    print_shown_as(log->units, FV_SHOW_TEMPERATURE_DIFFERENCE, p->readings.reach).text);
    fv_text_add(out, ".");
    if (p->going_on && p->verdict != FV_LOG_HELD)
        fv_text_add(out, " It was still at its target when the log ends.");
}

static void say_left_out(const fv_probe_readings *r, fv_text *out)
{
    static const char *const why[] = {"", "open or blank", "frozen for an hour and more while others moved",
                                      "pulled out (a jump that no core makes)", "above boiling by more than its error"};
    const char *gap = "";
    bool any = false;
    for (int k = FV_READING_OPEN; k < FV_READING_FLAWS; k++)
        any = any || r->left_out[k] > 0;
    if (!any)
        return;
    fv_text_add(out, "%s%s: left out ", out->length ? "; " : "", r->name);
    for (int k = FV_READING_OPEN; k < FV_READING_FLAWS; k++)
        if (r->left_out[k] > 0) {
            fv_text_add(out, "%s%zu %s", gap, r->left_out[k], why[k]);
            gap = ", ";
        }
}

void report_log_told(const report_frame *frame, fv_text *out)
{
    const report_log *log = frame->answer;
    const fv_log_answer *a = log->answer;
    const fv_log_told *t = &a->log->told;
    for (size_t i = 0; i < a->probe_count; i++)
        say_left_out(&a->probes[i].readings, out);
    if (t->restarts)
        fv_text_add(out, "%sthe heading stands %zu times more: the logger was started anew", out->length ? "; " : "",
                    t->restarts);
    if (t->sorted)
        fv_text_add(out, "%s%zu rows stood out of order and were sorted", out->length ? "; " : "", t->sorted);
    if (t->repeated)
        fv_text_add(out, "%s%zu rows stood twice", out->length ? "; " : "", t->repeated);
    if (t->moved != 0)
        fv_text_add(out, "%sthe clock was changed on the way; times after it were put right by %+.0f h",
                    out->length ? "; " : "", t->moved / 3600);
    if (t->half)
        fv_text_add(out, "%sthe last line is not finished and was left out", out->length ? "; " : "");
    if (t->gap > 3 * a->log->interval)
        fv_text_add(out, "%snothing was written for %s from %s on", out->length ? "; " : "",
                    print_shown_time(t->gap).text, report_log_time(log, t->gap_at).text);
    if (out->length)
        fv_text_add(out, ".");
}

void report_log_counts(const report_frame *frame, fv_text *out)
{
    (void)frame;
    fv_text_add(out,
                "The band counts the error that a probe keeps for the whole run (its class, or what a check in free "
                "steam left), for eight in ten such probes. It leaves out a probe that is not in the coldest piece, a "
                "lid that was opened, and pieces that nobody measured. Holds bridge up to 15 min without readings.");
}
