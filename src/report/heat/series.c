/* SPDX-License-Identifier: MIT */
/* Looking up samples. Between two samples a curve is drawn straight. */
#include "report/heat/report.h"

#include <math.h>

long report_sample_before(const report_heat *heat, double time)
{
    const fv_series *s = &heat->result->series;
    size_t low = 0, high = s->count;
    if (s->count == 0 || !(s->time[0] <= time))
        return -1;
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (s->time[middle] <= time)
            low = middle;
        else
            high = middle;
    }
    return (long)low;
}

double report_series_at(const report_heat *heat, const double *matrix, size_t width, size_t column, double time)
{
    const fv_series *s = &heat->result->series;
    long sample = report_sample_before(heat, time);
    if (sample < 0)
        return (double)NAN;
    size_t i = (size_t)sample;
    double here = matrix[i * width + column];
    if (i + 1 >= s->count)
        return time > s->time[i] ? (double)NAN : here;
    double part = (time - s->time[i]) / (s->time[i + 1] - s->time[i]);
    return here + part * (matrix[(i + 1) * width + column] - here);
}
