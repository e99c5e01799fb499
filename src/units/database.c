/* SPDX-License-Identifier: MIT */
/* UDUNITS-2's database, for words that are not built in. Reading it takes about 5 ms, so that waits for the first such
 * word. UDUNITS-2 keeps state of the whole process (its scanner, its lists of systems, its handler of messages), hence
 * one lock around all calls of it; its messages are silenced, ours say more. */
#include "units/unit.h"

#include <locale.h>
#include <pthread.h>
#include <stdlib.h>
#include <string.h>
#include <udunits2.h>
#include <unistd.h>

typedef struct {
    ut_system *system;
    bool tried;
} database;

struct fv_units {
    database *lazy;  /* read on demand, also through a const fv_units */
    locale_t points; /* decimal points while UDUNITS-2 reads its file */
};

static pthread_mutex_t one_at_a_time = PTHREAD_MUTEX_INITIALIZER;

fv_units *fv_units_new(fv_faults *faults)
{
    ut_status status;
    pthread_mutex_lock(&one_at_a_time);
    ut_set_error_message_handler(ut_ignore);
    const char *path = ut_get_path_xml(NULL, &status);
    pthread_mutex_unlock(&one_at_a_time);
    if (!path || access(path, R_OK) != 0) {
        fv_error(faults, FV_ERR_SYSTEM, (fv_loc){path, 0}, "the unit database of UDUNITS-2 cannot be read");
        return NULL;
    }
    fv_units *units = calloc(1, sizeof *units);
    if (units) {
        units->lazy = calloc(1, sizeof *units->lazy);
        units->points = newlocale(LC_ALL_MASK, "C", (locale_t)0);
    }
    if (!units || !units->lazy || !units->points) {
        fv_error(faults, FV_ERR_SYSTEM, (fv_loc){0}, "out of memory for the unit system");
        fv_units_free(units);
        return NULL;
    }
    return units;
}

void fv_units_free(fv_units *units)
{
    if (!units)
        return;
    if (units->lazy && units->lazy->system) {
        pthread_mutex_lock(&one_at_a_time);
        ut_free_system(units->lazy->system);
        pthread_mutex_unlock(&one_at_a_time);
    }
    free(units->lazy);
    if (units->points)
        freelocale(units->points);
    free(units);
}

static bool set_power(units_unit *unit, const ut_unit *basic, int power)
{
    static const char *const symbols[UNITS_BASE_COUNT] = {"m", "kg", "s", "K", "rad", "A", "mol", "cd"};
    const char *symbol = ut_get_symbol(basic, UT_ASCII);
    for (size_t i = 0; symbol && i < UNITS_BASE_COUNT; i++)
        if (!strcmp(symbol, symbols[i]) && abs(power) < 100) {
            unit->powers.of[i] = (signed char)power;
            return true;
        }
    return false;
}

static ut_status see_basic(const ut_unit *basic, void *unit)
{
    return set_power(unit, basic, 1) ? UT_SUCCESS : UT_VISIT_ERROR;
}

static ut_status see_product(const ut_unit *product, int count, const ut_unit *const *basics, const int *powers,
                             void *unit)
{
    (void)product;
    for (int i = 0; i < count; i++)
        if (!set_power(unit, basics[i], powers[i]))
            return UT_VISIT_ERROR;
    return UT_SUCCESS;
}

static ut_status see_scaled(const ut_unit *scaled, double scale, const ut_unit *below, double zero, void *unit);

/* Dates and decibels are no quantities of ours. */
static ut_status refuse_date(const ut_unit *date, const ut_unit *time, double origin, void *unit)
{
    (void)date, (void)time, (void)origin, (void)unit;
    return UT_VISIT_ERROR;
}

static ut_status refuse_log(const ut_unit *log, double base, const ut_unit *reference, void *unit)
{
    (void)log, (void)base, (void)reference, (void)unit;
    return UT_VISIT_ERROR;
}

static bool visit(const ut_unit *found, units_unit *unit)
{
    const ut_visitor visitor = {see_basic, see_product, see_scaled, refuse_date, refuse_log};
    return ut_accept_visitor(found, &visitor, unit) == UT_SUCCESS;
}

static ut_status see_scaled(const ut_unit *scaled, double scale, const ut_unit *below, double zero, void *unit)
{
    (void)scaled;
    units_unit *seen = unit;
    if (!visit(below, seen))
        return UT_VISIT_ERROR;
    seen->zero = zero + seen->zero / scale;
    seen->num *= scale;
    return UT_SUCCESS;
}

units_lookup units_database_find(const fv_units *units, const char *word, units_unit *unit)
{
    database *lazy = units->lazy;
    pthread_mutex_lock(&one_at_a_time);
    locale_t before = uselocale(units->points);
    if (!lazy->tried) {
        lazy->tried = true;
        lazy->system = ut_read_xml(NULL);
    }
    units_lookup result = lazy->system ? UNITS_LOOKUP_UNKNOWN : UNITS_LOOKUP_NO_DATABASE;
    ut_unit *found = lazy->system ? ut_parse(lazy->system, word, UT_ASCII) : NULL;
    if (found) {
        units_unit seen = {.num = 1.0, .den = 1.0};
        if (visit(found, &seen)) {
            *unit = seen;
            result = UNITS_LOOKUP_FOUND;
        }
        ut_free(found);
    }
    uselocale(before);
    pthread_mutex_unlock(&one_at_a_time);
    return result;
}
