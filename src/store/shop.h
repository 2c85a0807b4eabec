/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHOP_H
#define SILLET_STORE_SHOP_H

#include <stdbool.h>

#include "model/reading/field.h"
#include "store/problem.h"

/*
 * The shop's settings, shop.ini in the configuration folder: the units that its gauges read in,
 * and the letterhead of its sheets.
 *
 *     [shop]
 *     name = ...            printed on sheets, like the next two
 *     address = ...
 *     contact = ...
 *     paper = a4            a4 or letter; else a4 in a metric shop, letter in an inch shop
 *     units = inch          inch or metric: the default for the rest
 *     feeler = th           th, 100ths or mm
 *     rule = 64ths          64ths, th or mm
 *     depth = 64ths         64ths, th or mm
 *     gauge = th            th or mm
 *     small = in            in or mm
 *     long = in             in or mm
 *     temperature = F       F or C
 *
 * and the shop's own targets for a kind of instrument (shop_targets.h), and its prices
 * (shop_prices.h).
 */

/* The file's path, which the caller frees. Fails as paths_config_folder. */
enum status shop_path(char **ret_path);

/*
 * Reads a settings file. Whatever is not understood becomes a problem and the rest is used.
 * `problems` may be NULL. A missing file means an inch shop. Fails as file_read and
 * ini_text_parse; *ret_units is then untouched.
 */
enum status shop_read(const char *path, struct problems *problems, struct shop_units *ret_units);

/* Whether a settings file says in which units any gauge reads. Fails as shop_read. */
enum status shop_says_units(const char *path, bool *ret_says);

enum shop_paper { SHOP_PAPER_UNSAID, SHOP_PAPER_A4, SHOP_PAPER_LETTER };

/* The head of the shop's sheets; "" for what is not set. Longer texts are cut. */
struct shop_letterhead {
    char name[200], address[400], contact[200];
    enum shop_paper paper;
};

/* As shop_read; with a missing file nothing is set. */
enum status shop_read_letterhead(const char *path, struct shop_letterhead *ret_letterhead);

/*
 * Writes the units into a settings file and keeps its other lines. Sets `units` to the default
 * that needs the fewest other settings. Fails as shop_file_change.
 */
enum status shop_write(const char *path, const struct shop_units *units);

#endif
