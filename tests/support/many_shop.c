/* SPDX-License-Identifier: MIT */
#include "many_shop.h"

#include <dirent.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

enum { PROFILE_MAX = 1 << 18, PATH_MAX_ = 1024 };

static bool read_text(const char *path, char text[PROFILE_MAX])
{
    FILE *file = fopen(path, "r");

    if (!file)
        return false;
    const size_t length = fread(text, 1, PROFILE_MAX - 1, file);
    text[length] = '\0';
    fclose(file);
    return length < PROFILE_MAX - 1;
}

/* The profile's end tells of its bytes, which are others now, so a copy has none. */
static bool write_copy(const char *path, const char *text, int number)
{
    const char *name = strstr(text, "\nname = "), *end = strstr(text, "\n[end]");
    FILE *file = name && end ? fopen(path, "w") : NULL;

    if (!file)
        return false;
    name += 1 + strcspn(name + 1, "\r\n");
    if (number == 1)
        fputs(text, file);
    else
        fprintf(file, "%.*s %d%.*s\n", (int)(name - text), text, number, (int)(end - name), name);
    return fclose(file) == 0;
}

static bool copy_one(const char *from, const char *to, const char *name, int times)
{
    static char text[PROFILE_MAX];
    const int stem = (int)strlen(name) - (int)strlen(".ini");
    char path[PATH_MAX_];

    snprintf(path, sizeof path, "%s/%s", from, name);
    if (!read_text(path, text))
        return false;
    for (int number = 1; number <= times; number++) {
        if (number == 1)
            snprintf(path, sizeof path, "%s/%s", to, name);
        else
            snprintf(path, sizeof path, "%s/%.*s-%d.ini", to, stem, name, number);
        if (!write_copy(path, text, number))
            return false;
    }
    return true;
}

int many_shop_make(const char *from, const char *to, int times)
{
    DIR *folder = opendir(from);
    int count = 0;

    if (!folder || mkdir(to, 0700) != 0)
        count = -1;
    for (struct dirent *entry; count >= 0 && (entry = readdir(folder)) != NULL;) {
        const char *end = strrchr(entry->d_name, '.');

        if (end && strcmp(end, ".ini") == 0)
            count = copy_one(from, to, entry->d_name, times) ? count + times : -1;
    }
    if (folder)
        closedir(folder);
    return count;
}
