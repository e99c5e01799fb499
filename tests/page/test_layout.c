/* SPDX-License-Identifier: MIT */
/* Where the parts of a plant stand in its drawing: each once, nothing on anything else, lines from part to part, and no
 * more crossings than are told. */
#include "report/bench.h"

#include "page/layout.h"

/* ---- looking at a layout ---- */

static size_t places(const page_layout *l, page_layout_kind kind)
{
    size_t n = 0;
    for (size_t i = 0; i < l->place_count; i++)
        n += l->places[i].kind == kind;
    return n;
}

/* Words as wide as they may be, two lines of them at a line and four beside a part. */
static double line_room(const void *context, int line, double width)
{
    (void)context;
    (void)line;
    assert_true(width > 100.0);
    return 30.0;
}

static double part_room(const void *context, page_layout_kind kind, int index, double width)
{
    (void)context;
    (void)kind;
    (void)index;
    assert_true(width > 100.0);
    return 56.0;
}

static const page_layout_words words = {NULL, line_room, part_room};

static bool boxes_meet(page_layout_box a, page_layout_box b)
{
    static const double touch = 0.01;
    return a.height > 0.0 && b.height > 0.0 && a.x + a.width > b.x + touch && b.x + b.width > a.x + touch &&
           a.y + a.height > b.y + touch && b.y + b.height > a.y + touch;
}

/* All boxes of words and symbols. */
static size_t boxes_of(const page_layout *l, page_layout_box *boxes)
{
    size_t n = 0;
    for (size_t i = 0; i < l->wire_count; i++)
        if (l->wires[i].words.height > 0.0)
            boxes[n++] = l->wires[i].words;
    for (size_t i = 0; i < l->place_count; i++) {
        if (l->places[i].words.height > 0.0)
            boxes[n++] = l->places[i].words;
        if (l->places[i].kind != LAYOUT_JOINT)
            boxes[n++] = (page_layout_box){l->places[i].at.x, l->places[i].at.y - 17.0, 38.0, 34.0};
    }
    return n;
}

static bool crosses_box(page_svg_point a, page_svg_point b, page_layout_box box)
{
    page_layout_box line = {fmin(a.x, b.x) - 0.5, fmin(a.y, b.y) - 0.5, fabs(a.x - b.x) + 1.0, fabs(a.y - b.y) + 1.0};
    box.x += 1.0; /* a line may end at its symbol */
    return boxes_meet(line, box);
}

static void expect_nothing_overlaps(const page_layout *l)
{
    page_layout_box *boxes = malloc((l->wire_count + 2 * l->place_count + 1) * sizeof *boxes);
    size_t n = boxes_of(l, boxes);
    for (size_t i = 0; i < n; i++) {
        assert_true(boxes[i].x >= 0.0 && boxes[i].x + boxes[i].width <= l->width + 0.01);
        assert_true(boxes[i].y >= 0.0 && boxes[i].y + boxes[i].height <= l->height);
        for (size_t k = 0; k < i; k++)
            assert_false(boxes_meet(boxes[i], boxes[k]));
        for (size_t w = 0; w < l->wire_count; w++)
            for (size_t p = 1; p < l->wires[w].count && !(l->wires[w].count == 4 && l->wires[w].line < 0); p++)
                assert_false(crosses_box(l->wires[w].points[p - 1], l->wires[w].points[p], boxes[i]));
    }
    free(boxes);
}

/* An upright and a level piece that cross, and do not only meet at an end. */
static bool pieces_cross(page_svg_point a, page_svg_point b, page_svg_point c, page_svg_point d)
{
    static const double touch = 0.01;
    bool level = fabs(a.y - b.y) < touch;
    if (level == (fabs(c.y - d.y) < touch))
        return false;
    if (!level)
        return pieces_cross(c, d, a, b);
    return c.x > fmin(a.x, b.x) + touch && c.x < fmax(a.x, b.x) - touch && a.y > fmin(c.y, d.y) + touch &&
           a.y < fmax(c.y, d.y) - touch;
}

static size_t crossings(const page_layout *l)
{
    size_t n = 0;
    for (size_t i = 0; i < l->wire_count; i++)
        for (size_t k = 0; k < i; k++)
            for (size_t p = 1; p < l->wires[i].count; p++)
                for (size_t q = 1; q < l->wires[k].count; q++)
                    n += pieces_cross(l->wires[i].points[p - 1], l->wires[i].points[p], l->wires[k].points[q - 1],
                                      l->wires[k].points[q]);
    return n;
}

static bool is_joint_at(const page_layout *l, int node, page_svg_point at)
{
    for (size_t i = 0; i < l->wire_count; i++) { /* on a piece of the joint */
        const page_layout_wire *w = &l->wires[i];
        if (w->line >= 0 || w->node != node)
            continue;
        for (size_t p = 1; p < w->count; p++) {
            page_svg_point a = w->points[p - 1], b = w->points[p];
            if (at.x > fmin(a.x, b.x) - 0.01 && at.x < fmax(a.x, b.x) + 0.01 && at.y > fmin(a.y, b.y) - 0.01 &&
                at.y < fmax(a.y, b.y) + 0.01)
                return true;
        }
    }
    for (size_t i = 0; i < l->place_count; i++)
        if (l->places[i].kind == LAYOUT_JOINT && l->places[i].index == node &&
            hypot(l->places[i].at.x - at.x, l->places[i].at.y - at.y) < 0.01)
            return true;
    return false;
}

/* Every line is drawn once, has words once, and begins and ends at its joints or parts. */
static void expect_lines(const page_layout *l, const fv_plant *plant)
{
    for (size_t i = 0; i < plant->line_count; i++) {
        size_t drawn = 0;
        for (size_t k = 0; k < l->wire_count; k++) {
            const page_layout_wire *w = &l->wires[k];
            if (w->line != (int)i)
                continue;
            drawn++;
            int from = w->backwards ? plant->lines[i]->node_to : plant->lines[i]->node_from;
            int to = w->backwards ? plant->lines[i]->node_from : plant->lines[i]->node_to;
            assert_true(w->words.height > 0.0);
            assert_true(is_joint_at(l, from, w->points[0]));
            assert_true(w->ends || is_joint_at(l, to, w->points[w->count - 1]));
        }
        assert_int_equal(drawn, 1);
    }
}

static void expect_all(const page_layout *l, const fv_plant *plant)
{
    assert_false(l->failed);
    assert_int_equal(places(l, LAYOUT_VESSEL), plant->vessel_count);
    assert_int_equal(places(l, LAYOUT_BOILER), plant->boiler_count);
    expect_lines(l, plant);
    expect_nothing_overlaps(l);
    assert_int_equal(crossings(l) > 0, l->crossings > 0);
    for (size_t r = 1; r < l->row_count; r++)
        assert_true(l->rows[r].y >= l->rows[r - 1].y);
}

/* ---- plants ---- */

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
}

static void lays_a_header_with_branches(void **state)
{
    static const size_t sizes[] = {1, 2, 7, 12, 60};
    (void)state;
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        bench *b = bench_new(sizes[i], "bin%zu");
        page_layout l;
        page_layout_make(b->plant, &words, &l);
        expect_all(&l, b->plant);
        assert_int_equal(l.crossings, 0);
        assert_true(l.width <= LAYOUT_WIDTH);
        page_layout_free(&l);
        bench_free(b);
    }
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
    page_layout_make(b->plant, &words, &l);
    expect_all(&l, b->plant);
    assert_int_equal(l.crossings, 0);
    page_layout_free(&l);
    bench_free(b);
}

/* The ring encloses its vessels: one line goes round on the right of all words. */
static void draws_a_ring_as_a_ring(void **state)
{
    (void)state;
    bench *b = bench_new(5, "bin%zu");
    add_line(b, "ring", "t5", "t1");
    link_again(b);
    page_layout l, again;
    page_layout_make(b->plant, &words, &l);
    expect_all(&l, b->plant);
    assert_int_equal(l.crossings, 0);
    size_t round = 0;
    for (size_t i = 0; i < l.wire_count; i++)
        round += l.wires[i].line >= 0 && l.wires[i].count == 4 && l.wires[i].points[1].x > l.right;
    assert_int_equal(round, 1);
    page_layout_make(b->plant, &words, &again); /* the same again */
    for (size_t i = 0; i < l.place_count; i++)
        assert_true(hypot(l.places[i].at.x - again.places[i].at.x, l.places[i].at.y - again.places[i].at.y) < 1e-9);
    page_layout_free(&again);
    page_layout_free(&l);
    bench_free(b);
}

/* Two rings that share a side, one ring behind the other, and two lines side by side: none needs a crossing. */
static void draws_bridges_and_chains_of_rings_without_crossing(void **state)
{
    static const char *const ends[][4] = {{"t6", "t1", "t4", "t2"}, {"t3", "t1", "t6", "t4"}, {"t2", "t1", "t6", "t5"}};
    (void)state;
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        bench *b = bench_new(6, "bin%zu");
        add_line(b, "one", ends[i][0], ends[i][1]);
        add_line(b, "other", ends[i][2], ends[i][3]);
        link_again(b);
        page_layout l;
        page_layout_make(b->plant, &words, &l);
        expect_all(&l, b->plant);
        assert_int_equal(l.crossings, 0);
        page_layout_free(&l);
        bench_free(b);
    }
}

/* Up to three lines more than a tree has: such a plant can be drawn on paper without crossings (it takes four more for
 * a K3,3 or a K5; Kuratowski 1930). In this layout a few may be left; it tells them. */
static void draws_random_loops(void **state)
{
    enum { PLANTS = 200, MOST = 9 };
    unsigned seed = 7;
    size_t with_crossings = 0;
    (void)state;
    for (int n = 0; n < PLANTS; n++) {
        size_t vessels = 3 + (size_t)n % MOST;
        bench *b = bench_new(vessels, "bin%zu");
        for (int more = 0; more <= n % 3; more++) {
            seed = seed * 1664525u + 1013904223u;
            size_t from = 1 + (seed >> 8) % vessels, to = 1 + (seed >> 20) % vessels;
            if (from == to)
                to = from % vessels + 1;
            add_line(b, fv_arena_printf(b->plant->arena, "loop%d", more),
                     fv_arena_printf(b->plant->arena, "t%zu", from), fv_arena_printf(b->plant->arena, "t%zu", to));
        }
        link_again(b);
        page_layout l;
        page_layout_make(b->plant, &words, &l);
        expect_all(&l, b->plant);
        with_crossings += l.crossings > 0;
        page_layout_free(&l);
        bench_free(b);
    }
    printf("%zu of %d random plants with one to three loops are drawn with a crossing\n", with_crossings, PLANTS);
    assert_int_equal(with_crossings, 0);
}

/* A chain of very many joints must not nest as deep, and each further line must not cost as much as the whole. */
static void lays_a_very_long_chain(void **state)
{
    enum { LINKS = 20000 };
    (void)state;
    bench *b = bench_new(1, "bin%zu");
    for (int i = 0; i < LINKS; i++)
        add_line(b, fv_arena_printf(b->plant->arena, "c%d", i), i ? fv_arena_printf(b->plant->arena, "k%d", i) : "t1",
                 fv_arena_printf(b->plant->arena, "k%d", i + 1));
    fv_plant_add_drip(b->plant, (fv_loc){"bench.xml", 1})->at = fv_arena_printf(b->plant->arena, "k%d", LINKS);
    link_again(b);
    page_layout l;
    page_layout_make(b->plant, &words, &l);
    assert_false(l.failed);
    assert_int_equal(places(&l, LAYOUT_VESSEL), 1);
    page_layout_free(&l);
    bench_free(b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lays_a_header_with_branches),
        cmocka_unit_test(lays_a_branch_with_branches_of_its_own),
        cmocka_unit_test(draws_a_ring_as_a_ring),
        cmocka_unit_test(draws_bridges_and_chains_of_rings_without_crossing),
        cmocka_unit_test(draws_random_loops),
        cmocka_unit_test(lays_a_very_long_chain),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
