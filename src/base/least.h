/* SPDX-License-Identifier: MIT */
#ifndef SILLET_BASE_LEAST_H
#define SILLET_BASE_LEAST_H

static inline int least_of(int a, int b)
{
    return a < b ? a : b;
}

#endif
