/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_TERMINAL_H
#define SILLET_TESTS_TERMINAL_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <sys/types.h>

/*
 * A terminal for tests: a program on a pseudo-terminal whose output libvterm draws into a
 * screen that can be read back. Every wait is for a definite event, with a
 * deadline; nothing sleeps for a fixed time. The `expect` calls fail the running test and print
 * the screen; the macros below give them the caller's line.
 *
 * (Not called vterm.h: <vterm.h> is the library's.)
 */
struct terminal;

struct terminal_setup {
    const char *const *argv; /* argv[0] is the program's path; NULL at the end */
    const char *term;        /* TERM; NULL: xterm-256color; "-": unset */
    const char *lang;        /* LANG; NULL: C.UTF-8 */
    const char *const *env;  /* "NAME=value", before all others; NULL at the end; may be NULL */
    const char *home;        /* NULL: an empty folder of its own, removed at the end */
    int rows, columns;       /* 0: 24 x 80 */
    bool no_wait;            /* the terminal is in O_NONBLOCK */
    bool ignore_hangup;      /* starts the program with SIGHUP ignored, like nohup */
};

/*
 * Starts the program. Its environment holds only: PATH and the sanitizers' variables, inherited;
 * TERM, LANG, HOME, XDG_DATA_HOME and XDG_STATE_HOME inside HOME, TZ=UTC, and `env`.
 */
struct terminal *terminal_start(const struct terminal_setup *setup);

/* Kills the program if it still runs, and frees everything. NULL is fine. */
void terminal_stop(struct terminal *terminal);

/* The temporary folder that is the program's HOME, and the program's process id. */
const char *terminal_home(const struct terminal *terminal);
pid_t terminal_pid(const struct terminal *terminal);

/* --- keys --- */

enum terminal_key {
    TERMINAL_UP,
    TERMINAL_DOWN,
    TERMINAL_LEFT,
    TERMINAL_RIGHT,
    TERMINAL_HOME,
    TERMINAL_END,
    TERMINAL_PAGE_UP,
    TERMINAL_PAGE_DOWN,
    TERMINAL_DELETE,
    TERMINAL_BACKSPACE,
    TERMINAL_BACKTAB,
    TERMINAL_ENTER,
    TERMINAL_ESCAPE,
    TERMINAL_TAB,
    TERMINAL_KEY_COUNT_
};

/* Send raw bytes; a text; a named key as the terminfo entry of TERM spells it (as a
 * common terminal does if the entry has none). */
void terminal_feed(struct terminal *terminal, const void *bytes, size_t length);
void terminal_type(struct terminal *terminal, const char *text);
void terminal_key(struct terminal *terminal, enum terminal_key key);

/* A number-pad key in application mode (ESC O p..y j k l m n o M X) by the character that
 * it stands for: 0-9 * + , - . / = and '\r'. */
void terminal_keypad(struct terminal *terminal, char plain);

/* --- waiting; all give up after twenty seconds (a loaded machine, a sanitizer), or sooner
 * once the program has ended --- */

enum { TERMINAL_DEADLINE_MS = 20000 };

bool terminal_sees(struct terminal *terminal, const char *text, int timeout_ms);
bool terminal_lost_sight_of(struct terminal *terminal, const char *text, int timeout_ms);
/* The status as waitpid gives it. */
bool terminal_ended(struct terminal *terminal, int timeout_ms, int *ret_status);

/* Waits until the program has nothing more to say: sleeping, all input taken, no bytes for a
 * while. Only for cases where there is no definite event to wait for. */
void terminal_settle(struct terminal *terminal);

void terminal_expect_at(struct terminal *terminal, const char *text, const char *file, int line);
void terminal_expect_gone_at(struct terminal *terminal, const char *text, const char *file,
                             int line);
int terminal_expect_end_at(struct terminal *terminal, const char *file, int line);
void terminal_fail_at(struct terminal *terminal, const char *what, const char *file, int line);

#define terminal_expect(terminal, text) terminal_expect_at(terminal, text, __FILE__, __LINE__)
#define terminal_expect_gone(terminal, text)                                                       \
    terminal_expect_gone_at(terminal, text, __FILE__, __LINE__)
#define terminal_expect_end(terminal) terminal_expect_end_at(terminal, __FILE__, __LINE__)
#define terminal_check(terminal, condition)                                                        \
    ((condition) ? (void)0 : terminal_fail_at(terminal, #condition, __FILE__, __LINE__))

/* --- the screen --- */

/* A row as UTF-8, trailing blanks dropped; "" outside the screen. Valid until the next call. */
const char *terminal_row(struct terminal *terminal, int row);

/* The first row that holds the text, and its column; -1 if none does. */
int terminal_find(struct terminal *terminal, const char *text, int *ret_column);

struct terminal_cell {
    char text[32]; /* UTF-8, "" for blank */
    int width;
    bool bold, reverse, underline;
    int foreground, background; /* colour index; -1: the terminal's own; -2: direct colour */
};

struct terminal_cell terminal_cell(struct terminal *terminal, int row, int column);
void terminal_cursor(const struct terminal *terminal, int *ret_row, int *ret_column,
                     bool *ret_visible);
bool terminal_on_alternate_screen(const struct terminal *terminal);

/* Whether the line modes (echo, canonical input and so on) are as before the start. */
bool terminal_modes_restored(const struct terminal *terminal);

/* Sets the line modes to those before the start, as a shell does when its job stops. */
void terminal_restore_modes(struct terminal *terminal);

/* The number of bytes received from the program so far, and the bytes, followed by a NUL;
 * NULL if there were none. */
size_t terminal_bytes(const struct terminal *terminal);
const char *terminal_output(const struct terminal *terminal);

/* How often the program has written, to whatever file; -1 where the system does not tell. */
long terminal_writes(const struct terminal *terminal);

/* All bytes typed at the program so far, by any function; NULL if they were too many to keep. */
const char *terminal_sent(const struct terminal *terminal, size_t *ret_count);

/* Reads what has arrived, waiting at most timeout_ms for a first byte; false if nothing came. */
bool terminal_pump(struct terminal *terminal, int timeout_ms);

/* Prints the screen to stderr. */
void terminal_print(struct terminal *terminal);

/* --- what happens to terminals --- */

void terminal_resize(struct terminal *terminal, int rows, int columns);
void terminal_signal(struct terminal *terminal, int number);

/* From now on nobody reads the program's output until it has ended; or, if `stopped`, the line is
 * stopped as by Ctrl-S. Waits until the program cannot write any more and sleeps. */
void terminal_stick(struct terminal *terminal, bool stopped);

/* The terminal is gone: window closed, line dropped. Only terminal_ended, terminal_pid,
 * terminal_home and terminal_stop make sense after it. */
void terminal_hang_up(struct terminal *terminal);

#endif
