/* SPDX-License-Identifier: MIT */
/* The same three readings of two probes in the dialects in which loggers write them. The readings are invented; the
 * dates' day numbers are those of POSIX time. */
#include "checks.h"
#include "farvessel/datafile.h"

static const double FIRST = 1805004000; /* 2027-03-14 06:00:00 as POSIX time without zone: date -u -d ... +%s */

static fv_logfile *read_text(const char *text, const fv_datafile_options *options)
{
    fv_faults *faults = fv_faults_new();
    fv_datafile_options plain;
    fv_datafile_defaults(&plain);
    fv_logfile *log = fv_logfile_read_memory(text, strlen(text), "log.csv", options ? options : &plain, faults);
    if (!log)
        fail_msg("%d: %s", fv_faults_at(faults, 0)->line, fv_faults_at(faults, 0)->text);
    fv_faults_free(faults);
    return log;
}

static void expect(const fv_logfile *log, double first, double c00, double c01, double c20, double c21)
{
    assert_int_equal(log->count, 3);
    assert_int_equal(log->channel_count, 2);
    assert_true(fabs(log->time[0] - first) < 1e-6);
    assert_true(fabs(log->time[2] - first - 600) < 1e-6);
    assert_true(fabs(log->interval - 300) < 1e-6);
    assert_true(fabs(log->channels[0].value[0] - 273.15 - c00) < 1e-9);
    assert_true(fabs(log->channels[1].value[0] - 273.15 - c01) < 1e-9);
    assert_true(fabs(log->channels[0].value[2] - 273.15 - c20) < 1e-9);
    assert_true(fabs(log->channels[1].value[2] - 273.15 - c21) < 1e-9);
}

/* dated texts that all say the same */
static const char *const dated[] = {
    "Time,CH 1 degC,CH 2 degC\n2027-03-14 06:00:00,12.1,12.4\n2027-03-14 06:05:00,12.3,12.4\n"
    "2027-03-14 06:10:00,14.0,12.6\n",
    "\xEF\xBB\xBFStation;3\r\nPrinted;20/03/2027\r\n\r\nDate;Time;CH 1 [\xC2\xB0"
    "C];CH 2 [\xC2\xB0"
    "C]\r\n14/03/2027;06:00:00;12,1;12,4\r\n14/03/2027;06:05:00;12,3;12,4\r\n14/03/2027;06:10:00;14,0;12,6\r\n",
    "Stamp,\"CH 1, degF\",\"CH 2, degF\"\n3/14/2027 6:00:00 AM,53.78,54.32\n3/14/2027 6:05:00 AM,54.14,54.32\n"
    "3/14/2027 6:10 am,57.2,54.68\n",
    "time,probe,value_degC\n2027-03-14T06:00:00,CH 1,12.1\n2027-03-14T06:00:00,CH 2,12.4\n"
    "2027-03-14T06:05:00,CH 1,12.3\n2027-03-14T06:05:00,CH 2,12.4\n2027-03-14T06:10:00,CH 1,14.0\n"
    "2027-03-14T06:10:00,CH 2,12.6\n",
    "Start,2027-03-14 06:00:00\nInterval,300 s\nNo.,CH 1 / degC,CH 2 / degC\n1,12.1,12.4\n2,12.3,12.4\n3,14.0,12.6\n",
    "Stamp;CH 1 degC;CH 2 degC;\n2027-03-14 06:00;12.1;12.4;\nStamp;CH 1 degC;CH 2 degC;\n2027-03-14 06:05;12.3;12.4;\n"
    "2027-03-14 06:10;14.0;12.6;\n",
    "# started 2027-03-14 06:00:00\nElapsed s\tCH 1 degC\tCH 2 degC\n0\t12.1\t12.4\n300\t12.3\t12.4\n600\t14.0\t12.6\n",
    "# started 2027-03-14 06:00:00\nElapsed\tCH 1 degC\tCH 2 degC\n0:00:00\t12.1\t12.4\n0:05:00\t12.3\t12.4\n"
    "0:10:00\t14.0\t12.6\n",
    "Temperature unit: C\nRec,Date Time,CH 1,CH 2\n7,14-Mar-2027 06:00,12.1,12.4\n8,14-Mar-2027 06:05,12.3,12.4\n"
    "9,14-Mar-2027 06:10,14.0,12.6\n",
    "Time,CH 1 (C),CH 2 (C),Alarm\n14.03.27 06:00,12.1,12.4,ok\n14.03.27 06:05,12.3,12.4,ok\n"
    "14.03.27 06:10,14.0,12.6,high\n",
    "Time,CH 1 degC,CH 2 degC\r2027-03-14 06:00:00,12.1,12.4\r2027-03-14 06:05:00,12.3,12.4\r"
    "2027-03-14 06:10:00,14.0,12.6\r",
    "Time,CH 1 degC,CH 2 degC\n2027-03-14T06:00:00+01:00,12.1,12.4\n2027-03-14T07:05:00+02:00,12.3,12.4\n"
    "2027-03-14T07:10:00+02:00,14.0,12.6\n",
    "Time,CH 1 degC,CH 2 degC\n2027-03-14 06:10:00,14.0,12.6\n2027-03-14 06:00:00,12.1,12.4\n"
    "2027-03-14 06:05:00,12.3,12.4\n2027-03-14 06:05:00,12.3,12.4\n2027-03-14 06:15",
    "Time,CH 1 (K),CH 2 kelvin\n2027-03-14 06:00:00,285.25,285.55\n2027-03-14 06:05:00,285.45,2.8555e2\n"
    "2027-03-14 06:10:00,287.15,285.75\n",
};

static void the_same_in_all_dialects(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof dated / sizeof *dated; i++) {
        fv_datafile_options kelvin;
        fv_datafile_defaults(&kelvin);
        kelvin.unit = FV_LOG_KELVIN; /* asked only where no heading names one */
        fv_logfile *log = read_text(dated[i], i + 1 == sizeof dated / sizeof *dated ? &kelvin : NULL);
        print_message("dialect %zu\n", i + 1);
        expect(log, FIRST, 12.1, 12.4, 14.0, 12.6);
        assert_true(log->clock && log->dated);
        assert_int_equal(fv_logfile_channel(log, "ch1"), 0);
        assert_int_equal(fv_logfile_channel(log, log->channels[1].heading), 1);
        assert_int_equal(fv_logfile_channel(log, "CH 3"), -1);
        fv_logfile_free(log);
    }
}

static void what_was_done_is_told(void **state)
{
    (void)state;
    fv_logfile *log = read_text(dated[5], NULL);
    assert_int_equal(log->told.restarts, 1);
    fv_logfile_free(log);
    log = read_text(dated[12], NULL);
    assert_int_equal(log->told.repeated, 1);
    assert_true(log->told.sorted > 0);
    assert_int_equal(log->told.half, 1);
    fv_logfile_free(log);
    log = read_text(dated[1], NULL);
    assert_true(log->told.decimal_comma && log->told.separator == ';');
    assert_int_equal(log->told.heading_line, 4);
    fv_logfile_free(log);
}

static void open_probes(void **state)
{
    (void)state;
    static const char *const open[] = {"OL", "---", "NaN", "9999", "1372", "-200", "open", "O.L.", "-"};
    for (size_t i = 0; i < sizeof open / sizeof *open; i++) {
        char text[200];
        snprintf(text, sizeof text, "Time,a degC,b degC\n2027-03-14 06:00,%s,\n2027-03-14 06:05,12.3,12.4\n", open[i]);
        fv_logfile *log = read_text(text, NULL);
        assert_true(isnan(log->channels[0].value[0]) && isnan(log->channels[1].value[0]));
        assert_int_equal(log->channels[0].open, 1);
        assert_int_equal(log->channels[1].open, 0);
        assert_int_equal(log->channels[1].blank, 1);
        fv_logfile_free(log);
    }
}

/* A night with two hours from 2 to 3, rows 20 min apart. */
static void clock_changes(void **state)
{
    (void)state;
    fv_datafile_options options;
    fv_datafile_defaults(&options);
    options.clock = FV_CLOCK_BACK;
    fv_logfile *log = read_text("Time,a degC\n2027-10-31 02:20,1\n2027-10-31 02:40,2\n2027-10-31 02:00,3\n"
                                "2027-10-31 02:20,4\n2027-10-31 02:40,5\n2027-10-31 03:00,6\n",
                                &options);
    assert_int_equal(log->count, 6);
    for (size_t i = 1; i < log->count; i++)
        assert_true(fabs(log->time[i] - log->time[i - 1] - 1200) < 1e-6);
    assert_true(log->told.moved == 3600);
    fv_logfile_free(log);
    options.clock = FV_CLOCK_FORWARD;
    log = read_text("Time,a degC\n2027-03-28 01:20,1\n2027-03-28 01:40,2\n2027-03-28 03:00,3\n", &options);
    assert_true(fabs(log->time[2] - log->time[1] - 1200) < 1e-6);
    fv_logfile_free(log);
    /* rows that stand an hour too late, and are said to */
    options.clock = FV_CLOCK_STEADY;
    log = read_text("Time,a degC\n2027-03-27 02:30,2\n2027-03-27 01:45,1\n2027-03-27 03:00,3\n", &options);
    assert_true(log->channels[0].value[0] < log->channels[0].value[1]);
    fv_logfile_free(log);
}

static void without_a_date(void **state)
{
    (void)state;
    char stamp[32];
    fv_logfile *log = read_text("Clock,a degC\n23:50,1\n23:55,2\n00:00,3\n00:05,4\n", NULL);
    assert_true(log->clock && !log->dated);
    assert_true(log->time[3] == 24 * 3600 + 300);
    assert_string_equal(fv_logfile_stamp(log, log->time[3], stamp, sizeof stamp), "00:05:00");
    fv_logfile_free(log);
    log = read_text("Elapsed min,a degC,p mbar\n0,1,1013\n1.5,2,12\n3,3,9999\n", NULL);
    assert_true(!log->clock && log->time[1] == 90);
    assert_true(fabs(log->channels[1].value[0] - 101300) < 1e-6);
    assert_string_equal(fv_logfile_stamp(log, 5025, stamp, sizeof stamp), "01:23:45");
    fv_logfile_free(log);
}

/* Ambiguous dates that an option settles. */
static void asked_order(void **state)
{
    (void)state;
    const char *text = "Time,a degC\n03/04/2027 06:00,1\n03/04/2027 06:05,2\n";
    char stamp[32];
    fv_datafile_options options;
    fv_datafile_defaults(&options);
    options.dates = FV_DATES_DAY_FIRST;
    fv_logfile *log = read_text(text, &options);
    assert_string_equal(fv_logfile_stamp(log, log->time[0], stamp, sizeof stamp), "2027-04-03 06:00:00");
    fv_logfile_free(log);
    options.dates = FV_DATES_MONTH_FIRST;
    log = read_text(text, &options);
    assert_string_equal(fv_logfile_stamp(log, log->time[0], stamp, sizeof stamp), "2027-03-04 06:00:00");
    fv_logfile_free(log);
    log = read_text("Time,a degC\n04/04/2027 06:00,1\n04/04/2027 06:05,2\n", NULL);
    fv_logfile_free(log);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_same_in_all_dialects),
        cmocka_unit_test(what_was_done_is_told),
        cmocka_unit_test(open_probes),
        cmocka_unit_test(clock_changes),
        cmocka_unit_test(without_a_date),
        cmocka_unit_test(asked_order),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
