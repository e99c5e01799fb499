/* SPDX-License-Identifier: MIT */
/* Floor 4: the plant as an XML file, in and out. The file is untrusted: no network, no DTD, no entities, limits on
 * size, depth and number of elements. Every fault names file and line; all of them are said in one run. */
#ifndef FARVESSEL_PLANTFILE_H
#define FARVESSEL_PLANTFILE_H

#include "farvessel/model.h"

FV_C_BEGIN

#define FV_PLANTFILE_NAMESPACE "urn:farvessel:network:1"

/* What a file may hold at most, so that even a hostile one is answered at once: with the default limits, reading and
 * checking take at most 2 s and 256 MB. */
typedef struct {
    size_t bytes_most;      /* of the file */
    size_t elements_most;   /* in it */
    size_t depth_most;      /* elements inside elements */
    size_t attributes_most; /* of an element, namespaces counted */
    size_t value_most;      /* bytes of a value */
    size_t boilers_most;
    size_t lines_most;   /* headers, pipes, hoses */
    size_t vessels_most; /* and kinds */
    size_t inside_most;  /* parts inside one part: holes of a coil, walls of a vessel, fittings of a line */
    size_t taken_most;   /* parts that `like` brings in, all together */
    size_t actions_most;
    size_t stock_most;
    size_t weather_most; /* rows */
    size_t faults_most;  /* listed; beyond it one more says that there are more */
} fv_plantfile_limits;

fv_plantfile_limits fv_plantfile_limits_default(void);

/* The i-th limit for people: what it limits, and how much of it. False: there are fewer. */
bool fv_plantfile_limit_at(const fv_plantfile_limits *limits, size_t i, const char **what, size_t *most);

/* Reads, checks and links a plant. `path` "-": standard input. `limits` NULL: the default. NULL if there was any error;
 * cautions may be in `faults` beside a plant. The faults are sorted by line. */
fv_plant *fv_plantfile_read(const char *path, const fv_plantfile_limits *limits, fv_faults *faults);
/* The same from memory; `name` is what messages call it. */
fv_plant *fv_plantfile_read_memory(const char *bytes, size_t length, const char *name,
                                   const fv_plantfile_limits *limits, fv_faults *faults);

/* An attribute for people: "inside diameter; not said: ... It is a length, such as 19 mm or 3/4 in. Default ... At
 * least
 * ..., at most ...". */
void fv_plantfile_describe(const fv_attr *attr, fv_text *out);

/* Tries a change on a plant: "s1.bore=25 mm", "bin.load.moisture=65 %", "site.air=-5 degC", "v1.open=0.5",
 * "bin.wall1.outside=10 W/m2/K"; parts as in fv_plant_find. Texts and words can be set, too; ids cannot. A kind changes
 * all that are like it, any other part itself alone. All of `count` changes are made before the plant is linked again.
 * FV_FAIL: said in `faults` (file "--set"); the plant is then not to be used further. */
fv_status fv_plantfile_set(fv_plant *plant, const char *const *settings, size_t count, fv_faults *faults);

/* Several values for one attribute, to be tried one by one: "s1.bore = 19 mm, 25 mm", or evenly spaced ones from first
 * to last, "bin.coil.drill = 2 mm .. 4 mm in 5", or a range alone, "boiler.output = 20 kW .. 30 kW", for draws at
 * random. */
typedef struct {
    char *path;      /* as in fv_plant_find */
    char *attribute; /* its name */
    double *values;  /* SI; words: their index */
    size_t count;    /* of a range alone: 2, its ends */
    size_t capacity; /* of the list */
    bool range;      /* with "..": what lies between counts, too */
    bool open;       /* a range that does not say in how many */
} fv_values;
enum { FV_VALUES_MOST = 1000000 };
/* FV_FAIL: said in `faults` (file "--vary"). Free it in any case. */
fv_status fv_plantfile_values(const fv_plant *plant, const char *text, fv_values *values, fv_faults *faults);
void fv_values_free(fv_values *values);
/* Adds things to be done in the course of the run: "bin1 core: v1 25 %", "bin1 core + 15 min: bin2 open", "2 h: boiler
 * 50 %" (valve, boiler or vessel by its id; shut, open or detach for a vessel). FV_FAIL as above, file "--do". */
fv_status fv_plantfile_do(fv_plant *plant, const char *const *texts, size_t count, fv_faults *faults);

/* Adds the plant as a file: what was said of each part (settings included), in a grower's units, kinds kept. Reading it
 * gives the same values bit for bit. False: out of memory. */
bool fv_plantfile_write(const fv_plant *plant, fv_text *out);

/* ---- the file as it was written: an attribute or a part is changed, all other bytes stay ---- */
typedef enum {
    FV_EDIT_SET,     /* an attribute; `value` as it is typed: "50 %"; NULL: it is taken out */
    FV_EDIT_PUT,     /* a new part inside `part` ("": the network), behind the last of its sort; `value` is its tag
                        without brackets: "hose id=\"s7\" from=\"t6\" to=\"c7\" like=\"s6\"" */
    FV_EDIT_TAKE_OUT /* the part with all that is in it, where it is there */
} fv_edit_kind;
typedef struct {
    const char *part, *attribute; /* as for --set: "s1.valve1", "open" */
    const char *value;
    fv_edit_kind kind;
} fv_edit;
/* Adds a text that the reader took, with the changes made one after the other. What a part has from its kind and is
 * changed for it alone is written into it, and so is a list that gets one more or loses one. Where others are like the
 * part that changes, and it is no kind, they are given what they had from it. The result must be read again before it
 * is believed. FV_FAIL: said in `faults`, nothing is added. */
fv_status fv_plantfile_edit(const char *bytes, size_t length, const fv_edit *edits, size_t count, fv_text *out,
                            fv_faults *faults);
/* Only UTF-8 can be changed so; false: said in `faults`. */
bool fv_plantfile_can_edit(const char *bytes, size_t length, const char *name, fv_faults *faults);
/* Where everything stands in such a text, which must outlive it. NULL: no memory, or the reader would refuse it. */
typedef struct fv_source fv_source;
fv_source *fv_source_new(const char *bytes, size_t length);
void fv_source_free(fv_source *source);
/* Adds an attribute as it was typed. False: it does not stand at that part itself. */
bool fv_source_typed(const fv_source *source, const char *part, const char *attribute, fv_text *out);

/* The XSD, as it is built in and stands in networks/network.xsd, for editors. Reading does not need it: it refuses all
 * that the XSD refuses, from the same table, and says more; tests hold it to that. */
const char *fv_plantfile_xsd(size_t *length);
/* The XSD made from the schema's table and the grammar; a test compares the two. */
bool fv_plantfile_make_xsd(fv_text *out);

FV_C_END

#endif
