/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_SESSION_FAULTS_H
#define SILLET_TESTS_SESSION_FAULTS_H

#include "faults.h"

/*
 * Faults in a whole session of the real program, linked with faults.c
 * (sillet_faults). The page is a file that test and program both map; SILLET_FAULTS has its path.
 */
struct session_faults {
    /* Asked for: */
    enum fault_call call;
    enum fault_way way;
    int nth, error;
    /* Said by the program: */
    int keys; /* that it had taken when it last had nothing to do */
    int seen[FAULT_COUNT_];
};

#endif
