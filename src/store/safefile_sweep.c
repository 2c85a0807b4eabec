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
#include "store/disk.h"
#include "store/host.h"
#include "store/paths.h"

/* What the name of a temporary file says. */
struct temp {
    int pid;
    long long made_s;
};

/* Reads a number and the character after it. */
static bool take_number(const char **at, char end, int most, int *ret_number)
{
    const char *stop = strchr(*at, end);

    if (!stop || num_count(*at, (size_t)(stop - *at), most, ret_number) != STATUS_OK)
        return false;
    *at = stop + 1;
    return true;
}

/* False for a name that this machine did not make. */
static bool read_name(const char *name, struct temp *temp)
{
    char memory[96];
    struct strbuf prefix = STRBUF(memory);
    int number, length = 0;

    strbuf_add(&prefix, ".sillet-");
    host_add_name(&prefix);
    strbuf_add_char(&prefix, '-');
    if (strncmp(name, memory, prefix.length) != 0)
        return false;
    const char *at = name + prefix.length;
    if (!take_number(&at, '-', 1 << 30, &temp->pid) ||
        sscanf(at, "%18lld-%n", &temp->made_s, &length) != 1 || length == 0)
        return false;
    at += length;
    return take_number(&at, '.', 999, &number) && strcmp(at, "tmp") == 0;
}

/* Allows a day, because the clock of a file server may differ from this machine's. */
static bool is_of_its_time(const struct temp *temp, const struct stat *facts)
{
    enum { DAY = 24 * 60 * 60 };
    const long long written_s = facts->st_mtim.tv_sec;

    return written_s > temp->made_s - DAY && written_s < temp->made_s + DAY;
}

static bool remove_stale(int folder, const char *name)
{
    struct stat facts;
    struct temp temp;

    if (!read_name(name, &temp) || !host_process_gone(temp.pid))
        return false;
    if (fstatat(folder, name, &facts, AT_SYMLINK_NOFOLLOW) != 0 || !S_ISREG(facts.st_mode) ||
        !is_of_its_time(&temp, &facts))
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

void safefile_sweep_beside(const char *path)
{
    char *folder = paths_folder_of(path);

    if (folder)
        safefile_sweep(folder);
    disk_free(folder);
}
