/* SPDX-License-Identifier: MIT */
/* A chamber behind one large opening: `flow` and `heat` settle at one temperature, and it balances by hand. */
#include "heatup/run_plants.h"

#include "farvessel/flow.h"
#include "farvessel/props.h"

static void drum(bench *b, double output, double diameter)
{
    one_vessel(b, output);
    fv_vessel *v = b->plant->vessels[0];
    add_wall(b, v, 2, 0.03, 0.04, 60, 800, 10);
    v->openings[0]->diameter = fv_given(diameter);
    v->openings[0]->height = fv_given(0.8);
    v->target = fv_given(60 + KELVIN);
    v->hold = fv_given(100 * 3600);
    v->within = fv_given(50 * 3600);
    b->options.until = 80 * 3600;
}

static double holds_at(const bench *b, double *steam, double *enthalpy)
{
    fv_flow_options options;
    fv_flow_defaults(&options);
    options.phase = FV_PHASE_HOLDING;
    options.turndown = options.predict = false;
    fv_flow_answer *flow = fv_flow_answer_new(b->plant, &options, NULL, b->faults);
    assert_non_null(flow);
    *steam = flow->state->vessels[0].steam;
    *enthalpy = flow->state->boilers[0].enthalpy;
    const double t = flow->state->vessels[0].chamber_temperature;
    fv_flow_answer_free(flow);
    return t;
}

/* Steady balance by hand at t: steam that comes less what walls, vapour that leaves and air that is warmed take, W; out
 * goes what keeps the chamber's air as it is. */
static double left_over(double t, double steam, double enthalpy, double site, double *net)
{
    fv_sat_at_t_point at;
    double rest;
    fv_sat_at_t(fv_sat_line(), t, &at);
    fv_flow_exchange_level(0.15, 0.003, &rest);
    const double air = (site - at.p) / (287.05 * t), gas = air + at.rho_g, outside = site / (287.05 * 288.15);
    rest *= sqrt(2 * (outside - gas) / (outside + gas));
    /* q out in all, m3/s: (both + q) air = both x outside, both = rest - q/4 */
    *net = rest * (outside - air) / (air + 0.25 * (outside - air));
    const double both = rest - 0.25 * *net;
    const double walls = 2 * (t - 288.15) / (0.03 / 0.04 + 0.1);
    return steam * (enthalpy - at.h_f) - walls - (both + *net) * at.rho_g * (at.h_g - at.h_f) -
           both * outside * 1006 * (t - 288.15);
}

static void settles_where_it_balances(void **state)
{
    (void)state;
    static const double outputs[] = {700, 1200, 2000};
    for (int i = 0; i < 3; i++) {
        bench b;
        double steam, enthalpy, net, low = 290, high = 373;
        drum(&b, outputs[i], 0.15);
        go(&b);
        const double t = holds_at(&b, &steam, &enthalpy);
        check_off("chamber behind a vent of 150 mm: heat against flow, degC", t - KELVIN,
                  b.result->vessels[0].chamber_end - KELVIN, 0.02, "two solvers");
        while (high - low > 1e-6) {
            const double middle = 0.5 * (low + high);
            *(left_over(middle, steam, enthalpy, 101418, &net) > 0 ? &low : &high) = middle;
        }
        check_off("the same by hand, degC", low - KELVIN, t - KELVIN, 0.3,
                  "balance of heat and air, Epstein 1988; its pressure, a few Pa, left out");
        close_bench(&b);
    }
}

static void only_wide_ones_alone(void **state)
{
    (void)state;
    for (int i = 0; i < 4; i++) {
        bench b;
        double steam, enthalpy;
        drum(&b, 2000, i == 0 ? 0.099 : 0.15);
        fv_vessel *v = b.plant->vessels[0];
        if (i == 1)
            v->openings[0]->exchange = fv_given(0);
        if (i == 3) { /* in a wall: Cd/3 A (g D)^0.5 is 2.9 times Epstein's */
            v->openings[0]->faces = fv_given(FV_FACES_SIDEWAYS);
        }
        assert_int_equal(fv_plant_link(b.plant, b.faults), FV_OK);
        const double t = holds_at(&b, &steam, &enthalpy);
        if (i < 2)
            assert_true(t > 372.9 + 0.1);
        else
            assert_true(t < 365 && (i == 2 || t < 350));
        close_bench(&b);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(settles_where_it_balances),
        cmocka_unit_test(only_wide_ones_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
