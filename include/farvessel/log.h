/* SPDX-License-Identifier: MIT */
/* Floor 5: does this log say that the batch was treated? For each probe how long it was at the target, what that is
 * worth, and how far its error lets one say so. Works with a plant file (its probes, targets and holds) and without
 * (each channel is a probe in a core, with one target for all).
 *
 * A probe's error that stays the same over a run does not average out: everything is also worked out with all its
 * readings lower and higher by what eight in ten such probes keep within. Never "sterile": what is said is how long
 * which probe was how warm. */
#ifndef FARVESSEL_LOG_H
#define FARVESSEL_LOG_H

#include "farvessel/datafile.h"
#include "farvessel/model.h"

FV_C_BEGIN

/* Why a reading was left out. */
typedef enum {
    FV_READING_GOOD,
    FV_READING_OPEN,    /* open probe, or nothing written */
    FV_READING_FROZEN,  /* the very same for an hour while other probes moved */
    FV_READING_PULLED,  /* a jump that no core can make, until it is back */
    FV_READING_BOILING, /* above boiling by more than its error */
    FV_READING_FLAWS
} fv_reading_flaw;
const char *fv_reading_flaw_word(fv_reading_flaw flaw);

/* What an instrument tells; the unit of its values. */
typedef enum { FV_READS_TEMPERATURE, FV_READS_PRESSURE, FV_READS_WATER } fv_reads; /* K; Pa gauge; kg since lit */

typedef struct {
    fv_reads reads;
    const fv_probe *probe; /* NULL without a plant file, or another instrument */
    const char *name;      /* its id, or the channel's */
    int channel;           /* of the log; -1: a figure of the whole run */
    int vessel;            /* -1: outside, or no plant file */
    int boiler;            /* of a gauge or meter; -1 */
    fv_probe_at at;
    double offset;       /* that it is known to read too high by; taken off the readings */
    double error;        /* standard uncertainty of what is left of that */
    double reach;        /* K: eight in ten such probes are off by no more */
    double lag;          /* s */
    size_t count;        /* readings, in rising time */
    const double *time;  /* s, as the log has them */
    double *value;       /* offset taken off */
    unsigned char *flaw; /* fv_reading_flaw */
    size_t left_out[FV_READING_FLAWS];
} fv_probe_readings;

/* A rule from outside, as a target of its own. */
typedef struct {
    const char *name, *what; /* for programs; for people */
    double temperature;      /* K */
    double time;             /* s at or above it; NaN: by the equation */
    bool unbroken;           /* in one piece */
    const char *source;
} fv_log_rule;
const fv_log_rule *fv_log_rules(size_t *count);

typedef enum { FV_LOG_HELD, FV_LOG_SHORT, FV_LOG_NOT_REACHED, FV_LOG_CANNOT_TELL } fv_log_verdict;
const char *fv_log_verdict_word(fv_log_verdict verdict);

/* What one way of reading a probe (as it is, or all lower or higher) says. */
typedef struct {
    double first;     /* s: first at the target; NaN */
    double longest;   /* s, longest unbroken at or above it; 0 */
    double from;      /* s: when that began; NaN */
    double sum;       /* s, all together */
    double lowest;    /* K, lowest in the longest; NaN */
    double highest;   /* K of the whole log */
    double lethality; /* s at the reference temperature, whole log */
} fv_log_span;

typedef struct {
    double done; /* of what the rule asks: 1 and more is enough; by the middle reading */
    double low;  /* the same with all readings lower */
} fv_log_rule_share;

typedef struct {
    fv_probe_readings readings;
    double target, hold; /* K, s */
    double reference, z; /* K, K: of the lethality */
    fv_log_span low, as_read, high;
    fv_log_verdict verdict;
    double short_by;          /* s; NaN */
    bool going_on;            /* at the target when the log ends */
    fv_log_rule_share *rules; /* by rule */
} fv_log_probe;

typedef struct {
    double target, hold; /* K, s; NaN: the vessel's own, or 60 degC for 30 min without a plant */
    double reference, z; /* K; NaN: the vessel's own, or the target and 10 K */
} fv_log_options;
void fv_log_defaults(fv_log_options *options);

typedef struct {
    const fv_plant *plant; /* may be NULL */
    const fv_logfile *log;
    fv_log_options options;
    double boiling_point; /* K; NaN without a plant */
    fv_log_probe *probes;
    size_t probe_count;
    int coldest; /* the core probe whose verdict is the batch's; -1: no core probe */
    fv_log_verdict verdict;
    fv_arena *arena;
} fv_log_answer;

/* NULL: faults say why. Plant and log must outlive the answer. */
fv_log_answer *fv_log_run(const fv_plant *plant, const fv_logfile *log, const fv_log_options *options,
                          fv_faults *faults);
void fv_log_free(fv_log_answer *answer);

FV_C_END

#endif
