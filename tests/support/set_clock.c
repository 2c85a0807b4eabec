/* SPDX-License-Identifier: MIT */
/* For programs whose clock a test sets: replaces time() (-Wl,--wrap). */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

time_t __real_time(time_t *ret_time);
time_t __wrap_time(time_t *ret_time);

/* The number of seconds in the file named by TEST_CLOCK. Read at every call, so that the
 * clock can be set while the program runs. */
static long offset(void)
{
    const char *path = getenv("TEST_CLOCK");
    FILE *file = path ? fopen(path, "r") : NULL;
    long seconds = 0;

    if (file) {
        if (fscanf(file, "%ld", &seconds) != 1)
            seconds = 0;
        fclose(file);
    }
    return seconds;
}

time_t __wrap_time(time_t *ret_time)
{
    const time_t now = __real_time(NULL) + (time_t)offset();

    if (ret_time)
        *ret_time = now;
    return now;
}
