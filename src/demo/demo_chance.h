/* SPDX-License-Identifier: MIT */
#ifndef SILLET_DEMO_DEMO_CHANCE_H
#define SILLET_DEMO_DEMO_CHANCE_H

#include <math.h>
#include <stdint.h>

/* Chance for the made-up shop, the same for the same seed: splitmix64 (Steele, Lea and Flood, "Fast
 * splittable pseudorandom number generators", OOPSLA 2014; from memory). */
struct demo_chance {
    uint64_t state;
};

static inline uint64_t demo_bits(struct demo_chance *chance)
{
    uint64_t z = (chance->state += UINT64_C(0x9e3779b97f4a7c15));

    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return z ^ (z >> 31);
}

/* Uniform, least <= x < most. */
static inline double demo_between(struct demo_chance *chance, double least, double most)
{
    return least + (most - least) * ((double)(demo_bits(chance) >> 11) * 0x1p-53);
}

/* One of `count`, from 0. */
static inline int demo_pick(struct demo_chance *chance, int count)
{
    return (int)(demo_bits(chance) % (uint64_t)count);
}

/* Normal, with that standard deviation (Box and Muller 1958). */
static inline double demo_normal(struct demo_chance *chance, double deviation)
{
    const double radius = sqrt(-2 * log(1 - demo_between(chance, 0, 1)));

    return deviation * radius * cos(6.283185307179586 * demo_between(chance, 0, 1));
}

#endif
