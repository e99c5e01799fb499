/* SPDX-License-Identifier: MIT */
/* Collected faults: several per run, one line each, never overwritten by a higher floor. */
#include "farvessel/base.h"

#include <stdlib.h>
#include <string.h>

struct fv_faults {
    fv_fault *list;
    size_t count, capacity;
    size_t errors;    /* counted apart, so that a fault lost for want of memory still fails the run */
    size_t of_system; /* of those: of class system, or lost */
};

fv_faults *fv_faults_new(void)
{
    return calloc(1, sizeof(fv_faults));
}

void fv_faults_free(fv_faults *faults)
{
    if (!faults)
        return;
    for (size_t i = 0; i < faults->count; i++) {
        free(faults->list[i].file);
        free(faults->list[i].text);
    }
    free(faults->list);
    free(faults);
}

static void add(fv_faults *faults, bool caution, fv_err_class blame, fv_loc loc, const char *fmt, va_list args)
{
    if (!faults || !fmt)
        return;
    faults->errors += !caution;
    faults->of_system += !caution; /* until it is stored */
    void *list = faults->list;
    if (!fv_grow(&list, &faults->capacity, faults->count + 1, sizeof(fv_fault)))
        return;
    faults->list = list;
    fv_text text = {0};
    fv_text_addv(&text, fmt, args);
    if (text.failed || !text.text) {
        fv_text_free(&text);
        return;
    }
    fv_fault *fault = &faults->list[faults->count++];
    *fault = (fv_fault){.blame = blame, .caution = caution, .line = loc.line, .text = text.text};
    if (loc.file)
        fault->file = strdup(loc.file);
    faults->of_system -= !caution && blame != FV_ERR_SYSTEM;
}

fv_status fv_error(fv_faults *faults, fv_err_class blame, fv_loc loc, const char *fmt, ...)
{
    va_list args;
    va_start(args, fmt);
    add(faults, false, blame, loc, fmt, args);
    va_end(args);
    return FV_FAIL;
}

fv_status fv_caution(fv_faults *faults, fv_err_class blame, fv_loc loc, const char *fmt, ...)
{
    va_list args;
    va_start(args, fmt);
    add(faults, true, blame, loc, fmt, args);
    va_end(args);
    return FV_OK;
}

fv_status fv_error_null(fv_faults *faults, const char *function)
{
    return fv_error(faults, FV_ERR_INPUT, (fv_loc){NULL, 0}, "%s was given NULL where it needs something", function);
}

size_t fv_faults_count(const fv_faults *faults)
{
    return faults ? faults->count : 0;
}

size_t fv_faults_errors(const fv_faults *faults)
{
    return faults ? faults->errors : 0;
}

bool fv_faults_blame_system(const fv_faults *faults)
{
    return !faults || faults->errors == 0 || faults->of_system > 0;
}

const fv_fault *fv_faults_at(const fv_faults *faults, size_t i)
{
    return faults && i < faults->count ? &faults->list[i] : NULL;
}

static bool stands_after(const fv_fault *a, const fv_fault *b)
{
    int file = strcmp(a->file ? a->file : "", b->file ? b->file : "");
    return file ? file > 0 : a->line > b->line;
}

/* Merges two sorted neighbours into `into`. */
static void merge(const fv_fault *left, size_t lefts, const fv_fault *right, size_t rights, fv_fault *into)
{
    size_t i = 0, j = 0;
    while (i < lefts || j < rights) {
        bool take_right = i == lefts || (j < rights && stands_after(&left[i], &right[j]));
        *into++ = take_right ? right[j++] : left[i++];
    }
}

void fv_faults_sort(fv_faults *faults)
{
    size_t n = faults ? faults->count : 0;
    fv_fault *from = n ? faults->list : NULL, *to = n ? malloc(n * sizeof *to) : NULL, *spare = to;
    if (!to)
        return; /* out of memory: unsorted is better than nothing */
    for (size_t width = 1; width < n; width *= 2) {
        for (size_t at = 0; at < n; at += 2 * width) {
            size_t lefts = n - at < width ? n - at : width;
            size_t rights = n - at - lefts < width ? n - at - lefts : width;
            merge(from + at, lefts, from + at + lefts, rights, to + at);
        }
        fv_fault *swap = from;
        from = to;
        to = swap;
    }
    if (from != faults->list)
        memcpy(faults->list, from, n * sizeof *from);
    free(spare);
}
