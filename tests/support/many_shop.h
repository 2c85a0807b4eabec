/* SPDX-License-Identifier: MIT */
#ifndef SILLET_TESTS_MANY_SHOP_H
#define SILLET_TESTS_MANY_SHOP_H

/*
 * A shop many times over: each profile of the folder `from` so many times in the new folder `to`,
 * the second of "Skiff" as "Skiff 2". So every count is that many times as large, and every
 * median, share and factor is the same. Returns how many profiles there are, -1 if that failed.
 */
int many_shop_make(const char *from, const char *to, int times);

#endif
