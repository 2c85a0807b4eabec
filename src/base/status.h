/* SPDX-License-Identifier: MIT */
#ifndef SILLET_BASE_STATUS_H
#define SILLET_BASE_STATUS_H

/*
 * The result of a call. Zero is success; a negative value is a failure, after which every
 * `ret_` output is untouched. The lower layers only report;
 * main, app and ui turn a status into words for a person.
 */
#define STATUS_LIST(X)                                                                             \
    X(STATUS_OK, 0, "good")                                                                        \
    X(STATUS_ABSENT, -1, "a reading that this needs is absent")                                    \
    X(STATUS_DOMAIN, -2, "outside what the formula allows")                                        \
    X(STATUS_SYNTAX, -3, "not understood")                                                         \
    X(STATUS_UNIT, -4, "the unit is missing or of the wrong kind")                                 \
    X(STATUS_RANGE, -5, "outside what is physically possible")                                     \
    X(STATUS_TOO_LONG, -6, "too long")                                                             \
    X(STATUS_NO_MEMORY, -7, "out of memory")                                                       \
    X(STATUS_NOT_CONVERGED, -8, "the search for a solution did not settle")                        \
    X(STATUS_NOT_FOUND, -9, "no such thing")                                                       \
    X(STATUS_IO, -10, "could not be read or written")                                              \
    X(STATUS_NOT_REGULAR, -11, "not a regular file")                                               \
    X(STATUS_TOO_LARGE, -12, "larger than a profile can be")                                       \
    X(STATUS_BINARY, -13, "holds bytes that no text file holds")                                   \
    X(STATUS_DAMAGED, -14, "damaged or cut short")                                                 \
    X(STATUS_NEWER, -15, "written by a newer version")                                             \
    X(STATUS_CHANGED, -16, "changed on disk by someone else")                                      \
    X(STATUS_LOCKED, -17, "in use by another sillet")                                              \
    X(STATUS_FULL, -18, "no room left")                                                            \
    X(STATUS_READ_ONLY, -19, "may not be written")                                                 \
    X(STATUS_MOVED, -20, "its folder is another one now")                                          \
    X(STATUS_NOWHERE, -21, "a link that leads nowhere")                                            \
    X(STATUS_NOT_OURS, -22, "only its owner may change it here")

enum status {
#define STATUS_ENUM(name, number, text) name = number,
    STATUS_LIST(STATUS_ENUM)
#undef STATUS_ENUM
};

/* Plain words for a status; never NULL, even for an unknown number. */
const char *status_text(enum status status);

#endif
