/* SPDX-License-Identifier: MIT */
/* The page on answers filled in by hand: well-formed whatever stands in it, the same each time, complete, and all of it
 * in one file. */
#include "report/heat_bench.h"

#include <libxml/parser.h>
#include <libxml/xpath.h>
#include <libxml/xpathInternals.h>

/* How many words FV_PAGE_DRAWINGS lists. */
static int drawings(void)
{
    int count = 1;
    for (const char *at = FV_PAGE_DRAWINGS; *at; at++)
        count += *at == '|';
    return count;
}

static char *make(const fv_page_content *content, const fv_page_options *options)
{
    fv_text out = {0};
    assert_int_equal(fv_report_page(content, options, &out), FV_OK);
    assert_false(out.failed);
    return out.text;
}

static fv_page_options whole(void)
{
    fv_page_options options;
    fv_page_defaults(&options);
    options.date = "2031-03-14";
    return options;
}

/* ---- looking into it ---- */

typedef struct {
    xmlDocPtr doc;
    xmlXPathContextPtr path;
} tree;

static tree read_tree(const char *text)
{
    xmlDocPtr doc = xmlReadMemory(text, (int)strlen(text), "page", NULL, XML_PARSE_NONET | XML_PARSE_NOERROR);
    assert_non_null(doc);
    tree t = {doc, xmlXPathNewContext(doc)};
    xmlXPathRegisterNs(t.path, BAD_CAST "h", BAD_CAST "http://www.w3.org/1999/xhtml");
    xmlXPathRegisterNs(t.path, BAD_CAST "s", BAD_CAST "http://www.w3.org/2000/svg");
    return t;
}

static void drop_tree(tree *t)
{
    xmlXPathFreeContext(t->path);
    xmlFreeDoc(t->doc);
}

static double number(tree *t, const char *expression)
{
    xmlXPathObjectPtr found = xmlXPathEvalExpression(BAD_CAST expression, t->path);
    assert_non_null(found);
    double value = xmlXPathCastToNumber(found);
    xmlXPathFreeObject(found);
    return value;
}

static size_t count(tree *t, const char *nodes)
{
    char expression[512];
    snprintf(expression, sizeof expression, "count(%s)", nodes);
    return (size_t)number(t, expression);
}

static int by_text(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

/* No id twice, and every link of the list of contents leads to one. (XPath's axis `preceding` takes seconds for
 * sixty vessels.) */
static void expect_ids(tree *t)
{
    xmlXPathObjectPtr found = xmlXPathEvalExpression(BAD_CAST "//@id", t->path);
    xmlXPathObjectPtr links = xmlXPathEvalExpression(BAD_CAST "//h:nav//h:a/@href", t->path);
    const size_t id_count = (size_t)found->nodesetval->nodeNr;
    const char **ids = malloc(id_count * sizeof *ids);
    for (size_t i = 0; i < id_count; i++)
        ids[i] = (const char *)found->nodesetval->nodeTab[i]->children->content;
    qsort(ids, id_count, sizeof *ids, by_text);
    for (size_t i = 1; i < id_count; i++)
        assert_string_not_equal(ids[i - 1], ids[i]);
    for (int i = 0; links->nodesetval && i < links->nodesetval->nodeNr; i++) {
        const char *id = (const char *)links->nodesetval->nodeTab[i]->children->content + 1;
        assert_non_null(bsearch(&id, ids, id_count, sizeof *ids, by_text));
    }
    free(ids);
    xmlXPathFreeObject(links);
    xmlXPathFreeObject(found);
}

/* What every page must hold to. */
static void expect_sound(const char *html)
{
    tree t = read_tree(html);
    expect_ids(&t);
    assert_int_equal(count(&t, "//h:h1"), 1);
    assert_int_equal(count(&t, "//h:script"), 1);
    assert_int_equal(count(&t, "//h:main"), 1);
    assert_int_equal(count(&t, "//h:section[not(h:h2[@id = ../@aria-labelledby])]"), 0);
    /* every drawing has a name, and is either read out or beside its word */
    assert_int_equal(count(&t, "//s:svg[not(@role='img' and s:title[@id = ../@aria-labelledby]) and "
                               "not(@aria-hidden='true')]"),
                     0);
    assert_int_equal(count(&t, "//h:table[not(h:thead/h:tr/h:th[@scope='col'])]"), 0);
    assert_int_equal(count(&t, "//h:tbody/h:tr[not(h:th[@scope='row'])]"), 0);
    assert_int_equal(count(&t, "//h:tr[count(*) != count(ancestor::h:table/h:thead/h:tr/*)]"), 0);
    /* all in one file */
    assert_int_equal(count(&t, "//@src | //h:link[@rel!='icon'] | //h:iframe | //h:object | //h:img | //h:form"), 0);
    assert_int_equal(count(&t, "//h:a[not(starts-with(@href, '#'))]"), 0);
    assert_null(strstr(html, "url("));
    assert_null(strstr(html, "@import"));
    drop_tree(&t);
}

static void expect_svg(const char *svg)
{
    tree t = read_tree(svg);
    assert_int_equal(count(&t, "/s:svg[@width and @height and @viewBox]/s:title"), 1);
    assert_int_equal(count(&t, "//@href | //@src"), 0);
    assert_null(strstr(svg, "var(")); /* for programs that know no variables */
    drop_tree(&t);
}

/* ---- soundness ---- */

static void is_sound_for_one_six_and_sixty_vessels(void **state)
{
    static const size_t sizes[] = {1, 2, 6, 7, 60};
    (void)state;
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        heat_bench *h = heat_bench_new(sizes[i], "bin%zu");
        fv_page_content content = {.flow = &h->b->answer, .heat = &h->result, .sha256 = "0123abcd"};
        fv_page_options options = whole();
        options.clock = 6.5 * BENCH_HOUR;
        for (int units = FV_METRIC; units <= FV_US; units++) {
            options.units = (fv_unit_system)units;
            char *html = make(&content, &options);
            expect_sound(html);
            free(html);
        }
        content.heat = NULL;
        char *html = make(&content, &options);
        expect_sound(html);
        free(html);
        heat_bench_free(h);
    }
}

static void draws_each_by_itself(void **state)
{
    static const size_t sizes[] = {1, 6, 60};
    (void)state;
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        heat_bench *h = heat_bench_new(sizes[i], "bin%zu");
        fv_page_content content = {.flow = &h->b->answer, .heat = &h->result};
        fv_page_options options = whole();
        for (int only = 0; only < drawings(); only++) {
            options.only = only;
            if (fv_page_shows(only) >= FV_PAGE_OF_REMEDY)
                continue; /* needs a why study, or a week */
            char *svg = make(&content, &options);
            expect_svg(svg);
            free(svg);
        }
        content.heat = NULL;
        options.only = fv_word_find(FV_PAGE_DRAWINGS, "curves");
        fv_text out = {0};
        assert_int_equal(fv_report_page(&content, &options, &out), FV_FAIL);
        fv_text_free(&out);
        heat_bench_free(h);
    }
}

static void comes_out_the_same_each_time(void **state)
{
    (void)state;
    heat_bench *h = heat_bench_new(9, "bin%zu");
    fv_page_content content = {.flow = &h->b->answer, .heat = &h->result};
    fv_page_options options = whole();
    char *a = make(&content, &options), *b = make(&content, &options);
    assert_string_equal(a, b);
    free(a);
    free(b);
    heat_bench_free(h);
}

/* ---- what comes from the input ---- */

static const char nasty[] =
    "</title></script><script>alert(1)</script><!-- & \"quoted\" ' ]]> `x` | * _ \x01\x7f \xC3( "
    "\xE2\x80\xAEknurl \xEF\xBF\xBE end";

static void keeps_markup_in_names_as_text(void **state)
{
    (void)state;
    heat_bench *h = heat_bench_new(3, "bin%zu");
    fv_plant *plant = h->b->plant;
    plant->title = nasty;
    plant->file = nasty;
    plant->vessels[1]->part.id = nasty;
    plant->lines[0]->part.id = nasty;
    plant->boilers[0]->part.id = nasty;
    fv_page_remedy remedy = {.what = nasty, .effect = nasty, .cost = nasty, .settings = nasty};
    fv_page_content content = {.flow = &h->b->answer,
                               .heat = &h->result,
                               .remedies = &remedy,
                               .remedy_count = 1,
                               .because = nasty,
                               .sha256 = nasty};
    fv_page_options options = whole();
    options.date = nasty;
    char *html = make(&content, &options);
    expect_sound(html);
    tree t = read_tree(html);
    assert_int_equal(count(&t, "//h:script[contains(., 'alert')]"), 0);
    assert_int_equal(count(&t, "//h:h1[contains(., '<script>alert(1)</script>')]"), 1);
    assert_true(count(&t, "//h:th[contains(., '<script>alert(1)</script>')]") > 2);
    assert_int_equal(count(&t, "//h:p[@class='what'][contains(., '</title></script>')]"), 1);
    drop_tree(&t);
    assert_null(strstr(html, "\xE2\x80\xAE")); /* would turn the rest of the line around */
    assert_null(strstr(html, "\x01"));
    free(html);
    for (int only = 0; only < drawings(); only++) {
        options.only = only;
        if (fv_page_shows(only) >= FV_PAGE_OF_REMEDY)
            continue;
        char *svg = make(&content, &options);
        expect_svg(svg);
        free(svg);
    }
    heat_bench_free(h);
}

static void keeps_markup_in_names_out_of_markdown(void **state)
{
    (void)state;
    heat_bench *h = heat_bench_new(3, "bin%zu");
    h->b->plant->title = nasty;
    h->b->plant->vessels[1]->part.id = "a|b*c_d<e>";
    fv_page_content content = {.flow = &h->b->answer, .heat = &h->result};
    fv_page_options options = whole();
    options.format = FV_PAGE_MARKDOWN;
    char *md = make(&content, &options);
    assert_non_null(strstr(md, "a\\|b\\*c\\_d\\<e\\>"));
    assert_null(strstr(md, " <script>"));
    assert_non_null(strstr(md, "\\<script\\>"));
    free(md);
    heat_bench_free(h);
}

/* Bars that no backslash sets off: one more than cells in a row. */
static size_t bars(const char *line, size_t length)
{
    size_t n = 0;
    for (size_t i = 0; i < length; i++)
        n += line[i] == '|' && (i == 0 || line[i - 1] != '\\');
    return n;
}

static void lines_up_the_tables_of_markdown(void **state)
{
    (void)state;
    heat_bench *h = heat_bench_new(8, "bin|%zu");
    fv_page_content content = {.flow = &h->b->answer, .heat = &h->result};
    fv_page_options options = whole();
    options.format = FV_PAGE_MARKDOWN;
    char *md = make(&content, &options);
    size_t head = 0, tables = 0;
    for (const char *line = md; *line; line += strcspn(line, "\n") + (line[strcspn(line, "\n")] == '\n')) {
        size_t length = strcspn(line, "\n"), now = bars(line, length);
        if (line[0] != '|') {
            head = 0;
            continue;
        }
        tables += head == 0;
        assert_true(head == 0 || now == head);
        head = now;
    }
    assert_true(tables >= 8);
    free(md);
    heat_bench_free(h);
}

/* ---- content ---- */

static void says_the_answer_first(void **state)
{
    (void)state;
    heat_bench *h = heat_bench_new(3, "bin%zu");
    h->vessels[2].core = 14.0 * BENCH_HOUR;
    h->vessels[2].verdict = FV_STARVED;
    fv_page_remedy remedies[] = {{.what = "hose s3: 32 mm bore", .effect = "bin3 after 8 h", .cost = "80 EUR"},
                                 {.what = "lag h1", .effect = "bin3 after 13 h"}};
    fv_page_content content = {.flow = &h->b->answer,
                               .heat = &h->result,
                               .remedies = remedies,
                               .remedy_count = 2,
                               .because = "The hose is narrow.",
                               .sha256 = "feedbeef"};
    fv_page_options options = whole();
    char *html = make(&content, &options);
    tree t = read_tree(html);
    assert_int_equal(count(&t, "//h:section[1][@id='answer']/h:p[@class='lead'][starts-with(., 'bin3 is starved')]"),
                     1);
    assert_int_equal(count(&t, "//h:section[1]//h:p[. = 'The hose is narrow.']"), 1);
    assert_int_equal(count(&t, "//h:div[@class='remedy']//h:p[contains(., '32')]"), 1);
    assert_int_equal(count(&t, "//h:section[@id='tables']//h:table[1][.//h:th[. = 'lag h1']]/h:tbody/h:tr"), 2);
    assert_int_equal(count(&t, "//h:ul[@class='tiles']/h:li"), 3);
    /* by word and by shape */
    assert_int_equal(count(&t, "//h:ul[@class='tiles']/h:li[3][contains(., 'starved')]//s:g[@class='starved']"), 1);
    assert_true(count(&t, "//h:section[@id='imprint']//h:li[contains(., 'feedbeef')]") == 1);
    assert_int_equal(count(&t, "//h:section[@id='timeline']//h:th[. = 'what happens']"), 1);
    assert_true(count(&t, "//h:section[@id='cautions']//h:li") >= 5);
    assert_true(count(&t, "//h:section[@id='assumptions']//h:tr") > 20);
    drop_tree(&t);
    free(html);
    heat_bench_free(h);
}

static void shows_the_starved_of_many_first(void **state)
{
    (void)state;
    heat_bench *h = heat_bench_new(60, "bin%zu");
    h->vessels[41].core = 14.0 * BENCH_HOUR;
    h->vessels[41].verdict = FV_STARVED;
    fv_page_content content = {.flow = &h->b->answer, .heat = &h->result};
    fv_page_options options = whole();
    char *html = make(&content, &options);
    tree t = read_tree(html);
    assert_int_equal(count(&t, "//h:ul[@class='tiles']/h:li[1][@data-vessel='bin42']"), 1);
    assert_int_equal(count(&t, "//h:figure[@class='mini']"), 60);
    assert_true(count(&t, "//s:svg[contains(@class, 'rows')]") >= 3); /* the drawing in parts */
    assert_int_equal(count(&t, "//s:g[contains(@class, 'vessel')]/@data-vessel"), 60);
    drop_tree(&t);
    free(html);
    heat_bench_free(h);
}

static void tells_the_time_as_asked(void **state)
{
    (void)state;
    heat_bench *h = heat_bench_new(2, "bin%zu");
    fv_page_content content = {.flow = &h->b->answer, .heat = &h->result};
    fv_page_options options = whole();
    char *html = make(&content, &options);
    assert_non_null(strstr(html, "hours from the start"));
    free(html);
    options.clock = 6.5 * BENCH_HOUR;
    html = make(&content, &options);
    assert_non_null(strstr(html, "time of day"));
    assert_non_null(strstr(html, ">12:00<"));
    free(html);
    options.twelve_hours = true;
    html = make(&content, &options);
    assert_non_null(strstr(html, ">12\xC2\xA0pm<"));
    free(html);
    heat_bench_free(h);
}

static void shows_degrees_with_their_sign(void **state)
{
    (void)state;
    heat_bench *h = heat_bench_new(2, "bin%zu");
    fv_page_content content = {.flow = &h->b->answer, .heat = &h->result};
    fv_page_options options = whole();
    char *html = make(&content, &options);
    assert_null(strstr(html, "degC"));
    assert_non_null(strstr(html, "\xC2\xA0\xC2\xB0"
                                 "C here"));
    free(html);
    heat_bench_free(h);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(is_sound_for_one_six_and_sixty_vessels),
        cmocka_unit_test(draws_each_by_itself),
        cmocka_unit_test(comes_out_the_same_each_time),
        cmocka_unit_test(keeps_markup_in_names_as_text),
        cmocka_unit_test(keeps_markup_in_names_out_of_markdown),
        cmocka_unit_test(lines_up_the_tables_of_markdown),
        cmocka_unit_test(says_the_answer_first),
        cmocka_unit_test(shows_the_starved_of_many_first),
        cmocka_unit_test(tells_the_time_as_asked),
        cmocka_unit_test(shows_degrees_with_their_sign),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
