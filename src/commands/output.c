/* SPDX-License-Identifier: MIT */
#include "commands/output.h"

#include <errno.h>

#include "store/safefile.h"

enum exit_code output_write(const char *output, const char *bytes, size_t length)
{
    errno = 0;
    const enum status status = safefile_put(output, SAFEFILE_REPLACE, NULL, bytes, length, NULL);

    if (status == STATUS_OK)
        return EXIT_GOOD;
    report_failure(output, status, errno, stderr);
    return EXIT_CANNOT;
}
