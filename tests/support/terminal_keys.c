/* SPDX-License-Identifier: MIT */
#include "terminal_keys.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include <curses.h>
#include <term.h>

static const struct {
    const char *capability;
    const char *usual; /* if the entry has none */
} spellings[TERMINAL_KEY_COUNT_] = {
    [TERMINAL_UP] = {"kcuu1", "\033[A"},      [TERMINAL_DOWN] = {"kcud1", "\033[B"},
    [TERMINAL_LEFT] = {"kcub1", "\033[D"},    [TERMINAL_RIGHT] = {"kcuf1", "\033[C"},
    [TERMINAL_HOME] = {"khome", "\033[H"},    [TERMINAL_END] = {"kend", "\033[F"},
    [TERMINAL_PAGE_UP] = {"kpp", "\033[5~"},  [TERMINAL_PAGE_DOWN] = {"knp", "\033[6~"},
    [TERMINAL_DELETE] = {"kdch1", "\033[3~"}, [TERMINAL_BACKSPACE] = {"kbs", "\177"},
    [TERMINAL_BACKTAB] = {"kcbt", "\033[Z"},  [TERMINAL_ENTER] = {NULL, "\r"},
    [TERMINAL_ESCAPE] = {NULL, "\033"},       [TERMINAL_TAB] = {NULL, "\t"},
};

static TERMINAL *load(const char *term)
{
    int found = 0;
    if (setupterm(term, STDOUT_FILENO, &found) != OK) {
        return NULL;
    }
    return cur_term;
}

bool terminal_keys_known(const char *term)
{
    TERMINAL *entry = load(term);
    if (entry != NULL) {
        del_curterm(entry);
    }
    return entry != NULL;
}

void terminal_keys_spell(const char *term, enum terminal_key key, char *out, size_t size)
{
    const char *bytes = NULL;
    TERMINAL *entry = load(term);
    if (entry != NULL && spellings[key].capability != NULL) {
        bytes = tigetstr(spellings[key].capability);
    }
    bool usable = bytes != NULL && strlen(bytes) > 0 && strlen(bytes) < size;
    snprintf(out, size, "%s", usable ? bytes : spellings[key].usual);
    if (entry != NULL) {
        del_curterm(entry);
    }
}

char terminal_keys_pad(char plain)
{
    static const char plains[] = "0123456789*+,-./\r=";
    static const char finals[] = "pqrstuvwxyjklmnoMX";
    const char *at = strchr(plains, plain);
    return plain != '\0' && at != NULL ? finals[at - plains] : '?';
}
