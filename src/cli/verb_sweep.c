/* SPDX-License-Identifier: MIT */
/* sweep: what comes of a thousand what-ifs? Rows are written as they come, to FILE.part where there is a file, which
 * gets its name once all are there; what was stopped can be gone on with. */
#include "cli/cli.h"

#include "farvessel/plantfile.h"
#include "farvessel/sweep.h"

#include <errno.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

typedef struct {
    const cli_request *request;
    const fv_plant *plant;
    fv_values values[FV_SWEEP_AXES_MOST];
    fv_sweep_axis axes[FV_SWEEP_AXES_MOST];
    size_t axis_count;
    fv_sweep_options options;
    const char *path; /* NULL: standard output */
    char *part;       /* path.part */
    FILE *out;
    bool unwritten; /* the file took no more; errno says why */
} sweep_run;

/* ---- what is asked ---- */

static cli_exit read_part(const char *text, fv_sweep_options *options)
{
    unsigned long part = 0, parts = 0;
    int used = 0;
    if (text && (sscanf(text, "%6lu/%6lu%n", &part, &parts, &used) != 2 || text[used] || part < 1 || part > parts))
        return cli_usage("--part \"%s\": as in 3/16, the third of sixteen shares", text);
    if (text) {
        options->part = part;
        options->parts = parts;
    }
    return CLI_GOOD;
}

static cli_exit read_options(sweep_run *s)
{
    const cli_request *request = s->request;
    double draws = 0.0;
    fv_sweep_defaults(&s->options);
    if (request->varied_count == 0)
        return cli_usage("what is to vary? As in --vary \"s1.bore = 19 mm, 25 mm\"");
    if (request->varied_count > FV_SWEEP_AXES_MOST)
        return cli_usage("--vary: at most %d attributes", FV_SWEEP_AXES_MOST);
    if (request->value[OPTION_ASK])
        s->options.ask = (fv_sweep_ask)fv_word_find(FV_SWEEP_ASK_WORDS, request->value[OPTION_ASK]);
    cli_exit code = cli_read_whole(request, OPTION_RANDOM, 1.0, FV_SWEEP_DRAWS_MOST, &draws);
    if (code == CLI_GOOD)
        code = cli_read_seed(request, &s->options.seed);
    if (code == CLI_GOOD)
        code = read_part(request->value[OPTION_PART], &s->options);
    if (code == CLI_GOOD)
        code = cli_read_threads(request, &s->options.threads);
    if (code == CLI_GOOD)
        code = cli_read_fire(request, &s->options.fire);
    s->options.draws = (size_t)draws;
    return code;
}

/* "vessels = 2 .. 6" or "vessels = 2, 4": how many take part. False: it is none of these. */
static bool read_vessels(const char *text, fv_values *v)
{
    static const long MOST = 1000;
    long first = 0, last = 0;
    int end = 0;
    if (sscanf(text, " vessels = %ld .. %ld %n", &first, &last, &end) < 2 || text[end]) {
        end = 0;
        last = sscanf(text, " vessels = %ld %n", &first, &end) == 1 ? first : 0;
    }
    while (end > 0 && first >= 1 && last >= first && last <= MOST) {
        void *list = v->values;
        if (!fv_grow(&list, &v->capacity, v->count + (size_t)(last - first + 1), sizeof(double)))
            return false;
        v->values = list;
        for (; first <= last; first++)
            v->values[v->count++] = (double)first;
        if (!text[end])
            return true;
        text += end;
        end = 0;
        last = sscanf(text, ", %ld %n", &first, &end) == 1 ? first : 0;
    }
    return false;
}

static bool is_of_vessels(const char *text)
{
    int end = 0;
    sscanf(text, " vessels = %n", &end);
    return end > 0;
}

static cli_exit read_axes(sweep_run *s, fv_faults *faults)
{
    bool good = true;
    for (size_t i = 0; i < s->request->varied_count; i++) {
        fv_values *v = &s->values[s->axis_count];
        const char *text = s->request->varied[i];
        const bool counts = is_of_vessels(text);
        const bool read = counts ? read_vessels(text, v) : fv_plantfile_values(s->plant, text, v, faults) == FV_OK;
        s->axes[s->axis_count++] = (fv_sweep_axis){v->path, v->attribute, v->values, v->count, v->range};
        if (counts && !read)
            return cli_usage("--vary \"%s\": write how many take part, as in \"vessels = 2 .. 6\"", text);
        good = good && read;
    }
    if (!good)
        return cli_say_faults(faults);
    for (size_t i = 0; i < s->axis_count && s->options.draws == 0; i++)
        if (s->values[i].open)
            return cli_usage("--vary \"%s\": in how many values? Add \"in 5\", or draw with --random",
                             s->request->varied[i]);
    if (fv_sweep_rows(s->axes, s->axis_count, &s->options) == SIZE_MAX)
        return cli_usage("--vary: more than %d rows", FV_SWEEP_ROWS_MOST);
    return CLI_GOOD;
}

/* ---- where rows go ---- */

static cli_exit cannot(const char *what, const char *path)
{
    return cli_failed("cannot %s %s: %s", what, path, strerror(errno));
}

/* Goes to the end of the whole rows that are there, and counts them. */
static cli_exit go_on(sweep_run *s, const char *heading)
{
    char *line = NULL;
    size_t capacity = 0, rows = 0;
    off_t whole = 0;
    cli_exit code = CLI_GOOD;
    s->out = fopen(s->part, "r+");
    if (!s->out)
        return cannot("go on with", s->part);
    for (ssize_t n; (n = getline(&line, &capacity, s->out)) > 0 && line[n - 1] == '\n'; rows++, whole += n)
        if (rows == 0 && *heading && strcmp(line, heading) != 0)
            code = CLI_INPUT;
    free(line);
    if (code != CLI_GOOD)
        return cli_usage("%s comes from another sweep: its heading differs", s->part);
    if (fflush(s->out) != 0 || ftruncate(fileno(s->out), whole) != 0 || fseeko(s->out, whole, SEEK_SET) != 0)
        return cannot("go on with", s->part);
    if (*heading && rows == 0)
        fputs(heading, s->out);
    s->options.skip = *heading && rows > 0 ? rows - 1 : rows;
    return CLI_GOOD;
}

static cli_exit open_output(sweep_run *s, const char *heading)
{
    fv_text part = {0};
    s->out = stdout;
    if (!s->path && s->request->value[OPTION_RESUME])
        return cli_usage("--resume goes on with a file: which one? -o FILE");
    if (!s->path) {
        fputs(heading, s->out);
        return CLI_GOOD;
    }
    fv_text_add(&part, "%s.part", s->path);
    if (part.failed)
        return cli_no_memory();
    s->part = part.text;
    if (s->request->value[OPTION_RESUME])
        return go_on(s, heading);
    s->out = fopen(s->part, "w");
    if (!s->out)
        return cannot("write", s->part);
    fputs(heading, s->out);
    return CLI_GOOD;
}

static bool take(void *context, const fv_sweep_row *row)
{
    sweep_run *s = context;
    fv_text line = {0};
    fv_report_sweep_row(s->plant, s->axes, s->axis_count, s->options.ask, row, &line);
    fv_report_safe(&line);
    bool good = !line.failed && fputs(line.text, s->out) >= 0 && fflush(s->out) == 0;
    fv_text_free(&line);
    s->unwritten = !good;
    return good;
}

static cli_exit finish(sweep_run *s)
{
    if (!s->path)
        return CLI_GOOD;
    bool good = fflush(s->out) == 0 && fsync(fileno(s->out)) == 0;
    good = fclose(s->out) == 0 && good;
    s->out = NULL;
    return good && rename(s->part, s->path) == 0 ? CLI_GOOD : cannot("write", s->path);
}

/* ---- the verb ---- */

static cli_exit run(sweep_run *s, fv_faults *faults)
{
    cli_work work;
    fv_text heading = {0};
    if (s->options.part == 1)
        fv_report_sweep_heading(s->plant, s->axes, s->axis_count, s->options.ask, &heading);
    if (heading.failed)
        return cli_no_memory();
    cli_exit code = open_output(s, heading.text ? heading.text : "");
    fv_text_free(&heading);
    if (code != CLI_GOOD)
        return code;
    if (s->path)
        cli_signals_keep();
    else
        cli_signals_plain();
    cli_work_begin(&work);
    fv_status status = fv_sweep_run(s->plant, s->axes, s->axis_count, &s->options, &work.progress, take, s, faults);
    cli_work_end(&work);
    if (s->unwritten)
        return !s->path && errno == EPIPE ? CLI_GOOD : cannot("write", s->path ? s->part : "the answer");
    return status == FV_FAIL ? cli_say_faults(faults) : finish(s);
}

cli_exit cli_sweep(const cli_request *request)
{
    sweep_run s = {.request = request, .path = request->value[OPTION_OUTPUT]};
    if (s.path && strcmp(s.path, "-") == 0)
        s.path = NULL;
    cli_exit code = read_options(&s);
    if (code != CLI_GOOD)
        return code;
    fv_faults *faults = fv_faults_new();
    char digest[CLI_DIGEST_SIZE];
    fv_plant *plant = faults ? cli_load(request, digest, faults) : NULL;
    s.plant = plant;
    code = plant ? read_axes(&s, faults) : cli_say_faults(faults);
    if (code == CLI_GOOD)
        code = run(&s, faults);
    if (s.out && s.out != stdout)
        fclose(s.out);
    free(s.part);
    for (size_t i = 0; i < s.axis_count; i++)
        fv_values_free(&s.values[i]);
    fv_plant_free(plant);
    fv_faults_free(faults);
    return code;
}
