/* SPDX-License-Identifier: MIT */
#include "store/paths.h"

#include <errno.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "store/disk.h"

char *paths_join(const char *folder, const char *name)
{
    const size_t length = strlen(folder);
    const size_t size = length + strlen(name) + 2;
    const bool slash = length > 0 && folder[length - 1] != '/';
    char *path = malloc(size);

    if (path)
        snprintf(path, size, "%s%s%s", folder, slash ? "/" : "", name);
    return path;
}

const char *paths_name_of(const char *path)
{
    const char *slash = strrchr(path, '/');

    return slash ? slash + 1 : path;
}

char *paths_folder_of(const char *path)
{
    const char *slash = strrchr(path, '/');

    if (!slash)
        return strdup(".");
    return slash == path ? strdup("/") : strndup(path, (size_t)(slash - path));
}

static enum status find_folder(const char *variable, const char *below_home, char **ret_path)
{
    const char *base = getenv(variable);
    const char *name = "sillet";
    char *path;

    if (!base || base[0] != '/') {
        base = getenv("HOME");
        name = below_home;
    }
    if (!base || base[0] != '/')
        return STATUS_NOT_FOUND;
    path = paths_join(base, name);
    if (!path)
        return STATUS_NO_MEMORY;
    *ret_path = path;
    return STATUS_OK;
}

enum status paths_data_folder(char **ret_path)
{
    return find_folder("XDG_DATA_HOME", ".local/share/sillet", ret_path);
}

enum status paths_config_folder(char **ret_path)
{
    return find_folder("XDG_CONFIG_HOME", ".config/sillet", ret_path);
}

enum status paths_cache_folder(char **ret_path)
{
    return find_folder("XDG_CACHE_HOME", ".cache/sillet", ret_path);
}

enum status paths_state_folder(char **ret_path)
{
    return find_folder("XDG_STATE_HOME", ".local/state/sillet", ret_path);
}

static enum status make_one(const char *path)
{
    struct stat facts;

    if (mkdir(path, 0700) == 0)
        return STATUS_OK;
    const int error = errno;
    /* Checked after any error: for an existing folder it can be EROFS as well as EEXIST. */
    if (stat(path, &facts) == 0 && S_ISDIR(facts.st_mode))
        return STATUS_OK;
    errno = error;
    return disk_status(error);
}

enum status paths_make_folder(const char *path)
{
    char *part = strdup(path);
    enum status status = STATUS_OK;

    if (!part)
        return STATUS_NO_MEMORY;
    for (char *slash = strchr(part + 1, '/'); status == STATUS_OK && slash;
         slash = strchr(slash + 1, '/')) {
        *slash = '\0';
        status = make_one(part);
        *slash = '/';
    }
    if (status == STATUS_OK)
        status = make_one(part);
    disk_free(part);
    return status;
}

enum status paths_make_folder_above(const char *path)
{
    char *folder = paths_folder_of(path);
    const enum status status = folder ? paths_make_folder(folder) : STATUS_NO_MEMORY;

    disk_free(folder);
    return status;
}

enum status paths_sync_above(const char *path)
{
    char *folder = paths_folder_of(path);
    const enum status status = folder ? disk_sync_path(folder) : STATUS_NO_MEMORY;

    disk_free(folder);
    return status;
}
