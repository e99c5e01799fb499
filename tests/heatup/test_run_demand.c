/* SPDX-License-Identifier: MIT */
/* The demand of the chambers, by hand: once the load is hot through, it is what the walls let through. */
#include "heatup/run_plants.h"

static void of_walls_alone(void **state)
{
    (void)state;
    bench b;
    open_bench(&b, 15e3);
    ideal(add_line(&b, FV_LINE_HOSE, "hose", "b0", "c", 3, 0.025));
    fv_vessel *v = add_vessel(&b, "bin", "c");
    v->hold = fv_given(60 * 3600);
    /* 1/(0.05/0.2 + 1/12) = 3 W/m2/K x 4 m2 x 85 K = 1020 W; light boards, so that they are soon steady */
    add_wall(&b, v, 4, 0.05, 0.2, 100, 1000, 12);
    go(&b);
    const fv_series *s = &b.result->series;
    size_t last = 0;
    while (last + 1 < s->count && s->time[last + 1] < b.result->vessels[0].hold - 3600)
        last++;
    check_dev("demand of walls alone, kg/h", 1020 / 2.2565e6 * 3600, 3600 * s->demand[last], 5e-3,
              "1020 W / 2256.5 kJ/kg (IAPWS R7-97 at 100 degC)");
    close_bench(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(of_walls_alone)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
