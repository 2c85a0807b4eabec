/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_SURVEY_RECORD_H
#define SILLET_TESTS_SURVEY_RECORD_H

#include "build_record.h"
#include "model/derive/derive.h"

/* Strings for build_record_full, to give it pitch, tension and clearance too: a light
 * set (gauges common practice, cores from memory). */
static const char survey_record_strings[] = "string.1 note = E4\n"
                                            "string.1 gauge = .012 in\n"
                                            "string.1 build = plain\n"
                                            "string.2 note = B3\n"
                                            "string.2 gauge = .016 in\n"
                                            "string.2 build = plain\n"
                                            "string.3 note = G3\n"
                                            "string.3 gauge = .024 in\n"
                                            "string.3 core = .013 in\n"
                                            "string.3 build = round-wound\n"
                                            "string.3 wrap_material = phosphor-bronze\n"
                                            "string.4 note = D3\n"
                                            "string.4 gauge = .032 in\n"
                                            "string.4 core = .014 in\n"
                                            "string.4 build = round-wound\n"
                                            "string.4 wrap_material = phosphor-bronze\n"
                                            "string.5 note = A2\n"
                                            "string.5 gauge = .042 in\n"
                                            "string.5 core = .016 in\n"
                                            "string.5 build = round-wound\n"
                                            "string.5 wrap_material = phosphor-bronze\n"
                                            "string.6 note = E2\n"
                                            "string.6 gauge = .053 in\n"
                                            "string.6 core = .018 in\n"
                                            "string.6 build = round-wound\n"
                                            "string.6 wrap_material = phosphor-bronze\n";

/* build_record_full with these strings and more lines. */
static inline void survey_record_build(struct record *ret_record, const char *more)
{
    build_record(ret_record, build_record_full);
    build_record_add(ret_record, survey_record_strings);
    build_record_add(ret_record, more);
}

/* The same, derived. */
static inline void survey_record_derive(struct record *ret_record, const char *more,
                                        struct derived *ret_derived)
{
    survey_record_build(ret_record, more);
    derive_current(ret_record, ret_derived);
}

static inline bool survey_record_found(const struct findings *findings, enum finding_id id,
                                       int number)
{
    for (int i = 0; i < findings->count; i++)
        if (findings->list[i].id == id && findings->list[i].number == number)
            return true;
    return false;
}

#endif
