/* SPDX-License-Identifier: MIT */
#include "page/page_cairo_text.h"

#include <stdbool.h>
#include <string.h>

#include "base/strbuf.h"
#include "base/utf8.h"
#include "page/page_write.h"

enum { TEXT_MAX = 1024 }; /* bytes of one text as drawn */

static const char family[] = "sans-serif";

/* Without hinting, so that text widths scale with the size and are the same on every surface. */
static cairo_scaled_font_t *open_font(const struct page_font *font)
{
    cairo_font_face_t *face = cairo_toy_font_face_create(
        family, CAIRO_FONT_SLANT_NORMAL,
        font->weight == PAGE_BOLD ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_matrix_t size, identity;

    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_matrix_init_scale(&size, font->size_mm, font->size_mm);
    cairo_matrix_init_identity(&identity);
    cairo_scaled_font_t *scaled = cairo_scaled_font_create(face, &size, &identity, options);
    cairo_font_options_destroy(options);
    cairo_font_face_destroy(face);
    return scaled;
}

/* Whether the font has a glyph for every character; glyph 0 is the box for a missing one. */
static bool has_glyphs(cairo_scaled_font_t *font, const char *text, size_t length)
{
    cairo_glyph_t *glyphs = NULL;
    int count = 0;
    bool all = true;

    if (cairo_scaled_font_text_to_glyphs(font, 0, 0, text, (int)length, &glyphs, &count, NULL, NULL,
                                         NULL) != CAIRO_STATUS_SUCCESS)
        return false;
    for (int i = 0; i < count; i++)
        if (glyphs[i].index == 0)
            all = false;
    cairo_glyph_free(glyphs);
    return all;
}

static void add_plain(struct strbuf *out, const char *bytes, size_t length)
{
    char memory[8];
    struct strbuf rune = STRBUF(memory);

    strbuf_add_bytes(&rune, bytes, length);
    utf8_add_ascii(out, memory);
}

/* Copies the text, with plain characters in place of those that the font lacks. */
static void make_drawable(cairo_scaled_font_t *font, const char *text, struct strbuf *out)
{
    size_t left = strlen(text);

    while (left > 0) {
        uint32_t rune;
        const size_t length = utf8_decode(text, left, &rune, NULL);

        if (!utf8_unsafe(rune) && has_glyphs(font, text, length))
            strbuf_add_bytes(out, text, length);
        else
            add_plain(out, text, length);
        text += length;
        left -= length;
    }
}

static double width_of(cairo_scaled_font_t *font, const char *text)
{
    cairo_text_extents_t extents;

    cairo_scaled_font_text_extents(font, text, &extents);
    return extents.x_advance;
}

double page_text_width_mm(const struct page_font *font, const char *utf8)
{
    char memory[TEXT_MAX];
    struct strbuf text = STRBUF(memory);
    cairo_scaled_font_t *scaled = open_font(font);

    make_drawable(scaled, utf8, &text);
    const double width_mm = width_of(scaled, memory);
    cairo_scaled_font_destroy(scaled);
    return width_mm;
}

static double shift_of(enum page_align align, double width_mm)
{
    switch (align) {
    case PAGE_CENTRE:
        return -width_mm / 2;
    case PAGE_RIGHT:
        return -width_mm;
    case PAGE_LEFT:
        break;
    }
    return 0;
}

void page_cairo_text(cairo_t *cairo, const struct page_item *item)
{
    char memory[TEXT_MAX];
    struct strbuf text = STRBUF(memory);
    cairo_scaled_font_t *font = open_font(&item->font);
    const double grey = item->font.grey;

    make_drawable(font, item->text, &text);
    cairo_save(cairo);
    cairo_translate(cairo, item->at.x_mm, item->at.y_mm);
    /* y goes down the page, so a counterclockwise turn is negative. */
    cairo_rotate(cairo, -item->turn_rad);
    cairo_set_source_rgb(cairo, grey, grey, grey);
    cairo_select_font_face(cairo, family, CAIRO_FONT_SLANT_NORMAL,
                           item->font.weight == PAGE_BOLD ? CAIRO_FONT_WEIGHT_BOLD
                                                          : CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(cairo, item->font.size_mm);
    cairo_move_to(cairo, shift_of(item->align, width_of(font, memory)), 0);
    cairo_show_text(cairo, memory);
    cairo_restore(cairo);
    cairo_scaled_font_destroy(font);
}
