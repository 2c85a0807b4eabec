/* SPDX-License-Identifier: MIT */
#define _GNU_SOURCE /* openpty, login_tty, memmem */
#include "timed.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <pty.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>
#include <utmp.h>

enum { QUIET_MS = 6, DEADLINE_MS = 120000, KEPT = 1 << 20 };

static void die(const char *what)
{
    fprintf(stderr, "bench: %s: %s\n", what, strerror(errno));
    exit(2);
}

double timed_now_ms(void)
{
    struct timespec t;

    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec * 1e-6;
}

static pid_t spawn(const char *const *argv, int slave)
{
    char *words[1100];
    int count = 0;

    const pid_t pid = fork();
    if (pid < 0)
        die("fork");
    if (pid > 0)
        return pid;
    for (; argv[count] && count < 1099; count++)
        words[count] = strdup(argv[count]);
    words[count] = NULL;
    if (slave >= 0) {
        if (login_tty(slave) != 0)
            _exit(127);
    } else {
        const int null = open("/dev/null", O_RDWR);

        dup2(null, STDOUT_FILENO);
        dup2(null, STDERR_FILENO);
    }
    execv(words[0], words);
    _exit(127);
}

/* Adds what arrives within `ms` to the text; false if nothing came. */
static bool pump(struct timed *timed, int ms, char *text, size_t *length)
{
    struct pollfd line = {.fd = timed->line, .events = POLLIN};

    if (poll(&line, 1, ms) <= 0)
        return false;
    if (*length > KEPT / 2)
        *length = 0;
    const ssize_t got = read(timed->line, text + *length, KEPT - *length);
    if (got <= 0)
        die("the program has ended");
    *length += (size_t)got;
    return true;
}

/* Asleep, and not in the middle of a write to a disk. */
static bool is_asleep(pid_t pid)
{
    char path[64], state = '?';

    snprintf(path, sizeof path, "/proc/%ld/stat", (long)pid);
    FILE *file = fopen(path, "r");
    if (!file || fscanf(file, "%*d (%*[^)]) %c", &state) != 1)
        die(path);
    fclose(file);
    return state == 'S';
}

static double count_of(pid_t pid, const char *file_name, const char *what)
{
    char path[64], line[128];
    double count = 0;

    snprintf(path, sizeof path, "/proc/%ld/%s", (long)pid, file_name);
    FILE *file = fopen(path, "r");
    if (!file)
        die(path);
    while (fgets(line, sizeof line, file))
        if (strncmp(line, what, strlen(what)) == 0)
            count = strtod(line + strlen(what), NULL);
    fclose(file);
    return count;
}

/* Until it sleeps and sends nothing. */
static void rest(struct timed *timed, struct painted *painted, double from_ms)
{
    static char text[KEPT];
    const double deadline = timed_now_ms() + DEADLINE_MS;

    while (timed_now_ms() < deadline) {
        size_t length = 0;

        if (!pump(timed, QUIET_MS, text, &length)) {
            if (is_asleep(timed->pid))
                return;
            continue;
        }
        const double now = timed_now_ms() - from_ms;
        if (painted->bytes == 0)
            painted->first_ms = now;
        painted->last_ms = now;
        painted->bytes += (double)length;
    }
    die("the program does not rest");
}

struct timed timed_begin(const char *const *argv, const char *wanted)
{
    static char text[KEPT];
    struct winsize size = {.ws_row = 24, .ws_col = 80};
    struct timed timed = {.line = -1};
    size_t length = 0;
    int slave;

    if (openpty(&timed.line, &slave, NULL, NULL, &size) != 0)
        die("openpty");
    fcntl(timed.line, F_SETFD, FD_CLOEXEC);
    timed.started_ms = timed_now_ms();
    timed.pid = spawn(argv, slave);
    close(slave);
    while (!memmem(text, length, wanted, strlen(wanted)))
        if (!pump(&timed, DEADLINE_MS, text, &length))
            die("no first screen");
    timed.first_ms = timed.last_ms = timed_now_ms() - timed.started_ms;
    return timed;
}

struct timed timed_start(const char *const *argv, const char *wanted)
{
    struct painted rest_of_it = {.bytes = 0};
    struct timed timed = timed_begin(argv, wanted);

    rest(&timed, &rest_of_it, timed.started_ms);
    timed.last_ms = rest_of_it.bytes > 0 ? rest_of_it.last_ms : timed.first_ms;
    return timed;
}

double timed_until(struct timed *timed, const char *wanted)
{
    static char text[KEPT];
    size_t length = 0;
    double last_ms = timed->first_ms;

    for (;;) {
        if (!pump(timed, QUIET_MS, text, &length)) {
            if (is_asleep(timed->pid))
                return last_ms;
            continue;
        }
        last_ms = timed_now_ms() - timed->started_ms;
        if (memmem(text, length, wanted, strlen(wanted)))
            return last_ms;
    }
}

double timed_reply(struct timed *timed, const char *key)
{
    static char text[KEPT];
    const struct timespec between = {.tv_nsec = 30000000};
    size_t length = 0;

    nanosleep(&between, NULL);
    while (pump(timed, 0, text, &length))
        ;
    const double from = timed_now_ms();
    if (write(timed->line, key, strlen(key)) < 0 || !pump(timed, DEADLINE_MS, text, &length))
        die("no reply");
    return timed_now_ms() - from;
}

struct painted timed_key(struct timed *timed, const char *key)
{
    struct painted painted = {.bytes = 0};
    const double writes = count_of(timed->pid, "io", "syscw:");
    const double from = timed_now_ms();

    if (write(timed->line, key, strlen(key)) < 0)
        die("write");
    rest(timed, &painted, from);
    painted.writes = count_of(timed->pid, "io", "syscw:") - writes;
    return painted;
}

long timed_wake_ups(struct timed *timed, int ms)
{
    const char *what = "voluntary_ctxt_switches:";
    const struct timespec pause = {.tv_sec = ms / 1000, .tv_nsec = ms % 1000 * 1000000L};
    const double before = count_of(timed->pid, "status", what);

    nanosleep(&pause, NULL);
    return (long)(count_of(timed->pid, "status", what) - before);
}

void timed_stop(struct timed *timed)
{
    kill(timed->pid, SIGKILL);
    waitpid(timed->pid, NULL, 0);
    close(timed->line);
}

double timed_run(const char *const *argv)
{
    int status;
    const double from = timed_now_ms();
    const pid_t pid = spawn(argv, -1);

    waitpid(pid, &status, 0);
    const double took = timed_now_ms() - from;
    if (WIFSIGNALED(status) || (WIFEXITED(status) && WEXITSTATUS(status) == 127)) {
        fprintf(stderr, "bench: %s did not run\n", argv[0]);
        exit(2);
    }
    return WEXITSTATUS(status) == 2 ? -1 : took;
}
