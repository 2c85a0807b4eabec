/* SPDX-License-Identifier: MIT */
#include "term/signals.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <string.h>
#include <unistd.h>

enum signal_use { USE_NONE, USE_END, USE_STOP, USE_CONTINUED, USE_WAKE, USE_CRASH };

enum {
    SIGNALS = 65, /* numbers from 1 */
    CRASH_STACK = 64 * 1024,
    STUCK_SECONDS = 2, /* how long output may block once the program is to end */
    RESCUE_MS = 1000,
};

/* Every signal not named here would end the program by default, so it asks for an orderly end. */
static enum signal_use use_of(int number)
{
    switch (number) {
    case SIGKILL: /* this and SIGSTOP cannot be caught */
    case SIGSTOP:
    case SIGCHLD: /* the default is right for these: ignore, or stop the process */
    case SIGURG:
    case SIGTTIN:
    case SIGTTOU:
        return USE_NONE;
    case SIGTSTP:
        return USE_STOP;
    case SIGCONT:
        return USE_CONTINUED;
    case SIGWINCH:
        return USE_WAKE;
    case SIGSEGV:
    case SIGBUS:
    case SIGFPE:
    case SIGILL:
    case SIGABRT:
    case SIGSYS:
    case SIGTRAP:
        return USE_CRASH;
    default:
        return USE_END;
    }
}

static struct {
    bool open;
    volatile sig_atomic_t armed;
    int pipe[2];
    volatile sig_atomic_t end, stop, continued, showing, given_up;
    struct sigaction found[SIGNALS];
    struct signals_rescue rescue;
    stack_t found_stack;
    char stack[CRASH_STACK]; /* the crash may be a stack overflow */
} state = {.pipe = {-1, -1}};

static void wake(void)
{
    int saved = errno;
    ssize_t written = write(state.pipe[1], "", 1);
    (void)written; /* a full pipe wakes the poll too */
    errno = saved;
}

/* Sends output that blocks to /dev/null from now on, so that the program can end. */
static void give_up(void)
{
    int nowhere = open("/dev/null", O_WRONLY | O_CLOEXEC);
    if (nowhere >= 0) {
        dup2(nowhere, state.rescue.fd);
        close(nowhere);
        state.given_up = 1;
    }
}

/* The first signal starts an alarm, which repeats until the program has ended. */
static void on_end(int number)
{
    int saved = errno;
    if (state.end == 0) {
        state.end = number;
    } else if (number == SIGALRM && state.showing != 0 && state.armed != 0) {
        give_up();
    }
    alarm(STUCK_SECONDS);
    errno = saved;
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

/* Stops when nobody reads the output. */
static void write_all(int fd, const char *bytes, size_t length)
{
    struct pollfd room = {.fd = fd, .events = POLLOUT};
    while (length > 0 && poll(&room, 1, RESCUE_MS) > 0) {
        ssize_t written = write(fd, bytes, length);
        if (written <= 0) {
            return;
        }
        bytes += written;
        length -= (size_t)written;
    }
}

/* Makes only calls that POSIX allows in a handler. The signal is blocked in here, so the
 * raised one is delivered on return, with the disposition found at the start. */
static void on_crash(int number)
{
    if (state.armed != 0) {
        state.armed = 0;
        write_all(state.rescue.fd, state.rescue.bytes, state.rescue.length);
        tcsetattr(state.rescue.fd, TCSANOW, &state.rescue.modes);
    }
    sigaction(number, &state.found[number], NULL);
    raise(number);
}

static void claim(int number)
{
    static void (*const handlers[])(int) = {
        [USE_END] = on_end,   [USE_STOP] = on_stop,   [USE_CONTINUED] = on_continued,
        [USE_WAKE] = on_wake, [USE_CRASH] = on_crash,
    };
    enum signal_use use = use_of(number);
    bool respected = use == USE_END || use == USE_STOP;
    struct sigaction action = {.sa_handler = handlers[use]};
    if (respected && state.found[number].sa_handler == SIG_IGN) {
        action.sa_handler = SIG_IGN;
    }
    sigemptyset(&action.sa_mask);
    action.sa_flags = use == USE_CRASH ? SA_ONSTACK : 0;
    sigaction(number, &action, NULL);
}

/* The crash signals are claimed separately, once the terminal has something to restore. */
static void claim_all(bool crashes)
{
    for (int number = 1; number < SIGNALS; number++) {
        enum signal_use use = use_of(number);
        if (use != USE_NONE && (use == USE_CRASH) == crashes) {
            claim(number);
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
    /* Fails for the signals that the C library reserves; setting them fails too. */
    for (int number = 1; number < SIGNALS; number++) {
        sigaction(number, NULL, &state.found[number]);
    }
    state.end = 0;
    state.showing = 0;
    state.given_up = 0;
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
    alarm(0);
    for (int number = 1; number < SIGNALS; number++) {
        if (use_of(number) != USE_NONE) {
            sigaction(number, &state.found[number], NULL);
        }
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
    for (int number = 1; number < SIGNALS; number++) {
        enum signal_use use = use_of(number);
        if (use != USE_NONE && use != USE_CRASH) {
            sigaddset(&set, number);
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

void signals_showing(bool showing)
{
    state.showing = showing;
}

/* The output may be /dev/null by now, so the bytes and the modes go to `fd`. */
void signals_rescue_line(int fd)
{
    if (state.given_up == 0) {
        return;
    }
    tcflow(fd, TCOON);
    tcflush(fd, TCOFLUSH);
    write_all(fd, state.rescue.bytes, state.rescue.length);
    tcsetattr(fd, TCSANOW, &state.rescue.modes);
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
