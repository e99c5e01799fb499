/* SPDX-License-Identifier: MIT */
/* What can be chosen: sizes of the stock list or, where it has none, the common ones, and ladders of usual numbers and
 * spacings of holes. */
#include "study/size/parts.h"
#include "study/sizes.h"

#include <math.h>
#include <stdlib.h>

static const double SAME = 1e-9; /* of a size */
/* Common practice, no source. */
static const double numbers[] = {8, 10, 12, 16, 20, 24, 30, 36, 40, 48, 60, 72, 80, 96, 120};
static const double spacings[] = {0.025, 0.03, 0.04, 0.05, 0.06, 0.075, 0.1, 0.125, 0.15};
#define COUNT(list) (sizeof(list) / sizeof *(list))

const char *fv_size_part_word(fv_size_part part)
{
    static const char *const words[] = {"drill", "holes", "spacing", "coil", "hose", "header", "work"};
    return words[part];
}

static fv_stock_kind stock_of(fv_size_part part)
{
    static const fv_stock_kind kinds[] = {[FV_SIZE_DRILL] = FV_STOCK_DRILL,
                                          [FV_SIZE_COIL] = FV_STOCK_COIL,
                                          [FV_SIZE_HOSE] = FV_STOCK_HOSE,
                                          [FV_SIZE_HEADER] = FV_STOCK_HEADER};
    return kinds[part];
}

static bool is_ladder(fv_size_part part)
{
    return part == FV_SIZE_HOLES || part == FV_SIZE_SPACING;
}

static size_t member_count(const fv_plant *plant, fv_size_part part)
{
    return size_is_of_lines(part) ? plant->line_count : plant->vessel_count;
}

static bool is_member(const fv_plant *plant, fv_size_part part, size_t i)
{
    switch (part) {
    case FV_SIZE_HOSE:
        return plant->lines[i]->kind == FV_LINE_HOSE;
    case FV_SIZE_HEADER:
        return plant->lines[i]->kind == FV_LINE_HEADER;
    case FV_SIZE_HOLES:
    case FV_SIZE_SPACING:
        return plant->vessels[i]->coil.hole_count == 0;
    default:
        return true;
    }
}

/* Does this dimension vary the coil of vessel i, or line i? */
static bool concerns(const fv_plant *plant, const fv_size_dimension *dimension, size_t i)
{
    return (dimension->which < 0 || (size_t)dimension->which == i) && is_member(plant, dimension->part, i);
}

static bool has_members(const fv_plant *plant, fv_size_part part)
{
    for (size_t i = 0; i < member_count(plant, part); i++)
        if (is_member(plant, part, i))
            return true;
    return false;
}

unsigned size_possible(const fv_plant *plant)
{
    unsigned possible = 0;
    for (fv_size_part part = 0; part < FV_SIZE_WORK; part++)
        if (has_members(plant, part))
            possible |= 1u << part;
    return possible;
}

/* "drill (4 sizes), hose (3 sizes)" */
static void add_possible(const fv_plant *plant, unsigned possible, fv_text *out)
{
    const char *gap = "";
    for (fv_size_part part = 0; part < FV_SIZE_WORK; part++) {
        if (!(possible >> part & 1u))
            continue;
        fv_text_add(out, "%s%s", gap, fv_size_part_word(part));
        if (!is_ladder(part))
            fv_text_add(out, " (sizes: %zu)", study_sizes(plant, stock_of(part), NULL));
        gap = ", ";
    }
}

static void say_none(fv_size_part part, fv_text *out)
{
    fv_text_add(out, "%s: the plant has none%s", fv_size_part_word(part),
                is_ladder(part) ? " that can change: all coils name their holes one by one" : "");
}

/* What is varied where nobody says: what the stock lists; where it lists none of it, common sizes of all. */
static unsigned usual_parts(const fv_plant *plant, unsigned possible)
{
    static const fv_size_part usual[] = {FV_SIZE_DRILL, FV_SIZE_HOSE, FV_SIZE_HEADER};
    unsigned all = 0, listed = 0;
    for (size_t i = 0; i < COUNT(usual); i++) {
        all |= 1u << usual[i];
        if (!study_sizes_are_common(plant, stock_of(usual[i])))
            listed |= 1u << usual[i];
    }
    return (listed & possible ? listed : all) & possible;
}

unsigned size_wanted(const fv_plant *plant, const fv_size_options *options, fv_faults *faults)
{
    const unsigned possible = size_possible(plant);
    const unsigned wanted = options->vary ? options->vary : usual_parts(plant, possible);
    fv_text why = {0};
    fv_text_add(&why, "there is nothing to choose from. ");
    const size_t lead = why.length;
    for (fv_size_part part = 0; part < FV_SIZE_WORK; part++)
        if (wanted >> part & 1u && !(possible >> part & 1u)) {
            fv_text_add(&why, "%s", why.length > lead ? "; " : "");
            say_none(part, &why);
        }
    if (wanted && (wanted & possible) == wanted) {
        fv_text_free(&why);
        return wanted;
    }
    fv_text_add(&why, "; possible here with --vary: ");
    add_possible(plant, possible, &why);
    if (!possible)
        fv_text_add(&why, "nothing");
    fv_error(faults, why.failed ? FV_ERR_SYSTEM : FV_ERR_INPUT, plant->loc, "%s",
             why.failed ? "out of memory" : why.text);
    fv_text_free(&why);
    return 0;
}

/* The coils' own drill, that of the first hole where holes are named one by one and agree; NaN where they differ. */
static double drill_of(const fv_coil *coil)
{
    if (coil->hole_count == 0)
        return coil->drill.v;
    for (size_t i = 1; i < coil->hole_count; i++)
        if (coil->hole[i]->drill.v != coil->hole[0]->drill.v)
            return NAN;
    return coil->hole[0]->drill.v;
}

static double spacing_of(const fv_coil *coil)
{
    return fv_or(coil->spacing, coil->length.v / coil->holes.v);
}

static double now_of(const fv_plant *plant, fv_size_part part, size_t i)
{
    switch (part) {
    case FV_SIZE_DRILL:
        return drill_of(&plant->vessels[i]->coil);
    case FV_SIZE_HOLES:
        return plant->vessels[i]->coil.holes.v;
    case FV_SIZE_SPACING:
        return spacing_of(&plant->vessels[i]->coil);
    case FV_SIZE_COIL:
        return plant->vessels[i]->coil.bore.v;
    default:
        return plant->lines[i]->bore.v;
    }
}

static bool is_same(double a, double b)
{
    return fabs(a - b) <= SAME * fabs(b);
}

double size_common(const fv_plant *plant, const fv_size_dimension *d)
{
    double now = NAN;
    bool any = false;
    for (size_t i = 0; i < member_count(plant, d->part); i++) {
        if (!concerns(plant, d, i))
            continue;
        const double own = now_of(plant, d->part, i);
        if (any && !is_same(own, now))
            return NAN;
        now = own;
        any = true;
    }
    return now;
}

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* values[0]: as it is; then every other size once, ascending. */
static bool fill_values(const fv_plant *plant, fv_size_dimension *d, fv_arena *arena)
{
    const double *ladder = d->part == FV_SIZE_HOLES ? numbers : spacings;
    const size_t steps = d->part == FV_SIZE_HOLES ? COUNT(numbers) : COUNT(spacings);
    const size_t most = is_ladder(d->part) ? steps : study_sizes(plant, stock_of(d->part), NULL);
    study_size *sizes = fv_arena_alloc(arena, most + 1, sizeof *sizes);
    d->values = fv_arena_alloc(arena, most + 1, sizeof *d->values);
    if (!d->values || !sizes)
        return false;
    if (!is_ladder(d->part))
        study_sizes(plant, stock_of(d->part), sizes);
    d->values[d->value_count++] = NAN;
    for (size_t i = 0; i < most; i++) {
        const double size = is_ladder(d->part) ? ladder[i] : sizes[i].size;
        bool known = is_same(size, d->now);
        for (size_t j = 1; j < d->value_count; j++)
            known = known || is_same(size, d->values[j]);
        if (!known)
            d->values[d->value_count++] = size;
    }
    qsort(d->values + 1, d->value_count - 1, sizeof *d->values, by_size);
    return true;
}

static bool add_dimension(fv_size_answer *answer, fv_size_part part, int which)
{
    fv_size_dimension d = {.part = part, .which = which};
    d.now = size_common(answer->plant, &d);
    if (!fill_values(answer->plant, &d, answer->arena))
        return false;
    if (d.value_count > 1)
        answer->dimensions[answer->dimension_count++] = d;
    return true;
}

fv_status size_space(fv_size_answer *answer, fv_faults *faults)
{
    const fv_plant *plant = answer->plant;
    const unsigned vary = answer->options.vary;
    const size_t most = FV_SIZE_PARTS * (1 + plant->vessel_count + plant->line_count);
    answer->dimensions = fv_arena_alloc(answer->arena, most, sizeof *answer->dimensions);
    bool good = answer->dimensions != NULL;
    for (fv_size_part part = 0; part < FV_SIZE_PARTS && good; part++) {
        if (!(vary >> part & 1u))
            continue;
        if (!is_ladder(part) && study_sizes_are_common(plant, stock_of(part)))
            answer->common |= 1u << part;
        if (!answer->options.each)
            good = add_dimension(answer, part, -1);
        for (size_t i = 0; answer->options.each && i < member_count(plant, part) && good; i++)
            good = !is_member(plant, part, i) || add_dimension(answer, part, (int)i);
    }
    if (!good)
        return fv_error(faults, FV_ERR_SYSTEM, plant->loc, "out of memory");
    answer->choices = 1;
    for (size_t i = 0; i < answer->dimension_count; i++)
        answer->choices *= (double)answer->dimensions[i].value_count;
    if (answer->dimension_count > 0)
        return FV_OK;
    fv_text possible = {0};
    add_possible(plant, size_possible(plant), &possible);
    fv_error(faults, FV_ERR_INPUT, plant->loc,
             "there is nothing to choose: the plant has the only sizes that there are for what is varied; possible "
             "here: %s",
             possible.text && !possible.failed ? possible.text : "nothing");
    fv_text_free(&possible);
    return FV_FAIL;
}

bool size_add_works(fv_size_answer *answer)
{
    fv_size_dimension d = {.part = FV_SIZE_WORK, .which = -1, .now = NAN};
    d.values = fv_arena_alloc(answer->arena, answer->work_count + 1, sizeof *d.values);
    for (size_t i = 0; i <= answer->work_count && d.values; i++)
        d.values[d.value_count++] = i > 0 ? (double)i : NAN;
    if (!d.values)
        return false;
    answer->choices *= (double)d.value_count;
    answer->dimensions[answer->dimension_count++] = d; /* there is room for one of each part */
    return true;
}

size_t size_works_of(const fv_size_answer *answer, const int *choice)
{
    const size_t last = answer->dimension_count - 1;
    return answer->work_count > 0 ? (size_t)choice[last] : 0;
}

bool size_is_changed(const fv_size_answer *answer, const int *choice)
{
    for (size_t i = 0; i < answer->dimension_count; i++)
        if (choice[i] > 0 && answer->dimensions[i].part != FV_SIZE_WORK)
            return true;
    return false;
}

/* wish[i] for the members of a part; false: as it is throughout. */
static bool gather(const fv_size_answer *answer, const int *choice, fv_size_part part, double *wish, size_t count)
{
    bool any = false;
    for (size_t i = 0; i < count; i++)
        wish[i] = NAN;
    for (size_t d = 0; d < answer->dimension_count; d++) {
        const fv_size_dimension *dimension = &answer->dimensions[d];
        const double value = dimension->values[choice[d]];
        if (dimension->part != part || isnan(value))
            continue;
        for (size_t i = 0; i < count; i++)
            if (concerns(answer->plant, dimension, i)) {
                wish[i] = value;
                any = true;
            }
    }
    return any;
}

static void wish_drills(const fv_plant *plant, double *wish, study_settings *settings)
{
    bool any = false;
    for (size_t i = 0; i < plant->vessel_count; i++) {
        if (plant->vessels[i]->coil.hole_count > 0) {
            if (!isnan(wish[i]))
                study_wish_listed_holes(settings, plant, i, wish[i]);
            wish[i] = NAN;
        }
        any = any || !isnan(wish[i]);
    }
    if (any)
        study_wish_coils(settings, plant, "drill", wish);
}

void size_settings(const fv_size_answer *answer, const int *choice, study_settings *settings)
{
    const fv_plant *plant = answer->plant;
    const size_t most = plant->vessel_count + plant->line_count;
    double *wish = settings->failed ? NULL : fv_arena_alloc(settings->arena, most + 1, sizeof *wish);
    double *bores = settings->failed ? NULL : fv_arena_alloc(settings->arena, plant->line_count + 1, sizeof *bores);
    if (!wish || !bores) {
        settings->failed = true;
        return;
    }
    for (size_t i = 0; i < size_works_of(answer, choice); i++)
        study_change_add(settings, &answer->works[i]->change);
    const fv_change works = settings->change;
    static const char *const attributes[] = {
        [FV_SIZE_HOLES] = "holes", [FV_SIZE_SPACING] = "spacing", [FV_SIZE_COIL] = "bore"};
    if (gather(answer, choice, FV_SIZE_DRILL, wish, plant->vessel_count))
        wish_drills(plant, wish, settings);
    for (fv_size_part part = FV_SIZE_HOLES; part <= FV_SIZE_COIL; part++)
        if (gather(answer, choice, part, wish, plant->vessel_count))
            study_wish_coils(settings, plant, attributes[part], wish);
    const bool hoses = gather(answer, choice, FV_SIZE_HOSE, bores, plant->line_count);
    const bool headers = gather(answer, choice, FV_SIZE_HEADER, wish, plant->line_count);
    for (size_t i = 0; i < plant->line_count; i++)
        bores[i] = isnan(bores[i]) ? wish[i] : bores[i];
    if (hoses || headers)
        study_wish_bores(settings, plant, bores);
    if (settings->failed || works.count == 0)
        return;
    const fv_change sizes = {.settings = settings->change.settings + works.count,
                             .count = settings->change.count - works.count};
    if (study_changes_meet(&works, &sizes)) /* one would undo the other */
        settings->failed = settings->unsayable = true;
}
