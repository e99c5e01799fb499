/* SPDX-License-Identifier: MIT */
/* The page of a session: its sections are those of the report to the byte, and a request answers with what differs. And
 * whatever is asked for, the desk answers and stays whole. */
#include "farvessel/desk.h"
#include "farvessel/report.h"

#include "print/show.h"

#include <jansson.h>
#include <math.h>
#include <setjmp.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { REQUESTS = 10000, REQUESTS_ANSWERED = 60 };

typedef struct {
    char *bytes;
    size_t length, kept;
    fv_desk *desk;
} bench;

static fv_status keep(void *context, const char *bytes, size_t length, fv_faults *faults)
{
    bench *b = context;
    (void)bytes, (void)faults;
    b->kept = length;
    return FV_OK;
}

static void begin_with(bench *b, const char *file, bool unanswered)
{
    *b = (bench){.kept = 0};
    b->bytes = fv_read_whole(file, 1 << 20, &b->length, NULL);
    assert_non_null(b->bytes);
    const fv_desk_options options = {
        .clock = NAN, .keep = keep, .context = b, .date = "2031-03-14", .unanswered = unanswered};
    fv_faults *faults = fv_faults_new();
    b->desk = fv_desk_new(b->bytes, b->length, "far-bench.xml", &options, faults);
    for (size_t i = 0; i < fv_faults_count(faults); i++)
        print_error("%s\n", fv_faults_at(faults, i)->text);
    fv_faults_free(faults);
    assert_non_null(b->desk);
}

static void begin(bench *b, bool unanswered)
{
    begin_with(b, "networks/far-bench.xml", unanswered);
}

static void end(bench *b)
{
    fv_desk_free(b->desk);
    free(b->bytes);
}

static json_t *ask(bench *b, const char *form)
{
    fv_text text = {0};
    assert_int_equal(fv_desk_do(b->desk, form, strlen(form), &text), FV_OK);
    json_t *answer = json_loads(text.text, 0, NULL);
    assert_non_null(answer);
    fv_text_free(&text);
    return answer;
}

static const char *refused(const json_t *answer)
{
    return json_string_value(json_object_get(answer, "refused"));
}

static size_t count(const json_t *answer)
{
    return json_array_size(json_object_get(answer, "fragments"));
}

/* Those of a session alone. */
static bool is_of_session(const char *id)
{
    return strcmp(id, "changes") == 0 || strcmp(id, "ask") == 0 || strcmp(id, "write") == 0 || strcmp(id, "bar") == 0;
}

/* Takes out everything from `begin` to `end`; returns how often. */
static size_t strip(char *text, const char *begin, const char *end)
{
    size_t times = 0;
    for (char *at = text; (at = strstr(at, begin)); times++) {
        char *after = strstr(at, end);
        assert_non_null(after);
        after += strlen(end);
        memmove(at, after, strlen(after) + 1);
    }
    return times;
}

/* What was before stands pale beside what is, and is all that a report lacks. */
static size_t strip_ghost(char *text)
{
    return strip(text, "<g class=\"ghost\"", "</g>") + strip(text, "<p class=\"difference\"", "</p>\n");
}

static void sections_are_those_of_the_report(void **state)
{
    (void)state;
    bench b;
    begin(&b, false);
    fv_text report = {0}, page = {0};
    json_t *answer = ask(&b, "do=set&part=v1&attribute=open&value=40+%25");
    assert_string_equal(refused(answer), "");
    assert_int_equal(fv_desk_page(b.desk, true, &report), FV_OK);
    assert_int_equal(fv_desk_page(b.desk, false, &page), FV_OK);
    size_t i, same = 0, ghosts = 0;
    json_t *fragment;
    json_array_foreach(json_object_get(answer, "fragments"), i, fragment)
    {
        const char *html = json_string_value(json_object_get(fragment, "html"));
        assert_non_null(strstr(page.text, html));
        if (is_of_session(json_string_value(json_object_get(fragment, "id"))))
            continue;
        char *bare = strdup(html);
        ghosts += strip_ghost(bare);
        assert_non_null(strstr(report.text, bare));
        free(bare);
        same++;
    }
    assert_true(same >= 6);
    assert_true(ghosts > 12); /* a sentence, curves, levels, lines */
    assert_int_equal(strip_ghost(report.text), 0);
    assert_null(strstr(report.text, "<form"));
    json_decref(answer);
    fv_text_free(&report);
    fv_text_free(&page);
    end(&b);
}

/* The report of the file that a session would save is the session's report. */
static void the_answer_is_that_of_the_file(void **state)
{
    (void)state;
    bench b;
    begin(&b, false);
    fv_text ours = {0}, theirs = {0};
    size_t length;
    json_decref(ask(&b, "do=set&part=s6&attribute=bore&value=25+mm"));
    json_decref(ask(&b, "do=set&part=boiler&attribute=output&value=48+kW"));
    assert_int_equal(fv_desk_page(b.desk, true, &ours), FV_OK);
    const char *text = fv_desk_text(b.desk, &length);
    fv_faults *remarks = fv_faults_new();
    fv_plant *plant = fv_plantfile_read_memory(text, length, "far-bench.xml", NULL, remarks);
    fv_flow_options flow;
    fv_heat_options heat;
    fv_page_options page;
    fv_flow_defaults(&flow);
    fv_heat_defaults(&heat);
    fv_page_defaults(&page);
    flow.turndown = true;
    page.date = "2031-03-14";
    fv_flow_answer *moment = fv_flow_answer_new(plant, &flow, NULL, remarks);
    fv_heat_result *run = fv_heat_run(plant, &heat, NULL, remarks);
    fv_faults_sort(remarks);
    const fv_page_content content = {.flow = moment, .heat = run, .remarks = remarks};
    assert_int_equal(fv_report_page(&content, &page, &theirs), FV_OK);
    assert_string_equal(ours.text, theirs.text);
    fv_heat_free(run);
    fv_flow_answer_free(moment);
    fv_plant_free(plant);
    fv_faults_free(remarks);
    fv_text_free(&ours);
    fv_text_free(&theirs);
    end(&b);
}

static const char *fragment_of(const json_t *answer, const char *id)
{
    size_t i;
    json_t *fragment;
    json_array_foreach(json_object_get(answer, "fragments"), i, fragment)
    {
        if (strcmp(json_string_value(json_object_get(fragment, "id")), id) == 0)
            return json_string_value(json_object_get(fragment, "html"));
    }
    return NULL;
}

static size_t times(const char *text, const char *what)
{
    size_t n = 0;
    while ((text = strstr(text, what))) {
        text += strlen(what);
        n++;
    }
    return n;
}

/* "alone: ..." behind the last change that is listed. */
static const char *last_alone(const char *changes, char *words, size_t size)
{
    const char *at = strstr(changes, "alone: ");
    for (const char *next = at; next; next = strstr(next + 1, "alone: "))
        at = next;
    assert_non_null(at);
    const size_t length = strcspn(at, "<");
    assert_true(length < size);
    memcpy(words, at, length);
    words[length] = '\0';
    return words;
}

/* What a change does is told after it; what each does alone is what it would have told as the first. */
static void each_change_is_told_alone(void **state)
{
    (void)state;
    static const char valve[] = "do=set&part=v1&attribute=open&value=40+%25",
                      bore[] = "do=set&part=s6&attribute=bore&value=25+mm";
    char first[160], second[160];
    bench b;
    begin(&b, false);
    json_t *answer = ask(&b, bore);
    assert_non_null(strstr(fragment_of(answer, "answer"), "The last change: last core"));
    last_alone(fragment_of(answer, "changes"), first, sizeof first);
    assert_non_null(strstr(fragment_of(answer, "answer"), first + strlen("alone: ")));
    json_decref(answer);
    end(&b);
    begin(&b, false);
    json_decref(ask(&b, valve));
    answer = ask(&b, bore);
    assert_int_equal(times(fragment_of(answer, "changes"), "alone: "), 1);
    assert_int_equal(times(fragment_of(answer, "changes"), "What each does alone"), 1);
    json_decref(answer);
    answer = ask(&b, "do=effects");
    assert_int_equal(times(fragment_of(answer, "changes"), "alone: "), 2);
    assert_int_equal(times(fragment_of(answer, "changes"), "What each does alone"), 0);
    assert_string_equal(last_alone(fragment_of(answer, "changes"), second, sizeof second), first);
    assert_null(fragment_of(answer, "answer")); /* the ghost stays as it was */
    json_decref(answer);
    json_decref(ask(&b, "do=back&change=0"));
    json_decref(ask(&b, "do=set&part=boiler&attribute=fire&value=80+%25"));
    json_decref(ask(&b, "do=set&part=boiler&attribute=output&value=30+kW"));
    answer = ask(&b, "do=effects"); /* one of two */
    assert_int_equal(times(fragment_of(answer, "changes"), "alone: "), 2);
    json_decref(answer);
    answer = ask(&b, "do=effects&all=yes");
    assert_int_equal(times(fragment_of(answer, "changes"), "alone: "), 3);
    json_decref(answer);
    end(&b);
}

/* When the last core comes in the plant as it is written down, as it is shown. */
static print_shown last_core_of(const bench *b)
{
    size_t length;
    const char *text = fv_desk_text(b->desk, &length);
    fv_plant *plant = fv_plantfile_read_memory(text, length, "hand.xml", NULL, NULL);
    fv_heat_options options;
    fv_heat_defaults(&options);
    fv_heat_result *run = fv_heat_run(plant, &options, NULL, NULL);
    assert_non_null(run);
    double last = 0.0;
    for (size_t i = 0; i < run->vessel_count; i++)
        last = fmax(last, run->vessels[i].core);
    fv_heat_free(run);
    fv_plant_free(plant);
    return print_shown_time(last);
}

/* What is proposed does what was promised of it once it stands in the file. */
static void proposals_keep_their_word(const char *plant, const char *question)
{
    enum { PROPOSALS_MOST = 4 };
    static const char promise[] = "last core ", after[] = " after lighting";
    char form[48], told[PROPOSALS_MOST][48];
    size_t count = 0;
    bench b;
    begin_with(&b, plant, false);
    snprintf(form, sizeof form, "do=ask&what=%s", question);
    json_t *answer = ask(&b, form);
    assert_string_equal(refused(answer), "");
    char *html = strdup(fragment_of(answer, "ask"));
    for (char *at = html; (at = strstr(at, "\xC2\xA0"));) { /* blanks that do not break */
        *at = ' ';
        memmove(at + 1, at + 2, strlen(at + 2) + 1);
    }
    for (const char *at = strstr(html, "<ul class=\"commands\"");
         (at = strstr(at, promise)) && count < PROPOSALS_MOST;) {
        at += strlen(promise);
        const char *end = strstr(at, after);
        assert_non_null(end);
        snprintf(told[count++], sizeof *told, "%.*s", (int)(end - at), at);
    }
    assert_true(count >= 1 && count <= times(html, "Try this</button>"));
    assert_int_equal(times(html, "<code><span>--"), times(html, "Try this</button>"));
    free(html);
    json_decref(answer);
    answer = ask(&b, "do=save"); /* does not change the plant that was asked about */
    assert_null(fragment_of(answer, "ask"));
    json_decref(answer);
    for (size_t i = 0; i < count; i++) {
        snprintf(form, sizeof form, "do=try&proposal=%zu", i);
        answer = ask(&b, form);
        assert_string_equal(refused(answer), "");
        assert_int_equal(fv_desk_change_count(b.desk), 1);
        assert_string_equal(last_core_of(&b).text, told[i]);
        assert_true(i > 0 || strstr(fragment_of(answer, "ask"), "changed since"));
        json_decref(answer);
        json_decref(ask(&b, "do=back&change=0"));
    }
    assert_memory_equal(fv_desk_text(b.desk, NULL), b.bytes, b.length);
    print_message("%s: %zu proposals tried\n", question, count);
    end(&b);
}

static void what_is_asked_can_be_tried(void **state)
{
    (void)state;
    proposals_keep_their_word("networks/hand.xml", "why");
    proposals_keep_their_word("networks/four-bins.xml", "plan"); /* with actions */
}

/* A lid that the pressure lifts is told with what holds the vessels up, whatever is proposed. */
static void a_lifted_lid_is_told(void **state)
{
    (void)state;
    bench b;
    begin_with(&b, "networks/hand.xml", false);
    json_decref(ask(&b, "do=set&part=far.opening1&attribute=diameter&value=1+mm"));
    json_t *answer = ask(&b, "do=ask&what=why");
    assert_non_null(strstr(fragment_of(answer, "ask"), "lifts its lid: a vent of "));
    json_decref(answer);
    end(&b);
}

/* What no file can change is told like the others, without anything to try: the words are those of the reports. */
static void odds_and_week_are_asked(void **state)
{
    (void)state;
    bench b;
    begin_with(&b, "networks/hand.xml", false);
    json_t *answer = ask(&b, "do=ask&what=odds");
    assert_string_equal(refused(answer), "");
    const char *html = fragment_of(answer, "ask");
    assert_non_null(strstr(html, "eight times in ten between "));
    assert_non_null(strstr(html, "min narrower</li>"));
    assert_null(strstr(html, "Try this"));
    assert_null(strstr(html, ">Week</button>")); /* nobody is said to be there */
    json_decref(answer);
    answer = ask(&b, "do=ask&what=week");
    assert_non_null(strstr(refused(answer), "who is there when?"));
    json_decref(answer);
    end(&b);
    begin_with(&b, "networks/week-line.xml", false);
    answer = ask(&b, "do=ask&what=week");
    assert_string_equal(refused(answer), "");
    html = fragment_of(answer, "ask");
    assert_non_null(strstr(html, ">Week</button>"));
    assert_non_null(strstr(html, "one more vessel</b>: "));
    assert_null(strstr(html, "one more person")); /* who would bring nothing */
    assert_non_null(strstr(html, " more a week</li>"));
    json_decref(answer);
    end(&b);
}

/* What carry would have bought for more vessels than there are stands in no file yet: it says what comes first. */
static void what_is_bought_for_more_vessels_says_why_not_here(void **state)
{
    (void)state;
    bench b;
    begin_with(&b, "networks/four-bins.xml", false);
    json_t *answer = ask(&b, "do=ask&what=carry");
    assert_string_equal(refused(answer), "");
    assert_non_null(strstr(fragment_of(answer, "ask"), "to try it, add the vessel first, then ask again</li>"));
    json_decref(answer);
    end(&b);
}

/* For the vessels that there are it is a change like any other; what hands and small work do is told once. */
static void what_is_bought_for_these_vessels_can_be_tried(void **state)
{
    (void)state;
    bench b;
    begin_with(&b, "networks/hand.xml", false);
    json_decref(ask(&b, "do=set&part=far&attribute=within&value=3+h+35+min"));
    json_t *answer = ask(&b, "do=ask&what=carry");
    assert_string_equal(refused(answer), "");
    const char *html = fragment_of(answer, "ask");
    assert_non_null(strstr(html, "Try this: a boiler of 18 kW instead for 2 vessels"));
    assert_null(strstr(html, "buy nothing"));
    assert_null(strstr(html, "add the vessel first"));
    json_decref(answer);
    json_decref(ask(&b, "do=try&proposal=0"));
    assert_int_equal(fv_desk_change_count(b.desk), 2);
    end(&b);
}

static bool stop(void *context, double share, const char *what)
{
    (void)context, (void)share, (void)what;
    return false;
}

static void what_is_asked_can_be_stopped(void **state)
{
    (void)state;
    static const char *const questions[] = {"do=ask&what=why",  "do=ask&what=size", "do=ask&what=carry",
                                            "do=ask&what=plan", "do=ask&what=odds", "do=ask&what=week"};
    const fv_progress progress = {.tick = stop};
    const fv_desk_options options = {.clock = NAN, .progress = &progress};
    bench b = {.bytes = fv_read_whole("networks/week-line.xml", 1 << 20, &b.length, NULL)};
    b.desk = fv_desk_new(b.bytes, b.length, "week-line.xml", &options, NULL);
    assert_non_null(b.desk);
    for (size_t i = 0; i < sizeof questions / sizeof *questions; i++) {
        json_t *answer = ask(&b, questions[i]);
        assert_string_equal(refused(answer), "that was stopped");
        json_decref(answer);
    }
    end(&b);
}

static void commands_and_refusals(void **state)
{
    (void)state;
    static const struct {
        const char *form, *says; /* "": it is done */
    } commands[] = {
        {"do=undo", "nothing to undo"},
        {"do=redo", "nothing to do again"},
        {"do=back&change=0", "no such change"},
        {"do=back", "no such change"},
        {"do=set&part=s1&attribute=bore&value=19+mm", ""},
        {"do=undo", "nothing to undo"}, /* it was 19 mm */
        {"do=set&part=s1&attribute=bore&value=%2025%C2%A0mm+", ""},
        {"do=set&part=s1&attribute=bore&value=25", "a bare number"},
        {"do=set&part=s1&attribute=boar&value=25+mm", "no 'boar'"},
        {"do=set&part=s9&attribute=bore&value=25+mm", "nothing is called 's9'"},
        {"do=set&part=s1&attribute=id&value=s2", "no 'id'"},
        {"do=set&part=s1&attribute=bore&value=%FF", "cannot be read"},
        {"do=set&part=s1&attribute=bore", "cannot be read"},
        {"do=set", "cannot be read"},
        {"do=format&path=/", "cannot be done"},
        {"", "cannot be done"},
        {"do=undo&seen=1", "changed elsewhere"},
        {"do=add&like=bench9", "no vessel is called 'bench9'"},
        {"do=add&like=bench6&hose=s9", "no line is called 's9'"},
        {"do=add&like=bench6&far=far", "does not begin with a number"},
        {"do=put&what=elbow&into=s1", "no valve is called 'elbow'"},
        {"do=join&line=rope&from=t1&to=t6&bore=35+mm&length=8+m", "neither header, pipe nor hose"},
        {"do=join&line=pipe&from=t1&to=%3Ct6&bore=35+mm&length=8+m", "no name of a joint"},
        {"do=join&line=pipe&from=t1&to=t6&bore=35+mm", "length"},
        {"do=away&part=s1", "take away s2 instead"},
        {"do=away", "nothing is called ''"},
        {"do=ask&what=weather", "cannot be asked"},
        {"do=try&proposal=0", "no such proposal"},
        {"do=add&like=bench6&hose=&far=2+m", ""},
        {"do=put&what=globe-valve&into=s7", ""},
        {"do=join&line=pipe&from=t7&to=t1&bore=35+mm&length=8+m", ""},
        {"do=away&part=bench4", ""},
        {"do=back&change=3", ""},
        {"do=back&change=2", ""},
        {"do=back&change=1", ""},
        {"do=back&change=1", ""},
        {"do=save", ""},
        {"do=set&part=h1&attribute=bore&value=", "bore"}, /* which a header must have */
        {"do=undo", ""},
        {"do=redo", ""},
        {"do=back&change=0", ""},
    };
    bench b;
    begin(&b, false);
    for (size_t i = 0; i < sizeof commands / sizeof *commands; i++) {
        json_t *answer = ask(&b, commands[i].form);
        if (!strstr(refused(answer), commands[i].says) || (!commands[i].says[0] && refused(answer)[0]))
            print_error("%s: %s\n", commands[i].form, refused(answer));
        assert_non_null(strstr(refused(answer), commands[i].says));
        assert_true(commands[i].says[0] || !refused(answer)[0]);
        json_decref(answer);
    }
    assert_true(b.kept > b.length - 10);
    assert_int_equal(fv_desk_change_count(b.desk), 0);
    assert_true(fv_desk_unsaved(b.desk));
    /* What is asked again has nothing new, but for the word of refusal that is gone. */
    json_decref(ask(&b, "do=set&part=s1&attribute=bore&value=19+mm"));
    json_t *answer = ask(&b, "do=set&part=s1&attribute=bore&value=19+mm");
    assert_int_equal(count(answer), 0);
    json_decref(answer);
    end(&b);
}

/* SplitMix64 (Steele, Lea, Flood 2014). */
static uint64_t draw(uint64_t *seed)
{
    uint64_t z = (*seed += 0x9E3779B97F4A7C15u);
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return z ^ (z >> 31);
}

/* Pieces of requests in any order, and bytes of any sort. */
static void random_form(uint64_t *seed, fv_text *form)
{
    static const char *const pieces[] = {"do=",
                                         "set",
                                         "undo",
                                         "redo",
                                         "back",
                                         "&",
                                         "&part=",
                                         "s1",
                                         "s2.valve1",
                                         "bench3.coil",
                                         "chest",
                                         "site",
                                         "&attribute=",
                                         "bore",
                                         "drill",
                                         "open",
                                         "air",
                                         "&value=",
                                         "25+mm",
                                         "50+%25",
                                         "0",
                                         "-1",
                                         "&change=",
                                         "&seen=",
                                         "=",
                                         "%00",
                                         "%3C",
                                         "%",
                                         "1e999+m",
                                         "do=set&part=s1&attribute=bore&value=",
                                         "do=add&like=bench6&far=2+m",
                                         "do=away&part=",
                                         "do=put&what=ball-valve&into=",
                                         "do=join&line=pipe&from=t1&to=t6&bore=25+mm&length=",
                                         "do=effects",
                                         "do=try&proposal=0",
                                         "s7"};
    const size_t length = draw(seed) % 12;
    for (size_t i = 0; i < length; i++) {
        const size_t which = draw(seed) % (sizeof pieces / sizeof *pieces + 2);
        if (which < sizeof pieces / sizeof *pieces)
            fv_text_add(form, "%s", pieces[which]);
        else
            fv_text_add(form, "%c", (char)(1 + draw(seed) % 255));
    }
    fv_text_add(form, "%s", "");
}

static void random_requests(bench *b, size_t requests)
{
    const char *from = getenv("DESK_FROM"); /* others */
    uint64_t seed = from ? strtoul(from, NULL, 10) : 1;
    for (size_t i = 0; i < requests; i++) {
        fv_text form = {0}, answer = {0};
        random_form(&seed, &form);
        assert_int_equal(fv_desk_do(b->desk, form.text, form.length, &answer), FV_OK);
        fv_text_free(&form);
        fv_text_free(&answer);
    }
    /* One that another one needs goes after it. */
    for (size_t left = fv_desk_change_count(b->desk), at = left; left > 0 && at-- > 0;)
        if (fv_desk_take_back(b->desk, at, NULL) == FV_OK)
            at = left = fv_desk_change_count(b->desk);
    assert_int_equal(fv_desk_change_count(b->desk), 0);
    size_t length;
    const char *text = fv_desk_text(b->desk, &length);
    assert_int_equal(length, b->length);
    assert_memory_equal(text, b->bytes, length);
}

static void any_request_is_answered(void **state)
{
    (void)state;
    bench b;
    begin(&b, true);
    random_requests(&b, REQUESTS);
    end(&b);
    begin(&b, false);
    const char *more = getenv("DESK_REQUESTS"); /* 10000 take a quarter of an hour, and longer under sanitizers */
    random_requests(&b, more ? strtoul(more, NULL, 10) : REQUESTS_ANSWERED);
    end(&b);
}

/* Before there is a plant, the questions are the page: a wrong answer keeps what was typed, good ones make the plant,
 * and that is not saved yet. Nothing else can be asked for meanwhile. */
static void a_plant_comes_from_nothing(void **state)
{
    (void)state;
    bench b = {.kept = 0};
    const fv_desk_options options = {.clock = NAN, .keep = keep, .context = &b};
    b.desk = fv_desk_new(NULL, 0, "new.xml", &options, NULL);
    assert_non_null(b.desk);
    fv_text page = {0};
    assert_int_equal(fv_desk_page(b.desk, false, &page), FV_OK);
    assert_non_null(strstr(page.text, "nameplate"));
    assert_int_equal(fv_desk_page(b.desk, true, &page), FV_FAIL);
    assert_int_equal(fv_desk_give(b.desk, "plant.xml", "", 0, &page), FV_FAIL);
    assert_false(fv_desk_unsaved(b.desk));
    static const char *const early[] = {"do=set&part=s1&attribute=bore&value=25+mm", "do=undo", "do=redo", "do=save",
                                        "do=back&change=0"};
    for (size_t i = 0; i < sizeof early / sizeof *early; i++) {
        json_t *answer = ask(&b, early[i]);
        assert_true(refused(answer)[0]);
        json_decref(answer);
    }
    json_t *answer = ask(&b, "do=new&vessels=3&hose=19+parsec&boiler=18+kW");
    assert_non_null(strstr(refused(answer), "hose"));
    const char *html =
        json_string_value(json_object_get(json_array_get(json_object_get(answer, "fragments"), 0), "html"));
    assert_non_null(strstr(html, "value=\"18 kW\""));
    json_decref(answer);
    json_decref(answer = ask(&b, "do=new&vessels=3&hose=19,3&boiler=18+kW"));
    const char *text = fv_desk_text(b.desk, NULL);
    assert_non_null(text);
    assert_non_null(strstr(text, "output=\"18 kW\""));
    assert_non_null(strstr(text, "vessel3"));
    assert_null(strstr(text, "vessel4"));
    assert_true(fv_desk_unsaved(b.desk));
    answer = ask(&b, "do=new&vessels=4");
    assert_non_null(strstr(refused(answer), "already"));
    json_decref(answer);
    json_decref(ask(&b, "do=save"));
    assert_true(b.kept > 0);
    fv_text_free(&page);
    fv_desk_free(b.desk);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sections_are_those_of_the_report),
        cmocka_unit_test(the_answer_is_that_of_the_file),
        cmocka_unit_test(each_change_is_told_alone),
        cmocka_unit_test(what_is_asked_can_be_tried),
        cmocka_unit_test(a_lifted_lid_is_told),
        cmocka_unit_test(odds_and_week_are_asked),
        cmocka_unit_test(what_is_bought_for_more_vessels_says_why_not_here),
        cmocka_unit_test(what_is_bought_for_these_vessels_can_be_tried),
        cmocka_unit_test(what_is_asked_can_be_stopped),
        cmocka_unit_test(commands_and_refusals),
        cmocka_unit_test(a_plant_comes_from_nothing),
        cmocka_unit_test(any_request_is_answered),
    };
    if (getenv("DESK_REQUESTS"))
        cmocka_set_test_filter("any_request_is_answered");
    return cmocka_run_group_tests(tests, NULL, NULL);
}
