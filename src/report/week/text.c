/* SPDX-License-Identifier: MIT */
/* The week answer as a screen: the sentence, the timetable, batches, one more of each, and what was assumed. */
#include "report/week/report.h"
#include "print/cautions.h"
#include "print/screen.h"

#include <math.h>

static const fv_week_answer *of(const report_frame *frame)
{
    return ((const report_week *)frame->answer)->answer;
}

static const char *mass(const report_frame *frame, double kg, print_shown *shown)
{
    *shown = print_shown_as(frame->units, FV_SHOW_MASS, kg);
    return shown->text;
}

static size_t pieces_of(const fv_week_answer *a)
{
    size_t pieces = 0;
    for (size_t i = 0; i < a->plan.entry_count; i++)
        if (a->plan.entries[i].what == FV_TASK_LIGHT)
            pieces += a->runs[a->plan.entries[i].vessel].pieces;
    return pieces;
}

static void say_wish(const report_frame *frame, fv_text *out)
{
    const fv_week_answer *a = of(frame);
    const fv_value wish = a->plant->work.wish;
    print_shown shown, missing;
    if (!fv_is_set(wish))
        return;
    if (a->plan.kg >= wish.v)
        fv_text_add(out, " The %s that are wished for are met.", mass(frame, wish.v, &shown));
    else
        fv_text_add(out, " Of the %s that are wished for, %s are missing.", mass(frame, wish.v, &shown),
                    mass(frame, wish.v - a->plan.kg, &missing));
}

static bool is_rest(const fv_week_answer *a)
{
    return a->now > 0;
}

static const char *when(const report_frame *frame, double s, char *buffer, size_t size)
{
    return report_week_when(frame->answer, s, buffer, size);
}

/* Of the rest of a week: what it still brings, and the batch on the steam. */
static void say_rest(const report_frame *frame, fv_text *out)
{
    const fv_week_answer *a = of(frame);
    const fv_week_now *now = &a->options.now;
    const double lit = now->at - now->burning;
    char at[24], half[24], sure[24];
    print_shown kg, usual;
    fv_text_add(out, "From %s on this week lights ", when(frame, now->at, at, sizeof at));
    if (a->plan.batches == 0)
        fv_text_add(out, "nothing more");
    else
        fv_text_add(out, "%s in %zu batch%s", mass(frame, a->plan.kg, &kg), a->plan.batches,
                    a->plan.batches == 1 ? "" : "es");
    fv_text_add(out, ", where its timetable had %s.", mass(frame, a->usual, &usual));
    if (now->steam[1] <= now->burning)
        fv_text_add(out, " The batch that was on the steam is done.");
    else
        fv_text_add(out, " The batch on the steam is done by %s, nine times in ten by %s.",
                    when(frame, lit + now->steam[0], half, sizeof half),
                    when(frame, lit + now->steam[1], sure, sizeof sure));
    if (!isnan(a->left_alone))
        fv_text_add(out,
                    " Nobody is there from %s on: somebody stays until its steam is shut, or shuts the fire by then "
                    "and treats it again.",
                    when(frame, a->left_alone, at, sizeof at));
}

/* "With an hour more in the evening it would be 600 kg a week.": of all that is asked, what gains most. */
static void say_what_would(const report_frame *frame, fv_text *out)
{
    const fv_week_answer *a = of(frame);
    char buffer[PRINT_WORD_SIZE];
    print_shown kg;
    int best = -1;
    for (int i = 0; i < FV_WEEK_MORES; i++)
        if (a->gain[i] > (best < 0 ? 0.0 : a->gain[best]))
            best = i;
    if (best >= 0)
        fv_text_add(out, " With %s it would be %s a week.", report_week_more(frame->answer, (fv_week_more)best, buffer),
                    mass(frame, a->gain[best], &kg));
}

/* The sentence where nothing can be treated: the first batch's reason, or who is missing. */
static void say_nothing(const report_frame *frame, fv_text *out)
{
    const fv_week_answer *a = of(frame);
    for (size_t k = 1; k <= fv_week_batches(&a->problem); k++)
        if (a->runs[k].works) {
            fv_text_add(out,
                        "Nothing can be treated in these hours: a batch takes %s from lighting until its steam is "
                        "shut, and nobody is there so long.",
                        print_shown_time(ceil(a->runs[k].steam_end / 60.0) * 60.0).text);
            say_what_would(frame, out);
            return;
        }
    fv_text_add(out, "Nothing can be treated as the plant is: even alone %s.", a->runs[1].why);
}

/* "... holds about 87 times in 100": whole hundredths, never all or none. */
static void say_odds(const fv_week_answer *a, fv_text *out)
{
    const double hundredths = fmin(99, fmax(1, round(100.0 * a->odds.holds)));
    fv_text_add(out, " Each batch is planned at the time that 9 of 10 keep; so %s holds about %.0f times in 100%s.",
                is_rest(a) ? "what is left of the week" : "the week", hundredths,
                isnan(a->left_alone) ? "" : " if somebody stays");
}

void report_week_sentence(const report_frame *frame, fv_text *out)
{
    const fv_week_answer *a = of(frame);
    print_shown kg, most;
    if (is_rest(a)) {
        say_rest(frame, out);
        if (a->odds.weeks > 0)
            say_odds(a, out);
        return;
    }
    if (a->plan.kg <= 0.0) {
        say_nothing(frame, out);
        return;
    }
    const size_t pieces = pieces_of(a);
    fv_text_add(out, "You treat %s", mass(frame, a->plan.kg, &kg));
    if (pieces > 0)
        fv_text_add(out, " (%zu pieces)", pieces);
    fv_text_add(out, " a week in %zu batch%s.", a->plan.batches, a->plan.batches == 1 ? "" : "es");
    say_wish(frame, out);
    if (a->plan.bound[a->plan.limit] <= a->plan.kg * (1.0 + 1e-9))
        fv_text_add(out, " No timetable treats more.");
    else
        fv_text_add(out, " No timetable can treat more than %s.", mass(frame, a->plan.bound[a->plan.limit], &most));
    if (a->odds.weeks > 0)
        say_odds(a, out);
}

/* What happens most often where something slips. */
static const char *worst_slip(const fv_week_answer *a)
{
    static const char *const words[FV_WEEK_SLIPS] = {"the boiler still burns for one batch when the next should be lit",
                                                     "a vessel's steam is still on when it should be taken off",
                                                     "a vessel is still warm when it should be emptied",
                                                     "people's hours end before the batch may be left alone"};
    size_t worst = 0;
    for (size_t k = 1; k < FV_WEEK_SLIPS; k++)
        if (a->odds.slips[k] > a->odds.slips[worst])
            worst = k;
    return a->odds.slips[worst] > 0.0 ? words[worst] : NULL;
}

void report_week_lead(const report_frame *frame, fv_text *out)
{
    const fv_week_answer *a = of(frame);
    fv_text line = {0};
    const double gone = is_rest(a) ? a->options.now.at / 3600.0 : 0.0;
    if (a->plant->title)
        fv_text_add(&line, "%s: ", a->plant->title);
    fv_text_add(
        &line,
        "%zu place%s, %zu vessel%s; the boiler burns %.0f of %s%.0f h; %.1f of the %.0f hours of people who are "
        "there are work. Each batch is lit on a cold boiler.",
        a->problem.places, a->problem.places == 1 ? "" : "s", a->problem.vessels, a->problem.vessels == 1 ? "" : "s",
        (double)a->plan.steam_slots * a->options.slot / 3600.0, is_rest(a) ? "the next " : "", 168.0 - gone,
        a->work_hours, a->there_hours);
    print_say(out, "", &line);
}

void report_week_table(const report_frame *frame, fv_text *out)
{
    report_frame_table(frame, WEEK_GROUPS, is_rest(of(frame)) ? "What is left to do this week" : "A week that repeats",
                       out);
}

void report_week_times(fv_unit_system units, fv_text *out)
{
    fv_text_add(out,
                "Hours:minutes from lighting the fire: the last core is at its target; the last steam is shut; all "
                "loads are cool enough to inoculate, or on their shelves. No time says that a vessel is safe to "
                "open: ");
    print_safe_to_open(units, out);
    fv_text_add(out, ".");
}

void report_week_details(const report_frame *frame, fv_text *out)
{
    report_frame_table(frame, WEEK_BATCHES, "A batch, by the vessels on the steam", out);
    fv_text words = {0};
    report_week_times(frame->units, &words);
    print_say(out, "  ", &words);
    if (of(frame)->odds.runs > 0)
        report_frame_table(frame, WEEK_SPREAD, "Batches as they might turn out", out);
    if (of(frame)->plan.kg > 0.0 && !is_rest(of(frame)))
        report_frame_table(frame, WEEK_GAINS, "One more of each", out);
}

static bool said(const fv_work *work, fv_task_kind what)
{
    for (size_t i = 0; i < work->task_count; i++)
        if (fv_word(work->tasks[i]->what) == (int)what)
            return true;
    return false;
}

static void note_unsaid(const fv_week_answer *a, print_notes *notes)
{
    static const char *const words[] = {"fill", "hang-on", "light", "take-off", "empty"};
    fv_text unsaid = {0};
    for (size_t k = 0; k < sizeof words / sizeof *words; k++)
        if (!said(&a->plant->work, (fv_task_kind)k) && (k != FV_WORK_TAKE_OFF || a->problem.taken_off))
            fv_text_add(&unsaid, "%s%s", unsaid.length ? ", " : "", words[k]);
    notes->failed = notes->failed || unsaid.failed;
    if (unsaid.length > 0)
        print_note_add(notes, "tasks_unsaid", "No <task> says how long these take: %s. They count as no time.",
                       unsaid.text);
    fv_text_free(&unsaid);
}

/* Where vessels are not alike: how batches were found, and which vessels are in none. */
static void note_kinds(const fv_week_answer *a, print_notes *notes)
{
    bool lit[FV_WEEK_KINDS_MOST] = {false}, all = true;
    if (a->problem.kind_count < 2)
        return;
    print_note_add(
        notes, "week_kinds",
        "Vessels are of %zu kinds by load, target, hold and cooling; each is hung on where its kind stands in "
        "the file, and alike ones take turns. %zu ways to put them together were followed%s. A batch's "
        "vessels are counted as cool when its last one is.",
        a->problem.kind_count, a->problem.batch_count,
        a->chosen ? ", those of whole kinds and of few or nearly all kinds, out of more that there are" : "");
    for (size_t i = 0; i < a->plan.entry_count; i++)
        for (size_t k = 0; a->plan.entries[i].what == FV_TASK_LIGHT && k < a->problem.kind_count; k++)
            lit[k] = lit[k] || a->problem.batch[a->plan.entries[i].vessel].of[k] > 0;
    for (size_t k = 0; k < a->problem.kind_count; k++)
        all = all && lit[k];
    if (all || is_rest(a) || a->plan.kg <= 0.0)
        return;
    print_note_add(notes, "week_left_out",
                   "in no batch of this week: the steam treats more in the others. Ask week of a file without those "
                   "where it must be treated, too.");
    for (size_t i = 0; i < a->plant->vessel_count; i++)
        if (!lit[a->kind_of[i]])
            print_note_part(notes, a->plant->vessels[i]->part.id);
}

void report_week_notes(const report_frame *frame, print_notes *notes)
{
    const fv_week_answer *a = of(frame);
    const fv_work *work = &a->plant->work;
    note_kinds(a, notes);
    note_unsaid(a, notes);
    if (fv_word(work->unattended) != FV_UNATTENDED_NOTHING && fv_word(work->fire) == 0)
        print_note_add(
            notes, "fire_attended",
            "A fire is never left alone here: somebody is there until the last steam is shut, whatever else may "
            "run by itself.");
    if (fv_word(work->fire) == 1 && fv_word(work->unattended) != FV_UNATTENDED_NOTHING)
        print_note_add(
            notes, "fire_unattended",
            "The file lets a boiler burn with nobody there. Whether that is allowed, and what low-water cut-off, "
            "alarms and supervision it takes, local codes and the boiler's maker say; this plan does not.");
    if (a->odds.weeks > 0) {
        const char *slip = worst_slip(a);
        print_note_add(notes, "week_odds",
                       "%zu runs of each batch, %zu weeks of them. A plant that is slower than predicted is so "
                       "in each batch of a week; air and load differ from day to day. %s%s%sNot counted: a coil that "
                       "clogs, a lid left open, somebody who is late, a fault of the model.",
                       a->odds.runs, a->odds.weeks, slip ? "What slips most: " : "", slip ? slip : "",
                       slip ? ". " : "");
    }
    if (is_rest(a))
        print_note_add(
            notes, "week_rest",
            "The batch on the steam is the %zu vessel%s that the log follows; where the others stand is what "
            "the timetable says of the time when it was lit. Of what is lit late in the week, some is "
            "emptied after it.%s",
            fv_week_batch_vessels(&a->problem, a->now), fv_week_batch_vessels(&a->problem, a->now) == 1 ? "" : "s",
            a->odds.weeks > 0 ? " In the odds it ends as the log predicts, the batches after it as the plant of the "
                                "file may have them: what the log taught of the plant is not carried on to them."
                              : "");
    print_note_add(
        notes, "week_method",
        "Tasks begin on a grid of %s, rounded up. Each batch was followed alone from cold vessels; vessels still "
        "warm from the batch before heat a little faster. %zu timetables were looked at%s.",
        print_shown_time(a->options.slot).text, a->plan.tried,
        a->plan.every ? ": every order of batches, each task as soon as hands are free" : "");
}
