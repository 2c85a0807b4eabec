/* SPDX-License-Identifier: MIT */
#include "page/page_cairo_text.h"

#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include "base/strbuf.h"
#include "base/utf8.h"
#include "page/page_write.h"

enum { TEXT_MAX = 1024 }; /* bytes of one text as drawn */

static const char family[] = "sans-serif";

/* Without hinting, so that text widths scale with the size and are the same on every surface. */
static cairo_scaled_font_t *open_font(const struct page_cairo_fonts *fonts,
                                      const struct page_font *font)
{
    cairo_font_face_t *face = fonts->toy_font_face_create(
        family, CAIRO_FONT_SLANT_NORMAL,
        font->weight == PAGE_BOLD ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
    cairo_font_options_t *options = fonts->font_options_create();
    cairo_matrix_t size, identity;

    fonts->font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    fonts->font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    fonts->matrix_init_scale(&size, font->size_mm, font->size_mm);
    fonts->matrix_init_identity(&identity);
    cairo_scaled_font_t *scaled = fonts->scaled_font_create(face, &size, &identity, options);
    fonts->font_options_destroy(options);
    fonts->font_face_destroy(face);
    return scaled;
}

/* Whether the font has a glyph for every character; glyph 0 is the box for a missing one. */
static bool has_glyphs(const struct page_cairo_fonts *fonts, cairo_scaled_font_t *font,
                       const char *text, size_t length)
{
    cairo_glyph_t *glyphs = NULL;
    int count = 0;
    bool all = true;

    if (fonts->scaled_font_text_to_glyphs(font, 0, 0, text, (int)length, &glyphs, &count, NULL,
                                          NULL, NULL) != CAIRO_STATUS_SUCCESS)
        return false;
    for (int i = 0; i < count; i++)
        if (glyphs[i].index == 0)
            all = false;
    fonts->glyph_free(glyphs);
    return all;
}

static double width_of(const struct page_cairo_fonts *fonts, cairo_scaled_font_t *font,
                       const char *text)
{
    cairo_text_extents_t extents;

    fonts->scaled_font_text_extents(font, text, &extents);
    return extents.x_advance;
}

/* --- characters --- */

enum {
    RULED_MAX = 8, /* a document has fewer fonts */
    GLYPHS = 256,
    NO_CHARACTER = INT32_MAX
};

/* A character as it is drawn: itself, or plain ones in its place. */
struct ruled_glyph {
    uint32_t rune; /* 0: none was asked for yet */
    char drawn[8];
    double width_mm;
};

/* Such fonts are not kerned, so a text is as wide as its characters one after another. */
struct ruled_font {
    struct page_font font;
    cairo_scaled_font_t *scaled;
    struct ruled_glyph glyph[GLYPHS]; /* the last one asked for, by the low bits of its number */
};

struct page_ruler {
    bool has_cairo;
    struct page_cairo_fonts fonts;
    struct ruled_font ruled[RULED_MAX];
    int count;
};

static void look_at_glyph(const struct page_cairo_fonts *fonts, cairo_scaled_font_t *font,
                          uint32_t rune, const char *bytes, size_t length,
                          struct ruled_glyph *ret_glyph)
{
    char memory[8];
    struct strbuf own = STRBUF(memory), drawn = STRBUF(ret_glyph->drawn);

    strbuf_add_bytes(&own, bytes, length);
    if (!utf8_unsafe(rune) && has_glyphs(fonts, font, memory, length))
        strbuf_add(&drawn, memory);
    else
        utf8_add_ascii(&drawn, memory);
    ret_glyph->rune = rune;
    ret_glyph->width_mm = width_of(fonts, font, ret_glyph->drawn);
}

/* The text's first character, with its bytes in the text. */
static const struct ruled_glyph *next_glyph(const struct page_ruler *ruler,
                                            struct ruled_font *ruled, const char *text, size_t left,
                                            size_t *ret_length)
{
    bool valid;
    uint32_t rune;

    *ret_length = utf8_decode(text, left, &rune, &valid);
    if (!valid)
        rune = NO_CHARACTER;
    struct ruled_glyph *glyph = &ruled->glyph[rune % GLYPHS];
    if (glyph->rune != rune)
        look_at_glyph(&ruler->fonts, ruled->scaled, rune, text, *ret_length, glyph);
    return glyph;
}

/* --- measuring --- */

struct page_ruler *page_ruler_new(void)
{
    struct page_ruler *ruler = calloc(1, sizeof *ruler);

    if (ruler)
        ruler->has_cairo = page_cairo_load_fonts(&ruler->fonts);
    return ruler;
}

static void forget_fonts(struct page_ruler *ruler)
{
    for (int i = 0; i < ruler->count; i++)
        ruler->fonts.scaled_font_destroy(ruler->ruled[i].scaled);
    memset(ruler->ruled, 0, sizeof ruler->ruled);
    ruler->count = 0;
}

void page_ruler_free(struct page_ruler *ruler)
{
    if (ruler)
        forget_fonts(ruler);
    free(ruler);
}

static struct ruled_font *find_font(struct page_ruler *ruler, const struct page_font *font)
{
    for (int i = 0; i < ruler->count; i++)
        if (ruler->ruled[i].font.size_mm == font->size_mm &&
            ruler->ruled[i].font.weight == font->weight)
            return &ruler->ruled[i];
    if (ruler->count == RULED_MAX)
        forget_fonts(ruler);
    struct ruled_font *ruled = &ruler->ruled[ruler->count++];
    ruled->font = *font;
    ruled->scaled = open_font(&ruler->fonts, font);
    return ruled;
}

/* The width of the text as it is drawn, which is appended unless `drawn` is NULL. */
static double rule(struct page_ruler *ruler, const struct page_font *font, const char *text,
                   struct strbuf *drawn)
{
    struct ruled_font *ruled = find_font(ruler, font);
    size_t left = strlen(text);
    double width_mm = 0;

    for (size_t length; left > 0; text += length, left -= length) {
        const struct ruled_glyph *glyph = next_glyph(ruler, ruled, text, left, &length);

        width_mm += glyph->width_mm;
        if (drawn)
            strbuf_add(drawn, glyph->drawn);
    }
    return width_mm;
}

double page_ruler_width_mm(struct page_ruler *ruler, const struct page_font *font, const char *utf8)
{
    return ruler->has_cairo ? rule(ruler, font, utf8, NULL) : page_text_guess_mm(font, utf8);
}

/* --- drawing --- */

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

void page_cairo_text(const struct page_cairo *cairo, struct page_ruler *ruler, cairo_t *context,
                     const struct page_item *item)
{
    char memory[TEXT_MAX];
    struct strbuf text = STRBUF(memory);
    const double width_mm = rule(ruler, &item->font, item->text, &text);
    const double grey = item->font.grey;

    cairo->save(context);
    cairo->translate(context, item->at.x_mm, item->at.y_mm);
    /* y goes down the page, so a counterclockwise turn is negative. */
    cairo->rotate(context, -item->turn_rad);
    cairo->set_source_rgb(context, grey, grey, grey);
    cairo->select_font_face(context, family, CAIRO_FONT_SLANT_NORMAL,
                            item->font.weight == PAGE_BOLD ? CAIRO_FONT_WEIGHT_BOLD
                                                           : CAIRO_FONT_WEIGHT_NORMAL);
    cairo->set_font_size(context, item->font.size_mm);
    cairo->move_to(context, shift_of(item->align, width_mm), 0);
    cairo->show_text(context, memory);
    cairo->restore(context);
}
