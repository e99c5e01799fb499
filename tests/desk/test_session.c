/* SPDX-License-Identifier: MIT */
/* The way back to the file: whatever is changed and taken back in a session, what nobody changed stays byte for byte.
 * The checks need no source from outside: they compare bytes, and values with those that --set gives. */
#include "desk/session.h"
#include "plantfile/compare.h"

#include <setjmp.h>
#include <stdint.h>

#include <cmocka.h>

enum { COMMANDS = 14, FAULTS_MOST = 16 };

static const char *const plants[] = {"networks/far-bench.xml",    "networks/four-bins.xml", "networks/hand.xml",
                                     "networks/mixed.xml",        "networks/ring.xml",      "networks/week-line.xml",
                                     "networks/turndown-trap.xml"};

/* SplitMix64 (Steele, Lea, Flood 2014): the same sessions each time. */
static uint64_t draw(uint64_t *seed)
{
    uint64_t z = (*seed += 0x9E3779B97F4A7C15u);
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return z ^ (z >> 31);
}

static size_t below(uint64_t *seed, size_t count)
{
    return (size_t)(draw(seed) % count);
}

static char *read_plant(const char *path, size_t *length)
{
    char *bytes = fv_read_whole(path, 1 << 20, length, NULL);
    assert_non_null(bytes);
    return bytes;
}

static fv_desk *begin(const char *bytes, size_t length)
{
    const fv_desk_options options = {.clock = NAN, .unanswered = true};
    fv_faults *faults = fv_faults_new();
    fv_desk *desk = fv_desk_new(bytes, length, "plant.xml", &options, faults);
    for (size_t i = 0; i < fv_faults_count(faults); i++)
        print_error("%s\n", fv_faults_at(faults, i)->text);
    assert_non_null(desk);
    fv_faults_free(faults);
    return desk;
}

/* Every quantity of every part that a path can name, with a value a little off; NaN where nothing is said. */
typedef struct {
    char part[96], value[96];
    const char *attribute;
} target;
typedef struct {
    target *list;
    size_t count, capacity;
    const fv_plant *plant;
    char wall[64];
} targets;

static bool collect(void *context, const fv_stop *stop)
{
    targets *t = context;
    char path[96] = "";
    const fv_element *element;
    if (stop->part->id)
        snprintf(path, sizeof path, "%s", stop->part->id);
    else if (strcmp(stop->element->name, "layer") == 0)
        snprintf(path, sizeof path, "%s.layer%zu", t->wall, stop->number);
    else if (stop->owner && stop->owner->id && stop->number)
        snprintf(path, sizeof path, "%s.%s%zu", stop->owner->id, stop->element->name, stop->number);
    else if (stop->owner && stop->owner->id)
        snprintf(path, sizeof path, "%s.%s", stop->owner->id, stop->element->name);
    if (strcmp(stop->element->name, "wall") == 0)
        snprintf(t->wall, sizeof t->wall, "%s", path);
    if (!path[0] || fv_plant_find(t->plant, path, &element) != stop->part)
        return true;
    for (size_t i = 0; i < stop->element->attr_count; i++) {
        const fv_attr *attr = &stop->element->attrs[i];
        void *list = t->list;
        if (model_is_text(attr) || attr->dim == FV_DIM_WORD ||
            !fv_grow(&list, &t->capacity, t->count + 1, sizeof(target)))
            continue;
        t->list = list;
        target *made = &t->list[t->count++];
        const fv_value value = *fv_attr_value(stop->part, attr);
        made->attribute = attr->name;
        snprintf(made->part, sizeof made->part, "%s", path);
        const double v = fv_is_set(value) ? value.v : 0.3;
        if (!fv_quantity_print(attr->dim, attr->dim == FV_DIM_TEMPERATURE ? v - 1.0 : 0.9 * v, made->value,
                               sizeof made->value))
            t->count--;
    }
    return true;
}

static targets targets_of(const char *bytes, size_t length, fv_plant **plant)
{
    *plant = fv_plantfile_read_memory(bytes, length, "plant.xml", NULL, NULL);
    assert_non_null(*plant);
    targets t = {.plant = *plant};
    fv_plant_walk(*plant, collect, &t);
    assert_true(t.count > 50);
    return t;
}

/* A part that comes or goes; names are those of the plant as it is. */
static bool alter(fv_desk *desk, uint64_t *seed, fv_faults *faults)
{
    size_t length;
    const char *text = fv_desk_text(desk, &length);
    fv_plant *now = fv_plantfile_read_memory(text, length, "plant.xml", NULL, NULL);
    assert_non_null(now);
    const char *vessel = now->vessels[below(seed, now->vessel_count)]->part.id;
    const fv_line *line = now->lines[below(seed, now->line_count)];
    const char *from = now->nodes[below(seed, now->node_count)], *to = now->nodes[below(seed, now->node_count)];
    const char *fitting = line->fitting_count ? line->fittings[0]->part.id : NULL;
    fv_status status;
    switch (below(seed, 6)) {
    case 0:
        from = below(seed, 2) ? line->part.id : "";
        status = fv_desk_add_vessel(desk, vessel, from, below(seed, 2) ? "2 m" : "", faults);
        break;
    case 1:
        status = fv_desk_put_valve(desk, "globe-valve", line->part.id, faults);
        break;
    case 2:
        status = fv_desk_join(desk, "pipe", from, to, "25 mm", below(seed, 4) ? "8 m" : "wide", faults);
        break;
    case 3:
        status = fv_desk_take_away(desk, line->part.id, faults);
        break;
    case 4:
        status = fv_desk_take_away(desk, fitting, faults);
        break;
    default:
        status = fv_desk_take_away(desk, vessel, faults);
    }
    fv_plant_free(now);
    return status == FV_OK;
}

/* One command of a session; true where something changed. */
static bool command(fv_desk *desk, const targets *t, uint64_t *seed, fv_faults *faults)
{
    const target *chosen = &t->list[below(seed, t->count)];
    switch (below(seed, 11)) {
    case 0:
        return fv_desk_undo(desk, faults) == FV_OK;
    case 1:
        return fv_desk_redo(desk, faults) == FV_OK;
    case 2:
        return fv_desk_change_count(desk) > 0 &&
               fv_desk_take_back(desk, below(seed, fv_desk_change_count(desk)), faults) == FV_OK;
    case 3:
        return fv_desk_set(desk, chosen->part, chosen->attribute, "a \"wrong\" <value> & more", faults) == FV_OK;
    case 4:
        return fv_desk_set(desk, chosen->part, chosen->attribute, "", faults) == FV_OK;
    case 5:
    case 6:
    case 7:
        return alter(desk, seed, faults);
    default:
        return fv_desk_set(desk, chosen->part, chosen->attribute, chosen->value, faults) == FV_OK;
    }
}

/* Takes all back, one after the other in any order; a state on the way that cannot be (two values that exclude each
 * other) is passed by another way. */
static void take_all_back(fv_desk *desk, uint64_t *seed, fv_faults *faults)
{
    for (size_t tries = 0; fv_desk_change_count(desk) > 0 && tries < 1000; tries++)
        fv_desk_take_back(desk, below(seed, fv_desk_change_count(desk)), faults);
    assert_int_equal(fv_desk_change_count(desk), 0);
}

static void sessions_end_in_the_file_they_began_with(void **state)
{
    (void)state;
    const char *said = getenv("DESK_SESSIONS");
    const size_t sessions = said ? (size_t)atol(said) : 1000;
    size_t changed = 0, refused = 0;
    for (size_t s = 0; s < sessions; s++) {
        uint64_t seed = s + 1;
        size_t length, now;
        char *bytes = read_plant(plants[s % (sizeof plants / sizeof *plants)], &length);
        fv_plant *plant;
        targets t = targets_of(bytes, length, &plant);
        fv_desk *desk = begin(bytes, length);
        fv_faults *faults = fv_faults_new();
        for (size_t i = 0; i < COMMANDS; i++) {
            const bool done = command(desk, &t, &seed, faults);
            changed += done;
            refused += !done;
            const char *text = fv_desk_text(desk, &now);
            const bool same = now == length && memcmp(text, bytes, length) == 0; /* also where a part came and went */
            assert_true(fv_desk_unsaved(desk) == !same && (same || fv_desk_change_count(desk) > 0));
        }
        take_all_back(desk, &seed, faults);
        const char *text = fv_desk_text(desk, &now);
        assert_int_equal(now, length);
        assert_memory_equal(text, bytes, length);
        assert_false(fv_desk_unsaved(desk));
        fv_desk_free(desk);
        fv_faults_free(faults);
        fv_plant_free(plant);
        free(t.list);
        free(bytes);
    }
    print_message("%zu sessions: %zu commands done, %zu refused\n", sessions, changed, refused);
    assert_true(changed > sessions * COMMANDS / 4);
}

/* The value that stood there, as it was typed. */
static size_t typed_length(const char *bytes, size_t length, const target *t, bool *stood)
{
    fv_text typed = {0};
    fv_source *source = fv_source_new(bytes, length);
    *stood = fv_source_typed(source, t->part, t->attribute, &typed);
    const size_t n = typed.length;
    fv_text_free(&typed);
    fv_source_free(source);
    return n;
}

typedef struct {
    const fv_part *part, *top; /* looked for; what it is, or stands in */
    const fv_part *at;         /* of those at the top, the last one met */
} top_finder;

static bool find_top(void *context, const fv_stop *stop)
{
    top_finder *f = context;
    if (!stop->owner)
        f->at = stop->part;
    f->top = stop->part == f->part ? f->at : f->top;
    return !f->top;
}

/* Whether others of the plant are like the part that changes, and so are given in the text what they had from it. */
static bool has_followers(const fv_plant *plant, const char *path)
{
    const fv_element *element;
    top_finder f = {.part = fv_plant_find(plant, path, &element)};
    fv_plant_walk(plant, find_top, &f);
    bool found = false;
    for (size_t i = 0; i < plant->line_count && f.top && f.top->id; i++)
        found = found || (plant->lines[i]->part.like && strcmp(plant->lines[i]->part.like, f.top->id) == 0);
    return found;
}

/* What a text cannot keep otherwise is no longer like the part that changed. */
static void forget_likes(fv_plant *plant, bool alone)
{
    for (size_t i = 0; i < plant->line_count && !alone; i++)
        plant->lines[i]->part.like = NULL;
}

/* Every attribute of every part, one by one: the text differs within that value alone, but for parts that are like the
 * one that changes, and is the plant that --set makes. */
static void one_change_touches_one_value(void **state)
{
    (void)state;
    size_t compared = 0, followed = 0;
    for (size_t p = 0; p < sizeof plants / sizeof *plants; p++) {
        size_t length, now;
        char *bytes = read_plant(plants[p], &length), setting[256];
        fv_plant *plant;
        targets t = targets_of(bytes, length, &plant);
        fv_desk *desk = begin(bytes, length);
        for (size_t i = 0; i < t.count; i++) {
            bool stood;
            const target *one = &t.list[i];
            if (fv_desk_set(desk, one->part, one->attribute, one->value, NULL) == FV_FAIL ||
                fv_desk_change_count(desk) == 0)
                continue;
            const char *text = fv_desk_text(desk, &now), *given = setting;
            const size_t typed = typed_length(bytes, length, one, &stood);
            size_t same = 0, tail = 0;
            while (same < length && same < now && text[same] == bytes[same])
                same++;
            while (tail < length - same && tail < now - same && text[now - 1 - tail] == bytes[length - 1 - tail])
                tail++;
            const bool alone = !has_followers(plant, one->part);
            followed += !alone;
            if (alone && length - same - tail > (stood ? typed : 2)) /* "/>" of an empty tag that now holds something */
                print_error("%s %s.%s\n", plants[p], one->part, one->attribute);
            assert_true(!alone || length - same - tail <= (stood ? typed : 2));
            snprintf(setting, sizeof setting, "%s.%s=%s", one->part, one->attribute, one->value);
            fv_plant *set = fv_plantfile_read_memory(bytes, length, "plant.xml", NULL, NULL);
            fv_plant *edited = fv_plantfile_read_memory(text, now, "plant.xml", NULL, NULL);
            forget_likes(set, alone);
            forget_likes(edited, alone);
            if (fv_plantfile_set(set, &given, 1, NULL) != FV_FAIL) {
                if (!compare_plants(set, edited, false))
                    print_error("%s %s\n", plants[p], setting);
                assert_true(compare_plants(set, edited, false));
                compared++;
            }
            fv_plant_free(set);
            fv_plant_free(edited);
            assert_int_equal(fv_desk_undo(desk, NULL), FV_OK);
        }
        fv_desk_free(desk);
        fv_plant_free(plant);
        free(t.list);
        free(bytes);
    }
    print_message("%zu changes are the same plant as with --set, %zu of parts that others are like\n", compared,
                  followed);
    assert_true(compared > 500 && followed > 10);
}

/* A file as hands and programs write them: both quotes, line ends of two characters, tags in comments, all in one line.
 */
static const char odd[] =
    "\xEF\xBB\xBF<?xml version='1.0'?>\r\n<!-- <hose id=\"s1\" bore='1 m'/> -->\r\n"
    "<f:network xmlns:f='urn:farvessel:network:1' title=\"A &amp; B\">\r\n"
    "\t<f:boiler id='b' at='b0' output='24 kW' holds = '0.2 bar' relief='0.5 bar'/>\r\n"
    "\t<f:header id='h1' from='b0' to='t1'\r\n\t\tlength='2 m' bore='1 1/4 in' known='bore:tape'/>\r\n"
    "\t<f:hose id='s1' from='t1' to='c1' length='3 m' bore='19 mm'><f:valve id='v1'/></f:hose>\r\n"
    "\t<f:hose id='s2' from='t1' to='c2' like='s1'/>\r\n"
    "<f:vessel id='a' at='c1' volume='1 m3' target='80 degC' within='8 h'><f:coil bore='25 mm' length='2 m' holes='20' "
    "drill='3 mm'/><f:load medium='wood' form='block' a='13 cm' b='13 cm' c='20 cm' count='60' mass='140 kg'/>"
    "<f:vent diameter='40 mm'/><f:drain diameter='25 mm'/></f:vessel><f:vessel id='z' like='a' at='c2'/></f:network>";

typedef struct {
    const char *part, *attribute, *value, *before, *after; /* what of the text becomes what */
    const char *other, *kept;                              /* and where another part is like it */
} place;

static void odd_files_keep_their_ways(void **state)
{
    (void)state;
    static const place places[] = {
        {"h1", "bore", "35 mm", "bore='1 1/4 in'", "bore='35 mm'", NULL, NULL},
        {"h1", "lagging", "20 mm", "in' known", "in' lagging=\"20 mm\" known", NULL, NULL},
        {"h1", "lagging-material", "a'b\"", NULL, NULL, NULL, NULL},
        {"b", "holds", "0.3 bar", "'0.2 bar'", "'0.3 bar'", NULL, NULL},
        {"s2", "bore", "25 mm", "like='s1'", "like='s1' bore=\"25 mm\"", NULL, NULL},
        {"v1", "open", "50 %", "id='v1'", "id='v1' open=\"50 %\"", "like='s1'/>",
         "like='s1'>\r\n\t  <f:valve/>\r\n\t</f:hose>"},
        {"s1", "bore", "25 mm", "'19 mm'", "'25 mm'", "like='s1'/>", "like='s1' bore='19 mm'/>"},
        {"s1", "wind", "0 m/s", "bore='19 mm'>", "bore='19 mm' wind=\"0 m/s\">", " like='s1'/>",
         " length='3 m' bore='19 mm'>\r\n\t  <f:valve/>\r\n\t</f:hose>"},
        {"s2.valve1", "open", "50 %", "like='s1'/>", "like='s1'>\r\n\t  <f:valve open=\"50 %\"/>\r\n\t</f:hose>", NULL,
         NULL},
        {"z.coil", "drill", "4 mm", "at='c2'/>", "at='c2'><f:coil drill=\"4 mm\"/></f:vessel>", NULL, NULL},
        {"site", "air", "5 degC", "</f:network>", "\r\n  <f:site air=\"5 degC\"/></f:network>", NULL, NULL},
        {"a.load", "mass", "150 kg", "'140 kg'", "'150 kg'", "<f:vessel id='z' like='a' at='c2'/>",
         "<f:vessel id='z' at='c2' volume='1 m3' target='80 degC' within='8 h'><f:coil bore='25 mm' length='2 m' "
         "holes='20' drill='3 mm'/><f:load medium='wood' form='block' a='13 cm' b='13 cm' c='20 cm' count='60' "
         "mass='140 kg'/><f:vent diameter='40 mm'/><f:drain diameter='25 mm'/></f:vessel>"},
    };
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        const place *p = &places[i];
        fv_desk *desk = begin(odd, sizeof odd - 1);
        const fv_status status = fv_desk_set(desk, p->part, p->attribute, p->value, NULL);
        const char *text = fv_desk_text(desk, NULL), *at = p->before ? strstr(odd, p->before) : NULL;
        assert_int_equal(status, p->before ? FV_OK : FV_FAIL);
        fv_text expected = {0};
        const char *behind = at ? at + strlen(p->before) : NULL, *other = p->other ? strstr(odd, p->other) : NULL;
        if (at)
            fv_text_add(&expected, "%.*s%s", (int)(at - odd), odd, p->after);
        if (other) {
            fv_text_add(&expected, "%.*s%s", (int)(other - behind), behind, p->kept);
            behind = other + strlen(p->other);
        }
        fv_text_add(&expected, "%s", behind ? behind : "");
        assert_string_equal(text, at ? expected.text : odd);
        fv_text_free(&expected);
        fv_desk_free(desk);
    }
}

/* What comes and goes: the bytes that stand there then, in a file that is written in an odd way. */
static void odd_files_take_parts(void **state)
{
    (void)state;
    static const struct {
        char sort; /* vessel, valve, join, away */
        const char *what, *with, *far, *before, *after;
    } commands[] = {
        {'+', "z", "", "1 m", NULL, NULL},
        {'v', "ball-valve", "s1", NULL, "<f:valve id='v1'/></f:hose>",
         "<f:valve id='v1'/><f:valve id=\"v2\" type=\"ball-valve\"/></f:hose>"},
        {'v', "gate-valve", "s2", NULL, "like='s1'/>",
         "like='s1'>\r\n\t  <f:valve/>\r\n\t  <f:valve id=\"v2\" type=\"gate-valve\"/>\r\n\t</f:hose>"},
        {'-', "z", NULL, NULL, "<f:vessel id='z' like='a' at='c2'/>", ""},
        {'-', "a", NULL, NULL, NULL, NULL},         /* z is like it */
        {'-', "s2.valve1", NULL, NULL, NULL, NULL}, /* from s1, whose list would count again */
        {'-', "nobody", NULL, NULL, NULL, NULL},
        {'v', "elbow", "s1", NULL, NULL, NULL},
        {'v', "ball-valve", "h9", NULL, NULL, NULL},
    };
    for (size_t i = 0; i < sizeof commands / sizeof *commands; i++) {
        fv_desk *desk = begin(odd, sizeof odd - 1);
        fv_faults *faults = fv_faults_new();
        const fv_status status =
            commands[i].sort == '+'
                ? fv_desk_add_vessel(desk, commands[i].what, commands[i].with, commands[i].far, faults)
            : commands[i].sort == 'v' ? fv_desk_put_valve(desk, commands[i].what, commands[i].with, faults)
                                      : fv_desk_take_away(desk, commands[i].what, faults);
        const char *text = fv_desk_text(desk, NULL);
        if (commands[i].sort == '+') {
            assert_non_null(strstr(
                text,
                "\r\n\t<f:header id=\"h2\" from=\"t1\" to=\"t2\" like=\"h1\" length=\"1 m\"/>\r\n\t<f:hose id='s1'"));
            assert_non_null(strstr(text, "<f:hose id=\"s3\" from=\"t2\" to=\"c3\" like=\"s2\"/>\r\n<f:vessel id='a'"));
            assert_non_null(strstr(text, "at='c2'/><f:vessel id=\"z1\" like=\"z\" at=\"c3\"/></f:network>"));
        } else if (commands[i].before) {
            assert_int_equal(status, FV_OK);
            assert_non_null(strstr(text, commands[i].after));
            assert_true(commands[i].after[0] || !strstr(text, commands[i].before));
        } else {
            assert_int_equal(status, FV_FAIL);
            assert_string_equal(text, odd);
            assert_true(fv_faults_count(faults) == 1);
        }
        while (fv_desk_change_count(desk) > 0)
            assert_int_equal(fv_desk_take_back(desk, 0, NULL), FV_OK);
        assert_string_equal(fv_desk_text(desk, NULL), odd);
        fv_faults_free(faults);
        fv_desk_free(desk);
    }
}

/* A vessel with its hose and probes goes, one like another comes, and what hangs on a change stays while that does. */
static void parts_come_and_go(void **state)
{
    (void)state;
    size_t length;
    char *bytes = read_plant("networks/far-bench.xml", &length);
    fv_desk *desk = begin(bytes, length);
    assert_int_equal(fv_desk_take_away(desk, "bench4", NULL), FV_OK);
    const char *text = fv_desk_text(desk, NULL);
    assert_null(strstr(text, "bench4"));
    assert_null(strstr(text, "\"s4\""));
    assert_null(strstr(text, "\"p4\""));
    assert_non_null(strstr(text, "to=\"c3\"/>\n  <hose id=\"s5\""));
    assert_int_equal(fv_desk_add_vessel(desk, "bench6", NULL, "2 m", NULL), FV_OK);
    assert_int_equal(fv_desk_set(desk, "s7", "bore", "25 mm", NULL), FV_OK);
    assert_int_equal(fv_desk_change_count(desk), 3);
    assert_non_null(
        strstr(fv_desk_text(desk, NULL), "<hose id=\"s7\" from=\"t7\" to=\"c7\" like=\"s6\" bore=\"25 mm\"/>"));
    assert_int_equal(fv_desk_take_back(desk, 1, NULL), FV_FAIL); /* the bore is its hose's */
    assert_int_equal(fv_desk_take_back(desk, 0, NULL), FV_OK);
    assert_int_equal(fv_desk_take_back(desk, 1, NULL), FV_OK);
    assert_int_equal(fv_desk_take_back(desk, 0, NULL), FV_OK);
    assert_memory_equal(fv_desk_text(desk, NULL), bytes, length);
    fv_desk_free(desk);
    free(bytes);
}

/* What is typed counts, whatever wrote there before: a proposal, a new part, or the same hand. */
static void what_is_typed_counts_over_all(void **state)
{
    (void)state;
    static const char is[] = "<hose id=\"s1\" from=\"t1\" to=\"c1\" length=\"2 m\" bore=\"%s\"";
    static const fv_edit edit = {.part = "s1", .attribute = "bore", .value = "25 mm"};
    const desk_change proposal = {.edits = &edit, .count = 1, .words = "proposed"};
    static const struct {
        const char *typed; /* NULL: the proposal is tried */
        size_t changes;
    } commands[] = {{NULL, 1}, {"19 mm", 2}, {"28 mm", 2}, {"25 mm", 1}, {"19 mm", 2}, {NULL, 3}, {"19 mm", 4}};
    size_t length;
    char *bytes = read_plant("networks/far-bench.xml", &length), stands[80];
    fv_desk *desk = begin(bytes, length);
    for (size_t i = 0; i < sizeof commands / sizeof *commands; i++) {
        const char *typed = commands[i].typed;
        assert_int_equal(typed ? fv_desk_set(desk, "s1", "bore", typed, NULL) : desk_add_change(desk, &proposal, NULL),
                         FV_OK);
        assert_int_equal(fv_desk_change_count(desk), commands[i].changes);
        snprintf(stands, sizeof stands, is, typed ? typed : edit.value);
        assert_non_null(strstr(fv_desk_text(desk, NULL), stands));
    }
    assert_int_equal(fv_desk_join(desk, "pipe", "t1", "t6", "25 mm", "8 m", NULL), FV_OK);
    assert_int_equal(fv_desk_set(desk, "p7", "bore", "35 mm", NULL), FV_OK);
    assert_non_null(strstr(fv_desk_text(desk, NULL), "length=\"8 m\" bore=\"35 mm\""));
    assert_int_equal(fv_desk_set(desk, "p7", "bore", "25 mm", NULL), FV_OK);
    assert_int_equal(fv_desk_change_count(desk), 5);
    fv_desk_free(desk);
    free(bytes);
}

static const char *last_words(const fv_desk *desk)
{
    return desk_now(desk)->changes[desk_now(desk)->count - 1].words;
}

/* A new hose begins where the vessel's own does; names differ within one change; a line that something else is at
 * stays; and lines that a valve comes to by what they are like are said. */
static void new_parts_know_their_neighbours(void **state)
{
    (void)state;
    size_t length;
    char *bytes = read_plant("networks/far-bench.xml", &length), alike[sizeof odd];
    fv_desk *desk = begin(bytes, length);
    assert_int_equal(fv_desk_add_vessel(desk, "bench6", "s1", "", NULL), FV_OK);
    assert_non_null(strstr(fv_desk_text(desk, NULL), "<hose id=\"s7\" from=\"t6\" to=\"c7\" like=\"s1\"/>"));
    assert_int_equal(fv_desk_put_valve(desk, "ball-valve", "s1", NULL), FV_OK);
    assert_non_null(strstr(last_words(desk), "in hose s1, and in what is like it"));
    assert_int_equal(fv_desk_put_valve(desk, "ball-valve", "s6", NULL), FV_OK);
    assert_null(strstr(last_words(desk), "like it"));
    assert_int_equal(fv_desk_take_away(desk, "v1", NULL), FV_OK);
    assert_non_null(strstr(last_words(desk), "v1, and in what is like it"));
    assert_int_equal(fv_desk_join(desk, "pipe", "c4", "t1", "25 mm", "8 m", NULL), FV_OK);
    assert_int_equal(fv_desk_take_away(desk, "bench4", NULL), FV_OK);
    assert_null(strstr(fv_desk_text(desk, NULL), "\"bench4\""));
    assert_non_null(strstr(fv_desk_text(desk, NULL), "\"s4\""));
    fv_desk_free(desk);
    free(bytes);
    strcpy(alike, odd); /* all joints of one stem */
    for (char *at; (at = strstr(alike, "'t1'"));)
        memcpy(at, "'c9'", 4);
    desk = begin(alike, sizeof odd - 1);
    assert_int_equal(fv_desk_add_vessel(desk, "z", "", "1 m", NULL), FV_OK);
    assert_non_null(strstr(fv_desk_text(desk, NULL), "from=\"c9\" to=\"c11\" like=\"h1\""));
    assert_non_null(strstr(fv_desk_text(desk, NULL), "from=\"c11\" to=\"c10\" like=\"s2\""));
    fv_desk_free(desk);
}

/* Trade sizes follow the units that were asked for, and the file does not. */
static void units_that_are_asked_for_reach_the_plant(void **state)
{
    (void)state;
    const fv_desk_options options = {.units = FV_US, .clock = NAN, .unanswered = true};
    fv_desk *desk = fv_desk_new(odd, sizeof odd - 1, "plant.xml", &options, NULL);
    assert_non_null(desk);
    assert_int_equal(fv_word(desk->at_now.plant->units), FV_US);
    assert_string_equal(fv_desk_text(desk, NULL), odd);
    fv_desk_free(desk);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_change_touches_one_value),
        cmocka_unit_test(odd_files_keep_their_ways),
        cmocka_unit_test(odd_files_take_parts),
        cmocka_unit_test(parts_come_and_go),
        cmocka_unit_test(what_is_typed_counts_over_all),
        cmocka_unit_test(new_parts_know_their_neighbours),
        cmocka_unit_test(units_that_are_asked_for_reach_the_plant),
        cmocka_unit_test(sessions_end_in_the_file_they_began_with),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
