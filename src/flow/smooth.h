/* SPDX-License-Identifier: MIT */
/* The one blending curve of this floor, so that every join between two formulas is C1 in the same way. */
#ifndef FLOW_SMOOTH_H
#define FLOW_SMOOTH_H

/* Cubic smoothstep t^2 (3 - 2 t) for t in 0..1, held at 0 and 1 outside; its slope by t in *slope. Slope 0 at both
 * ends. */
static inline double smooth_step(double t, double *slope)
{
    if (!(t > 0.0)) {
        *slope = 0.0;
        return 0.0;
    }
    if (t >= 1.0) {
        *slope = 0.0;
        return 1.0;
    }
    *slope = 6.0 * t * (1.0 - t);
    return t * t * (3.0 - 2.0 * t);
}

#endif
