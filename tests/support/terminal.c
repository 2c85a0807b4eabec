/* SPDX-License-Identifier: MIT */
#define _GNU_SOURCE /* openpty, login_tty */

#include "terminal_inner.h"

#include <errno.h>
#include <fcntl.h>
#include <ftw.h>
#include <poll.h>
#include <pty.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>
#include <utmp.h>

#include <cmocka.h>

#include "terminal_keys.h"

enum { ENV_MAX = 48, QUIET_MS = 2, STUCK_MS = 15, SLICE_MS = 20 };

static long long now_ms(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (long long)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

static void die(const char *what)
{
    fail_msg("terminal: %s: %s", what, strerror(errno));
}

/* --- starting --- */

struct environment {
    char *entries[ENV_MAX];
    int count;
};

static void add(struct environment *environment, const char *name, const char *value)
{
    if (value == NULL || environment->count + 1 >= ENV_MAX) {
        return;
    }
    size_t size = strlen(name) + strlen(value) + 2;
    char *entry = malloc(size);
    if (entry != NULL) {
        snprintf(entry, size, "%s=%s", name, value);
        environment->entries[environment->count++] = entry;
    }
}

static void add_folder(struct environment *environment, const char *name, const char *home,
                       const char *below)
{
    char path[512];
    snprintf(path, sizeof path, "%s%s", home, below);
    add(environment, name, path);
}

static void fill_environment(struct environment *environment, const struct terminal *terminal,
                             const struct terminal_setup *setup)
{
    static const char *const kept[] = {"PATH",          "LD_LIBRARY_PATH", "ASAN_OPTIONS",
                                       "UBSAN_OPTIONS", "LSAN_OPTIONS",    "LLVM_PROFILE_FILE",
                                       "GCOV_PREFIX",   "TERMINFO",        "TERMINFO_DIRS"};
    /* These go first, because getenv takes the first of two. */
    for (int i = 0; setup->env != NULL && setup->env[i] != NULL; i++) {
        if (environment->count + 1 < ENV_MAX) {
            environment->entries[environment->count++] = strdup(setup->env[i]);
        }
    }
    for (size_t i = 0; i < sizeof kept / sizeof kept[0]; i++) {
        add(environment, kept[i], getenv(kept[i]));
    }
    add(environment, "TERM", strcmp(terminal->term, "-") == 0 ? NULL : terminal->term);
    add(environment, "LANG", setup->lang != NULL ? setup->lang : "C.UTF-8");
    add(environment, "TZ", "UTC");
    add_folder(environment, "HOME", terminal->home, "");
    add_folder(environment, "XDG_DATA_HOME", terminal->home, "/data");
    add_folder(environment, "XDG_STATE_HOME", terminal->home, "/state");
}

static void make_home(struct terminal *terminal, const char *given)
{
    if (given != NULL) {
        snprintf(terminal->home, sizeof terminal->home, "%s", given);
        return;
    }
    const char *base = getenv("TMPDIR");
    snprintf(terminal->home, sizeof terminal->home, "%s/sillet-home-XXXXXX",
             base != NULL ? base : "/tmp");
    if (mkdtemp(terminal->home) == NULL) {
        die("mkdtemp");
    }
    terminal->own_home = true;
}

static void reset_signals(bool ignore_hangup)
{
    sigset_t none;
    sigemptyset(&none);
    sigprocmask(SIG_SETMASK, &none, NULL);
    for (int number = 1; number < 32; number++) {
        signal(number, SIG_DFL);
    }
    if (ignore_hangup) {
        signal(SIGHUP, SIG_IGN);
    }
}

static void become_program(const struct terminal *terminal, const struct terminal_setup *setup,
                           char **env)
{
    char *argv[32];
    int count = 0;
    for (; setup->argv[count] != NULL && count < 31; count++) {
        argv[count] = strdup(setup->argv[count]);
    }
    argv[count] = NULL;
    reset_signals(setup->ignore_hangup);
    close(terminal->master);
    if (login_tty(terminal->slave) != 0) {
        _exit(126);
    }
    execve(argv[0], argv, env);
    _exit(127);
}

static void open_lines(struct terminal *terminal)
{
    struct winsize size = {.ws_row = (unsigned short)terminal->rows,
                           .ws_col = (unsigned short)terminal->columns};
    if (openpty(&terminal->master, &terminal->slave, NULL, NULL, &size) != 0) {
        die("openpty");
    }
    fcntl(terminal->master, F_SETFD, FD_CLOEXEC);
    fcntl(terminal->slave, F_SETFD, FD_CLOEXEC);
    fcntl(terminal->master, F_SETFL, O_NONBLOCK);
    tcgetattr(terminal->slave, &terminal->found);
}

struct terminal *terminal_start(const struct terminal_setup *setup)
{
    struct terminal *terminal = calloc(1, sizeof *terminal);
    assert_non_null(terminal);
    terminal->rows = setup->rows > 0 ? setup->rows : 24;
    terminal->columns = setup->columns > 0 ? setup->columns : 80;
    snprintf(terminal->term, sizeof terminal->term, "%s",
             setup->term != NULL ? setup->term : "xterm-256color");
    make_home(terminal, setup->home);
    open_lines(terminal);
    if (setup->no_wait) {
        fcntl(terminal->slave, F_SETFL, fcntl(terminal->slave, F_GETFL) | O_NONBLOCK);
    }
    terminal_screen_open(terminal);
    struct environment environment = {.count = 0};
    fill_environment(&environment, terminal, setup);
    terminal->pid = fork();
    if (terminal->pid == 0) {
        become_program(terminal, setup, environment.entries);
    }
    for (int i = 0; i < environment.count; i++) {
        free(environment.entries[i]);
    }
    if (terminal->pid < 0) {
        die("fork");
    }
    return terminal;
}

static int remove_entry(const char *path, const struct stat *info, int kind, struct FTW *place)
{
    (void)info;
    (void)kind;
    (void)place;
    return remove(path);
}

void terminal_stop(struct terminal *terminal)
{
    if (terminal == NULL) {
        return;
    }
    if (!terminal->ended) {
        kill(terminal->pid, SIGKILL);
        waitpid(terminal->pid, NULL, 0);
    }
    if (terminal->own_home) {
        nftw(terminal->home, remove_entry, 16, FTW_DEPTH | FTW_PHYS);
    }
    terminal_hang_up(terminal);
    vterm_free(terminal->vterm);
    free(terminal->output);
    free(terminal);
}

const char *terminal_home(const struct terminal *terminal)
{
    return terminal->home;
}

pid_t terminal_pid(const struct terminal *terminal)
{
    return terminal->pid;
}

/* --- bytes in and out --- */

static void record(struct terminal *terminal, const char *bytes, size_t count)
{
    if (terminal->bytes + count >= terminal->room) {
        terminal->room = 2 * (terminal->bytes + count + 1);
        terminal->output = realloc(terminal->output, terminal->room);
        assert_non_null(terminal->output);
    }
    memcpy(terminal->output + terminal->bytes, bytes, count);
    terminal->bytes += count;
    terminal->output[terminal->bytes] = '\0';
}

bool terminal_pump(struct terminal *terminal, int timeout_ms)
{
    bool any = false;
    struct pollfd line = {.fd = terminal->master, .events = POLLIN};
    if (terminal->stuck) {
        poll(NULL, 0, timeout_ms);
        return false;
    }
    while (terminal->master >= 0 && poll(&line, 1, any ? 0 : timeout_ms) > 0) {
        char bytes[16384];
        ssize_t count = read(terminal->master, bytes, sizeof bytes);
        if (count <= 0) {
            break;
        }
        record(terminal, bytes, (size_t)count);
        terminal_screen_write(terminal, bytes, (size_t)count);
        any = true;
    }
    return any;
}

static void remember_sent(struct terminal *terminal, const void *bytes, size_t length)
{
    if (terminal->sent_bytes + length <= sizeof terminal->sent)
        memcpy(terminal->sent + terminal->sent_bytes, bytes, length);
    terminal->sent_bytes += length;
}

const char *terminal_sent(const struct terminal *terminal, size_t *ret_count)
{
    *ret_count = terminal->sent_bytes;
    return terminal->sent_bytes <= sizeof terminal->sent ? terminal->sent : NULL;
}

void terminal_feed(struct terminal *terminal, const void *bytes, size_t length)
{
    const char *from = bytes;
    remember_sent(terminal, bytes, length);
    long long deadline = now_ms() + TERMINAL_DEADLINE_MS;
    while (length > 0 && terminal->master >= 0) {
        ssize_t count = write(terminal->master, from, length);
        if (count > 0) {
            from += count;
            length -= (size_t)count;
        } else if (now_ms() > deadline) {
            fail_msg("terminal: the program takes no input");
        } else {
            terminal_pump(terminal, SLICE_MS);
        }
    }
}

void terminal_type(struct terminal *terminal, const char *text)
{
    terminal_feed(terminal, text, strlen(text));
}

void terminal_key(struct terminal *terminal, enum terminal_key key)
{
    char bytes[32];
    terminal_keys_spell(terminal->term, key, bytes, sizeof bytes);
    terminal_type(terminal, bytes);
}

void terminal_keypad(struct terminal *terminal, char plain)
{
    char bytes[4] = {'\033', 'O', terminal_keys_pad(plain), '\0'};
    terminal_type(terminal, bytes);
}

/* --- waiting --- */

static bool has_ended(struct terminal *terminal)
{
    if (!terminal->ended && waitpid(terminal->pid, &terminal->status, WNOHANG) > 0) {
        terminal->ended = true;
        terminal->stuck = false;
        while (terminal_pump(terminal, QUIET_MS)) {
        }
    }
    return terminal->ended;
}

static bool wait_for(struct terminal *terminal, const char *text, bool present, int timeout_ms)
{
    long long deadline = now_ms() + timeout_ms;
    for (;;) {
        terminal_pump(terminal, 0);
        if ((terminal_find(terminal, text, NULL) >= 0) == present) {
            return true;
        }
        long long left = deadline - now_ms();
        if (left <= 0) {
            return false;
        }
        if (!terminal_pump(terminal, left < SLICE_MS ? (int)left : SLICE_MS) &&
            has_ended(terminal)) {
            return (terminal_find(terminal, text, NULL) >= 0) == present;
        }
    }
}

bool terminal_sees(struct terminal *terminal, const char *text, int timeout_ms)
{
    return wait_for(terminal, text, true, timeout_ms);
}

bool terminal_lost_sight_of(struct terminal *terminal, const char *text, int timeout_ms)
{
    return wait_for(terminal, text, false, timeout_ms);
}

bool terminal_ended(struct terminal *terminal, int timeout_ms, int *ret_status)
{
    long long deadline = now_ms() + timeout_ms;
    while (!has_ended(terminal)) {
        if (now_ms() > deadline) {
            return false;
        }
        if (terminal->master < 0) {
            poll(NULL, 0, 1); /* there is no descriptor left to wait on */
        } else {
            terminal_pump(terminal, 1);
        }
    }
    *ret_status = terminal->status;
    return true;
}

/* The state letter of a process: the field after the name, which may hold anything. */
static char process_state(pid_t pid)
{
    char path[64];
    char text[512] = "";
    snprintf(path, sizeof path, "/proc/%d/stat", (int)pid);
    FILE *file = fopen(path, "r");
    if (file == NULL) {
        return '?';
    }
    size_t length = fread(text, 1, sizeof text - 1, file);
    fclose(file);
    text[length] = '\0';
    const char *after = strrchr(text, ')');
    return after != NULL && after[1] == ' ' ? after[2] : '?';
}

/* Polling the line makes the kernel deliver the bytes that it still has in its buffers. */
static bool all_taken(const struct terminal *terminal)
{
    struct pollfd line = {.fd = terminal->slave, .events = POLLIN};
    int pending = 0;
    (void)poll(&line, 1, 0);
    return ioctl(terminal->slave, FIONREAD, &pending) != 0 || pending == 0;
}

static bool is_idle(const struct terminal *terminal)
{
    return all_taken(terminal) && strchr("ST", process_state(terminal->pid)) != NULL;
}

/* The program must be idle before and after the line was quiet: it may sleep between two steps. */
void terminal_settle(struct terminal *terminal)
{
    long long deadline = now_ms() + TERMINAL_DEADLINE_MS;
    while (now_ms() < deadline && !has_ended(terminal)) {
        bool idle = is_idle(terminal);
        if (!terminal_pump(terminal, QUIET_MS) && idle && is_idle(terminal)) {
            return;
        }
    }
}

long terminal_writes(const struct terminal *terminal)
{
    char path[64], line[128];
    long count = -1;

    snprintf(path, sizeof path, "/proc/%ld/io", (long)terminal->pid);
    FILE *file = fopen(path, "r");
    while (file != NULL && fgets(line, sizeof line, file) != NULL) {
        if (strncmp(line, "syscw:", 6) == 0) {
            count = strtol(line + 6, NULL, 10);
        }
    }
    if (file != NULL) {
        fclose(file);
    }
    return count;
}

void terminal_fail_at(struct terminal *terminal, const char *what, const char *file, int line)
{
    terminal_print(terminal);
    print_error("%s\n", what);
    _fail(file, line);
}

void terminal_expect_at(struct terminal *terminal, const char *text, const char *file, int line)
{
    if (!terminal_sees(terminal, text, TERMINAL_DEADLINE_MS)) {
        print_error("not on the screen: \"%s\"\n", text);
        terminal_fail_at(terminal, "terminal_expect", file, line);
    }
}

void terminal_expect_gone_at(struct terminal *terminal, const char *text, const char *file,
                             int line)
{
    if (!terminal_lost_sight_of(terminal, text, TERMINAL_DEADLINE_MS)) {
        print_error("still on the screen: \"%s\"\n", text);
        terminal_fail_at(terminal, "terminal_expect_gone", file, line);
    }
}

int terminal_expect_end_at(struct terminal *terminal, const char *file, int line)
{
    int status = 0;
    if (!terminal_ended(terminal, TERMINAL_DEADLINE_MS, &status)) {
        terminal_fail_at(terminal, "the program has not ended", file, line);
    }
    return status;
}

/* --- the line --- */

bool terminal_modes_restored(const struct terminal *terminal)
{
    struct termios now;
    return tcgetattr(terminal->slave, &now) == 0 && now.c_lflag == terminal->found.c_lflag &&
           now.c_iflag == terminal->found.c_iflag && now.c_oflag == terminal->found.c_oflag &&
           now.c_cflag == terminal->found.c_cflag &&
           memcmp(now.c_cc, terminal->found.c_cc, sizeof now.c_cc) == 0;
}

void terminal_restore_modes(struct terminal *terminal)
{
    tcsetattr(terminal->slave, TCSANOW, &terminal->found);
}

size_t terminal_bytes(const struct terminal *terminal)
{
    return terminal->bytes;
}

const char *terminal_output(const struct terminal *terminal)
{
    return terminal->output;
}

/* --- what happens to terminals --- */

void terminal_resize(struct terminal *terminal, int rows, int columns)
{
    struct winsize size = {.ws_row = (unsigned short)rows, .ws_col = (unsigned short)columns};
    /* Our screen first: the program may paint for the new size at once. */
    terminal_pump(terminal, 0);
    terminal->rows = rows;
    terminal->columns = columns;
    vterm_set_size(terminal->vterm, rows, columns);
    ioctl(terminal->master, TIOCSWINSZ, &size);
}

void terminal_signal(struct terminal *terminal, int number)
{
    kill(terminal->pid, number);
}

void terminal_stick(struct terminal *terminal, bool stopped)
{
    long long deadline = now_ms() + TERMINAL_DEADLINE_MS;
    int asleep = 0;
    terminal->stuck = true;
    if (stopped) {
        tcflow(terminal->slave, TCOOFF);
    }
    while (now_ms() < deadline && asleep < 3) {
        poll(NULL, 0, STUCK_MS);
        asleep = process_state(terminal->pid) == 'S' && !all_taken(terminal) ? asleep + 1 : 0;
    }
    terminal_check(terminal, asleep == 3);
}

void terminal_hang_up(struct terminal *terminal)
{
    if (terminal->master >= 0) {
        close(terminal->slave);
        close(terminal->master);
    }
    terminal->master = -1;
    terminal->slave = -1;
}
