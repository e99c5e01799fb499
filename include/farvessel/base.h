/* SPDX-License-Identifier: MIT */
/* Floor 0: status, places in a file, collected faults, memory that is freed as one, growing text, progress.
 *
 * Of all public functions: NULL where something is needed gives FV_FAIL, NULL, false, NaN, 0 or -1 and does nothing
 * else, but for an error that names the function where there is a list of faults. */
#ifndef FARVESSEL_BASE_H
#define FARVESSEL_BASE_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

/* What stands between them is C for a C++ compiler, too. */
#if defined(__cplusplus)
#define FV_C_BEGIN extern "C" {
#define FV_C_END }
#else
#define FV_C_BEGIN
#define FV_C_END
#endif

#if defined(__GNUC__)
#define FV_PRINTF(fmt, args) __attribute__((format(printf, fmt, args)))
#else
#define FV_PRINTF(fmt, args)
#endif

FV_C_BEGIN

/* Three-valued status of every computation: below zero no result, zero good, above zero computed but doubtful
 * (outside the validity range of a correlation, say); a doubtful result is usable and its reason is reported. */
typedef enum { FV_FAIL = -1, FV_OK = 0, FV_DOUBTFUL = 1 } fv_status;

/* Whose fault it is: the user's data, the physics (no solution exists), the numerics (we did not find it), the system.
 */
typedef enum { FV_ERR_INPUT, FV_ERR_PHYSICS, FV_ERR_NUMERICS, FV_ERR_SYSTEM } fv_err_class;

/* Where something stands in the user's file. The file name belongs to the plant or to the caller. Line 0: unknown. */
typedef struct {
    const char *file;
    int line;
} fv_loc;

typedef struct {
    fv_err_class blame;
    bool caution; /* true: worth a warning, the work goes on */
    char *file;   /* may be NULL */
    int line;
    char *text; /* one line, no newline */
} fv_fault;

/* A list of faults. The caller makes it, hands it down and frees it; lower floors only add. It survives running
 * out of memory: fv_faults_errors() then still counts the lost fault, and the text says so. */
typedef struct fv_faults fv_faults;

fv_faults *fv_faults_new(void);
void fv_faults_free(fv_faults *faults);
/* FV_FAIL, and FV_OK of what is worth a warning only: for a function that can return it. */
fv_status fv_error(fv_faults *faults, fv_err_class blame, fv_loc loc, const char *fmt, ...) FV_PRINTF(4, 5);
fv_status fv_caution(fv_faults *faults, fv_err_class blame, fv_loc loc, const char *fmt, ...) FV_PRINTF(4, 5);
/* Of a function that was given NULL where it needs something: an error that names it. FV_FAIL. */
fv_status fv_error_null(fv_faults *faults, const char *function);
size_t fv_faults_count(const fv_faults *faults);
size_t fv_faults_errors(const fv_faults *faults);
const fv_fault *fv_faults_at(const fv_faults *faults, size_t i); /* belongs to the list */
/* Of something that failed: whether memory or the system was to blame, not what was asked. True without a list, with an
 * error of that class, with one that was lost for want of memory, and where nothing was said. */
bool fv_faults_blame_system(const fv_faults *faults);
/* Sorts by file and line, errors and cautions alike; equal lines keep their order. */
void fv_faults_sort(fv_faults *faults);

/* Memory freed as one. Pointers got from an arena belong to it. NULL when the system has no more. Zero-filled. */
typedef struct fv_arena fv_arena;
fv_arena *fv_arena_new(void);
void fv_arena_free(fv_arena *arena);
void *fv_arena_alloc(fv_arena *arena, size_t count, size_t size);
char *fv_arena_copy(fv_arena *arena, const char *text);
char *fv_arena_printf(fv_arena *arena, const char *fmt, ...) FV_PRINTF(2, 3);

/* Grows *array (malloc'ed, *cap elements of `size` bytes) to hold at least `need`; false when memory is out, and the
 * array is then as it was. */
bool fv_grow(void **array, size_t *cap, size_t need, size_t size);

/* Growing text. After a failed allocation `failed` stays true and further additions do nothing. */
typedef struct {
    char *text; /* NUL-terminated once something was added; NULL before */
    size_t length;
    size_t capacity;
    bool failed;
} fv_text;
void fv_text_add(fv_text *text, const char *fmt, ...) FV_PRINTF(2, 3);
void fv_text_addv(fv_text *text, const char *fmt, va_list args);
void fv_text_free(fv_text *text);

/* Bytes of the UTF-8 character that `text` begins with, its code point in *code; 0: the end, or no UTF-8. */
size_t fv_utf8_read(const char *text, unsigned *code);
/* False for control characters (line ends and tabs, too), separators of lines and what changes the order of text. */
bool fv_utf8_is_text(unsigned code);
/* At most `most` bytes of a text (80), cut between characters, with "..." where something is left out: for messages. */
typedef struct {
    char text[84];
} fv_shortened;
fv_shortened fv_shorten(const char *text, size_t most);

/* Progress of long work: called now and then with the share done (0 to 1, negative: unknown) and what is going on.
 * Returning false asks the work to stop cleanly. A NULL `tick` never stops. */
typedef struct {
    bool (*tick)(void *context, double share, const char *what);
    void *context;
} fv_progress;
bool fv_progress_tick(const fv_progress *progress, double share, const char *what);

/* Reads a file whole ("-": standard input) into malloc'ed memory; NULL with an error if it cannot be read or is longer
 * than `most` bytes. A pipe into which nobody writes is refused, not waited for. */
char *fv_read_whole(const char *path, size_t most, size_t *length, fv_faults *faults);

/* Writes a whole file or nothing: under another name beside it, flushed, then renamed over it. Links are followed; an
 * old file keeps its permissions (not its set-user-id bits). A device or a pipe is written in place. */
bool fv_write_whole(const char *path, const char *bytes, size_t length, fv_faults *faults);

/* Several files together: each is begun, which writes it under another name; then all are put in place, or all are
 * dropped. NULL: said in `faults`. Not for devices and pipes, which cannot be replaced. */
typedef struct fv_file fv_file;
fv_file *fv_file_begin(const char *path, const char *bytes, size_t length, fv_faults *faults);
/* Puts all in place and frees them; where one fails those before it are put back as they were. NULLs are passed over.
 */
bool fv_files_commit(fv_file *const files[], size_t count, fv_faults *faults);
void fv_file_drop(fv_file *file);
/* A device, a pipe or a socket; opened to write without waiting for a reader, -1 with an error if it cannot be. */
bool fv_file_is_special(const char *path);
int fv_file_open_special(const char *path, fv_faults *faults);
/* True if both names lead to one file, or would if it were there. */
bool fv_file_same(const char *a, const char *b);

FV_C_END

#endif
