/* SPDX-License-Identifier: MIT */
#include "store/host.h"

#include <errno.h>
#include <limits.h>
#include <pwd.h>
#include <signal.h>
#include <string.h>
#include <unistd.h>

enum { HOST_MAX = 48, USER_MAX = 32 };

static void add_plain(struct strbuf *out, const char *name, size_t most)
{
    static const char plain[] = "abcdefghijklmnopqrstuvwxyz"
                                "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789._";

    for (const char *at = name; *at && (size_t)(at - name) < most; at++)
        strbuf_add_char(out, strchr(plain, *at) ? *at : '_');
}

void host_add_name(struct strbuf *out)
{
    char name[256];

    if (gethostname(name, sizeof name) != 0)
        name[0] = '\0';
    name[sizeof name - 1] = '\0'; /* a clipped name need not be terminated */
    add_plain(out, name[0] ? name : "localhost", HOST_MAX);
}

void host_add_user(struct strbuf *out, uid_t user)
{
    const struct passwd *entry = getpwuid(user);

    if (entry && entry->pw_name[0])
        add_plain(out, entry->pw_name, USER_MAX);
    else
        strbuf_addf(out, "user_%u", (unsigned)user);
}

bool host_process_gone(long pid)
{
    if (pid <= 0 || pid > INT_MAX)
        return true;
    return kill((pid_t)pid, 0) != 0 && errno == ESRCH;
}
