/* SPDX-License-Identifier: MIT */
/* What lies between steps, and what hangs on how long they are: four bins whose fire is turned down in the hold,
 * against the same run in much shorter steps. */
#include "heatup/run_plants.h"

#include "farvessel/plantfile.h"

static const double DROP_OUT_WITHIN = 30;                 /* s; the aim that was set */
static const double ORDER_LEAST = 1.4;                    /* of two, with the network solved anew now and then */
static const double HEATING_FROM = 4000, HEATING = 20000; /* s: chambers filling */

/* The bundled plant with an action before its end; its file may have any length below this. */
static fv_plant *bins_turned_down(fv_faults *faults, const char *fire)
{
    static char text[1 << 16];
    FILE *file = fopen("networks/four-bins.xml", "r");
    assert_non_null(file);
    const size_t length = fread(text, 1, sizeof text / 2, file);
    fclose(file);
    text[length] = 0;
    char *end = strstr(text, "</network>");
    assert_non_null(end);
    snprintf(end, sizeof text / 2,
             "<action after=\"bin4 core\" delay=\"5 min\" boiler=\"boiler\" fire=\"%s\"/></network>", fire);
    fv_plant *plant = fv_plantfile_read_memory(text, strlen(text), "bins", NULL, faults);
    assert_non_null(plant);
    return plant;
}

static fv_heat_result *run(const fv_plant *plant, double fineness, double until, double every, fv_faults *faults)
{
    fv_heat_options options;
    fv_heat_defaults(&options);
    options.fineness = fineness;
    options.until = until;
    options.every = every;
    fv_heat_result *r = fv_heat_run(plant, &options, NULL, faults);
    assert_non_null(r);
    return r;
}

static double compare(const char *what, size_t i, double found, double truth)
{
    assert_true((bool)isnan(found) == (bool)isnan(truth));
    if (isnan(truth))
        return 0;
    printf("check | bin %zu, %s, s | %.1f | %.1f | dev %.1f s | steps a hundredth as long\n", i + 1, what, truth, found,
           found - truth);
    return fabs(found - truth);
}

static void test_drop_out(void **state)
{
    (void)state;
    static const char *const fires[] = {"15 %", "30 %"};
    double worst = 0;
    for (size_t k = 0; k < 2; k++) {
        fv_faults *faults = fv_faults_new();
        fv_plant *plant = bins_turned_down(faults, fires[k]);
        fv_heat_result *r = run(plant, 1, 60000, 0, faults), *truth = run(plant, 100, 60000, 0, faults);
        for (size_t i = 0; i < r->vessel_count; i++) {
            const fv_vessel_history *h = &r->vessels[i], *t = &truth->vessels[i];
            worst = fmax(worst, compare("its steam no longer covers", i, h->starved_since, t->starved_since));
            worst = fmax(worst, compare("core below its target", i, h->hold_broken, t->hold_broken));
        }
        assert_true(k > 0 || truth->vessels[3].starved_since > truth->vessels[3].core);
        assert_true(truth->vessels[3].hold_broken > truth->vessels[3].core);
        fv_heat_free(r);
        fv_heat_free(truth);
        fv_plant_free(plant);
        fv_faults_free(faults);
    }
    assert_true(worst < DROP_OUT_WITHIN);
}

/* Root of the mean square of what two series differ by. */
static double differ(const fv_series *s, const double *a, const double *b, size_t width)
{
    double sum = 0;
    size_t count = 0;
    for (size_t k = 0; k < s->count; k++)
        for (size_t i = 0; i < width && s->time[k] > HEATING_FROM; i++, count++)
            sum += (a[k * width + i] - b[k * width + i]) * (a[k * width + i] - b[k * width + i]);
    return sqrt(sum / (double)count);
}

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Half of all samples of chambers' pressures differ by less from the truth; a few lie beside a switch. */
static double median_gap(const double *pressure, const fv_series *truth, size_t width)
{
    static double gap[1 << 14];
    size_t count = 0;
    for (size_t k = 0; k < truth->count; k++)
        for (size_t i = 0; i < width && truth->time[k] > HEATING_FROM && count < 1 << 14; i++)
            gap[count++] = fabs(pressure[k * width + i] - truth->vessel_pressure[k * width + i]);
    qsort(gap, count, sizeof *gap, by_size);
    return gap[count / 2];
}

static void test_order(void **state)
{
    (void)state;
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = bins_turned_down(faults, "30 %");
    fv_heat_result *coarse = run(plant, 1, HEATING, 37, faults), *fine = run(plant, 4, HEATING, 37, faults),
                   *truth = run(plant, 64, HEATING, 37, faults);
    const size_t n = plant->vessel_count;
    const fv_series *c = &coarse->series, *f = &fine->series, *t = &truth->series;
    const double air = log2(differ(c, c->air_share, t->air_share, n) / differ(f, f->air_share, t->air_share, n)) / 2;
    const double chamber = log2(differ(c, c->chamber, t->chamber, n) / differ(f, f->chamber, t->chamber, n)) / 2;
    const double at_1 = median_gap(c->vessel_pressure, t, n), at_4 = median_gap(f->vessel_pressure, t, n),
                 pressure = log2(at_1 / at_4) / 2;
    printf("check | chambers' pressure, half of all samples within, Pa | 0 | %.2g | | of 0.2 to 0.5 Pa; order %.2f\n",
           at_1, pressure);
    assert_true(at_1 < 0.002 && pressure > ORDER_LEAST);
    printf("check | order of the share of air, of chambers | 2 | %.2f, %.2f | | steps a quarter as long\n", air,
           chamber);
    assert_true(air > ORDER_LEAST && chamber > ORDER_LEAST);
    fv_heat_free(coarse);
    fv_heat_free(fine);
    fv_heat_free(truth);
    fv_plant_free(plant);
    fv_faults_free(faults);
}

/* While chambers fill, their pressures move from sample to sample, not from step to step; and none leaps by more than
 * the few steps between two samples explain. */
static void test_no_stairs(void **state)
{
    (void)state;
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = bins_turned_down(faults, "30 %");
    fv_heat_result *r = run(plant, 1, HEATING, 20, faults);
    const fv_series *s = &r->series;
    const size_t n = plant->vessel_count;
    size_t same = 0, all = 0;
    for (size_t k = 1; k < s->count; k++)
        for (size_t i = 0; i < n && s->time[k] > HEATING_FROM; i++, all++)
            same += s->vessel_pressure[k * n + i] == s->vessel_pressure[(k - 1) * n + i] ? 1 : 0;
    printf("check | samples of chambers' pressure like the one before | few | %zu of %zu | | 20 s apart, steps of "
           "minutes\n",
           same, all);
    assert_true(all > 1000 && 20 * same < all);
    fv_heat_free(r);
    fv_plant_free(plant);
    fv_faults_free(faults);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_drop_out), cmocka_unit_test(test_order),
                                       cmocka_unit_test(test_no_stairs)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
