/* SPDX-License-Identifier: MIT */
/* The answer in plain words: who is starved at this moment, by how much, and how the best-fed fares. */
#include "report/flow/report.h"
#include "print/show.h"

#include <math.h>

typedef struct {
    size_t open;             /* vessels that are not shut */
    size_t starved, lagging; /* among them, of those that this moment settles */
    size_t open_to_heat;     /* among them: it does not settle, */
    size_t first_open;       /* and the first of these */
    size_t judged;           /* settled, and its need is known */
    size_t worst, best;      /* by the time to the core against that allowed, or by heat against need */
    size_t most_steam, least_steam;
} survey;

/* Time that the core takes over the time allowed, as predicted; of a vessel that holds, need over heat. */
static double behind(const fv_flow_answer *answer, size_t i)
{
    const fv_vessel_result *v = &answer->state->vessels[i];
    return v->core_in > 0 ? v->core_in / answer->plant->vessels[i]->within.v : v->need / v->heat;
}

/* Where no core arrives in what was looked at, heat tells who is worse off. */
static bool is_worse(const fv_flow_answer *answer, size_t one, size_t other)
{
    const double a = behind(answer, one), b = behind(answer, other);
    const fv_vessel_result *v = answer->state->vessels;
    return a > b || (!(a < b) && v[one].heat * v[other].need < v[other].heat * v[one].need);
}

/* Of vessels whose target no steam reaches enough was said before. */
static survey look(const fv_flow_answer *answer)
{
    const fv_steady_result *state = answer->state;
    survey s = {0};
    for (size_t i = 0; i < state->vessel_count; i++) {
        const fv_vessel_result *v = &state->vessels[i];
        if (v->verdict == FV_SHUT_OFF || answer->plant->vessels[i]->target.v >= state->boiling_point)
            continue;
        if (s.open == 0)
            s.most_steam = s.least_steam = i;
        s.most_steam = v->steam > state->vessels[s.most_steam].steam ? i : s.most_steam;
        s.least_steam = v->steam < state->vessels[s.least_steam].steam ? i : s.least_steam;
        s.open++;
        if (v->unsettled) {
            s.first_open = s.open_to_heat++ == 0 ? i : s.first_open;
            continue;
        }
        s.starved += v->verdict == FV_STARVED;
        s.lagging += v->verdict == FV_LAGGING;
        if (!(v->need > 0.0))
            continue;
        if (s.judged == 0)
            s.worst = s.best = i;
        s.worst = is_worse(answer, i, s.worst) ? i : s.worst;
        s.best = is_worse(answer, s.best, i) ? i : s.best;
        s.judged++;
    }
    return s;
}

static const char *name(const fv_flow_answer *answer, size_t vessel)
{
    return answer->plant->vessels[vessel]->part.id;
}

static void add_heat(double heat, fv_unit_system units, fv_text *out)
{
    fv_text_add(out, "%s", heat > 0.0 ? print_shown_as(units, FV_SHOW_POWER, heat).text : "nothing");
}

/* "2.1 kW of the 5.2 kW that 12 h needs" */
static void add_lack(const fv_flow_answer *answer, size_t vessel, fv_unit_system units, fv_text *out)
{
    const fv_vessel_result *v = &answer->state->vessels[vessel];
    add_heat(v->heat, units, out);
    fv_text_add(out, " of the %s that ", print_shown_as(units, FV_SHOW_POWER, v->need).text);
    if (report_vessel_phase(answer, vessel) == FV_PHASE_HOLDING)
        fv_text_add(out, "holding takes");
    else
        fv_text_add(out, "%s needs", print_shown_time(answer->plant->vessels[vessel]->within.v).text);
}

/* "6.9 kW where 12 h needs 5.2 kW" */
static void add_plenty(const fv_flow_answer *answer, size_t vessel, fv_unit_system units, fv_text *out)
{
    const fv_vessel_result *v = &answer->state->vessels[vessel];
    fv_text_add(out, "%s where ", print_shown_as(units, FV_SHOW_POWER, v->heat).text);
    if (report_vessel_phase(answer, vessel) == FV_PHASE_HOLDING)
        fv_text_add(out, "holding takes ");
    else
        fv_text_add(out, "%s needs ", print_shown_time(answer->plant->vessels[vessel]->within.v).text);
    fv_text_add(out, "%s", print_shown_as(units, FV_SHOW_POWER, v->need).text);
}

/* The boiler that is the last to run dry; -1: one gives steam for as long as the fire burns. */
static int last_dry(const fv_steady_result *state)
{
    int last = -1;
    for (size_t i = 0; i < state->boiler_count; i++) {
        if (state->boilers[i].state != FV_BOILER_OFF && isnan(state->boilers[i].dry_in))
            return -1;
        if (state->boilers[i].state != FV_BOILER_OFF &&
            (last < 0 || state->boilers[i].dry_in > state->boilers[last].dry_in))
            last = (int)i;
    }
    return last;
}

/* How long its core takes, or the water lasts, where heat alone does not tell. */
static void add_slow(const fv_flow_answer *answer, size_t vessel, fv_text *out)
{
    const fv_vessel_result *v = &answer->state->vessels[vessel];
    const bool arrives = isfinite(v->core_in) && v->core_in > 0;
    const int dry = last_dry(answer->state);
    if (v->heat < v->need)
        return;
    if (!arrives && dry >= 0)
        fv_text_add(out, ", but %s is dry after %s", answer->plant->boilers[dry]->part.id,
                    print_shown_time(answer->state->boilers[dry].dry_in).text);
    else
        fv_text_add(out, ", and its core takes %s",
                    arrives ? print_shown_time(v->core_in).text : "far longer all the same");
}

static void add_best(const fv_flow_answer *answer, const survey *s, fv_unit_system units, fv_text *out)
{
    if (s->best != s->worst)
        fv_text_add(out, "; %s gets %s", name(answer, s->best),
                    print_shown_as(units, FV_SHOW_POWER, answer->state->vessels[s->best].heat).text);
}

static void add_all(size_t count, fv_text *out)
{
    if (count == 2)
        fv_text_add(out, "Both vessels are");
    else
        fv_text_add(out, "All %zu vessels are", count);
}

static void say_starved(const fv_flow_answer *answer, const survey *s, fv_unit_system units, fv_text *out)
{
    const char *worst = name(answer, s->worst);
    if (s->starved == s->open && s->open > 1) {
        add_all(s->open, out);
        fv_text_add(out, " starved at this moment: %s gets ", worst);
    } else if (s->starved == 1)
        fv_text_add(out, "%s is starved at this moment: it gets ", worst);
    else
        fv_text_add(out, "%zu of %zu vessels are starved at this moment: %s gets ", s->starved, s->open, worst);
    if (answer->state->vessels[s->worst].heat < answer->state->vessels[s->worst].need)
        add_lack(answer, s->worst, units, out);
    else
        add_plenty(answer, s->worst, units, out);
    add_slow(answer, s->worst, out);
    add_best(answer, s, units, out);
}

static void say_fed(const fv_flow_answer *answer, const survey *s, fv_unit_system units, fv_text *out)
{
    const char *worst = name(answer, s->worst);
    if (s->lagging > 0)
        fv_text_add(out, "No vessel is starved at this moment, but %s lags: it gets ", worst);
    else if (s->judged == 1)
        fv_text_add(out, "%s is fed at this moment: it gets ", worst);
    else {
        if (s->open_to_heat > 0)
            fv_text_add(out, "%zu of %zu vessels are", s->judged, s->open);
        else
            add_all(s->open, out);
        fv_text_add(out, " fed at this moment: the one with the least to spare, %s, gets ", worst);
    }
    if (answer->state->vessels[s->worst].heat < answer->state->vessels[s->worst].need)
        add_lack(answer, s->worst, units, out);
    else
        add_plenty(answer, s->worst, units, out);
    if (s->lagging > 0)
        add_best(answer, s, units, out);
}

static void say_split(const fv_flow_answer *answer, const survey *s, fv_unit_system units, fv_text *out)
{
    const fv_vessel_result *vessels = answer->state->vessels;
    if (s->open == 1) {
        fv_text_add(out, "%s gets %s of steam", name(answer, s->most_steam),
                    print_shown_as(units, FV_SHOW_STEAM, vessels[s->most_steam].steam).text);
        return;
    }
    fv_text_add(out, "%s gets the most steam, %s, and %s the least, %s", name(answer, s->most_steam),
                print_shown_as(units, FV_SHOW_STEAM, vessels[s->most_steam].steam).text, name(answer, s->least_steam),
                print_shown_as(units, FV_SHOW_STEAM, vessels[s->least_steam].steam).text);
}

/* Those that this moment does not settle. */
static void say_open(const fv_flow_answer *answer, const survey *s, fv_text *out)
{
    if (s->open_to_heat == 1)
        fv_text_add(out, "%s cannot be told from one moment: ask heat", name(answer, s->first_open));
    else
        fv_text_add(out, "%zu of %zu vessels cannot be told from one moment: ask heat", s->open_to_heat, s->open);
}

static bool is_dark(const fv_steady_result *state)
{
    for (size_t i = 0; i < state->boiler_count; i++)
        if (state->boilers[i].state != FV_BOILER_OFF)
            return false;
    return true;
}

void report_flow_sentence(const report_frame *frame, fv_text *out)
{
    const fv_flow_answer *answer = frame->answer;
    survey s = look(answer);
    if (is_dark(answer->state))
        fv_text_add(out, "The fire is out: no vessel gets steam");
    else if (s.open == 0)
        fv_text_add(out, "No vessel is open to the steam");
    else if (s.judged == 0 && s.open_to_heat == 0)
        say_split(answer, &s, frame->units, out);
    else if (s.starved > 0)
        say_starved(answer, &s, frame->units, out);
    else if (s.judged > 0)
        say_fed(answer, &s, frame->units, out);
    if (s.open_to_heat > 0) {
        fv_text_add(out, "%s", s.judged > 0 ? "; " : "");
        say_open(answer, &s, out);
    }
    fv_text_add(out, ".");
}

static bool any_has_enough(const fv_steady_result *state)
{
    for (size_t i = 0; i < state->vessel_count; i++)
        if (state->vessels[i].verdict == FV_FED || state->vessels[i].verdict == FV_LAGGING)
            return true;
    return false;
}

static void say_dropout(const fv_flow_answer *answer, fv_unit_system units, fv_text *out)
{
    if (answer->dropout_unsolved) {
        fv_text_add(out, "Who drops out first was not found: some setting in between was not solved.");
        return;
    }
    if (answer->dropout_vessel < 0 || isnan(answer->dropout_fire)) {
        fv_text_add(out, "%s",
                    any_has_enough(answer->state) ? "No vessel that is fed or lagging now drops out, down to 5 % fire."
                                                  : "None has enough even now, so none drops out.");
        return;
    }
    size_t vessel = (size_t)answer->dropout_vessel;
    fv_text_add(out, "%s drops out first: from %s fire down (%s of boiler output) it gets less than its need, ",
                name(answer, vessel), print_shown_as(units, FV_SHOW_SHARE, answer->dropout_fire).text,
                print_shown_as(units, FV_SHOW_POWER, answer->dropout_output).text);
    fv_text_add(out, "%s.", print_shown_as(units, FV_SHOW_POWER, answer->state->vessels[vessel].need).text);
}

/* The least fire for the hold; the same figure wherever turning down is spoken of. */
static void say_least_fire(const fv_flow_answer *answer, fv_unit_system units, fv_text *out)
{
    const fv_least_fire *hold = &answer->hold;
    if (hold->unsolved) {
        fv_text_add(out, " The least fire for the hold was not found: some setting in between was not solved.");
    } else if (!isnan(hold->fire)) {
        fv_text_add(out,
                    " To hold all at their targets, walls soaked through, takes %s fire (%s); below it the chamber ",
                    print_shown_as(units, FV_SHOW_SHARE, hold->fire).text,
                    print_shown_as(units, FV_SHOW_POWER, hold->output).text);
        fv_text_add(out, "of %s falls under its target first.", name(answer, (size_t)hold->vessel));
    } else if (hold->vessel >= 0) {
        fv_text_add(out, " Not even this fire holds %s at its target for long.", name(answer, (size_t)hold->vessel));
    } else if (any_has_enough(answer->state)) {
        fv_text_add(out, " 5 %% fire still holds all at their targets.");
    }
}

void report_dropout_sentence(const fv_flow_answer *answer, fv_unit_system units, fv_text *out)
{
    say_dropout(answer, units, out);
    say_least_fire(answer, units, out);
}
