/* SPDX-License-Identifier: MIT */
#define _DEFAULT_SOURCE /* for wait4 */
#include "bench_command.h"

#include <errno.h>
#include <fcntl.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/utf8.h"

enum { SECONDS_MAX = 120, UNABLE = 126, WORDS_MAX = 12 };

static void redirect(const char *path, int to)
{
    const int fd = open(path, O_WRONLY | O_CREAT | O_TRUNC, 0600);

    if (fd < 0 || dup2(fd, to) < 0)
        _exit(UNABLE);
    close(fd);
}

static void become(const struct bench *bench, char *const *argv, const char *out, const char *err)
{
    redirect(out, STDOUT_FILENO);
    redirect(err, STDERR_FILENO);
    setenv("HOME", bench->home, 1);
    setenv("LANG", "C.UTF-8", 1);
    unsetenv("LC_ALL");
    unsetenv("XDG_CONFIG_HOME");
    unsetenv("XDG_DATA_HOME");
    alarm(SECONDS_MAX); /* it outlives exec */
    execv(argv[0], argv);
    _exit(UNABLE);
}

/* execv wants words that it may write to, and does not. */
static void point_at(char **argv, const char *const *words)
{
    size_t count = 0;

    memcpy(&argv[count++], &(const char *){bench_program()}, sizeof *argv);
    for (; *words && count < WORDS_MAX; words++)
        memcpy(&argv[count++], words, sizeof *argv);
    assert_null(*words);
    argv[count] = NULL;
}

static double seconds_of(const struct timeval *time)
{
    return (double)time->tv_sec + (double)time->tv_usec / 1e6;
}

void command_run_words(const struct bench *bench, const char *const *words,
                       struct command *ret_command)
{
    char out[320], err[320], *argv[WORDS_MAX + 1];
    struct rusage usage;
    int status = 0;

    point_at(argv, words);
    snprintf(out, sizeof out, "%s/out", bench->home);
    snprintf(err, sizeof err, "%s/err", bench->home);
    const pid_t pid = fork();

    assert_true(pid >= 0);
    if (pid == 0)
        become(bench, argv, out, err);
    while (wait4(pid, &status, 0, &usage) < 0)
        assert_int_equal(errno, EINTR);
    *ret_command =
        (struct command){.signalled = WIFSIGNALED(status),
                         .code = WIFSIGNALED(status) ? WTERMSIG(status) : WEXITSTATUS(status)};
    ret_command->seconds = seconds_of(&usage.ru_utime) + seconds_of(&usage.ru_stime);
    ret_command->peak_bytes = usage.ru_maxrss * 1024LL;
    ret_command->out = tree_read(out, &ret_command->out_length);
    ret_command->err = tree_read(err, &ret_command->err_length);
    assert_non_null(ret_command->out);
    assert_non_null(ret_command->err);
}

void command_run(const struct bench *bench, const char *word, const char *path,
                 struct command *ret_command)
{
    const char *const words[] = {word ? word : path, word ? path : NULL, NULL};

    command_run_words(bench, words, ret_command);
}

void command_done(struct command *command)
{
    free(command->out);
    free(command->err);
    *command = (struct command){.out = NULL};
}

static bool turns_direction(uint32_t rune)
{
    return rune == 0x061C || rune == 0x200E || rune == 0x200F ||
           (rune >= 0x202A && rune <= 0x202E) || (rune >= 0x2066 && rune <= 0x2069);
}

bool command_is_harmless(const char *bytes, size_t length)
{
    for (size_t i = 0; i < length;) {
        uint32_t rune;
        bool valid;

        i += utf8_decode(bytes + i, length - i, &rune, &valid);
        if (!valid || (rune < 0x20 && rune != '\n') || (rune >= 0x7F && rune < 0xA0) ||
            turns_direction(rune))
            return false;
    }
    return true;
}
