/* SPDX-License-Identifier: MIT */
#ifndef SILLET_STORE_SHOP_H
#define SILLET_STORE_SHOP_H

#include "model/field.h"
#include "store/problem.h"

/*
 * The shop's settings, shop.ini in the configuration folder: in which units its gauges
 * read, and what stands on the sheets that it hands over.
 *
 *     [shop]
 *     name = ...            on sheets; so are the next two
 *     address = ...
 *     contact = ...
 *     paper = a4            a4 or letter; a4 in a metric shop and letter in one of inches
 *     units = inch          inch or metric: what the rest starts from
 *     feeler = th           th, 100ths or mm
 *     rule = 64ths          64ths, th or mm
 *     depth = 64ths         64ths, th or mm
 *     gauge = th            th or mm
 *     small = in            in or mm
 *     long = in             in or mm
 *     temperature = F       F or C
 */

/* The file's path, to be freed. Failures of paths_config_folder. */
enum status shop_path(char **ret_path);

/*
 * Reads a settings file. What is not understood becomes a problem (may be NULL) and the
 * rest holds; a missing file is a shop of inches. Failures of file_read and
 * ini_text_parse, *ret_units untouched.
 */
enum status shop_read(const char *path, struct problems *problems, struct shop_units *ret_units);

enum shop_paper { SHOP_PAPER_UNSAID, SHOP_PAPER_A4, SHOP_PAPER_LETTER };

/* What stands on the shop's sheets; "" for what it never said. A longer text is cut. */
struct shop_letterhead {
    char name[200], address[400], contact[200];
    enum shop_paper paper;
};

/* As shop_read; a missing file is a shop that said nothing. */
enum status shop_read_letterhead(const char *path, struct shop_letterhead *ret_letterhead);

/*
 * Writes the units into a settings file, keeping its other lines, and makes its folder
 * where that is missing: `units` is the start that needs the fewest other lines.
 * Failures of safefile; those of shop_read for a file that cannot be read.
 */
enum status shop_write(const char *path, const struct shop_units *units);

#endif
