/* SPDX-License-Identifier: MIT */
/* Bessel functions and their zeros against tables and expansions; roots between bounds; sparse systems. */
#include "checks.h"
#include "num/bessel.h"
#include "num/root.h"
#include "num/sparse.h"

static void bessel_values(void **state)
{
    (void)state;
    const char *source = "Abramowitz & Stegun table 9.1, from memory";
    check_dev("J0(1)", 0.7651976866, num_bessel_j0(1), 1e-10, source);
    check_dev("J1(1)", 0.4400505857, num_bessel_j1(1), 2e-10, source);
    check_dev("J0(2)", 0.2238907791, num_bessel_j0(2), 3e-10, source);
    check_dev("J1(2)", 0.5767248078, num_bessel_j1(2), 1e-10, source);
    check_dev("J0(5)", -0.1775967713, num_bessel_j0(5), 3e-10, source);
    check_dev("J1(5)", -0.3275791376, num_bessel_j1(5), 2e-10, source);
    check_dev("J1(1e-10)", 0.5e-10, num_bessel_j1(1e-10), 1e-15, "x/2, first term of the series");
    assert_true(num_bessel_j1(0) == 0 && num_bessel_j0(0) == 1);
}

/* Zero n of the Bessel function of this order for large n: McMahon's expansion, Abramowitz & Stegun 9.5.12. */
static double far_zero(int order, unsigned n)
{
    const double mu = 4.0 * order * order, b = 8 * PI * (n + order / 2.0 - 0.25);
    return b / 8 - (mu - 1) / b - 4 * (mu - 1) * (7 * mu - 31) / (3 * pow(b, 3)) -
           32 * (mu - 1) * (83 * mu * mu - 982 * mu + 3779) / (15 * pow(b, 5)) -
           64 * (mu - 1) * (6949 * pow(mu, 3) - 153855 * mu * mu + 1585743 * mu - 6277237) / (105 * pow(b, 7));
}

static void bessel_zeros(void **state)
{
    (void)state;
    const char *source = "Abramowitz & Stegun table 9.5, from memory";
    check_dev("J0's zero 1", 2.4048255577, num_bessel_j0_zero(1), 2e-11, source);
    check_dev("J0's zero 2", 5.5200781103, num_bessel_j0_zero(2), 1e-11, source);
    check_dev("J1's zero 1", 3.8317059702, num_bessel_j1_zero(1), 1e-11, source);
    check_dev("J1's zero 2", 7.0155866698, num_bessel_j1_zero(2), 1e-11, source);
    for (unsigned n = 21; n <= 161; n += 35) {
        check_dev("J0's far zeros", far_zero(0, n), num_bessel_j0_zero(n), 4e-16, "McMahon, A&S 9.5.12");
        check_dev("J1's far zeros", far_zero(1, n), num_bessel_j1_zero(n), 4e-16, "McMahon, A&S 9.5.12");
    }
}

static double cube(double x, void *context)
{
    return x * x * x - *(const double *)context;
}

static double not_a_number(double x, void *context)
{
    (void)context;
    return x > 1 ? NAN : x - 2;
}

static void roots_between(void **state)
{
    (void)state;
    double root, c = 27;
    assert_int_equal(num_root_between(cube, &c, -8, 100, 1e-12, 0, &root), FV_OK);
    assert_true(fabs(root - 3) < 1e-11);
    assert_int_equal(num_root_between(cube, &c, -8, 100, 0, 1e-3, &root), FV_OK);
    assert_true(fabs(root - 3) < 3e-3);
    assert_int_equal(num_root_between(cube, &c, 3, 100, 1e-12, 0, &root), FV_OK);
    assert_true(root == 3);
    assert_int_equal(num_root_between(cube, &c, -8, 3, 1e-12, 0, &root), FV_OK);
    assert_true(root == 3);
    assert_int_equal(num_root_between(cube, &c, 4, 100, 1e-12, 0, &root), FV_FAIL);
    c = 0.001; /* nearly flat on the way */
    assert_int_equal(num_root_between(cube, &c, -1, 10, 1e-12, 0, &root), FV_OK);
    assert_true(fabs(root - 0.1) < 1e-11);
    assert_int_equal(num_root_between(not_a_number, NULL, 0, 3, 1e-12, 0, &root), FV_FAIL);
}

/* What the secant's step is short on, however far the root is: counted, and refused where it is too often. */
typedef struct {
    int kind, calls;
} flat;

static double flat_value(double x, void *context)
{
    flat *f = context;
    f->calls++;
    switch (f->kind) {
    case 0: /* a high power: from below it moves by a billionth */
        return pow(x - 1, 9);
    case 1: /* next to nothing on one side, a wall on the other */
        return x < 1 ? -1e-12 * (2 - x) : 1e6 * (x - 1) + 1;
    default: /* a step */
        return x < 1 ? -1 : 1;
    }
}

static void roots_of_flat_functions(void **state)
{
    (void)state;
    for (int kind = 0; kind <= 2; kind++) {
        flat f = {.kind = kind};
        double root;
        assert_int_equal(num_root_between(flat_value, &f, -1, 10, 1e-6, 0, &root), FV_OK);
        printf("check | root of flat function %d | 1 | off by %.1e, allowed 1e-6, %d calls\n", kind, fabs(root - 1),
               f.calls);
        assert_true(fabs(root - 1) <= 1e-6);
        assert_true(f.calls < 120);
    }
}

static double sloped_cube(double x, double *slope, void *context)
{
    *slope = 3 * x * x;
    return cube(x, context);
}

static double sloped_no_number(double x, double *slope, void *context)
{
    *slope = 1;
    return not_a_number(x, context);
}

static void roots_of_what_rises(void **state)
{
    (void)state;
    double root;
    double f = 27;
    static const double starts[] = {-50, 1e-6, 2.9, 3, 1000};
    for (size_t i = 0; i < sizeof starts / sizeof *starts; i++) {
        assert_int_equal(num_root_rising(sloped_cube, &f, starts[i], -100, 1000, 1e-12, &root), FV_OK);
        assert_true(fabs(root - 3) < 1e-11);
    }
    assert_int_equal(num_root_rising(sloped_cube, &f, 5, 4, 10, 1e-12, &root), FV_OK);
    assert_true(fabs(root - 4) < 1e-11); /* the root lies below */
    assert_int_equal(num_root_rising(sloped_cube, &f, 1, 0, 2, 1e-12, &root), FV_OK);
    assert_true(fabs(root - 2) < 1e-11); /* above */
    assert_int_equal(num_root_rising(sloped_no_number, NULL, 1.5, 0, 3, 1e-12, &root), FV_FAIL);
}

/* Numbers evenly spread over 0 to 1, the same on every machine. */
static double spread(uint64_t *seed)
{
    *seed = *seed * 6364136223846793005u + 1442695040888963407u;
    return (double)(*seed >> 11) * 0x1p-53;
}

/* A band of three with a full last row and column, entries given twice over, rows of very unlike units. */
enum { SIZE = 30, ENTRIES = 2 * 3 * SIZE + 2 * SIZE };
typedef struct {
    int rows[ENTRIES], cols[ENTRIES];
    double values[ENTRIES], matrix[SIZE][SIZE];
    size_t count;
} banded;

static void enter(banded *b, int row, int col, double value)
{
    b->rows[b->count] = row;
    b->cols[b->count] = col;
    b->values[b->count++] = value;
    b->matrix[row][col] += value;
}

static void fill(banded *b, uint64_t *seed)
{
    *b = (banded){.count = 0};
    for (int i = 0; i < SIZE; i++) {
        const double unit = pow(10, (i % 5 - 2) * 4);
        for (int j = i > 0 ? i - 1 : 0; j <= i + 1 && j < SIZE; j++)
            for (int twice = 0; twice < 2; twice++)
                enter(b, i, j, unit * (spread(seed) - 0.5));
        enter(b, i, SIZE - 1, unit * spread(seed));
        enter(b, SIZE - 1, i, spread(seed));
    }
}

/* How far a solution of known outcome is off, of the largest unknown. */
static double solved_off(const banded *b, num_sparse *sparse, uint64_t *seed)
{
    double right[SIZE] = {0}, known[SIZE], off = 0;
    for (int j = 0; j < SIZE; j++)
        known[j] = spread(seed) - 0.5;
    for (int i = 0; i < SIZE; i++)
        for (int j = 0; j < SIZE; j++)
            right[i] += b->matrix[i][j] * known[j];
    num_sparse_solve(sparse, right);
    for (int j = 0; j < SIZE; j++)
        off = fmax(off, fabs(right[j] - known[j]));
    return off;
}

static void sparse_systems(void **state)
{
    (void)state;
    uint64_t seed = 1;
    banded b;
    fill(&b, &seed);
    int singular = -1;
    num_pattern *pattern = num_pattern_new(SIZE, b.rows, b.cols, b.count, &singular);
    num_sparse *sparse = num_sparse_new(pattern);
    assert_non_null(sparse);
    assert_int_equal(singular, -1);
    assert_int_equal(num_pattern_nonzeros(pattern), 3 * SIZE - 2 + 2 * (SIZE - 2));
    double worst = 0;
    for (int i = 0; i < 50; i++) { /* each with the pivot order of those before, while it serves */
        if (i > 0)
            fill(&b, &seed);
        assert_int_equal(num_sparse_factor(sparse, b.values, &singular), FV_OK);
        worst = fmax(worst, solved_off(&b, sparse, &seed));
    }
    printf("check | sparse systems of 30, kept pivots | 0 | got %.1e, allowed 1e-9 | known solutions\n", worst);
    assert_true(worst < 1e-9);

    /* The first row's own entries vanish: the kept pivot is 0, and another has to be found. */
    fill(&b, &seed);
    for (size_t k = 0; k < b.count; k++)
        if (b.rows[k] == 0 && b.cols[k] == 0)
            b.values[k] = 0;
    b.matrix[0][0] = 0;
    assert_int_equal(num_sparse_factor(sparse, b.values, &singular), FV_OK);
    assert_true(solved_off(&b, sparse, &seed) < 1e-9);

    /* A row of nothing has no solution; what comes after it has. */
    for (size_t k = 0; k < b.count; k++)
        if (b.rows[k] == 3)
            b.values[k] = 0;
    assert_int_equal(num_sparse_factor(sparse, b.values, &singular), FV_FAIL);
    assert_true(singular >= 0 && singular < SIZE);
    fill(&b, &seed);
    assert_int_equal(num_sparse_factor(sparse, b.values, &singular), FV_OK);
    assert_true(solved_off(&b, sparse, &seed) < 1e-9);

    num_sparse_free(sparse);
    num_pattern_free(pattern);
}

/* A column that no row mentions. */
static void sparse_pattern_with_a_gap(void **state)
{
    (void)state;
    static const int rows[] = {0, 1, 2}, cols[] = {0, 1, 1};
    int singular = -1;
    assert_null(num_pattern_new(3, rows, cols, 3, &singular));
    assert_true(singular >= 0 && singular < 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(bessel_values),
                                       cmocka_unit_test(bessel_zeros),
                                       cmocka_unit_test(roots_between),
                                       cmocka_unit_test(roots_of_flat_functions),
                                       cmocka_unit_test(roots_of_what_rises),
                                       cmocka_unit_test(sparse_systems),
                                       cmocka_unit_test(sparse_pattern_with_a_gap)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
