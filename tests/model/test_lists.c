/* SPDX-License-Identifier: MIT */
/* The lists of materials and fittings against the published rows in reference/model/. */
#include "farvessel/model.h"

#include <math.h>
#include <setjmp.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { FIELDS = 5, LINE = 256 };

typedef struct {
    char line[LINE];
    char *field[FIELDS];
    size_t count;
} csv_row;

/* The last field, the source, is quoted and may hold commas. */
static bool read_row(FILE *f, csv_row *row)
{
    do
        if (!fgets(row->line, sizeof row->line, f))
            return false;
    while (*row->line == '#');
    row->line[strcspn(row->line, "\n")] = '\0';
    row->count = 0;
    for (char *at = row->line; at && row->count < FIELDS;) {
        row->field[row->count++] = at;
        at = *at == '"' ? NULL : strchr(at, ',');
        if (at)
            *at++ = '\0';
    }
    return true;
}

static bool agrees(const char *published, double ours)
{
    return !*published || ours == strtod(published, NULL);
}

static void check(const char *what, const char *name, const char *published, double ours, const char *source)
{
    if (*published)
        printf("check | %s %s | %s | got %g | dev %g | %s\n", name, what, published, ours,
               ours - strtod(published, NULL), source);
    assert_true(agrees(published, ours));
}

static void materials_are_as_published(void **state)
{
    (void)state;
    FILE *f = fopen("reference/model/materials.csv", "r");
    csv_row row;
    size_t rows = 0;
    assert_non_null(f);
    for (; read_row(f, &row); rows++) {
        const fv_material *m = fv_material_find(row.field[0]);
        assert_int_equal(row.count, 5);
        assert_non_null(m);
        check("conductivity, W/m/K", m->name, row.field[1], m->conductivity, row.field[4]);
        check("density, kg/m3", m->name, row.field[2], m->density, row.field[4]);
        check("specific heat, J/kg/K", m->name, row.field[3], m->specific_heat, row.field[4]);
    }
    fclose(f);
    assert_int_equal(rows, 16);
}

static void fittings_are_as_published(void **state)
{
    (void)state;
    FILE *f = fopen("reference/model/fittings.csv", "r");
    csv_row row;
    size_t rows = 0;
    assert_non_null(f);
    for (; read_row(f, &row); rows++) {
        const fv_fitting_entry *entry = fv_fitting_find(row.field[0]);
        assert_int_equal(row.count, 4);
        assert_non_null(entry);
        check("n of K = n f_T", entry->name, row.field[1], entry->n, row.field[3]);
        check("K", entry->name, row.field[2], entry->k, row.field[3]);
    }
    fclose(f);
    assert_int_equal(rows, 24);
}

static void every_entry_is_usable(void **state)
{
    (void)state;
    size_t count;
    const fv_material *materials = fv_materials(&count);
    for (size_t i = 0; i < count; i++) {
        assert_true(materials[i].conductivity > 0.0 && materials[i].density > 0.0 && materials[i].specific_heat > 0.0);
        assert_true(strlen(materials[i].source) > 5);
        assert_ptr_equal(fv_material_find(materials[i].name), &materials[i]);
    }
    const fv_fitting_entry *fittings = fv_fittings(&count);
    for (size_t i = 0; i < count; i++) {
        assert_true(isnan(fittings[i].n) != isnan(fittings[i].k)); /* one of the two */
        assert_true(strlen(fittings[i].source) > 5);
        assert_ptr_equal(fv_fitting_find(fittings[i].name), &fittings[i]);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(materials_are_as_published),
        cmocka_unit_test(fittings_are_as_published),
        cmocka_unit_test(every_entry_is_usable),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
