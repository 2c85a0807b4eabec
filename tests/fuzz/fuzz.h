/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_FUZZ_H
#define SILLET_TESTS_FUZZ_H

#include <stddef.h>
#include <stdint.h>

/*
 * What every harness has and shares. A harness is one LLVMFuzzerTestOneInput: libFuzzer calls
 * it with bytes it made up (`sh tests/run fuzz`), replay.c with those of the corpus.
 */
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* Ends the process when something that must hold does not: libFuzzer then keeps the bytes. */
#define FUZZ_CHECK(condition) ((condition) ? (void)0 : fuzz_fail(#condition, __FILE__, __LINE__))

/* The same with what sound.h says: NULL is good. */
#define FUZZ_SOUND(fault) fuzz_expect_sound((fault), __FILE__, __LINE__)

#if defined(__GNUC__)
__attribute__((noreturn))
#endif
void fuzz_fail(const char *words, const char *file, int line);
void fuzz_expect_sound(const char *fault, const char *file, int line);

/* Bytes taken one after another; past the end they are 0. */
struct fuzz_bytes {
    const uint8_t *at;
    size_t left;
};

uint8_t fuzz_byte(struct fuzz_bytes *bytes);

/* A whole number from 0 to most. */
int fuzz_whole(struct fuzz_bytes *bytes, int most);

/* The next `length` bytes, or what is left, as a text up to their first NUL. To be freed. */
char *fuzz_text(struct fuzz_bytes *bytes, size_t length);

/* The path of a file that holds these bytes until the next call; below a folder of this
 * process, which goes with it. */
const char *fuzz_file(const void *data, size_t size);

#endif
