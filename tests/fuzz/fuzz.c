/* SPDX-License-Identifier: MIT */
#include "fuzz.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

void fuzz_fail(const char *words, const char *file, int line)
{
    fprintf(stderr, "%s:%d: does not hold: %s\n", file, line, words);
    abort();
}

void fuzz_expect_sound(const char *fault, const char *file, int line)
{
    if (fault)
        fuzz_fail(fault, file, line);
}

uint8_t fuzz_byte(struct fuzz_bytes *bytes)
{
    if (bytes->left == 0)
        return 0;
    bytes->left--;
    return *bytes->at++;
}

int fuzz_whole(struct fuzz_bytes *bytes, int most)
{
    unsigned number = fuzz_byte(bytes);

    if (most > 0xFF)
        number = number * 256 + fuzz_byte(bytes);
    return (int)(number % ((unsigned)most + 1));
}

char *fuzz_text(struct fuzz_bytes *bytes, size_t length)
{
    const size_t size = length < bytes->left ? length : bytes->left;
    char *text = malloc(size + 1);

    FUZZ_CHECK(text != NULL);
    if (size > 0)
        memcpy(text, bytes->at, size);
    text[size] = '\0';
    bytes->at += size;
    bytes->left -= size;
    return text;
}

/* Of this process, for it is removed at its end. */
static struct {
    char folder[200], path[220];
} scratch;

static void remove_scratch(void)
{
    unlink(scratch.path);
    rmdir(scratch.folder);
}

static void make_scratch(void)
{
    const char *parent = getenv("TMPDIR");

    snprintf(scratch.folder, sizeof scratch.folder, "%s/sillet-fuzz.XXXXXX",
             parent && parent[0] ? parent : "/tmp");
    FUZZ_CHECK(mkdtemp(scratch.folder) != NULL);
    snprintf(scratch.path, sizeof scratch.path, "%s/input", scratch.folder);
    FUZZ_CHECK(atexit(remove_scratch) == 0);
}

const char *fuzz_file(const void *data, size_t size)
{
    if (!scratch.folder[0])
        make_scratch();
    const int fd = open(scratch.path, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
    FUZZ_CHECK(fd >= 0);
    FUZZ_CHECK(size == 0 || write(fd, data, size) == (ssize_t)size);
    FUZZ_CHECK(close(fd) == 0);
    return scratch.path;
}
