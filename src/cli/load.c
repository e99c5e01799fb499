/* SPDX-License-Identifier: MIT */
/* The plant that a verb works on: the file, and the --set and --do changes on top. */
#include "cli/cli.h"

#include "farvessel/plantfile.h"
#include "farvessel/steady.h"

#include <nettle/sha2.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static void hash(const char *bytes, size_t length, char digest[CLI_DIGEST_SIZE])
{
    struct sha256_ctx context;
    uint8_t sum[SHA256_DIGEST_SIZE];
    sha256_init(&context);
    sha256_update(&context, length, (const uint8_t *)bytes);
    sha256_digest(&context, sizeof sum, sum);
    for (size_t i = 0; i < sizeof sum; i++)
        snprintf(digest + 2 * i, 3, "%02x", sum[i]);
}

static fv_plant *read_hashed(const char *path, char digest[CLI_DIGEST_SIZE], fv_faults *faults)
{
    size_t length;
    char *bytes = fv_read_whole(path, fv_plantfile_limits_default().bytes_most, &length, faults);
    fv_plant *plant = NULL;
    if (bytes) {
        const char *name = strcmp(path, "-") == 0 ? "standard input" : path;
        hash(bytes, length, digest);
        plant = fv_plantfile_read_memory(bytes, length, name, NULL, faults);
    }
    free(bytes);
    return plant;
}

bool cli_digest(const char *path, char digest[CLI_DIGEST_SIZE], fv_faults *faults)
{
    size_t length;
    char *bytes = fv_read_whole(path, SIZE_MAX / 2, &length, faults);
    if (bytes)
        hash(bytes, length, digest);
    const bool read = bytes != NULL;
    free(bytes);
    return read;
}

fv_plant *cli_load(const cli_request *request, char digest[CLI_DIGEST_SIZE], fv_faults *faults)
{
    const fv_loc nowhere = {NULL, 0};
    if (!request->operand) {
        fv_error(faults, FV_ERR_INPUT, nowhere, "farvessel: which plant? As in `farvessel %s plant.xml`",
                 request->verb->name);
        return NULL;
    }
    fv_plant *plant = read_hashed(request->operand, digest, faults);
    bool good = plant != NULL;
    if (good && request->setting_count > 0)
        good = fv_plantfile_set(plant, request->settings, request->setting_count, faults) != FV_FAIL;
    if (good && request->action_count > 0)
        good = fv_plantfile_do(plant, request->actions, request->action_count, faults) != FV_FAIL;
    if (good && fv_packing_check(plant, NULL, faults) != FV_FAIL)
        return plant;
    fv_plant_free(plant);
    return NULL;
}
