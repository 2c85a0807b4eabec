/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_SESSION_FAULTS_H
#define SILLET_TESTS_SESSION_FAULTS_H

#include "faults.h"

/*
 * Faults in a whole session of the real program, which is linked with faults.c for that
 * (sillet_faults). The page is a file that both map; its path stands in SILLET_FAULTS.
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
