/* SPDX-License-Identifier: MIT */
/* The colours hold in both schemes, for eyes without one sort of cone, and in grey print. Distances are CIE 1976 in
 * CIELAB; below about 10 two thin lines are hard to tell apart (common practice, no source).
 *
 * Colour-blind sight after Machado, Oliveira & Fernandes, "A physiologically-based model for simulation of color vision
 * deficiency", IEEE TVCG 15 (2009), table for severity 1.0 (from memory; each row adds up to 1). Contrast after WCAG
 * 2.2, success criteria 1.4.3 (text, 4.5) and 1.4.11 (graphics, 3). */
#include "page/palette.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { SIGHTS = 4 };
static const char *const sights[SIGHTS] = {"normal", "protanopia", "deuteranopia", "tritanopia"};
static const double machado[SIGHTS][3][3] = {
    {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
    {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
    {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
    {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}},
};

typedef struct {
    double v[3];
} triple;

/* IEC 61966-2-1 (sRGB). */
static triple linear(const char *hex)
{
    unsigned code;
    triple t;
    assert_int_equal(sscanf(hex, "#%6x", &code), 1);
    for (int i = 0; i < 3; i++) {
        double c = (double)(code >> (16 - 8 * i) & 0xFFu) / 255.0;
        t.v[i] = c <= 0.04045 ? c / 12.92 : pow((c + 0.055) / 1.055, 2.4);
    }
    return t;
}

static double luminance(triple t)
{
    return 0.2126 * t.v[0] + 0.7152 * t.v[1] + 0.0722 * t.v[2];
}

static double contrast(const char *a, const char *b)
{
    double x = luminance(linear(a)), y = luminance(linear(b));
    return (fmax(x, y) + 0.05) / (fmin(x, y) + 0.05);
}

static double curve(double t)
{
    return t > 216.0 / 24389.0 ? cbrt(t) : (24389.0 / 27.0 * t + 16.0) / 116.0;
}

/* CIE 1976, white point D65. */
static triple lab(triple t)
{
    double x = curve((0.4124564 * t.v[0] + 0.3575761 * t.v[1] + 0.1804375 * t.v[2]) / 0.95047);
    double y = curve(luminance(t));
    double z = curve((0.0193339 * t.v[0] + 0.1191920 * t.v[1] + 0.9503041 * t.v[2]) / 1.08883);
    return (triple){{116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)}};
}

static triple seen(triple t, int sight)
{
    triple s;
    for (int i = 0; i < 3; i++) {
        double sum = 0.0;
        for (int j = 0; j < 3; j++)
            sum += machado[sight][i][j] * t.v[j];
        s.v[i] = fmin(fmax(sum, 0.0), 1.0);
    }
    return lab(s);
}

static double distance(const char *a, const char *b, int sight)
{
    triple x = seen(linear(a), sight), y = seen(linear(b), sight);
    return sqrt(pow(x.v[0] - y.v[0], 2) + pow(x.v[1] - y.v[1], 2) + pow(x.v[2] - y.v[2], 2));
}

static const char *colour(int role, bool dark)
{
    return dark ? page_palette[role].dark : page_palette[role].light;
}

/* The smallest distance among colours first..last. */
static double nearest(int first, int last, bool dark, int sight)
{
    double least = INFINITY;
    for (int i = first; i <= last; i++)
        for (int j = first; j < i; j++)
            least = fmin(least, distance(colour(i, dark), colour(j, dark), sight));
    return least;
}

static void check_nearest(const char *what, int first, int last, double wanted)
{
    for (int dark = 0; dark < 2; dark++)
        for (int sight = 0; sight < SIGHTS; sight++) {
            double got = nearest(first, last, dark != 0, sight);
            printf("check | %s, %s, %s: nearest pair | >= %.0f | got %.1f | Machado et al. 2009\n", what,
                   dark ? "dark" : "light", sights[sight], wanted, got);
            assert_true(got >= wanted);
        }
}

static void keeps_six_curves_apart_for_all_eyes(void **state)
{
    (void)state;
    check_nearest("curves", PALETTE_SERIES, PALETTE_COUNT - 1, 25.0);
}

static void keeps_verdicts_apart_for_all_eyes(void **state)
{
    (void)state;
    check_nearest("verdicts", PALETTE_FED, PALETTE_STARVED, 20.0);
}

/* Lightness alone, as a grey printer has it. */
static void keeps_curves_and_verdicts_apart_in_grey(void **state)
{
    static const struct {
        int first, last;
        double least;
    } groups[] = {{PALETTE_SERIES, PALETTE_COUNT - 1, 4.0}, {PALETTE_FED, PALETTE_STARVED, 10.0}};
    (void)state;
    for (size_t g = 0; g < sizeof groups / sizeof *groups; g++)
        for (int i = groups[g].first; i <= groups[g].last; i++)
            for (int j = groups[g].first; j < i; j++) {
                double a = lab(linear(page_palette[i].light)).v[0], b = lab(linear(page_palette[j].light)).v[0];
                assert_true(fabs(a - b) >= groups[g].least);
            }
}

static void has_contrast_for_words_and_lines(void **state)
{
    static const int words[] = {PALETTE_INK, PALETTE_SOFT, PALETTE_STEAM, PALETTE_STARVED};
    static const int lines[] = {PALETTE_PIPE, PALETTE_STEAM,   PALETTE_WATER,
                                PALETTE_FED,  PALETTE_LAGGING, PALETTE_STARVED};
    (void)state;
    for (int dark = 0; dark < 2; dark++)
        for (int ground = PALETTE_PAPER; ground <= PALETTE_CARD; ground++) {
            const char *under = colour(ground, dark != 0);
            for (size_t i = 0; i < sizeof words / sizeof *words; i++)
                assert_true(contrast(colour(words[i], dark != 0), under) >= 4.5);
            for (size_t i = 0; i < sizeof lines / sizeof *lines; i++)
                assert_true(contrast(colour(lines[i], dark != 0), under) >= 3.0);
            for (int i = PALETTE_SERIES; i < PALETTE_COUNT; i++)
                assert_true(ground == PALETTE_CARD || contrast(colour(i, dark != 0), under) >= 3.0);
        }
}

static void writes_each_colour_once(void **state)
{
    fv_text css = {0};
    (void)state;
    page_palette_css(true, &css);
    assert_non_null(strstr(css.text, "--ink:#"));
    for (int i = 0; i < PALETTE_COUNT; i++)
        for (int j = 0; j < i; j++)
            assert_string_not_equal(page_palette[i].name, page_palette[j].name);
    fv_text_free(&css);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(keeps_six_curves_apart_for_all_eyes),
        cmocka_unit_test(keeps_verdicts_apart_for_all_eyes),
        cmocka_unit_test(keeps_curves_and_verdicts_apart_in_grey),
        cmocka_unit_test(has_contrast_for_words_and_lines),
        cmocka_unit_test(writes_each_colour_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
