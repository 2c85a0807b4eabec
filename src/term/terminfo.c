/* SPDX-License-Identifier: MIT */
#include "term/terminfo.h"

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

/* A file of its own: term.h defines words such as "columns" as macros. */
#include <curses.h>
#include <term.h>

/* A terminal too new for this machine's terminfo is nearly always compatible with this one, and
 * so is one whose TERM was lost. */
static const char fallback_name[] = "xterm-256color";

/* Static, because tputs passes no context to its callback. */
static struct {
    char *bytes;
    size_t size, length;
} collected;

/* Checked before anything is sent, so that a refusal leaves the screen alone. */
static enum status look_up(const char *name)
{
    int found = 0;
    if (setupterm(name, STDOUT_FILENO, &found) != OK) {
        return STATUS_NOT_FOUND;
    }
    enum status status = cursor_address == NULL ? STATUS_DOMAIN : STATUS_OK;
    del_curterm(cur_term);
    return status;
}

enum status terminfo_choose(const char **ret_name)
{
    const char *name = getenv("TERM");
    bool named = name != NULL && name[0] != '\0';
    enum status status = named ? look_up(name) : STATUS_NOT_FOUND;
    if (status == STATUS_NOT_FOUND) {
        name = fallback_name;
        status = look_up(name);
    }
    if (status == STATUS_OK) {
        *ret_name = name;
    }
    return status;
}

/* Bracketed paste. Few terminfo entries mention it. A terminal without it ignores the sequence, if
 * it knows private modes at all. */
static const char *paste_marks(bool on)
{
    const char *own = tigetstr(on ? "BE" : "BD");
    const bool has_own = own != NULL && own != (const char *)-1;
    const bool is_ansi = cursor_address[0] == '\033' && cursor_address[1] == '[';

    if (has_own || !is_ansi) {
        return has_own ? own : NULL;
    }
    return on ? "\033[?2004h" : "\033[?2004l";
}

void terminfo_mark_pastes(bool on)
{
    const char *bytes = paste_marks(on);

    if (bytes != NULL) {
        putp(bytes);
        fflush(stdout); /* putp goes to stdio; curses has its own buffer for the rest */
    }
}

static int collect_byte(int byte)
{
    if (collected.length < collected.size) {
        collected.bytes[collected.length++] = (char)byte;
    }
    return byte;
}

size_t terminfo_rescue(char *out, size_t size)
{
    const char *const last = exit_ca_mode != NULL ? exit_ca_mode : clear_screen;
    const char *const wanted[] = {exit_attribute_mode, orig_pair,          cursor_normal,
                                  keypad_local,        paste_marks(false), last};
    collected.bytes = out;
    collected.size = size;
    collected.length = 0;
    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++) {
        if (wanted[i] != NULL) {
            tputs(wanted[i], 1, collect_byte);
        }
    }
    return collected.length;
}
