/* SPDX-License-Identifier: MIT */
#ifndef SILLET_SESSION_EVENT_H
#define SILLET_SESSION_EVENT_H

#include <stdint.h>

/*
 * An event in a session, from the terminal or from a test. A printable character is its own number
 * (Unicode). The number pad's keys arrive as the plain characters that they stand for (digits, '.',
 * '/', '+', '-', '*') and SILLET_KEY_ENTER; with Num Lock off, as moving keys, and 5 as a blank.
 */
enum key {
    SILLET_KEY_NONE = 0,
    SILLET_KEY_ENTER = 0x110000, /* beyond Unicode, so that no character collides */
    SILLET_KEY_BACKSPACE,
    SILLET_KEY_DELETE,
    SILLET_KEY_ESCAPE,
    SILLET_KEY_TAB,
    SILLET_KEY_BACKTAB,
    SILLET_KEY_UP,
    SILLET_KEY_DOWN,
    SILLET_KEY_LEFT,
    SILLET_KEY_RIGHT,
    SILLET_KEY_HOME,
    SILLET_KEY_END,
    SILLET_KEY_PAGE_UP,
    SILLET_KEY_PAGE_DOWN,
    SILLET_KEY_INSERT,
    SILLET_KEY_F1, /* up to F12, in order */
    SILLET_KEY_F12 = SILLET_KEY_F1 + 11,
    SILLET_KEY_PASTE_BEGIN, /* what follows, up to PASTE_END, was pasted */
    SILLET_KEY_PASTE_END,
    SILLET_KEY_UNKNOWN, /* a key that the terminal sent and the program does not know */
};

/* Ctrl with a letter a..z, as the terminal sends it. */
#define SILLET_KEY_CTRL(letter) ((uint32_t)(letter)&0x1FU)

enum event_type {
    EVENT_NONE, /* the wait timed out */
    EVENT_KEY,
    EVENT_RESIZE, /* the terminal has another size; read it again */
    EVENT_HANGUP, /* the terminal is gone or a signal asks the program to end */
    EVENT_RESUME, /* back from being stopped: paint everything */
};

struct event {
    enum event_type type;
    uint32_t key; /* EVENT_KEY: a character or an enum key */
};

#endif
