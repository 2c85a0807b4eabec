/* SPDX-License-Identifier: MIT */
#include "term/signals.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <string.h>
#include <unistd.h>

enum signal_use { USE_END, USE_STOP, USE_CONTINUED, USE_WAKE, USE_CRASH };

static const struct {
    int number;
    enum signal_use use;
} watched[] = {
    {SIGHUP, USE_END},   {SIGTERM, USE_END},       {SIGINT, USE_END},    {SIGQUIT, USE_END},
    {SIGTSTP, USE_STOP}, {SIGCONT, USE_CONTINUED}, {SIGWINCH, USE_WAKE}, {SIGSEGV, USE_CRASH},
    {SIGBUS, USE_CRASH}, {SIGFPE, USE_CRASH},      {SIGILL, USE_CRASH},  {SIGABRT, USE_CRASH},
    {SIGSYS, USE_CRASH},
};

enum { WATCHED = sizeof watched / sizeof watched[0], CRASH_STACK = 64 * 1024 };

static struct {
    bool open;
    volatile sig_atomic_t armed;
    int pipe[2];
    volatile sig_atomic_t end, stop, continued;
    struct sigaction found[WATCHED];
    struct signals_rescue rescue;
    stack_t found_stack;
    char stack[CRASH_STACK]; /* a crash may be for want of stack */
} state = {.pipe = {-1, -1}};

static void wake(void)
{
    int saved = errno;
    ssize_t written = write(state.pipe[1], "", 1);
    (void)written; /* a full pipe wakes just as well */
    errno = saved;
}

static void on_end(int number)
{
    if (state.end == 0) {
        state.end = number;
    }
    wake();
}

static void on_stop(int number)
{
    (void)number;
    state.stop = 1;
    wake();
}

static void on_continued(int number)
{
    (void)number;
    state.continued = 1;
    wake();
}

static void on_wake(int number)
{
    (void)number;
    wake();
}

static void write_all(int fd, const char *bytes, size_t length)
{
    while (length > 0) {
        ssize_t written = write(fd, bytes, length);
        if (written <= 0) {
            return;
        }
        bytes += written;
        length -= (size_t)written;
    }
}

/* Only calls that POSIX allows in a handler. The signal is blocked in here, so that the
 * one raised strikes on return, with the disposition found at the start. */
static void on_crash(int number)
{
    if (state.armed != 0) {
        state.armed = 0;
        write_all(state.rescue.fd, state.rescue.bytes, state.rescue.length);
        tcsetattr(state.rescue.fd, TCSANOW, &state.rescue.modes);
    }
    for (int i = 0; i < WATCHED; i++) {
        if (watched[i].number == number) {
            sigaction(number, &state.found[i], NULL);
        }
    }
    raise(number);
}

static void claim(int index)
{
    static void (*const handlers[])(int) = {
        [USE_END] = on_end,   [USE_STOP] = on_stop,   [USE_CONTINUED] = on_continued,
        [USE_WAKE] = on_wake, [USE_CRASH] = on_crash,
    };
    enum signal_use use = watched[index].use;
    bool respected = use == USE_END || use == USE_STOP;
    struct sigaction action = {.sa_handler = handlers[use]};
    if (respected && state.found[index].sa_handler == SIG_IGN) {
        action.sa_handler = SIG_IGN;
    }
    sigemptyset(&action.sa_mask);
    action.sa_flags = use == USE_CRASH ? SA_ONSTACK : 0;
    sigaction(watched[index].number, &action, NULL);
}

/* The crash signals have a time of their own: when there is something to give back. */
static void claim_all(bool crashes)
{
    for (int i = 0; i < WATCHED; i++) {
        if ((watched[i].use == USE_CRASH) == crashes) {
            claim(i);
        }
    }
}

static enum status open_pipe(void)
{
    if (pipe(state.pipe) != 0) {
        return STATUS_IO;
    }
    for (int i = 0; i < 2; i++) {
        fcntl(state.pipe[i], F_SETFD, FD_CLOEXEC);
        fcntl(state.pipe[i], F_SETFL, O_NONBLOCK);
    }
    return STATUS_OK;
}

enum status signals_open(void)
{
    if (state.open) {
        return STATUS_OK;
    }
    enum status status = open_pipe();
    if (status != STATUS_OK) {
        return status;
    }
    for (int i = 0; i < WATCHED; i++) {
        sigaction(watched[i].number, NULL, &state.found[i]);
    }
    state.end = 0;
    state.stop = 0;
    state.continued = 0;
    state.open = true;
    claim_all(false);
    return STATUS_OK;
}

void signals_arm(const struct signals_rescue *rescue)
{
    state.rescue = *rescue;
    stack_t stack = {.ss_sp = state.stack, .ss_size = sizeof state.stack};
    sigaltstack(&stack, &state.found_stack);
    state.armed = 1;
    claim_all(true);
}

void signals_close(void)
{
    if (!state.open) {
        return;
    }
    for (int i = 0; i < WATCHED; i++) {
        sigaction(watched[i].number, &state.found[i], NULL);
    }
    if (state.armed != 0) {
        sigaltstack(&state.found_stack, NULL);
    }
    state.armed = 0;
    state.open = false;
    for (int i = 0; i < 2; i++) {
        close(state.pipe[i]);
        state.pipe[i] = -1;
    }
}

static void mask(int how)
{
    sigset_t set;
    sigemptyset(&set);
    for (int i = 0; i < WATCHED; i++) {
        if (watched[i].use != USE_CRASH) {
            sigaddset(&set, watched[i].number);
        }
    }
    sigprocmask(how, &set, NULL);
}

void signals_hold(void)
{
    mask(SIG_BLOCK);
}

void signals_release(void)
{
    mask(SIG_UNBLOCK);
}

int signals_fd(void)
{
    return state.pipe[0];
}

void signals_drain(void)
{
    char bytes[64];
    while (read(state.pipe[0], bytes, sizeof bytes) > 0) {
    }
}

int signals_end(void)
{
    return (int)state.end;
}

static bool take(volatile sig_atomic_t *flag)
{
    bool was = *flag != 0;
    *flag = 0;
    return was;
}

bool signals_take_stop(void)
{
    return take(&state.stop);
}

bool signals_take_continued(void)
{
    return take(&state.continued);
}

void signals_stop_now(bool whole_group)
{
    struct sigaction standard = {.sa_handler = SIG_DFL};
    struct sigaction ours;
    sigemptyset(&standard.sa_mask);
    sigaction(SIGTSTP, &standard, &ours);
    if (ours.sa_handler != SIG_IGN) {
        kill(whole_group ? 0 : getpid(), SIGTSTP);
    }
    sigaction(SIGTSTP, &ours, NULL);
    state.stop = 0;
}
