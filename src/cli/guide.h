/* SPDX-License-Identifier: MIT */
/* The texts of guide/, built in as they are. */
#ifndef CLI_GUIDE_H
#define CLI_GUIDE_H

extern const char cli_guide_measuring[], cli_guide_reading[], cli_guide_probes[], cli_guide_turning_down[],
    cli_guide_thermostats[], cli_guide_cautions[], cli_guide_left_out[], cli_guide_plant[], cli_guide_log[];

#endif
