/* SPDX-License-Identifier: MIT */
#include "bench_refusal.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>

#include <cmocka.h>

static const char *const words[] = {"figures", "check"};

enum { WORDS = sizeof words / sizeof words[0], USAGE = 2 };

/* --- what must not change --- */

struct facts {
    mode_t mode;
    struct timespec changed;
    off_t size;
    char *bytes; /* of a regular file that is not huge */
    size_t length;
};

static void look(const char *path, struct facts *ret_facts)
{
    enum { SMALL = 1 << 20 };
    struct stat found;

    *ret_facts = (struct facts){.size = -1};
    if (lstat(path, &found) != 0)
        return;
    ret_facts->mode = found.st_mode;
    ret_facts->changed = found.st_mtim;
    ret_facts->size = found.st_size;
    if (S_ISREG(found.st_mode) && found.st_size < SMALL)
        ret_facts->bytes = tree_read(path, &ret_facts->length);
}

static void expect_untouched(const char *path, struct facts *before)
{
    struct facts now;

    look(path, &now);
    assert_int_equal(now.mode, before->mode);
    assert_int_equal(now.changed.tv_sec, before->changed.tv_sec);
    assert_int_equal(now.changed.tv_nsec, before->changed.tv_nsec);
    assert_int_equal(now.size, before->size);
    assert_int_equal(now.length, before->length);
    if (now.bytes)
        assert_memory_equal(now.bytes, before->bytes, now.length);
    free(now.bytes);
    free(before->bytes);
}

/* --- the three ways in --- */

bool bytes_hold(const char *bytes, size_t length, const char *part)
{
    const size_t part_length = strlen(part);

    for (size_t i = 0; i + part_length <= length; i++)
        if (memcmp(bytes + i, part, part_length) == 0)
            return true;
    return false;
}

/* Refused: exit status 3, and one clear sentence that holds `why`. */
static void check_refused_command(const struct bench *bench, const char *word, const char *path,
                                  const char *why)
{
    struct command command;

    command_run(bench, word, path, &command);
    if (command.signalled || command.code != CANNOT || !strstr(command.err, why))
        fail_msg("sillet %s %s: %s %d, \"%s\"; want 3 and \"%s\"", word, path,
                 command.signalled ? "signal" : "exit", command.code, command.err, why);
    assert_int_equal(strncmp(command.err, "sillet: ", 8), 0);
    assert_int_equal(command.out_length, 0);
    assert_true(command_is_harmless(command.err, command.err_length));
    command_done(&command);
}

void check_refused_commands(const struct bench *bench, const char *path, const char *why)
{
    for (int i = 0; i < WORDS; i++)
        check_refused_command(bench, words[i], path, why);
}

void check_refused_session(struct bench *bench, const char *path, const char *why)
{
    const char *const argv[] = {bench_program(), path, NULL};

    terminal_stop(bench->terminal);
    bench->terminal = terminal_start(&(struct terminal_setup){
        .argv = argv, .home = bench->home, .columns = 240}); /* the sentence on one line */
    const int status = terminal_expect_end(bench->terminal);
    terminal_check(bench->terminal, WIFEXITED(status) && WEXITSTATUS(status) == CANNOT);
    terminal_expect(bench->terminal, why);
    bench_expect_restored(bench->terminal);
    terminal_check(bench->terminal, !bytes_hold(terminal_output(bench->terminal),
                                                terminal_bytes(bench->terminal), "\033"));
}

void check_refused(struct bench *bench, const char *path, const char *why)
{
    struct facts before;

    look(path, &before);
    check_refused_commands(bench, path, why);
    check_refused_session(bench, path, why);
    expect_untouched(path, &before);
    assert_int_equal(tree_count(bench->tree->folder, ".lock"), 0);
}

void check_survives(const struct bench *bench, const char *path, bool findings_wanted)
{
    struct facts before;

    look(path, &before);
    for (int i = 0; i < WORDS; i++) {
        struct command command;

        command_run(bench, words[i], path, &command);
        if (command.signalled || command.code > CANNOT || command.code == USAGE)
            fail_msg("sillet %s: %s %d", words[i], command.signalled ? "signal" : "exit",
                     command.code);
        if (command.code != 0 || findings_wanted)
            assert_true(command.err_length > 0 || strcmp(words[i], "figures") == 0);
        assert_true(command_is_harmless(command.err, command.err_length));
        assert_true(command_is_harmless(command.out, command.out_length));
        command_done(&command);
    }
    expect_untouched(path, &before);
}
