/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_SEEDED_H
#define SILLET_TESTS_SEEDED_H

#include <inttypes.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

/*
 * Random numbers for property tests, the same in every run: splitmix64 (Steele,
 * Lea and Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014; from
 * memory). SILLET_TEST_SEED in the environment sets another seed.
 */
struct seeded {
    uint64_t state;
};

/* Starts a run and prints its seed, so that a failure can be repeated. */
static inline struct seeded seeded_start(const char *test)
{
    const char *text = getenv("SILLET_TEST_SEED");
    struct seeded s = {text ? strtoull(text, NULL, 10) : 20260302u};
    fprintf(stderr, "%s: seed %" PRIu64 "\n", test, s.state);
    return s;
}

static inline uint64_t seeded_bits(struct seeded *s)
{
    uint64_t z = (s->state += UINT64_C(0x9e3779b97f4a7c15));
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return z ^ (z >> 31);
}

/* Uniform in [least, most). */
static inline double seeded_between(struct seeded *s, double least, double most)
{
    return least + (most - least) * ((double)(seeded_bits(s) >> 11) * 0x1p-53);
}

/* A whole number from least to most, both included. */
static inline int seeded_whole(struct seeded *s, int least, int most)
{
    return least + (int)(seeded_bits(s) % (uint64_t)(most - least + 1));
}

/* Normal, mean 0, standard deviation 1 (Box and Muller, from memory). */
static inline double seeded_normal(struct seeded *s)
{
    const double radius = sqrt(-2 * log(seeded_between(s, 0x1p-53, 1)));

    return radius * cos(2 * 3.14159265358979323846 * seeded_between(s, 0, 1));
}

#endif
