/* SPDX-License-Identifier: MIT */
#include "term/await.h"

#include <limits.h>
#include <poll.h>
#include <time.h>
#include <unistd.h>

#include "term/signals.h"

/* How often input may be reported ready and yield nothing before the terminal counts as gone. */
enum { VAIN_MAX = 3 };

static struct {
    bool gone;    /* for good */
    bool hung_up; /* poll reported it; input that arrived before may still be read */
    int vain;
} state;

void await_begin(void)
{
    state.gone = state.hung_up = false;
    state.vain = 0;
}

bool await_is_gone(void)
{
    return state.gone;
}

void await_heard(void)
{
    state.vain = 0;
}

static long long now_ms(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (long long)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

static int time_left(long long deadline_ms)
{
    long long left = deadline_ms - now_ms();
    return left < 0 ? 0 : left < INT_MAX ? (int)left : INT_MAX;
}

struct await_deadline await_deadline(int timeout_ms)
{
    if (timeout_ms < 0) {
        return (struct await_deadline){.never = true};
    }
    return (struct await_deadline){.at_ms = now_ms() + timeout_ms};
}

/* A terminal that is gone reports a hangup, or is always ready and never has any input. */
bool await_something(const struct await_deadline *deadline)
{
    struct pollfd fds[] = {{.fd = STDIN_FILENO, .events = POLLIN},
                           {.fd = signals_fd(), .events = POLLIN}};
    int ready = poll(fds, 2, deadline->never ? -1 : time_left(deadline->at_ms));
    if (ready == 0) {
        return false;
    }
    signals_drain();
    if (ready > 0 && (fds[0].revents & (POLLHUP | POLLERR | POLLNVAL)) != 0) {
        state.gone = state.hung_up;
        state.hung_up = true;
    } else if (ready > 0 && (fds[0].revents & POLLIN) != 0) {
        state.gone = ++state.vain > VAIN_MAX;
    }
    return true;
}
