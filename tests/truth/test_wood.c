/* SPDX-License-Identifier: MIT */
/* Measured heating times against the conduction model, with nothing tuned: wood in hot wet air and in steam, predicted
 * over what the source leaves open, the printed time within that; and a peat that conduction must not predict.
 *
 * Open: conductivity, 20 % either way (Wood Handbook, chapter 4, on its own equation); moisture (nothing, or "green"),
 * the surface coefficient of air and steam (20 to 200, of pure steam to 2000 W/m2/K, common practice), whether a wet
 * surface stands at the wet bulb or at the chamber's temperature, dressed or full size (1/2 to 3/4 in less, American
 * softwood lumber standard PS 20; from memory), the log's length. Specific gravity and green moisture, Wood Handbook
 * tables 4-1 and 5-3, from memory: ponderosa pine 0.38, 40 to 148 %; slash pine 0.54, 30 to 100 %; Douglas-fir 0.45, 37
 * to 115 %. */
#include "checks.h"

#include "farvessel/heat.h"

static const double K_OFF = 1.2;
static const double SURFACE_LEAST = 20, SURFACE_MOST = 200; /* W/m2/K */
static const double GRAIN_MOST =
    2.8; /* conductivity along the grain over across (Wood Handbook, chapter 4; from memory) */

typedef struct {
    double k, a; /* W/m/K, m2/s */
} wood;

/* moisture: % of dry mass; by: conductivity as it may be over that of the equation. */
static wood wood_of(double gravity, double moisture, double by)
{
    double k, c;
    assert_int_not_equal(fv_heat_wood_conductivity(gravity, moisture, &k), FV_FAIL);
    assert_int_not_equal(fv_heat_specific_heat(FV_MEDIUM_WOOD, moisture / (100 + moisture), 310, 0, &c), FV_FAIL);
    k *= by;
    return (wood){k, k / (1000 * gravity * (1 + moisture / 100) * c)};
}

static double theta(fv_shape_1d shape, double size, double h, const wood *w, double along, double position, double t)
{
    double out = NAN;
    assert_int_not_equal(
        fv_heat_theta(shape, h * size / (w->k * along), w->a * along * t / (size * size), position, &out), FV_FAIL);
    return out;
}

typedef struct {
    const wood *w;
    double h, size; /* half thickness or radius */
    int slabs;      /* 1 or 2 of that size; 0: a log */
    double length;  /* of the log; INFINITY: no heat from its ends */
} body;

static double theta_of(const body *b, double t)
{
    if (b->slabs > 0)
        return pow(theta(FV_SLAB, b->size, b->h, b->w, 1, 0, t), b->slabs);
    const double ends = isinf(b->length) ? 1 : theta(FV_SLAB, b->length / 2, b->h, b->w, GRAIN_MOST, 0, t);
    return theta(FV_CYLINDER, b->size, b->h, b->w, 1, 0.25, t) * ends; /* 12 in of 48 */
}

/* Minutes from start to target in surroundings. */
static double minutes(const body *b, double start, double target, double around)
{
    const double wanted = (around - target) / (around - start);
    double low = 0, high = 1e8;
    for (int i = 0; i < 80; i++) {
        const double t = 0.5 * (low + high);
        *(theta_of(b, t) > wanted ? &low : &high) = t;
    }
    return low / 60;
}

static double celsius(double fahrenheit)
{
    return (fahrenheit - 32) / 1.8;
}

static double inch(double n)
{
    return 0.0254 * n;
}

enum { SIZES = 5 };
static const double NOMINAL[SIZES] = {4, 6, 8, 10, 12}, DRESSED[SIZES] = {3.5, 5.5, 7.25, 9.25, 11.25};

/* Of a row: every time that is printed lies between the fastest and the slowest timber that the table may mean. */
static int look_at_row(const double *row, double *worst)
{
    const wood dry = wood_of(0.38, 12, K_OFF), green = wood_of(0.38, 148, 1 / K_OFF);
    const double depression = row[0] / 1.8, start = celsius(row[1]), chamber = celsius(160), target = celsius(133);
    int seen = 0;
    for (int i = 0; i < SIZES; i++) {
        const double printed = row[2 + 2 * i];
        const body fast = {.w = &dry, .h = SURFACE_MOST, .size = inch(DRESSED[i]) / 2, .slabs = 2};
        const body slow = {.w = &green, .h = SURFACE_LEAST, .size = inch(NOMINAL[i]) / 2, .slabs = 2};
        if (isnan(printed))
            continue;
        const double low = minutes(&fast, start, target, chamber);
        const double high = minutes(&slow, start, target, chamber - depression), middle = sqrt(low * high);
        printf("check | %g x %g in, depression %g degF, start %g degF: minutes | %g | %.0f to %.0f, middle %+.0f %% | "
               "open | Wood Handbook 20-8\n",
               NOMINAL[i], NOMINAL[i], row[0], row[1], printed, low, high, 100 * (middle / printed - 1));
        *worst = fmax(*worst, fabs(middle / printed - 1));
        assert_true(printed >= low && printed <= high);
        seen++;
    }
    return seen;
}

static void read_row(char *line, double *row)
{
    char *at = line;
    for (int i = 0; i < 2 + 2 * SIZES; i++) {
        char *end;
        row[i] = strtod(at, &end);
        if (end == at)
            row[i] = NAN;
        at = end + strcspn(end, ",\n");
        at += *at == ',';
    }
}

static void timbers(void **state)
{
    (void)state;
    char line[512];
    double row[2 + 2 * SIZES], worst = 0;
    int seen = 0;
    FILE *file = open_table("heat/wood_handbook_20_8.csv");
    while (fgets(line, sizeof line, file)) {
        read_row(line, row);
        seen += look_at_row(row, &worst);
    }
    fclose(file);
    printf("%d times; the middle of what is open is off by %.0f %% at most\n", seen, 100 * worst);
    assert_int_equal(seen, 68);
}

/* Below the boiling point times go as size^1.6, not as its square. A surface that follows late accounts for a part:
 * 1.84 at 20 W/m2/K. The rest is not in a chamber that is hot from time zero; 44 min of coming up, of which the table
 * says nothing, would do (125 = t + 16 a, 548 = t + 100 a). A deviation that is told, not one that is mended. */
static void size_and_time(void **state)
{
    (void)state;
    const wood w = wood_of(0.38, 40, 1);
    double exponent[2];
    for (int i = 0; i < 2; i++) {
        const body small = {.w = &w, .h = i ? SURFACE_MOST : SURFACE_LEAST, .size = inch(4) / 2, .slabs = 2};
        body large = small;
        large.size = inch(10) / 2;
        exponent[i] = log(minutes(&large, 15.6, 56.1, 71.1) / minutes(&small, 15.6, 56.1, 71.1)) / log(2.5);
    }
    printf("check | exponent of size, 4 to 10 in, start 60 degF | 1.61 | %.2f to %.2f | not within: no coming up | "
           "log(548/125)/log(10/4), Wood Handbook 20-8\n",
           exponent[0], exponent[1]);
    assert_true(exponent[0] < 1.9 && exponent[0] < exponent[1] && exponent[1] < 2);
}

typedef struct {
    char what[64], shape[16];
    double size, medium, target, low, high, minutes;
} measured;

static bool next_measured(FILE *file, measured *m)
{
    char line[512];
    *m = (measured){.low = NAN};
    return fgets(line, sizeof line, file) &&
           (sscanf(line, "%63[^,],%15[^,],%lf,%lf,%lf,%lf,%lf,%lf", m->what, m->shape, &m->size, &m->medium, &m->target,
                   &m->low, &m->high, &m->minutes) == 8 ||
            sscanf(line, "%63[^,],%15[^,],%lf,%lf,%lf,,,%lf", m->what, m->shape, &m->size, &m->medium, &m->target,
                   &m->minutes) == 6);
}

static void look_at_wood(const measured *m)
{
    const bool log = strcmp(m->shape, "log") == 0, dried = strstr(m->what, "air-dried") != NULL;
    const double gravity = log ? 0.45 : 0.54, least = dried ? 12 : log ? 37 : 30, most = dried ? 25 : log ? 115 : 100;
    const wood fastest = wood_of(gravity, least, K_OFF), slowest = wood_of(gravity, most, 1 / K_OFF);
    const body fast = {
        .w = &fastest, .h = SURFACE_MOST * (log ? 10 : 1), .size = m->size / 2000, .slabs = !log, .length = 4 * 0.3048};
    const body slow = {.w = &slowest, .h = SURFACE_LEAST, .size = m->size / 2000, .slabs = !log, .length = INFINITY};
    const double low = minutes(&fast, m->high, m->target, m->medium);
    const double high = minutes(&slow, m->low, m->target, m->medium);
    check_between(m->what, low, high, m->minutes, "measured, minutes");
}

static void boards_and_a_log(void **state)
{
    (void)state;
    measured m;
    FILE *file = open_table("heat/measured.csv");
    while (next_measured(file, &m))
        if (strcmp(m.shape, "peat") != 0)
            look_at_wood(&m);
    fclose(file);
}

/* A flag, not a number: wetting halves the time of thin peat, for vapour carries the heat. Conduction with constant
 * properties has it nearly as slow, wet as dry: such loads are beds, not pieces. */
static void vapour_in_a_thin_bed(void **state)
{
    (void)state;
    measured m;
    double times[2] = {0, 0};
    int seen = 0;
    FILE *file = open_table("heat/measured.csv");
    while (next_measured(file, &m))
        if (strcmp(m.shape, "peat") == 0 && seen < 2)
            times[seen++] = m.minutes;
    fclose(file);
    assert_int_equal(seen, 2);
    const double moistures[] = {0.15, 0.7}, dry_density = 130; /* common practice, no source */
    double diffusivity[2];
    for (int i = 0; i < 2; i++) {
        const double density = dry_density / (1 - moistures[i]);
        double k, c;
        assert_int_not_equal(fv_heat_conductivity(FV_MEDIUM_PEAT, moistures[i], density, 340, &k), FV_FAIL);
        assert_int_not_equal(fv_heat_specific_heat(FV_MEDIUM_PEAT, moistures[i], 340, 0, &c), FV_FAIL);
        diffusivity[i] = k / (density * c);
    }
    const double wet_to_dry = diffusivity[0] / diffusivity[1];
    printf("check | thin peat, wet over dry | %.2f | conduction %.2f | flag | Can. J. Res. 27c (1949)\n",
           times[1] / times[0], wet_to_dry);
    assert_true(wet_to_dry > 1.5 * times[1] / times[0]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(timbers), cmocka_unit_test(size_and_time),
                                       cmocka_unit_test(boards_and_a_log), cmocka_unit_test(vapour_in_a_thin_bed)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
