/* SPDX-License-Identifier: MIT */
/* All speed figures side by side in one run: bench PROGRAM [SECTION...] writes Markdown. */
#include "bench.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

static void machine(void)
{
    char line[256], model[256] = "unknown processor";
    FILE *f = fopen("/proc/cpuinfo", "r");
    while (f && fgets(line, sizeof line, f))
        if (strncmp(line, "model name", 10) == 0 && strchr(line, ':'))
            snprintf(model, sizeof model, "%s", strchr(line, ':') + 2);
    if (f)
        fclose(f);
    model[strcspn(model, "\n")] = '\0';
    printf(
        "# Speed\n\nMade by `make bench` in one run on one machine: %s, %ld cores. Processor time of one core, the "
        "least "
        "of several runs, unless it says otherwise; times by the clock suffer where the machine does other work.\n\n",
        model, sysconf(_SC_NPROCESSORS_ONLN));
}

static bool wanted(int argc, char **argv, const char *section)
{
    for (int i = 2; i < argc; i++)
        if (strcmp(argv[i], section) == 0)
            return true;
    return argc <= 2;
}

int main(int argc, char **argv)
{
    if (argc < 2) {
        fprintf(stderr, "usage: bench PROGRAM [steam] [moment] [rivals] [growth] [run]\n");
        return 2;
    }
    setvbuf(stdout, NULL, _IOLBF, 0);
    machine();
    if (wanted(argc, argv, "steam"))
        bench_steam();
    if (wanted(argc, argv, "moment"))
        bench_moment(argv[1]);
    if (wanted(argc, argv, "rivals"))
        bench_rivals();
    if (wanted(argc, argv, "growth"))
        bench_growth();
    if (wanted(argc, argv, "run"))
        bench_run(argv[1]);
    return 0;
}
