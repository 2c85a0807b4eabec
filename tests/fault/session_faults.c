/* SPDX-License-Identifier: MIT */

/* Linked into the program under test: makes the faults asked for, and reports its progress. */
#include "session_faults.h"

#include <curses.h>
#include <fcntl.h>
#include <poll.h>
#include <stdlib.h>
#include <sys/mman.h>

static struct {
    struct session_faults *page; /* NULL: nobody asks */
    int keys;
} state;

/* Before main, so that its calls count from the first. */
__attribute__((constructor)) static void begin(void)
{
    const char *path = getenv("SILLET_FAULTS");
    const int fd = path ? open(path, O_RDWR) : -1;
    void *page = fd < 0 ? MAP_FAILED
                        : mmap(NULL, sizeof *state.page, PROT_READ | PROT_WRITE, MAP_SHARED, fd, 0);

    if (page == MAP_FAILED)
        return;
    state.page = page;
    fault_arm(state.page->call, state.page->way, state.page->nth, state.page->error);
}

static void tell(void)
{
    state.page->keys = state.keys;
    for (int call = 0; call < FAULT_COUNT_; call++)
        state.page->seen[call] = fault_seen((enum fault_call)call);
}

int __real_wgetch(WINDOW *window);
int __wrap_wgetch(WINDOW *window);
int __wrap_wgetch(WINDOW *window)
{
    const int key = __real_wgetch(window);

    state.keys += key != ERR;
    return key;
}

/* Nothing has come, so what came before is done and shown. */
int __real_poll(struct pollfd *fds, nfds_t count, int timeout_ms);
int __wrap_poll(struct pollfd *fds, nfds_t count, int timeout_ms);
int __wrap_poll(struct pollfd *fds, nfds_t count, int timeout_ms)
{
    if (state.page && timeout_ms != 0 && __real_poll(fds, count, 0) == 0)
        tell();
    return __real_poll(fds, count, timeout_ms);
}
