/* SPDX-License-Identifier: MIT */
/* Saving to the one file that a session was begun with. What somebody else wrote into it meanwhile is never lost. */
#include "farvessel/serve.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

bool fv_kept_file_read(fv_kept_file *file, const char *path, fv_faults *faults)
{
    if (!file || !path) {
        fv_error_null(faults, __func__);
        return false;
    }
    *file = (fv_kept_file){.path = path};
    file->bytes = fv_read_whole(path, fv_plantfile_limits_default().bytes_most, &file->length, faults);
    return file->bytes != NULL;
}

void fv_kept_file_free(fv_kept_file *file)
{
    if (file)
        free(file->bytes);
}

/* True where the file still holds what is known of it. */
static bool is_as_known(const fv_kept_file *file, fv_faults *faults)
{
    size_t length;
    if (!file->bytes) {
        const bool there = access(file->path, F_OK) == 0;
        if (there)
            fv_error(faults, FV_ERR_INPUT, (fv_loc){file->path, 0},
                     "%s is there already, so it was not saved; keep this plant by its link, under another name",
                     file->path);
        return !there;
    }
    char *bytes = fv_read_whole(file->path, fv_plantfile_limits_default().bytes_most, &length, faults);
    const bool same = bytes && length == file->length && memcmp(bytes, file->bytes, length) == 0;
    if (bytes && !same)
        fv_error(faults, FV_ERR_INPUT, (fv_loc){file->path, 0},
                 "%s was changed by somebody else meanwhile, so it was not saved; keep this plant by its link "
                 "and look at both",
                 file->path);
    free(bytes);
    return same;
}

fv_status fv_kept_file_write(void *context, const char *bytes, size_t length, fv_faults *faults)
{
    fv_kept_file *file = context;
    if (!file || !bytes)
        return fv_error_null(faults, __func__);
    char *copy = malloc(length + 1);
    if (!copy)
        return fv_error(faults, FV_ERR_SYSTEM, (fv_loc){file->path, 0}, "out of memory");
    memcpy(copy, bytes, length);
    /* Looked at last, when all is written but for the rename. */
    fv_file *begun = fv_file_begin(file->path, bytes, length, faults);
    const bool fair = begun && is_as_known(file, faults);
    if (begun && !fair)
        fv_file_drop(begun);
    fv_file *const files[] = {begun};
    if (!fair || !fv_files_commit(files, 1, faults)) {
        free(copy);
        return FV_FAIL;
    }
    free(file->bytes);
    file->bytes = copy;
    file->length = length;
    return FV_OK;
}
