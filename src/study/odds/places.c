/* SPDX-License-Identifier: MIT */
/* Where probes tell most about the last core: from the covariances of the sample, as if all were normal.
 *
 * A probe at a place reads the curve there at a few moments, with an offset that stays and some noise. With f those
 * readings and y the last core's time, var(y | f) = Syy - Syf (Sff + N)^-1 Sfy (Gaussian conditioning; Rasmussen &
 * Williams, Gaussian Processes for Machine Learning (2006), A.2). Probes are added one by one, each the best after
 * those before it. */
#include "study/odds/parts.h"

#include <stdlib.h>

#include "num/posterior.h"

static const double OFFSET = 1.4434, NOISE = 0.5; /* K: class 2, 2.5 K / sqrt(3) (IEC 60584); reading and place */

typedef struct {
    const odds_question *q;
    double *mean, *covariance; /* of all features and, last, y */
    size_t size;
} moments;

static double feature(const odds_question *q, size_t run, size_t i)
{
    const size_t width = q->vessels * 2 * ODDS_MOMENTS;
    return i < width ? q->curve[run * width + i] : q->last[run];
}

static bool fill_moments(const odds_question *q, moments *m)
{
    const size_t n = q->vessels * 2 * ODDS_MOMENTS + 1;
    m->size = n;
    m->mean = calloc(n, sizeof *m->mean);
    m->covariance = calloc(n * n, sizeof *m->covariance);
    double count = 0;
    if (!m->mean || !m->covariance)
        return false;
    for (size_t r = 0; r < q->answer->runs; r++) {
        if (!q->good[r])
            continue;
        count++;
        for (size_t i = 0; i < n; i++)
            m->mean[i] += feature(q, r, i);
    }
    for (size_t i = 0; i < n; i++)
        m->mean[i] /= count;
    for (size_t r = 0; r < q->answer->runs; r++)
        for (size_t i = 0; i < n && q->good[r]; i++)
            for (size_t j = 0; j <= i; j++)
                m->covariance[i * n + j] += (feature(q, r, i) - m->mean[i]) * (feature(q, r, j) - m->mean[j]) / count;
    return true;
}

static double covariance(const moments *m, size_t i, size_t j)
{
    return i >= j ? m->covariance[i * m->size + j] : m->covariance[j * m->size + i];
}

/* Share of the variance of y that the places explain. work: (k + 2) k doubles for k features. */
static double explained(const moments *m, const size_t *places, size_t count, double *work)
{
    const size_t k = count * ODDS_MOMENTS, y = m->size - 1;
    double *s = work, *l = work + k * k, *c = work + 2 * k * k, sum = 0;
    for (size_t i = 0; i < k; i++) {
        const size_t at = places[i / ODDS_MOMENTS] * ODDS_MOMENTS + i % ODDS_MOMENTS;
        for (size_t j = 0; j < k; j++) {
            const size_t to = places[j / ODDS_MOMENTS] * ODDS_MOMENTS + j % ODDS_MOMENTS;
            s[i * k + j] = covariance(m, at, to) + (i / ODDS_MOMENTS == j / ODDS_MOMENTS ? OFFSET * OFFSET : 0) +
                           (i == j ? NOISE * NOISE : 0);
        }
        c[i] = covariance(m, at, y);
    }
    if (num_cholesky(s, k, l) == FV_FAIL)
        return 0;
    for (size_t i = 0; i < k; i++) {
        for (size_t j = 0; j < i; j++)
            c[i] -= l[i * k + j] * c[j];
        c[i] /= l[i * k + i];
        sum += c[i] * c[i];
    }
    const double variance = covariance(m, y, y);
    return variance > 0 ? fmin(1, sum / variance) : 0;
}

static void place_one(const moments *m, size_t *places, size_t count, double *work, double *best_share)
{
    const size_t candidates = (m->size - 1) / ODDS_MOMENTS;
    size_t best = 0;
    *best_share = -1;
    for (size_t i = 0; i < candidates; i++) {
        bool taken = isnan(m->q->answer->now->vessels[i / 2].opened);
        for (size_t k = 0; k < count; k++)
            taken = taken || places[k] == i;
        places[count] = i;
        const double share = taken ? -1 : explained(m, places, count + 1, work);
        if (share > *best_share) {
            *best_share = share;
            best = i;
        }
    }
    places[count] = best;
}

bool odds_place_probes(odds_question *q)
{
    fv_odds_answer *a = q->answer;
    enum { PLACES_MOST = 8 };
    size_t wanted = a->options.places < PLACES_MOST ? a->options.places : PLACES_MOST, places[PLACES_MOST];
    if (wanted > 2 * q->vessels)
        wanted = 2 * q->vessels;
    const size_t k = wanted * ODDS_MOMENTS;
    moments m = {.q = q};
    double *work = calloc(2 * k * k + k + 1, sizeof *work);
    a->places = fv_arena_alloc(a->arena, wanted + 1, sizeof *a->places);
    const bool good = work && a->places && fill_moments(q, &m);
    const double width = isfinite(a->last.high) ? a->last.high - a->last.low : a->until - a->last.low;
    a->probe_error = OFFSET;
    for (size_t i = 0; i < wanted && good; i++) {
        double share;
        place_one(&m, places, i, work, &share);
        if (share < 0)
            break;
        a->places[a->place_count++] = (fv_odds_place){
            .vessel = (int)(places[i] / 2), .core = places[i] % 2 == 0, .narrows = width * (1 - sqrt(1 - share))};
    }
    free(work);
    free(m.mean);
    free(m.covariance);
    if (!good)
        fv_error(q->faults, FV_ERR_SYSTEM, a->plant->loc, "out of memory");
    return good;
}
