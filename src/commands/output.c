/* SPDX-License-Identifier: MIT */
#include "commands/output.h"

#include <errno.h>
#include <sys/stat.h>

#include "store/safefile.h"

bool output_spares(const char *output, const char *profile)
{
    struct stat a, b;

    if (!output || stat(output, &a) != 0 || stat(profile, &b) != 0 || a.st_dev != b.st_dev ||
        a.st_ino != b.st_ino)
        return true;
    report_begin(output, stderr);
    fputs(" this is the profile itself; -o wants another file\n", stderr);
    return false;
}

enum exit_code output_write(const char *output, const char *bytes, size_t length)
{
    errno = 0;
    const enum status status = safefile_put(output, SAFEFILE_REPLACE, NULL, bytes, length, NULL);

    if (status == STATUS_OK)
        return EXIT_GOOD;
    report_failure(output, status, errno, stderr);
    return EXIT_CANNOT;
}
