/* SPDX-License-Identifier: MIT */
#include "commands/with_record.h"

#include <errno.h>

enum exit_code with_record(const char *path, enum problem_severity least, record_work *work,
                           const void *options)
{
    struct problems problems;
    struct profile *profile = NULL;
    enum exit_code code = EXIT_CANNOT;

    problems_init(&problems);
    errno = 0;
    const enum status status = profile_open(path, PROFILE_TO_READ, &problems, &profile);
    const int error = errno;
    report_problems(path, &problems, least, stderr);
    if (status == STATUS_OK)
        code = work(options, profile_record(profile));
    else
        report_failure(path, status, error, stderr);
    if (code == EXIT_GOOD && problems.errors > 0)
        code = EXIT_FINDINGS;
    profile_close(profile);
    problems_done(&problems);
    return code;
}
