/* SPDX-License-Identifier: MIT */
/* The page as a PDF: printed by a browser of the system, without a window, in a folder of its own that is removed
 * again. Nothing is fetched: the page needs nothing else, and its own policy forbids it. */
#include "cli/cli.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { PATH_SIZE = 1024, SECONDS = 60 };

static void remove_folder(const char *path)
{
    DIR *folder = opendir(path);
    for (struct dirent *entry; folder && (entry = readdir(folder)) != NULL;) {
        char inner[PATH_SIZE];
        struct stat about;
        if (strcmp(entry->d_name, ".") == 0 || strcmp(entry->d_name, "..") == 0)
            continue;
        if ((size_t)snprintf(inner, sizeof inner, "%s/%s", path, entry->d_name) >= sizeof inner)
            continue;
        if (lstat(inner, &about) == 0 && S_ISDIR(about.st_mode))
            remove_folder(inner);
        else
            unlink(inner);
    }
    if (folder)
        closedir(folder);
    rmdir(path);
}

/* In the child, which is sent the folder. */
static void become_browser(void)
{
    static const char *const names[] = {"chromium", "chromium-browser"};
    char profile[PATH_SIZE + 32], pdf[PATH_SIZE + 32], page[PATH_SIZE + 32];
    const char *chosen = getenv("FARVESSEL_BROWSER");
    char folder[PATH_SIZE] = "";
    int nowhere = open("/dev/null", O_RDWR);
    for (size_t used = 0; used < sizeof folder - 1;) {
        const ssize_t n = read(STDIN_FILENO, folder + used, sizeof folder - 1 - used);
        if (n <= 0)
            break;
        used += (size_t)n;
    }
    snprintf(profile, sizeof profile, "--user-data-dir=%s/profile", folder);
    snprintf(pdf, sizeof pdf, "--print-to-pdf=%s/page.pdf", folder);
    snprintf(page, sizeof page, "file://%s/page.html", folder);
    if (nowhere >= 0) {
        dup2(nowhere, STDIN_FILENO);
        dup2(nowhere, STDOUT_FILENO);
        dup2(nowhere, STDERR_FILENO);
    }
    /* The browser's own fence does not work for the superuser. */
    const char *fence = geteuid() == 0 ? "--no-sandbox" : "--disable-gpu";
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        execlp(chosen ? chosen : names[i], chosen ? chosen : names[i], "--headless", "--disable-gpu", fence,
               "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync",
               "--disable-quic", "--no-pdf-header-footer", profile, pdf, page, (char *)NULL);
}

void cli_pdf_prepare(cli_helper *helper)
{
    cli_helper_start(helper, become_browser);
}

/* Its exit code; -1: it could not be started, was ended, or took too long. */
static int print_page(const cli_helper *browser, const char *folder)
{
    const struct timespec a_while = {0, 20000000};
    const pid_t child = cli_helper_send(browser, folder, strlen(folder)) ? browser->child : 0;
    int status = 0;
    pid_t ended = 0;
    for (time_t until = time(NULL) + SECONDS; child > 0 && (ended = waitpid(child, &status, WNOHANG)) == 0;) {
        if (time(NULL) > until)
            kill(child, SIGKILL);
        nanosleep(&a_while, NULL);
    }
    return ended > 0 && WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

bool cli_is_pdf(const fv_text *answer)
{
    return answer->length > 4 && memcmp(answer->text, "%PDF", 4) == 0;
}

/* The whole file; false where it is not there or no PDF. */
static bool read_pdf(const char *folder, fv_text *out)
{
    char path[PATH_SIZE + 32];
    struct stat about;
    snprintf(path, sizeof path, "%s/page.pdf", folder);
    FILE *file = fopen(path, "rb");
    if (!file)
        return false;
    size_t size = fstat(fileno(file), &about) == 0 && about.st_size > 0 ? (size_t)about.st_size : 0;
    char *bytes = malloc(size + 1);
    bool good = bytes && size > 4 && fread(bytes, 1, size, file) == size && memcmp(bytes, "%PDF", 4) == 0;
    fclose(file);
    if (!good) {
        free(bytes);
        return false;
    }
    bytes[size] = '\0';
    fv_text_free(out);
    *out = (fv_text){.text = bytes, .length = size, .capacity = size + 1};
    return true;
}

const char *cli_pdf_folder(void)
{
    const char *temporary = getenv("TMPDIR");
    return temporary && temporary[0] == '/' ? temporary : "/tmp";
}

bool cli_make_pdf(const cli_helper *browser, fv_text *page, fv_faults *faults)
{
    char folder[PATH_SIZE], html[PATH_SIZE + 32];
    snprintf(folder, sizeof folder, "%.900s/farvessel-XXXXXX", cli_pdf_folder());
    if (!mkdtemp(folder)) {
        fv_error(faults, FV_ERR_SYSTEM, (fv_loc){folder, 0}, "a folder for the browser: %s", strerror(errno));
        return false;
    }
    snprintf(html, sizeof html, "%s/page.html", folder);
    bool good = fv_write_whole(html, page->text, page->length, faults);
    int code = good ? print_page(browser, folder) : 0;
    if (good && code == CLI_NO_SUCH_PROGRAM)
        fv_error(faults, FV_ERR_SYSTEM, (fv_loc){"--format pdf", 0},
                 "needs a browser that prints without a window, and none was found: install the package chromium, name "
                 "the program in FARVESSEL_BROWSER, or print the HTML page from any browser");
    else if (good && (code != 0 || !read_pdf(folder, page)))
        fv_error(faults, FV_ERR_SYSTEM, (fv_loc){"--format pdf", 0}, "the browser gave no PDF within %d s",
                 (int)SECONDS);
    good = good && code == 0 && cli_is_pdf(page);
    remove_folder(folder);
    return good;
}
