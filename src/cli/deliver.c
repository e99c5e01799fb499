/* SPDX-License-Identifier: MIT */
/* The answer leaves here, whole, and with it the plant that --save asks for: both or neither. */
#include "cli/cli.h"

#include "farvessel/plantfile.h"

#include <unistd.h>

/* The plant as a file, begun; NULL: said in `faults`. */
static fv_file *begin_plant(const char *path, const fv_plant *plant, fv_faults *faults)
{
    fv_text xml = {0};
    fv_file *file = NULL;
    if (fv_plantfile_write(plant, &xml) && !xml.failed)
        file = fv_file_begin(path, xml.text, xml.length, faults);
    else
        fv_error(faults, FV_ERR_SYSTEM, (fv_loc){path, 0}, "out of memory");
    fv_text_free(&xml);
    return file;
}

/* A device or a pipe takes the plant at once: it cannot be taken back, so it comes last. */
static bool send_plant(const char *path, const fv_plant *plant, fv_faults *faults)
{
    fv_text xml = {0};
    bool good = fv_plantfile_write(plant, &xml) && !xml.failed;
    if (!good)
        fv_error(faults, FV_ERR_SYSTEM, (fv_loc){path, 0}, "out of memory");
    good = good && fv_write_whole(path, xml.text, xml.length, faults);
    fv_text_free(&xml);
    return good;
}

/* To standard output (path NULL), a device or a pipe. */
static cli_exit send_answer(const cli_helper *pager, const char *path, const fv_text *answer, fv_faults *faults)
{
    if (!path)
        return cli_page(pager, answer) ? CLI_GOOD : cli_send(STDOUT_FILENO, answer);
    int fd = fv_file_open_special(path, faults);
    if (fd < 0)
        return cli_say_faults(faults);
    cli_exit code = cli_send(fd, answer);
    close(fd);
    return code;
}

/* Files are begun first, then what cannot be taken back is sent, then the files are put in place. */
static cli_exit deliver(const cli_helper *pager, const cli_target *target, const fv_plant *plant, const fv_text *answer,
                        fv_faults *faults)
{
    const char *save = plant ? target->save : NULL;
    const bool in_place = !target->output || fv_file_is_special(target->output);
    const bool sent_save = save && fv_file_is_special(save);
    fv_file *files[2] = {NULL, NULL};
    if (save && !sent_save && !(files[0] = begin_plant(save, plant, faults)))
        return cli_say_faults(faults);
    if (!in_place && !(files[1] = fv_file_begin(target->output, answer->text, answer->length, faults))) {
        fv_file_drop(files[0]);
        return cli_say_faults(faults);
    }
    cli_exit code = in_place ? send_answer(pager, target->output, answer, faults) : CLI_GOOD;
    if (code == CLI_GOOD && sent_save && !send_plant(save, plant, faults))
        code = cli_say_faults(faults);
    if (code != CLI_GOOD) {
        fv_file_drop(files[0]);
        fv_file_drop(files[1]);
        return code;
    }
    return fv_files_commit(files, 2, faults) ? CLI_GOOD : cli_say_faults(faults);
}

cli_exit cli_deliver(const cli_request *request, const fv_plant *plant, fv_text *answer)
{
    cli_target target;
    cli_exit code = cli_targets(request, &target);
    if (code != CLI_GOOD)
        return code;
    if (answer->failed || !answer->text)
        return cli_no_memory();
    fv_faults *faults = fv_faults_new();
    if (!faults)
        return cli_no_memory();
    if (!cli_is_pdf(answer)) /* bytes, not text */
        fv_report_safe(answer);
    cli_signals_hold();
    if (!cli_repeats(request))
        cli_signals_plain();
    code = deliver(&request->helper, &target, plant, answer, faults);
    cli_signals_release();
    fv_faults_free(faults);
    return code;
}
