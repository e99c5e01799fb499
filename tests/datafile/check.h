/* SPDX-License-Identifier: MIT */
/* What the tests of this folder share. */
#ifndef TESTS_DATAFILE_CHECK_H
#define TESTS_DATAFILE_CHECK_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#endif
