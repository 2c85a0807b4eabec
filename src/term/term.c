/* SPDX-License-Identifier: MIT */
#include "term/term.h"

#include <curses.h>
#include <fcntl.h>
#include <langinfo.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <termios.h>
#include <unistd.h>

#include "term/await.h"
#include "term/decode.h"
#include "term/show.h"
#include "term/signals.h"
#include "term/terminfo.h"

/* How long the rest of a key's sequence may lag. Longer makes Escape slow; shorter splits
 * an arrow key into three keys on a slow line. */
enum { ESCAPE_MS = 50 };

static struct {
    SCREEN *screen;
    struct termios found; /* the terminal's modes before we came */
    int line;             /* a second descriptor of it, in case the first is redirected; -1: none */
    int found_flags;
    struct term_traits traits;
    struct winsize seen; /* the size last acted on, before clipping to a frame */
    bool resumed;        /* EVENT_RESUME is due */
    char reason[160];
} state;

/* Copies `text` with anything but plain ASCII as '?', safe to print. */
static void copy_plain(char *out, size_t size, const char *text)
{
    size_t length = 0;
    for (; *text != '\0' && length + 1 < size; text++) {
        bool plain = *text > ' ' && *text < 0x7F;
        out[length++] = plain ? *text : '?';
    }
    out[length] = '\0';
}

static enum status choose_name(const char **ret_name)
{
    enum status status = terminfo_choose(ret_name);
    if (status == STATUS_OK) {
        return status;
    }
    char shown[64];
    const char *name = getenv("TERM");
    copy_plain(shown, sizeof shown, name != NULL ? name : "");
    snprintf(state.reason, sizeof state.reason,
             status == STATUS_DOMAIN
                 ? "the terminal type \"%s\" (TERM) cannot place the cursor; use one that can"
                 : "the terminal type \"%s\" (TERM) is not known on this machine",
             shown);
    return status;
}

/* Prepares what a crash must send, since a signal handler cannot call terminfo. */
static void prepare_rescue(void)
{
    struct signals_rescue rescue = {.fd = STDOUT_FILENO, .modes = state.found};
    rescue.length = terminfo_rescue(rescue.bytes, sizeof rescue.bytes);
    signals_arm(&rescue);
}

static void read_traits(int colours)
{
    state.traits.rows = getmaxy(stdscr);
    state.traits.columns = getmaxx(stdscr);
    state.traits.colours = colours;
    state.traits.utf8 = strcmp(nl_langinfo(CODESET), "UTF-8") == 0;
}

/* True when curses has been given a new size. Checked at every event, so that a resize is not
 * missed when it coincides with a key or its signal is lost. */
static bool follow_size(void)
{
    struct winsize size;
    if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_row == 0 || size.ws_col == 0) {
        return false;
    }
    if (size.ws_row == state.seen.ws_row && size.ws_col == state.seen.ws_col) {
        return false;
    }
    state.seen = size;
    int rows = size.ws_row < FRAME_ROWS_MAX ? size.ws_row : FRAME_ROWS_MAX;
    int columns = size.ws_col < FRAME_COLUMNS_MAX ? size.ws_col : FRAME_COLUMNS_MAX;
    if (rows == state.traits.rows && columns == state.traits.columns) {
        return false;
    }
    resize_term(rows, columns);
    read_traits(state.traits.colours);
    show_repaint();
    return true;
}

static bool colour_wanted(void)
{
    const char *no_color = getenv("NO_COLOR");
    return no_color == NULL || no_color[0] == '\0';
}

/* If the terminal was left in O_NONBLOCK, curses would spin for ever while its buffer is full. */
static void take_line(void)
{
    state.line = fcntl(STDOUT_FILENO, F_DUPFD_CLOEXEC, STDERR_FILENO + 1);
    state.found_flags = fcntl(state.line, F_GETFL);
    if (state.found_flags >= 0 && (state.found_flags & O_NONBLOCK) != 0) {
        fcntl(state.line, F_SETFL, state.found_flags & ~O_NONBLOCK);
    }
}

static void drop_line(void)
{
    if (state.line < 0) {
        return;
    }
    if ((state.found_flags & O_NONBLOCK) != 0) {
        fcntl(state.line, F_SETFL, state.found_flags);
    }
    close(state.line);
}

/* The line changes nothing of what is sent: it would pass on a frame in pieces, between which half
 * of it could be seen. */
static void take_output(void)
{
    struct termios modes;

    if (tcgetattr(STDOUT_FILENO, &modes) == 0) {
        modes.c_oflag &= ~(tcflag_t)OPOST;
        (void)tcsetattr(STDOUT_FILENO, TCSADRAIN, &modes);
        def_prog_mode();
    }
}

static void set_modes(void)
{
    take_output();
    if (getenv("ESCDELAY") == NULL) {
        set_escdelay(ESCAPE_MS);
    }
    raw(); /* with cbreak, Ctrl-S would freeze the screen */
    noecho();
    nonl();
    terminfo_mark_pastes(true);
    decode_open();
}

/* Curses never sends more than this blank screen: frames are painted by show.c. */
static void take_screen(void)
{
    signals_showing(true);
    refresh();
    signals_showing(false);
    show_repaint();
}

static enum status start_curses(const char *name)
{
    /* Curses would never follow a resize with these set. */
    unsetenv("LINES");
    unsetenv("COLUMNS");
    state.screen = newterm(name, stdout, stdin);
    if (state.screen == NULL) {
        snprintf(state.reason, sizeof state.reason, "the terminal could not be set up");
        return STATUS_IO;
    }
    set_modes();
    read_traits(0);
    read_traits(show_open(state.traits.utf8, colour_wanted()));
    state.seen = (struct winsize){0};
    follow_size(); /* the terminal may be larger than a frame can be */
    take_screen();
    return STATUS_OK;
}

static enum status check_terminal(void)
{
    if (!isatty(STDIN_FILENO) || !isatty(STDOUT_FILENO) ||
        tcgetattr(STDOUT_FILENO, &state.found) != 0) {
        snprintf(state.reason, sizeof state.reason,
                 "this needs a terminal: its input and output must not be redirected");
        return STATUS_IO;
    }
    return STATUS_OK;
}

enum status term_start(const char **ret_reason)
{
    const char *name = NULL;
    if (state.screen != NULL) {
        return STATUS_OK;
    }
    enum status status = check_terminal();
    if (status == STATUS_OK) {
        status = choose_name(&name);
    }
    if (status == STATUS_OK) {
        status = signals_open();
        snprintf(state.reason, sizeof state.reason, "the system allows no more open files");
    }
    if (status == STATUS_OK) {
        state.resumed = false;
        await_begin();
        take_line();
        /* After signals_open: curses does not touch signals that already have handlers. */
        status = start_curses(name);
        if (status != STATUS_OK) {
            drop_line();
        }
    }
    if (status != STATUS_OK) {
        signals_close();
        *ret_reason = state.reason;
        return status;
    }
    prepare_rescue();
    return STATUS_OK;
}

static void leave_screen(void)
{
    signals_showing(true);
    terminfo_mark_pastes(false);
    show_leave();
    endwin();
    signals_showing(false);
}

/* delscreen crashes when memory has run out. Then the screen is left to the end of the process. */
static void free_screen(void)
{
    void *volatile probe = malloc(BUFSIZ); /* volatile: else the compiler drops it */
    const bool has_memory = probe != NULL;

    free(probe);
    if (has_memory) {
        delscreen(state.screen);
    }
}

void term_stop(void)
{
    if (state.screen == NULL) {
        return;
    }
    leave_screen();
    free_screen();
    state.screen = NULL;
    signals_rescue_line(state.line);
    drop_line();
    signals_close();
}

struct term_traits term_traits(void)
{
    return state.traits;
}

int term_end_signal(void)
{
    return signals_end();
}

/* Takes the terminal over again after it was left: modes, screen, everything. */
static void take_terminal_again(void)
{
    signals_take_continued();
    signals_showing(true);
    terminfo_mark_pastes(true);
    signals_showing(false);
    take_screen();
    state.resumed = true;
}

static void suspend(bool whole_group)
{
    leave_screen();
    signals_stop_now(whole_group);
    take_terminal_again();
}

void term_suspend(void)
{
    if (state.screen != NULL) {
        suspend(true);
    }
}

/* The events that come before keys; EVENT_NONE if there is none. */
static enum event_type urgent(void)
{
    if (await_is_gone() || signals_end() != 0) {
        return EVENT_HANGUP;
    }
    if (signals_take_stop()) {
        suspend(false);
    } else if (signals_take_continued()) {
        leave_screen(); /* a shell may have changed the modes while we were stopped */
        take_terminal_again();
    }
    if (state.resumed) {
        state.resumed = false;
        return EVENT_RESUME;
    }
    return follow_size() ? EVENT_RESIZE : EVENT_NONE;
}

/* Curses gives up on a half-read sequence when a signal interrupts its wait for the rest: an
 * arrow key during a resize would become Escape and two letters. */
static bool next_key(uint32_t *ret_key)
{
    signals_hold();
    bool any = decode_next(ret_key);
    signals_release();
    return any;
}

struct event term_wait(int timeout_ms)
{
    struct event event = {.type = EVENT_NONE};
    if (state.screen == NULL) {
        return (struct event){.type = EVENT_HANGUP};
    }
    const struct await_deadline deadline = await_deadline(timeout_ms);
    for (;;) {
        event.type = urgent();
        if (event.type != EVENT_NONE) {
            return event;
        }
        if (next_key(&event.key)) {
            await_heard();
            event.type = EVENT_KEY;
            return event;
        }
        if (!await_something(&deadline)) {
            return event;
        }
    }
}

void term_show(const struct frame *frame)
{
    if (state.screen != NULL && !await_is_gone()) {
        signals_showing(true);
        show_frame(frame);
        signals_showing(false);
    }
}

void term_repaint(void)
{
    if (state.screen != NULL) {
        show_repaint();
    }
}
