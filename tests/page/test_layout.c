/* SPDX-License-Identifier: MIT */
/* Where the parts of a plant stand in its drawing: each once, none on another, lines from part to part. */
#include "report/bench.h"

#include "page/layout.h"

static size_t places(const page_layout *l, page_layout_kind kind)
{
    size_t n = 0;
    for (size_t i = 0; i < l->place_count; i++)
        n += l->places[i].kind == kind;
    return n;
}

static const page_layout_place *place_of(const page_layout *l, page_layout_kind kind, int index)
{
    const page_layout_place *found = NULL;
    for (size_t i = 0; i < l->place_count; i++)
        if (l->places[i].kind == kind && l->places[i].index == index) {
            assert_null(found); /* once */
            found = &l->places[i];
        }
    return found;
}

static void expect_vessels_apart(const page_layout *l, size_t vessels)
{
    assert_int_equal(places(l, LAYOUT_VESSEL), vessels);
    for (size_t i = 0; i < vessels; i++) {
        const page_layout_place *a = place_of(l, LAYOUT_VESSEL, (int)i);
        assert_non_null(a);
        assert_true(a->at.x >= 0.0 && a->at.x + LAYOUT_VESSEL_WIDTH <= l->width + 1.0);
        assert_true(a->at.y >= 0.0 && a->at.y <= l->height);
        for (size_t k = 0; k < i; k++) {
            const page_layout_place *b = place_of(l, LAYOUT_VESSEL, (int)k);
            assert_true(fabs(a->at.y - b->at.y) >= LAYOUT_VESSEL_HEIGHT - 1.0 ||
                        fabs(a->at.x - b->at.x) >= LAYOUT_VESSEL_WIDTH - 1.0);
        }
    }
}

static bool is_at(page_svg_point a, page_svg_point b)
{
    return hypot(a.x - b.x, a.y - b.y) < 1e-9;
}

/* Every line is drawn, has its words once, and in a layout of rows ends where its vessel stands. */
static void expect_lines(const page_layout *l, const fv_plant *plant)
{
    for (size_t i = 0; i < plant->line_count; i++) {
        size_t drawn = 0, words = 0;
        for (size_t k = 0; k < l->wire_count; k++) {
            drawn += l->wires[k].line == (int)i;
            words += l->wires[k].line == (int)i && l->wires[k].how != LAYOUT_WORDS_NONE;
        }
        assert_true(drawn >= 1);
        assert_int_equal(words, 1);
    }
    for (size_t v = 0; l->in_rows && v < plant->vessel_count; v++) {
        bool reached = false;
        for (size_t k = 0; k < l->wire_count; k++)
            reached =
                reached || is_at(l->wires[k].points[l->wires[k].count - 1], place_of(l, LAYOUT_VESSEL, (int)v)->at);
        assert_true(reached);
    }
}

static void lays_a_header_with_branches(void **state)
{
    static const size_t sizes[] = {1, 2, 6, 60};
    (void)state;
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        bench *b = bench_new(sizes[i], "bin%zu");
        page_layout l;
        assert_false(page_layout_has_loops(b->plant));
        page_layout_tree(b->plant, &l);
        assert_false(l.failed);
        expect_vessels_apart(&l, sizes[i]);
        expect_lines(&l, b->plant);
        assert_int_equal(places(&l, LAYOUT_BOILER), 1);
        assert_int_equal(places(&l, LAYOUT_LINK), 0);
        for (size_t r = 1; r < l.row_count; r++) /* so that the drawing can be cut between them */
            assert_true(l.rows[r] > l.rows[r - 1]);
        page_layout_free(&l);
        bench_free(b);
    }
}

static fv_line *add_line(bench *b, const char *id, const char *from, const char *to)
{
    fv_line *line = fv_plant_add_line(b->plant, FV_LINE_HEADER, id, (fv_loc){"bench.xml", 1});
    line->from = from;
    line->to = to;
    line->length = fv_given(2.0);
    line->bore = fv_given(0.025);
    return line;
}

static void link_again(bench *b)
{
    fv_faults *faults = fv_faults_new();
    assert_int_not_equal(fv_plant_link(b->plant, faults), FV_FAIL);
    fv_faults_free(faults);
    b->state.node_count = b->plant->node_count;
    for (size_t i = b->state.line_count; i < b->plant->line_count; i++)
        b->lines[i] = b->lines[0];
    b->state.line_count = b->plant->line_count;
}

static void lays_a_branch_with_branches_of_its_own(void **state)
{
    (void)state;
    bench *b = bench_new(3, "bin%zu");
    /* A second trunk from t1, with two vessels, and a second boiler at its end. */
    add_line(b, "w1", "t1", "w1");
    for (int i = 0; i < 2; i++) {
        fv_vessel *vessel = fv_plant_add_vessel(b->plant, i ? "side2" : "side1", false, (fv_loc){"bench.xml", 1});
        vessel->at = i ? "d2" : "d1";
        vessel->coil = b->plant->vessels[0]->coil;
        fv_vessel_add_opening(b->plant, vessel, FV_OPENING_VENT, (fv_loc){"bench.xml", 1})->diameter = fv_given(0.03);
        add_line(b, i ? "x2" : "x1", "w1", vessel->at);
    }
    fv_boiler *boiler = fv_plant_add_boiler(b->plant, "second", (fv_loc){"bench.xml", 1});
    boiler->at = "e1";
    boiler->output = fv_given(12e3);
    add_line(b, "y1", "e1", "w1");
    link_again(b);
    page_layout l;
    page_layout_tree(b->plant, &l);
    assert_false(l.failed);
    expect_vessels_apart(&l, 5);
    expect_lines(&l, b->plant);
    assert_int_equal(places(&l, LAYOUT_BOILER), 2);
    page_layout_free(&l);
    bench_free(b);
}

static void lays_loops_with_graphviz(void **state)
{
    (void)state;
    bench *b = bench_new(5, "bin%zu");
    add_line(b, "ring", "t5", "t0");
    link_again(b);
    assert_true(page_layout_has_loops(b->plant));
    page_layout l, again;
    assert_true(page_layout_loops(b->plant, &b->state, &l));
    assert_false(l.in_rows);
    expect_vessels_apart(&l, 5);
    expect_lines(&l, b->plant);
    for (size_t i = 0; i < l.wire_count; i++) {
        assert_int_equal(l.wires[i].count % 3, 1); /* Bezier pieces */
        for (size_t k = 0; k < l.wires[i].count; k++)
            assert_true(l.wires[i].points[k].x >= 0.0 && l.wires[i].points[k].x <= l.width);
    }
    assert_true(page_layout_loops(b->plant, &b->state, &again)); /* the same again */
    for (size_t i = 0; i < l.place_count; i++)
        assert_true(is_at(l.places[i].at, again.places[i].at));
    page_layout_free(&again);
    page_layout_free(&l);
    bench_free(b);
}

/* Where Graphviz is of no help the loop is cut, and a sign says where it goes on. */
static void cuts_a_loop_in_rows(void **state)
{
    (void)state;
    bench *b = bench_new(5, "bin%zu");
    add_line(b, "ring", "t5", "t0");
    link_again(b);
    page_layout l;
    page_layout_tree(b->plant, &l);
    assert_false(l.failed);
    expect_vessels_apart(&l, 5);
    expect_lines(&l, b->plant);
    assert_int_equal(places(&l, LAYOUT_LINK), 1);
    page_layout_free(&l);
    bench_free(b);
}

/* A chain of very many joints must not nest as deep. */
static void lays_a_very_long_chain(void **state)
{
    enum { LINKS = 20000 };
    (void)state;
    bench *b = bench_new(1, "bin%zu");
    for (int i = 0; i < LINKS; i++)
        add_line(b, fv_arena_printf(b->plant->arena, "c%d", i), i ? fv_arena_printf(b->plant->arena, "k%d", i) : "t1",
                 fv_arena_printf(b->plant->arena, "k%d", i + 1));
    fv_plant_add_drip(b->plant, (fv_loc){"bench.xml", 1})->at = fv_arena_printf(b->plant->arena, "k%d", LINKS);
    fv_faults *faults = fv_faults_new();
    assert_int_not_equal(fv_plant_link(b->plant, faults), FV_FAIL);
    fv_faults_free(faults);
    page_layout l;
    page_layout_tree(b->plant, &l);
    assert_false(l.failed);
    assert_int_equal(places(&l, LAYOUT_VESSEL), 1);
    page_layout_free(&l);
    bench_free(b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lays_a_header_with_branches), cmocka_unit_test(lays_a_branch_with_branches_of_its_own),
        cmocka_unit_test(lays_loops_with_graphviz),    cmocka_unit_test(cuts_a_loop_in_rows),
        cmocka_unit_test(lays_a_very_long_chain),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
