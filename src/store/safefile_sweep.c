/* SPDX-License-Identifier: MIT */
#include "store/safefile.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/num.h"
#include "store/host.h"

/* The process that a temporary file's name tells of; 0 when it is no name of this machine's. */
static int process_of(const char *name)
{
    char memory[96];
    struct strbuf prefix = STRBUF(memory);
    int pid, number;

    strbuf_add(&prefix, ".sillet-");
    host_add_name(&prefix);
    strbuf_add_char(&prefix, '-');
    if (strncmp(name, memory, prefix.length) != 0)
        return 0;
    const char *at = name + prefix.length;
    const size_t pid_length = strcspn(at, "-");
    if (at[pid_length] != '-' || num_count(at, pid_length, 1 << 30, &pid) != STATUS_OK)
        return 0;
    at += pid_length + 1;
    const size_t number_length = strcspn(at, ".");
    if (num_count(at, number_length, 999, &number) != STATUS_OK ||
        strcmp(at + number_length, ".tmp") != 0)
        return 0;
    return pid;
}

static bool remove_stale(int folder, const char *name)
{
    struct stat facts;
    const int pid = process_of(name);

    if (pid <= 0 || !host_process_gone(pid))
        return false;
    if (fstatat(folder, name, &facts, AT_SYMLINK_NOFOLLOW) != 0 || !S_ISREG(facts.st_mode))
        return false;
    return unlinkat(folder, name, 0) == 0;
}

int safefile_sweep(const char *folder)
{
    const int kept_errno = errno;
    int removed = 0;
    DIR *listing = opendir(folder);

    if (listing) {
        for (struct dirent *entry; (entry = readdir(listing)) != NULL;)
            if (remove_stale(dirfd(listing), entry->d_name))
                removed++;
        closedir(listing);
    }
    errno = kept_errno;
    return removed;
}
