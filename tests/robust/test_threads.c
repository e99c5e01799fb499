/* SPDX-License-Identifier: MIT */
/* Two plants in two threads, with units that only UDUNITS-2 knows: each thread's answers are those that it gives alone.
 * `make SAN=thread build/tsan/tests/robust/test_threads` looks for races, too. */
#include "farvessel/farvessel.h"
#include "farvessel/plantfile.h"

#include <math.h>
#include <pthread.h>
#include <setjmp.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { THREADS = 2, ROUNDS = 4 };

typedef struct {
    const char *path, *setting;
    fv_text answer[ROUNDS]; /* as each round has it */
} work;

static const work plants[THREADS] = {{"networks/mixed.xml", "site.altitude=60 fathoms", {{0}}},
                                     {"networks/hand.xml", "boiler.output=43 megajoule/h", {{0}}}};

static void report(const fv_plant *plant, fv_faults *faults, fv_text *out)
{
    fv_report_options said;
    fv_page_options page;
    fv_flow_options moment;
    fv_heat_options time;
    fv_report_defaults(&said);
    fv_page_defaults(&page);
    fv_flow_defaults(&moment);
    fv_heat_defaults(&time);
    fv_flow_answer *flow = fv_flow_answer_new(plant, &moment, NULL, faults);
    fv_heat_result *heat = fv_heat_run(plant, &time, NULL, faults);
    if (flow && heat) {
        const fv_page_content content = {.flow = flow, .heat = heat, .remarks = faults};
        fv_report_flow(flow, faults, &said, out);
        said.format = FV_REPORT_JSON;
        fv_report_heat(heat, faults, &said, out);
        fv_report_page(&content, &page, out);
    }
    fv_heat_free(heat);
    fv_flow_answer_free(flow);
}

static void *answer(void *context)
{
    work *w = context;
    for (int i = 0; i < ROUNDS; i++) {
        fv_faults *faults = fv_faults_new();
        fv_plant *plant = fv_plantfile_read(w->path, NULL, faults);
        if (plant && fv_plantfile_set(plant, &w->setting, 1, faults) != FV_FAIL)
            report(plant, faults, &w->answer[i]);
        fv_plant_free(plant);
        fv_faults_free(faults);
    }
    return NULL;
}

static void answers_are_those_of_one_thread(void **state)
{
    (void)state;
    work alone[THREADS], together[THREADS];
    pthread_t thread[THREADS];
    memcpy(alone, plants, sizeof alone);
    memcpy(together, plants, sizeof together);
    /* Together first: nothing is made ready by an earlier call. */
    for (int t = 0; t < THREADS; t++)
        assert_int_equal(pthread_create(&thread[t], NULL, answer, &together[t]), 0);
    for (int t = 0; t < THREADS; t++)
        pthread_join(thread[t], NULL);
    for (int t = 0; t < THREADS; t++) {
        answer(&alone[t]);
        for (int i = 0; i < ROUNDS; i++) {
            assert_true(alone[t].answer[i].length > 20000);
            assert_string_equal(together[t].answer[i].text, alone[t].answer[i].text);
            fv_text_free(&together[t].answer[i]);
            fv_text_free(&alone[t].answer[i]);
        }
    }
}

/* One unit system that all threads share. */
static void *parse(void *units)
{
    intptr_t wrong = 0;
    for (int i = 0; i < 300; i++) {
        double si;
        wrong += fv_quantity_parse(units, FV_DIM_LENGTH, i % 2 ? "3 furlong" : "2 fathom", &si, NULL) != FV_OK ||
                 fabs(si - (i % 2 ? 3 * 201.168 : 2 * 1.8288)) > 0.01; /* UDUNITS-2: of the US survey foot */
    }
    return (void *)wrong;
}

static void one_unit_system_serves_several_threads(void **state)
{
    (void)state;
    fv_units *units = fv_units_new(NULL);
    pthread_t thread[THREADS];
    assert_non_null(units);
    for (int t = 0; t < THREADS; t++)
        assert_int_equal(pthread_create(&thread[t], NULL, parse, units), 0);
    for (int t = 0; t < THREADS; t++) {
        void *wrong;
        pthread_join(thread[t], &wrong);
        assert_null(wrong);
    }
    fv_units_free(units);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(answers_are_those_of_one_thread),
                                       cmocka_unit_test(one_unit_system_serves_several_threads)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
