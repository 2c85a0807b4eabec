/* SPDX-License-Identifier: MIT */
#include "store/host.h"

#include <errno.h>
#include <limits.h>
#include <signal.h>
#include <string.h>
#include <sys/types.h>
#include <unistd.h>

void host_add_name(struct strbuf *out)
{
    static const char plain[] = "abcdefghijklmnopqrstuvwxyz"
                                "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789._";
    char name[256];

    if (gethostname(name, sizeof name) != 0)
        name[0] = '\0';
    name[sizeof name - 1] = '\0'; /* a clipped name need not be terminated */
    name[48] = '\0';
    if (name[0] == '\0')
        strbuf_add(out, "localhost");
    for (const char *at = name; *at; at++)
        strbuf_add_char(out, strchr(plain, *at) ? *at : '_');
}

bool host_process_gone(long pid)
{
    if (pid <= 0 || pid > INT_MAX)
        return true;
    return kill((pid_t)pid, 0) != 0 && errno == ESRCH;
}
