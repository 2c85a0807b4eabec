/* SPDX-License-Identifier: MIT */
#ifndef SILLET_PAGE_PAGE_CAIRO_LOAD_H
#define SILLET_PAGE_PAGE_CAIRO_LOAD_H

#include <stdbool.h>

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>

/*
 * Private to page: cairo's functions. The library and what it brings along take longer to load than
 * all else that a start does, and most sessions draw no page, so it is loaded when the first one is
 * wanted. Once loaded it stays.
 */

/* For the widths of texts, and which characters the font has. */
#define PAGE_CAIRO_FONT_CALLS(X)                                                                   \
    X(toy_font_face_create)                                                                        \
    X(font_face_destroy)                                                                           \
    X(font_options_create)                                                                         \
    X(font_options_destroy)                                                                        \
    X(font_options_set_hint_style)                                                                 \
    X(font_options_set_hint_metrics)                                                               \
    X(matrix_init_scale)                                                                           \
    X(matrix_init_identity)                                                                        \
    X(scaled_font_create)                                                                          \
    X(scaled_font_destroy)                                                                         \
    X(scaled_font_text_to_glyphs)                                                                  \
    X(scaled_font_text_extents)                                                                    \
    X(glyph_free)

/* For drawing. */
#define PAGE_CAIRO_DRAW_CALLS(X)                                                                   \
    X(create)                                                                                      \
    X(destroy)                                                                                     \
    X(status)                                                                                      \
    X(save)                                                                                        \
    X(restore)                                                                                     \
    X(scale)                                                                                       \
    X(translate)                                                                                   \
    X(rotate)                                                                                      \
    X(clip)                                                                                        \
    X(set_source_rgb)                                                                              \
    X(set_line_width)                                                                              \
    X(set_dash)                                                                                    \
    X(new_sub_path)                                                                                \
    X(move_to)                                                                                     \
    X(line_to)                                                                                     \
    X(arc)                                                                                         \
    X(rectangle)                                                                                   \
    X(stroke)                                                                                      \
    X(fill)                                                                                        \
    X(select_font_face)                                                                            \
    X(set_font_size)                                                                               \
    X(show_text)                                                                                   \
    X(show_page)                                                                                   \
    X(surface_finish)                                                                              \
    X(surface_status)                                                                              \
    X(surface_destroy)                                                                             \
    X(pdf_surface_create_for_stream)                                                               \
    X(pdf_surface_restrict_to_version)                                                             \
    X(pdf_surface_set_metadata)                                                                    \
    X(svg_surface_create_for_stream)                                                               \
    X(svg_surface_set_document_unit)

#define PAGE_CAIRO_MEMBER(name) __typeof__(cairo_##name) *name;

struct page_cairo_fonts {
    PAGE_CAIRO_FONT_CALLS(PAGE_CAIRO_MEMBER)
};

struct page_cairo {
    struct page_cairo_fonts fonts;
    PAGE_CAIRO_DRAW_CALLS(PAGE_CAIRO_MEMBER)
};

/* False if this machine has no cairo, or one that lacks a function. */
bool page_cairo_load_fonts(struct page_cairo_fonts *ret_fonts);
bool page_cairo_load(struct page_cairo *ret_cairo);

#endif
