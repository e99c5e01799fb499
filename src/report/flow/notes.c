/* SPDX-License-Identifier: MIT */
/* Notes on a flow answer: results held against limits of practice. Nothing is computed, only compared. Where a limit
 * has no source it is common practice. What the model's own checks say at its line of the file (no relief pressure,
 * hole area against both published rules, a sag, a header too thin) is not repeated here. */
#include "report/flow/report.h"

#include "farvessel/constants.h"
#include "print/show.h"

#include <math.h>

#define HEATING_VELOCITY 25.0 /* m/s; low-pressure heating mains run at 8 to 25 m/s */
#define PROCESS_VELOCITY 60.0 /* m/s; upper end of process steam lines, 12 000 ft/min */
#define BACKWARD_VELOCITY 8.0 /* m/s; steam against condensate that runs back */
#define EVEN_HOLES 10.0       /* hole drop / change along the coil for 5 % between holes */
#define CHOKE_PRESSURE 0.5e5  /* Pa gauge; above it steam behind a choked end is superheated */
#define RELIEF_MARGIN 0.9     /* of the relief valve's setting */
#define NEAR_BOILING 2.0      /* K */

/* A predicate of the answer and the number of the part, `i`. */
#define IS(name, expression)                                                                                           \
    static bool name(const fv_flow_answer *answer, size_t i)                                                           \
    {                                                                                                                  \
        return expression;                                                                                             \
    }

/* ---- lines ---- */

static const fv_line_result *line(const fv_flow_answer *answer, size_t i)
{
    return &answer->state->lines[i];
}
IS(runs_back, fv_word(answer->plant->lines[i]->condensate) == FV_CONDENSATE_BACK)
IS(is_sag_blocked, line(answer, i)->blocked)
IS(is_bubbling, !line(answer, i)->blocked && fabs(line(answer, i)->drop_sag) > 0.0)
IS(is_condensing_all, line(answer, i)->condenses_all)
IS(is_choked, line(answer, i)->choked)
IS(is_hot_choked,
   line(answer, i)->choked &&fmax(line(answer, i)->pressure_from, line(answer, i)->pressure_to) > CHOKE_PRESSURE)
IS(is_racing, line(answer, i)->velocity > PROCESS_VELOCITY)
IS(is_fast, line(answer, i)->velocity > HEATING_VELOCITY && !is_racing(answer, i))
IS(is_fast_backward, runs_back(answer, i) && line(answer, i)->velocity > BACKWARD_VELOCITY)
IS(is_doubtful_line, line(answer, i)->doubtful)

/* ---- vessels ---- */

static const fv_vessel_result *vessel(const fv_flow_answer *answer, size_t i)
{
    return &answer->state->vessels[i];
}
IS(gets_steam, vessel(answer, i)->verdict != FV_SHUT_OFF && vessel(answer, i)->steam > 0.0)
IS(is_circulating, vessel(answer, i)->evenness < 0.0)
IS(is_over_bore, vessel(answer, i)->area_ratio > 1.0)
IS(is_uneven, gets_steam(answer, i) && vessel(answer, i)->hole_drop < EVEN_HOLES * vessel(answer, i)->coil_change)
static bool has_choked_holes(const fv_flow_answer *answer, size_t i)
{
    const fv_vessel_result *v = vessel(answer, i);
    for (size_t h = v->first_hole; h < v->first_hole + v->hole_count; h++)
        if (answer->state->holes[h].choked)
            return true;
    return false;
}
IS(gives_up, vessel(answer, i)->gas_out > 0.0 && vessel(answer, i)->vented == 0.0)
IS(draws_air, vessel(answer, i)->air_drawn_in > 0.0)
IS(is_doubtful_vessel, vessel(answer, i)->doubtful)
IS(has_correlated_holes, vessel(answer, i)->cd_from_correlation)
static bool is_near_boiling(const fv_flow_answer *answer, size_t i)
{
    fv_value target = answer->plant->vessels[i]->target;
    return fv_is_set(target) && target.v > answer->state->boiling_point - NEAR_BOILING;
}

/* ---- boilers ---- */

static const fv_boiler_result *boiler(const fv_flow_answer *answer, size_t i)
{
    return &answer->state->boilers[i];
}
IS(has_no_relief, !fv_is_set(answer->plant->boilers[i]->relief))
IS(is_relieving, !has_no_relief(answer, i) && boiler(answer, i)->pressure >= answer->plant->boilers[i]->relief.v)
IS(is_near_relief, !has_no_relief(answer, i) && !is_relieving(answer, i) &&
                       boiler(answer, i)->pressure > RELIEF_MARGIN * answer->plant->boilers[i]->relief.v)
static bool is_over_equipment(const fv_flow_answer *answer, size_t i)
{
    double p = boiler(answer, i)->pressure;
    return p > FV_PRESSURE_EQUIPMENT && p <= FV_LOW_PRESSURE;
}
IS(is_over_low_pressure, boiler(answer, i)->pressure > FV_LOW_PRESSURE)
IS(is_by_size, boiler(answer, i)->shares_by_size)
IS(is_pressed_shut, boiler(answer, i)->state == FV_BOILER_BLOCKED)

/* ---- the table of notes, in the order in which they are printed ---- */

typedef enum { LINES, VESSELS, BOILERS } group;
typedef struct {
    group group;
    const char *id;
    bool (*is)(const fv_flow_answer *answer, size_t i);
    double limit; /* m/s; above 0: the note begins with "over <limit>" */
    const char *text;
} rule;

static const rule rules[] = {
    {BOILERS, "relief_opens", is_relieving, 0,
     "the pressure reaches the relief valve's setting: it blows, and the steam is lost to the vessels."},
    {BOILERS, "relief_near", is_near_relief, 0, "within a tenth of the relief valve's setting; it may simmer."},
    {BOILERS, "pressure_equipment", is_over_equipment, 0,
     "over 0.5 bar above the air: directive 2014/68/EU on pressure equipment applies in Europe."},
    {BOILERS, "pressure_high", is_over_low_pressure, 0,
     "over 15 psi above the air: no low-pressure boiler any more (ASME BPVC Section IV ends there)."},
    {BOILERS, "pressed_shut", is_pressed_shut, 0,
     "the pressure of the other boilers keeps its non-return valve shut; it gives nothing."},
    {BOILERS, "shares_by_size", is_by_size, 0,
     "hold the same pressure at one point, which leaves their shares open; shared here by size."},
    {LINES, "sag_blocks", is_sag_blocked, 0,
     "the water in the sag holds back all steam; the pressure does not lift it. Lay the hose with a steady fall, or "
     "drain it."},
    {LINES, "sag_bubbles", is_bubbling, 0,
     "steam bubbles through the water in the sag and pays its whole head; with less fire it may stop."},
    {LINES, "condenses_all", is_condensing_all, 0, "all steam condenses on the way; only water arrives."},
    {LINES, "choked", is_choked, 0, "choked: only more pressure before it would pass more, not less after it."},
    {LINES, "choked_superheat", is_hot_choked, 0,
     "over 0.5 bar before a choked end, the steam after it is superheated and some percent lighter than assumed "
     "here."},
    {LINES, "velocity_process", is_racing, PROCESS_VELOCITY,
     "; no process line is made for that. A wider bore is due."},
    {LINES, "velocity_heating", is_fast, HEATING_VELOCITY,
     ", the upper end of heating practice; noisy, and most of the pressure goes there."},
    {LINES, "velocity_backward", is_fast_backward, BACKWARD_VELOCITY,
     " while condensate runs back against the steam; it may be held up and bang."},
    {VESSELS, "gives_up", gives_up, 0,
     "gets no steam that it could vent: what leaves its openings is air, and moisture that load and walls give up."},
    {VESSELS, "draws_air", draws_air, 0, "air is drawn in at an opening; it cools the lowest pieces."},
    {VESSELS, "hole_draws_in", is_circulating, 0,
     "some holes draw chamber gas into the coil instead of giving steam; too much hole area for this bore."},
    {VESSELS, "holes_choked", has_choked_holes, 0,
     "holes at the speed of sound: only more pressure in the coil passes more; the jets are loud and cut."},
    {VESSELS, "area_circulation", is_over_bore, 0,
     "total hole area above the bore: the flow in the coil may have several solutions; the one without circulation is "
     "given."},
    {VESSELS, "uneven_holes", is_uneven, 0,
     "drop across the holes below ten times the pressure change along the coil: the holes differ by more than about "
     "5 %. A wider coil, or fewer or smaller holes, evens them out."},
    {VESSELS, "near_boiling", is_near_boiling, 0,
     "the target lies within 2 K of the boiling point here, or above it: the time to reach it swings with the "
     "weather, and it may never be reached."},
    {LINES, "doubtful_line", is_doubtful_line, 0,
     "a correlation is used outside the range it was published for; take the figures with care."},
    {VESSELS, "doubtful_vessel", is_doubtful_vessel, 0,
     "a correlation for the coil or its holes is used outside the range it was published for."},
    {VESSELS, "hole_coefficient", has_correlated_holes, 0,
     "hole coefficients come from a correlation; 10 % there moves the split by 1 to 20 %. Measure once and fix `cd`."},
};

static size_t size_of(const fv_steady_result *state, group group)
{
    const size_t sizes[] = {state->line_count, state->vessel_count, state->boiler_count};
    return sizes[group];
}

static const char *name_of(const fv_plant *plant, group group, size_t i)
{
    switch (group) {
    case LINES:
        return plant->lines[i]->part.id;
    case VESSELS:
        return plant->vessels[i]->part.id;
    default:
        return plant->boilers[i]->part.id;
    }
}

/* One note about all parts that the rule picks; none when it picks none. */
static void apply(const rule *rule, const fv_flow_answer *answer, fv_unit_system units, print_notes *notes)
{
    static const char *const all[] = {"all lines", "all vessels", "all boilers"};
    const size_t size = size_of(answer->state, rule->group);
    bool begun = false;
    for (size_t i = 0; i < size; i++) {
        if (!rule->is(answer, i))
            continue;
        if (!begun && rule->limit > 0.0)
            print_note_add(notes, rule->id, "over %s%s", print_shown_brief(units, FV_SHOW_VELOCITY, rule->limit).text,
                           rule->text);
        else if (!begun)
            print_note_add(notes, rule->id, "%s", rule->text);
        begun = true;
        print_note_part(notes, name_of(answer->plant, rule->group, i));
    }
    print_names *parts = begun && !notes->failed ? &notes->notes[notes->count - 1].parts : NULL;
    if (parts && parts->count == size && size > 2)
        parts->all = all[rule->group];
}

/* ---- the calculation itself ---- */

static print_shown fires(const fv_flow_answer *answer, size_t row)
{
    return print_shown_said(FV_METRIC, FV_SHOW_SHARE, answer->turndown[row].fire);
}

static void note_turndown(const fv_flow_answer *answer, print_notes *notes)
{
    for (size_t i = 0; i < answer->turndown_count; i++)
        if (answer->turndown[i].given_up)
            print_note_add(notes, "turndown_given_up",
                           "%s fire is left out, for so large a plant would take long to solve there: `flow --fire "
                           "\"%s\" --no-turndown` works it out alone.",
                           fires(answer, i).text, fires(answer, i).text);
        else if (!answer->turndown[i].state)
            print_note_add(notes, "turndown_unsolved", "No solution was found at %s fire.", fires(answer, i).text);
}

static void note_dropout(const fv_flow_answer *answer, print_notes *notes)
{
    if (answer->dropout_unsolved)
        print_note_add(notes, "dropout_unsolved",
                       "Lowering the fire met a setting that was not solved, so who drops out first is not known.");
}

void report_flow_notes(const report_frame *frame, print_notes *notes)
{
    const fv_flow_answer *answer = frame->answer;
    for (size_t i = 0; i < sizeof rules / sizeof *rules; i++)
        apply(&rules[i], answer, frame->units, notes);
    note_turndown(answer, notes);
    note_dropout(answer, notes);
    if (answer->plant->thermostat_count > 0)
        print_note_add(notes, "thermostat",
                       "One moment knows of no thermostat: fires and valves stand as the file says, for the least "
                       "fire, too, and who is on one is unsettled. `farvessel heat` follows what it turns.");
    print_note_sources(answer->plant, notes);
}
