/* SPDX-License-Identifier: MIT */
/* What is asked of the plant as it stands: why, size, carry, plan, each with what it proposes, to be tried as one
 * change of the file; odds and week, which propose what no file can change. */
#include "desk/session.h"

#include "page/why.h"
#include "report/carry/report.h"
#include "report/odds/report.h"
#include "report/plan/report.h"
#include "report/remedy.h"
#include "report/size/report.h"
#include "report/week/report.h"

#include <math.h>
#include <string.h>

enum { ROWS_MOST = 12, MEASURES_MOST = 5 };

typedef struct {
    fv_desk *desk;
    const fv_plant *plant;
    fv_page_remedy rows[ROWS_MOST];
    desk_change changes[ROWS_MOST];
    size_t count;
    fv_text sentence;
    bool failed;
} asking;

/* The text, in the session's arena, and empty again; NULL: it failed. */
static const char *keep(asking *a, fv_text *text)
{
    const char *copy = text->failed ? NULL : fv_arena_copy(a->desk->arena, text->text ? text->text : "");
    a->failed = a->failed || !copy;
    fv_text_free(text);
    return copy;
}

/* ---- a proposal as edits of the file ---- */

static void set(asking *a, const fv_setting *setting, fv_edit *edit)
{
    fv_text text = {0};
    a->failed = !fv_setting_write(setting, a->plant, &text) || a->failed;
    const char *whole = keep(a, &text), *equals = whole ? strchr(whole, '=') : NULL;
    *edit = (fv_edit){.part = fv_arena_copy(a->desk->arena, setting->path),
                      .attribute = fv_arena_copy(a->desk->arena, setting->attribute),
                      .value = equals ? equals + 1 : NULL};
    a->failed = a->failed || !edit->part || !edit->attribute || !edit->value;
}

/* An action is a part of its own. */
static void act(asking *a, const fv_change_action *action, fv_edit *edit)
{
    static const char *const acts[] = {"shut", "open", "detach"};
    fv_text tag = {0};
    bool good = true;
    fv_text_add(&tag, "action");
    if (action->after)
        fv_text_add(&tag, " after=\"%s\"", action->after);
    if (!action->after || action->at > 0.0) {
        fv_text_add(&tag, " %s=\"", action->after ? "delay" : "at");
        good = fv_quantity_write(FV_DIM_TIME, action->at, &tag);
        fv_text_add(&tag, "\"");
    }
    if (action->vessel) {
        fv_text_add(&tag, " vessel=\"%s\" act=\"%s\"", action->vessel, acts[(int)action->value]);
    } else {
        fv_text_add(&tag, action->boiler ? " boiler=\"%s\" fire=\"" : " valve=\"%s\" open=\"",
                    action->boiler ? action->boiler : action->valve);
        good = fv_quantity_write(FV_DIM_FRACTION, action->value, &tag) && good;
        fv_text_add(&tag, "\"");
    }
    *edit = (fv_edit){.kind = FV_EDIT_PUT, .part = "", .value = keep(a, &tag)};
    a->failed = a->failed || !good;
}

/* One row. `change` NULL or empty: there is nothing to try. */
static void propose(asking *a, const char *what, const char *effect, const char *cost, const fv_change *change)
{
    fv_arena *arena = a->desk->arena;
    const size_t edits = change ? change->count + change->action_count : 0;
    fv_text command = {0};
    if (a->count == ROWS_MOST || a->failed)
        return;
    fv_edit *list = fv_arena_alloc(arena, edits + 1, sizeof *list);
    fv_page_remedy *row = &a->rows[a->count];
    *row = (fv_page_remedy){.what = fv_arena_copy(arena, what),
                            .effect = fv_arena_copy(arena, effect),
                            .cost = cost ? fv_arena_copy(arena, cost) : NULL};
    a->failed = !list || !row->what || !row->effect || (cost && !row->cost);
    for (size_t i = 0; !a->failed && change && i < change->count; i++)
        set(a, &change->settings[i], &list[i]);
    for (size_t i = 0; !a->failed && change && i < change->action_count; i++)
        act(a, &change->actions[i], &list[change->count + i]);
    if (edits > 0) {
        report_change(a->plant, change, " ", &command);
        row->settings = keep(a, &command);
    }
    a->changes[a->count++] = (desk_change){list, edits, row->what, row->settings};
}

/* `now` NULL: there is nothing to compare with. */
static const char *last_core(asking *a, double slowest, const double *now)
{
    fv_text words = {0};
    const bool ever = now && isfinite(*now);
    const print_shown then = print_shown_time(slowest), is = ever ? print_shown_time(*now) : (print_shown){"never"};
    if (!isfinite(slowest))
        fv_text_add(&words, ever ? "one core then never arrives" : "one core still does not arrive");
    else if (now && strcmp(then.text, is.text) == 0)
        fv_text_add(&words, "last core %s after lighting, as now", then.text);
    else
        fv_text_add(&words, "last core %s after lighting%s%s", then.text, now ? " instead of " : "",
                    now ? is.text : "");
    const char *copy = keep(a, &words);
    return copy ? copy : "";
}

/* ---- the questions ---- */

static bool ask_why(asking *a, fv_faults *faults)
{
    fv_why_options options;
    page_why words;
    fv_why_defaults(&options);
    options.remedies = true;
    fv_why_answer *answer = fv_why_run(a->plant, &options, a->desk->options.progress, faults);
    if (!answer)
        return false;
    if (page_why_make(answer, a->desk->options.units, &words)) {
        fv_text_add(&a->sentence, "%s", words.because ? words.because : "Nothing holds any vessel up.");
        for (size_t i = 0; i < words.count; i++)
            propose(a, words.rows[i].what, words.rows[i].effect, words.rows[i].cost, words.rows[i].change);
    } else {
        a->failed = true;
    }
    page_why_free(&words);
    fv_why_free(answer);
    return true;
}

static bool ask_size(asking *a, fv_faults *faults)
{
    fv_size_options options;
    fv_size_defaults(&options);
    fv_size_answer *answer = fv_size_run(a->plant, &options, a->desk->options.progress, faults);
    if (!answer)
        return false;
    const report_frame frame = {.answer = answer, .units = a->desk->options.units};
    report_size_sentence(&frame, &a->sentence);
    for (size_t i = 1; i < answer->row_count; i++) {
        const fv_size_row *row = &answer->rows[i];
        fv_text what = {0};
        report_size_what(answer, row, a->desk->options.units, &what);
        fv_text_add(&what, "%s%s", what.length > 0 && row->step_count > 0 ? ", and " : "",
                    row->step_count > 0 ? "valves, washers or starts by hand" : "");
        propose(a, keep(a, &what), last_core(a, row->run.slowest, &answer->rows[0].run.slowest),
                report_size_cost(answer, row).text, &row->change);
    }
    fv_size_free(answer);
    return true;
}

static bool says_starts(const fv_plant *plant)
{
    for (size_t i = 0; i < plant->vessel_count; i++)
        if (plant->vessels[i]->start_after || fv_or(plant->vessels[i]->start, 0) > 0)
            return true;
    return false;
}

/* Of the vessels that there are: somebody is in time who was not, or the last core is there a minute earlier. */
static bool gains(const fv_carry_batch *run, const fv_carry_batch *now)
{
    return run->starved < now->starved || run->slowest + 60.0 <= now->slowest ||
           (isnan(now->slowest) && !isnan(run->slowest));
}

/* What could be done instead. For the vessels that there are it can be tried at once, where it is a change of values;
 * what hands and small work do stands above already, and what gains nothing is left out. */
static void propose_ways(asking *a, const fv_carry_answer *answer, const fv_carry_row *present)
{
    const fv_carry_row *asked = &answer->rows[answer->asked];
    const bool here = asked->added == 0, worked = present && report_carry_has(present, FV_CARRY_WORKED);
    for (size_t i = 0; i < answer->way_count; i++) {
        const fv_carry_way *way = &answer->ways[i];
        const bool able = here && way->change.count > 0 && !says_starts(a->plant); /* they are all started together */
        fv_text what = {0};
        if (here && (way->other == FV_CARRY_STAGGER || (worked && way->other == FV_CARRY_SMALL_WORK) ||
                     !gains(&way->run, &asked->together)))
            continue;
        report_carry_way(way, a->desk->options.units, &what);
        fv_text_add(&what, " for %zu vessels", asked->count);
        propose(a, keep(a, &what), last_core(a, way->run.slowest, here ? &asked->together.slowest : NULL),
                able                                   ? NULL
                : !here                                ? "to try it, add the vessel first, then ask again"
                : way->other == FV_CARRY_SECOND_BOILER ? "to try it, put a second boiler into the plant file"
                                                       : "to try it, write it over below, without later starts",
                able ? &way->change : NULL);
    }
}

static bool ask_carry(asking *a, fv_faults *faults)
{
    fv_carry_options options;
    fv_carry_defaults(&options);
    fv_carry_answer *answer = fv_carry_run(a->plant, &options, a->desk->options.progress, faults);
    if (!answer)
        return false;
    const report_frame frame = {.answer = answer, .units = a->desk->options.units};
    const fv_carry_row *present = answer->present >= 0 ? &answer->rows[answer->present] : NULL;
    report_carry_sentence(&frame, &a->sentence);
    if (present && report_carry_has(present, FV_CARRY_STAGGERED))
        propose(a, "starts one after the other", last_core(a, present->staggered.slowest, &present->together.slowest),
                NULL, &present->stagger);
    if (present && report_carry_has(present, FV_CARRY_THROTTLED))
        propose(a, "valves and starts by hand", last_core(a, present->throttled.slowest, &present->together.slowest),
                NULL, &present->throttle);
    if (present && report_carry_has(present, FV_CARRY_WORKED)) {
        fv_text what = {0};
        report_remedy(a->desk->options.units, answer->work, &what);
        propose(a, keep(a, &what), last_core(a, present->worked.slowest, &present->together.slowest), NULL,
                &present->work);
    }
    propose_ways(a, answer, present);
    fv_carry_free(answer);
    return true;
}

static bool ask_plan(asking *a, fv_faults *faults)
{
    fv_plan_options options;
    report_plan words;
    const fv_desk_options *o = &a->desk->options;
    const fv_report_options shown = {.units = o->units, .clock = o->clock, .twelve_hours = o->twelve_hours};
    fv_plan_defaults(&options);
    fv_plan_answer *answer = fv_plan_run(a->plant, &options, a->desk->options.progress, faults);
    if (!answer)
        return false;
    const bool made = report_plan_make(answer, &shown, &words);
    const report_frame frame = {.answer = &words};
    a->failed = !made;
    if (made)
        report_plan_sentence(&frame, &a->sentence);
    for (size_t i = 0; made && i < answer->row_count; i++) {
        const fv_plan_row *row = &answer->rows[i];
        fv_text what = {0}, effect = {0};
        if (row->change.count + row->change.action_count == 0)
            continue; /* as it is */
        fv_text_add(&what, "as planned: ");
        report_plan_name(&words, row, &what);
        fv_text_add(&effect, "%s%s", last_core(a, row->last, &answer->now.last),
                    row->unsafe > 0   ? ", with a boiler over its relief pressure or dry, or a lid that lifts"
                    : row->lifted > 0 ? ", with a lid that lifts, as now"
                                      : "");
        propose(a, keep(a, &what), keep(a, &effect),
                row->money > 0.0    ? report_plan_money(&words, row).text
                : isnan(row->money) ? "price not known"
                                    : "nothing to buy",
                &row->change);
    }
    report_plan_free(&words);
    fv_plan_free(answer);
    return true;
}

/* What is known too little to tell is measured, not tried. */
static bool ask_odds(asking *a, fv_faults *faults)
{
    fv_odds_options options;
    const fv_desk_options *o = &a->desk->options;
    fv_odds_defaults(&options);
    fv_odds_answer *answer = fv_odds_run(a->plant, &options, o->progress, faults);
    if (!answer)
        return false;
    const report_odds odds = {answer, {.start = o->clock, .twelve_hours = o->twelve_hours}};
    const report_frame frame = {.answer = &odds, .units = o->units};
    report_odds_sentence(&frame, &a->sentence);
    for (size_t i = 0; i < answer->unknown_count && a->count < MEASURES_MOST; i++) {
        fv_text what = {0}, effect = {0};
        if (report_odds_measure(answer, i, &what, &effect))
            propose(a, keep(a, &what), keep(a, &effect), NULL, NULL);
    }
    fv_odds_free(answer);
    return true;
}

static bool ask_week(asking *a, fv_faults *faults)
{
    fv_week_options options;
    report_week words;
    const fv_report_options shown = {.units = a->desk->options.units, .twelve_hours = a->desk->options.twelve_hours};
    fv_week_defaults(&options);
    fv_week_answer *answer = fv_week_answer_run(a->plant, &options, a->desk->options.progress, faults);
    if (!answer)
        return false;
    const bool made = report_week_make(answer, &shown, &words);
    const report_frame frame = {.answer = &words, .units = shown.units};
    a->failed = !made;
    if (made)
        report_week_sentence(&frame, &a->sentence);
    for (int more = 0; made && more < FV_WEEK_MORES; more++) {
        char buffer[PRINT_WORD_SIZE];
        fv_text effect = {0};
        if (!(answer->gain[more] > 0.0))
            continue;
        fv_text_add(&effect, "%s more a week", print_shown_as(shown.units, FV_SHOW_MASS, answer->gain[more]).text);
        propose(a, report_week_more(&words, (fv_week_more)more, buffer), keep(a, &effect), NULL, NULL);
    }
    if (a->count == 0 && answer->plan.kg > 0.0)
        fv_text_add(&a->sentence, " One vessel, person, hour or boiler more brings no more.");
    report_week_free(&words);
    fv_week_answer_free(answer);
    return true;
}

static const struct {
    const char *what;
    bool (*ask)(asking *a, fv_faults *faults);
} questions[] = {{"why", ask_why},   {"size", ask_size}, {"carry", ask_carry},
                 {"plan", ask_plan}, {"odds", ask_odds}, {"week", ask_week}};

fv_status desk_ask(fv_desk *desk, const char *what, fv_faults *faults)
{
    const fv_loc nowhere = {NULL, 0};
    size_t i = 0;
    while (i < sizeof questions / sizeof *questions && strcmp(questions[i].what, what ? what : "") != 0)
        i++;
    if (i == sizeof questions / sizeof *questions || desk_asks(desk) || desk->options.unanswered)
        return fv_error(faults, FV_ERR_INPUT, nowhere, "that cannot be asked here");
    asking a = {.desk = desk, .plant = desk->at_now.plant};
    const size_t known = fv_faults_count(faults);
    if (!questions[i].ask(&a, faults)) {
        if (fv_faults_count(faults) == known)
            fv_error(faults, FV_ERR_INPUT, nowhere, "that was stopped");
        return FV_FAIL;
    }
    const char *sentence = keep(&a, &a.sentence);
    fv_page_remedy *rows = fv_arena_alloc(desk->arena, a.count + 1, sizeof *rows);
    desk_change *changes = fv_arena_alloc(desk->arena, a.count + 1, sizeof *changes);
    if (a.failed || !sentence || !rows || !changes)
        return fv_error(faults, FV_ERR_SYSTEM, nowhere, "out of memory");
    memcpy(rows, a.rows, a.count * sizeof *rows);
    memcpy(changes, a.changes, a.count * sizeof *changes);
    desk->asked_changes = changes;
    desk->asked_version = desk->version;
    desk->asked_of_plant =
        (fv_page_asked){.what = questions[i].what, .sentence = sentence, .proposals = rows, .proposal_count = a.count};
    return FV_OK;
}

fv_status desk_try(fv_desk *desk, size_t proposal, fv_faults *faults)
{
    if (proposal < desk->asked_of_plant.proposal_count && desk->asked_changes[proposal].count > 0)
        return desk_add_change(desk, &desk->asked_changes[proposal], faults);
    return fv_error(faults, FV_ERR_INPUT, (fv_loc){NULL, 0}, "there is no such proposal");
}
