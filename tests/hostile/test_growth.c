/* SPDX-License-Identifier: MIT */
/* Time and memory in proportion to the file: ten times as many of anything take at most twelve times as long to read,
 * check and report (without limits); a file up to the limits takes at most 2 s and 256 MB; beyond each limit a message
 * names it. */
#define _DEFAULT_SOURCE /* wait4 */
#include "farvessel/plantfile.h"
#include "farvessel/report.h"

#include <math.h>
#include <setjmp.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

#if defined(__SANITIZE_ADDRESS__)
enum { SLOWER = 20, MEMORY_TOLD = 0 };
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
enum { SLOWER = 20, MEMORY_TOLD = 0 };
#else
enum { SLOWER = 1, MEMORY_TOLD = 1 };
#endif
#else
enum { SLOWER = 1, MEMORY_TOLD = 1 };
#endif

#define AT_MOST_TIMES 12.0
#define LEAST 0.003 /* s; shorter times are not compared */
#define SECONDS_MOST 2.0
#define KIB_MOST (256.0 * 1024)
enum { FEW = 1000, MANY = 10000 };

/* Where in a small plant the many stand. */
typedef enum { TITLE, NETWORK, SITE, STOCK, BEFORE, PIPE, COIL, KIND, WALL, END, PLACES } place;

/* '#' in `piece` becomes 0, 1, 2...; '^' the number before, "t1" at first. */
typedef struct {
    const char *name;
    place at;
    size_t most; /* as many as the default limits let in */
    const char *piece;
} many;

static const many cases[] = {
    {"bytes of a title", TITLE, 142, "long > "},
    {"entities of a title", TITLE, 998, "&gt;"},
    {"comments", END, 131071, "<!-- <x> -->"},
    {"processing instructions", END, 131071, "<?x ?>"},
    {"stray text", END, 131071, "x "},
    {"unknown elements", END, 49000, "<foo/>"},
    {"elements that may stand once", END, 49000, "<site/>"},
    {"elements of other namespaces", END, 49000, "<a#:b xmlns:a#=\"u#\"/>"},
    {"unknown attributes", END, 49000, "<drip at=\"t1\" a#=\"\"/>"},
    {"faults of values", END, 3998, "<hose id=\"h#\" from=\"t1\" to=\"c1\" length=\"1 kg\" bore=\"#\"/>"},
    {"ids that are taken", END, 998, "<vessel id=\"near\" like=\"drum\" at=\"c1\"/>"},
    {"names that are unknown", END, 998, "<vessel id=\"v#\" like=\"drom#\" at=\"c1\"/>"},
    {"rows of weather", SITE, 10000, "<weather at=\"# min\" air=\"10 degC\"/>"},
    {"hoses in stock", STOCK, 1000, "<hose bore=\"0.0# m\" price=\"3\"/>"},
    {"drills in stock", STOCK, 1000, "<drill size=\"# um\"/>"},
    {"boilers in stock", STOCK, 1000, "<boiler output=\"# W\" price=\"3\"/>"},
    {"boilers", BEFORE, 999, "<boiler id=\"b#\" at=\"b0\" output=\"12 kW\" holds=\"0.3 bar\" relief=\"0.5 bar\"/>"},
    {"headers in a row", END, 3998, "<header id=\"h#\" from=\"^\" to=\"#\" length=\"1 m\" bore=\"100 mm\"/>"},
    {"headers side by side", END, 3998, "<header id=\"h#\" from=\"b0\" to=\"t1\" length=\"1 m\" bore=\"100 mm\"/>"},
    {"dead ends", END, 3998, "<header id=\"h#\" from=\"t1\" to=\"#\" length=\"1 m\" bore=\"100 mm\"/>"},
    {"hoses with vessels", END, 998,
     "<hose id=\"h#\" like=\"s1\" from=\"t1\" to=\"y#\"/><vessel id=\"v#\" like=\"drum\" at=\"y#\"/>"},
    {"vessels at one joint", END, 998, "<vessel id=\"v#\" like=\"drum\" at=\"c1\"/>"},
    {"kinds", END, 998, "<kind id=\"k#\"/>"},
    {"kinds like each other", END, 998, "<kind id=\"k#\" like=\"k^\"/>"},
    {"tees", END, 49000, "<tee at=\"t#\" main=\"p1\" run=\"s1\" branch=\"p1\"/>"},
    {"tees at one joint", END, 49000, "<tee at=\"t1\" main=\"p1\" run=\"s1\" branch=\"p1\"/>"},
    {"drip legs", END, 49000, "<drip at=\"t1\"/>"},
    {"fittings", PIPE, 1000, "<fitting type=\"elbow\"/>"},
    {"barbs", PIPE, 1000, "<barb bore=\"12 mm\"/>"},
    {"unions", PIPE, 1000, "<union bore=\"12 mm\"/>"},
    {"losses", PIPE, 1000, "<loss k=\"0.001\"/>"},
    {"valves", PIPE, 1000, "<valve id=\"v#\" kv=\"300 m3/h\"/>"},
    {"holes", COIL, 999, "<hole at=\"# mm\" drill=\"2 mm\"/>"},
    {"walls", KIND, 996, "<wall area=\"1 m2\"><layer material=\"plywood\" thickness=\"1 mm\"/></wall>"},
    {"layers", WALL, 11, "<layer material=\"plywood\" thickness=\"1 mm\"/>"},
    {"vents", KIND, 996, "<vent diameter=\"25 mm\"/>"},
    {"drains", KIND, 996, "<drain diameter=\"25 mm\"/>"},
    {"gaps", KIND, 996, "<gap area=\"1 cm2\"/>"},
    {"actions on boilers", END, 10000, "<action at=\"# s\" boiler=\"boiler\" fire=\"50 %\"/>"},
    {"actions on vessels", END, 10000, "<action at=\"# s\" vessel=\"near\" act=\"detach\"/>"},
    {"actions at one time", END, 10000, "<action at=\"0 s\" boiler=\"boiler\" fire=\"50 %\"/>"},
};

static void expand(const char *piece, size_t count, fv_text *out)
{
    for (size_t i = 0; i < count; i++) {
        for (const char *c = piece; *c; c++) {
            if (*c == '#')
                fv_text_add(out, "%zu", i);
            else if (*c == '^' && i == 0)
                fv_text_add(out, "t1");
            else if (*c == '^')
                fv_text_add(out, "%zu", i - 1);
            else
                fv_text_add(out, "%c", *c);
        }
        if (piece[0] == '<')
            fv_text_add(out, "\n");
    }
}

/* A plant of one vessel, with `count` pieces at their place. */
static void make_plant(const many *m, size_t count, fv_text *out)
{
    static const char *const before[PLACES] = {
        [TITLE] = "<network xmlns=\"" FV_PLANTFILE_NAMESPACE "\" title=\"x ",
        [NETWORK] = "\"",
        [SITE] = ">\n<site air=\"15 degC\">",
        [STOCK] = "</site>\n<stock>",
        [BEFORE] =
            "</stock>\n<boiler id=\"boiler\" at=\"b0\" output=\"12 kW\" holds=\"0.3 bar\" relief=\"0.5 bar\"/>\n",
        [PIPE] = "<pipe id=\"p1\" from=\"b0\" to=\"t1\" length=\"2 m\" bore=\"40 mm\">",
        [COIL] =
            "</pipe>\n<hose id=\"s1\" from=\"t1\" to=\"c1\" length=\"2 m\" bore=\"20 mm\"/>\n"
            "<kind id=\"drum\" volume=\"200 L\"><coil bore=\"40 mm\" length=\"20 m\"><hole at=\"1 m\" drill=\"8 mm\"/>",
        [KIND] = "</coil><load form=\"block\" a=\"10 cm\" b=\"10 cm\" c=\"20 cm\" count=\"30\" mass=\"60 kg\" "
                 "moisture=\"60 %\"/><drain diameter=\"25 mm\"/>",
        [WALL] = "<wall area=\"1 m2\"><layer material=\"plywood\" thickness=\"9 mm\"/>",
        [END] = "</wall></kind>\n<vessel id=\"near\" like=\"drum\" at=\"c1\"/>\n"};
    for (place p = 0; p < PLACES; p++) {
        fv_text_add(out, "%s", before[p]);
        if (m && m->at == p)
            expand(m->piece, count, out);
    }
    fv_text_add(out, "</network>\n");
}

static void read_and_check(const fv_text *file, const fv_plantfile_limits *limits)
{
    fv_faults *faults = fv_faults_new();
    fv_plant *plant = fv_plantfile_read_memory(file->text, file->length, "many.xml", limits, faults);
    fv_check_answer *answer = plant ? fv_check_answer_new(plant, faults) : NULL;
    fv_report_options options;
    fv_report_defaults(&options);
    fv_text text = {0};
    if (answer)
        fv_report_check(answer, faults, &options, &text);
    else
        fv_report_faults(faults, &text);
    if (!text.length)
        abort();
    fv_text_free(&text);
    fv_check_answer_free(answer);
    fv_plant_free(plant);
    fv_faults_free(faults);
}

/* In a process of its own, for its memory; CPU seconds. */
static double measure(const fv_text *file, const fv_plantfile_limits *limits, double *kib)
{
    int status = 0;
    struct rusage usage;
    const pid_t child = fork();
    if (child == 0) {
        read_and_check(file, limits);
        _exit(0);
    }
    assert_true(child > 0 && wait4(child, &status, 0, &usage) == child);
    assert_int_equal(status, 0);
    *kib = (double)usage.ru_maxrss;
    return (double)usage.ru_utime.tv_sec + 1e-6 * (double)usage.ru_utime.tv_usec + (double)usage.ru_stime.tv_sec +
           1e-6 * (double)usage.ru_stime.tv_usec;
}

/* How much longer `more` takes than `few`: measured again where another process seems to have been in the way. */
static double times_as_long(const fv_text *few, const fv_text *more, const fv_plantfile_limits *limits)
{
    double short_time = LEAST * SLOWER, long_time = 0, fastest = INFINITY, kib;
    for (int i = 0; i < 9 && (i == 0 || long_time > AT_MOST_TIMES * short_time); i++) {
        const double again = measure(few, limits, &kib), longer = measure(more, limits, &kib);
        fastest = again < fastest ? again : fastest;
        short_time = fastest > LEAST * SLOWER ? fastest : LEAST * SLOWER;
        long_time = i == 0 || longer < long_time ? longer : long_time;
    }
    return long_time / short_time;
}

static fv_plantfile_limits unlimited(void)
{
    fv_plantfile_limits l = fv_plantfile_limits_default();
    l.elements_most = l.boilers_most = l.lines_most = l.vessels_most = l.inside_most = l.taken_most = l.actions_most =
        l.stock_most = l.weather_most = 1000000;
    return l;
}

static void ten_times_as_many_take_ten_times_as_long(void **state)
{
    (void)state;
    const fv_plantfile_limits limits = unlimited();
    size_t slow = 0;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        fv_text few = {0}, more = {0};
        make_plant(&cases[i], FEW, &few);
        make_plant(&cases[i], MANY, &more);
        const double times = times_as_long(&few, &more, &limits);
        print_message("%-32s %4.1f times\n", cases[i].name, times);
        slow += times > AT_MOST_TIMES;
        fv_text_free(&few);
        fv_text_free(&more);
    }
    assert_int_equal(slow, 0);
}

static void up_to_the_limits_it_is_quick_and_small(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const size_t count = cases[i].most;
        fv_text file = {0};
        double kib;
        make_plant(&cases[i], count, &file);
        const double seconds = measure(&file, NULL, &kib);
        print_message("%-32s %6zu: %6.1f ms, %5.1f MB\n", cases[i].name, count, 1e3 * seconds, kib / 1024);
        assert_true(seconds < SECONDS_MOST * SLOWER);
        assert_true(!MEMORY_TOLD || kib < KIB_MOST);
        fv_text_free(&file);
    }
}

/* All at once, and as much of it as the bytes hold. */
static void a_file_full_of_everything_is_quick_and_small(void **state)
{
    (void)state;
    static const char *const full[] = {
        "<drip at=\"t1\" a=\"\" b=\"\" c=\"\" d=\"\" e=\"\" f=\"\" g=\"\" h=\"\" i=\"\" j=\"\" k=\"\" l=\"\" m=\"\" "
        "n=\"\" "
        "o=\"\" p=\"\" q=\"\" r=\"\" s=\"\" t=\"\" u=\"\" v=\"\" w=\"\" x=\"\" y=\"\" z=\"\" aa=\"\" ab=\"\" ac=\"\" "
        "ad=\"\"/>",
        "<!-- 0123456789012345678901234567890123456789012345678901234567890123456789012345678901234567890123456789 -->",
        ("<header id=\"h#\" from=\"b0\" to=\"t1\" length=\"1 m\" bore=\"100 mm\" known=\"tape tape tape tape tape "
         "tape\"/>")};
    for (size_t i = 0; i < sizeof full / sizeof *full; i++) {
        const many m = {"full", END, 0, full[i]};
        fv_text file = {0};
        double kib;
        make_plant(&m, 49000, &file);
        const double seconds = measure(&file, NULL, &kib);
        print_message("%.20s...: %.1f MB of file: %.1f ms, %.1f MB\n", full[i], (double)file.length / 1e6,
                      1e3 * seconds, kib / 1024);
        assert_true(seconds < SECONDS_MOST * SLOWER);
        assert_true(!MEMORY_TOLD || kib < KIB_MOST);
        fv_text_free(&file);
    }
}

/* What is said of a file that holds one more than it may. */
static void each_limit_is_named(void **state)
{
    (void)state;
    static const struct {
        const char *limit; /* as `help limits` has it */
        many m;
        size_t count;
        const char *said;
    } over[] = {
        {"bytes of the file", {"", END, 0, "                "}, 1 << 20, "longer than the limit of 16777216 bytes"},
        {"elements", {"", END, 0, "<x/>"}, 50000, "more than 50000 elements"},
        {"elements inside each other", {"", END, 0, "<kind>"}, 40, "elements more than 32 deep inside each other"},
        {"attributes of an element", {"", NETWORK, 0, " a#=\"\""}, 100, "more than 100 attributes of an element"},
        {"attributes of an element",
         {"", NETWORK, 0, " xmlns:a#=\"u\""},
         100,
         "more than 100 attributes of an element"},
        {"attributes of an element", {"", NETWORK, 0, " a#=\">\""}, 2000, "a tag of more than 8192 characters"},
        {"bytes of a value", {"", TITLE, 0, "x"}, 999, "title is 1001 bytes long; at most 1000 can be read"},
        {"boilers", {"", BEFORE, 0, "<boiler id=\"#\"/>"}, 1000, "more than 1000 boilers"},
        {"headers, pipes and hoses", {"", END, 0, "<hose id=\"#\"/>"}, 4000, "more than 4000 headers, pipes and hoses"},
        {"vessels and kinds", {"", END, 0, "<kind id=\"#\"/>"}, 1000, "more than 1000 vessels and kinds"},
        {"parts inside one part, such as holes of a coil",
         {"", PIPE, 0, "<loss/>"},
         1001,
         "more than 1000 parts inside one"},
        {"parts that like=\"...\" brings in", {"", KIND, 0, "<vent/>"}, 900, "more than 100000 parts are brought in"},
        {"actions and thermostats", {"", END, 0, "<action/>"}, 10001, "more than 10000 actions and thermostats"},
        {"sizes in stock", {"", STOCK, 0, "<drill/>"}, 1001, "more than 1000 sizes in stock"},
        {"rows of weather", {"", SITE, 0, "<weather/>"}, 10001, "more than 10000 rows of weather"},
        {"faults that are listed", {"", END, 0, "<x/>"}, 501, "more than 500 faults; the rest is not listed"},
    };
    const char *what;
    size_t most, tested = 0;
    for (size_t limit = 0; fv_plantfile_limit_at(NULL, limit, &what, &most); limit++) {
        const size_t before = tested;
        for (size_t i = 0; i < sizeof over / sizeof *over; i++) {
            if (strcmp(over[i].limit, what) != 0)
                continue;
            fv_text file = {0};
            make_plant(&over[i].m, over[i].count, &file);
            if (strstr(what, "like=")) { /* each vessel takes over all that the kind has */
                file.length -= strlen("</network>\n");
                expand("<vessel id=\"v#\" like=\"drum\" at=\"c1\"/>", 900, &file);
                fv_text_add(&file, "</network>\n");
            }
            fv_faults *faults = fv_faults_new();
            assert_null(fv_plantfile_read_memory(file.text, file.length, "many.xml", NULL, faults));
            bool said = false;
            for (size_t f = 0; f < fv_faults_count(faults); f++) {
                said = said || strstr(fv_faults_at(faults, f)->text, over[i].said);
                assert_string_equal(fv_faults_at(faults, f)->file, "many.xml");
            }
            if (!said)
                print_message("not said: %s\n", over[i].said);
            assert_true(said);
            fv_faults_free(faults);
            fv_text_free(&file);
            tested++;
        }
        assert_true(tested > before); /* a new limit needs a row here */
    }
    assert_int_equal(tested, sizeof over / sizeof *over);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(ten_times_as_many_take_ten_times_as_long),
                                       cmocka_unit_test(up_to_the_limits_it_is_quick_and_small),
                                       cmocka_unit_test(a_file_full_of_everything_is_quick_and_small),
                                       cmocka_unit_test(each_limit_is_named)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
