/* SPDX-License-Identifier: MIT */
#include "fuzz.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "store/file_read.h"

/*
 * Feeds files to a harness without libFuzzer: replay PATH..., each a file or a folder
 * of files. No input at all is a failure.
 */

static int replay_file(const char *path)
{
    struct bytes bytes;
    const enum status status = file_read(path, FILE_BYTES_MAX, &bytes);

    if (status != STATUS_OK) {
        fprintf(stderr, "%s: %s\n", path, status_text(status));
        exit(1);
    }
    fprintf(stderr, "%s\n", path);
    /* A copy of just its size, so that a sanitizer sees who reads past it. */
    uint8_t *data = malloc(bytes.length ? bytes.length : 1);
    FUZZ_CHECK(data != NULL);
    if (bytes.length)
        memcpy(data, bytes.data, bytes.length);
    LLVMFuzzerTestOneInput(data, bytes.length);
    free(data);
    bytes_done(&bytes);
    return 1;
}

static int replay_folder(const char *path, DIR *folder)
{
    int count = 0;

    for (const struct dirent *entry; (entry = readdir(folder));) {
        char file[4096];

        if (entry->d_name[0] == '.')
            continue;
        snprintf(file, sizeof file, "%s/%s", path, entry->d_name);
        count += replay_file(file);
    }
    return count;
}

int main(int argc, char **argv)
{
    int count = 0;

    for (int i = 1; i < argc; i++) {
        DIR *folder = opendir(argv[i]);

        count += folder ? replay_folder(argv[i], folder) : replay_file(argv[i]);
        if (folder)
            closedir(folder);
    }
    printf("%d inputs\n", count);
    return count > 0 ? 0 : 1;
}
