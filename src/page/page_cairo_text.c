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

static void add_plain(struct strbuf *out, const char *bytes, size_t length)
{
    char memory[8];
    struct strbuf rune = STRBUF(memory);

    strbuf_add_bytes(&rune, bytes, length);
    utf8_add_ascii(out, memory);
}

static bool is_safe(const char *text)
{
    size_t left = strlen(text);
    bool valid = true;
    uint32_t rune = 'a';

    for (size_t length; left > 0 && valid && !utf8_unsafe(rune); text += length, left -= length)
        length = utf8_decode(text, left, &rune, &valid);
    return valid && !utf8_unsafe(rune);
}

/* Copies the text, with plain characters in place of those that the font lacks. */
static void make_drawable(const struct page_cairo_fonts *fonts, cairo_scaled_font_t *font,
                          const char *text, struct strbuf *out)
{
    size_t left = strlen(text);

    /* Most texts can be drawn as they are. */
    if (is_safe(text) && has_glyphs(fonts, font, text, left)) {
        strbuf_add(out, text);
        return;
    }

    while (left > 0) {
        uint32_t rune;
        const size_t length = utf8_decode(text, left, &rune, NULL);

        if (!utf8_unsafe(rune) && has_glyphs(fonts, font, text, length))
            strbuf_add_bytes(out, text, length);
        else
            add_plain(out, text, length);
        text += length;
        left -= length;
    }
}

static double width_of(const struct page_cairo_fonts *fonts, cairo_scaled_font_t *font,
                       const char *text)
{
    cairo_text_extents_t extents;

    fonts->scaled_font_text_extents(font, text, &extents);
    return extents.x_advance;
}

/* --- measuring --- */

enum { RULED_MAX = 8 }; /* a document has fewer fonts */

struct ruled_font {
    struct page_font font;
    cairo_scaled_font_t *scaled;
    bool has_ascii;
};

struct page_ruler {
    bool has_cairo;
    struct page_cairo_fonts fonts;
    struct ruled_font ruled[RULED_MAX];
    int count;
};

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
    ruler->count = 0;
}

void page_ruler_free(struct page_ruler *ruler)
{
    if (ruler)
        forget_fonts(ruler);
    free(ruler);
}

static bool is_printable_ascii(const char *text)
{
    while (*text >= ' ' && *text <= '~')
        text++;
    return *text == '\0';
}

static const struct ruled_font *find_font(struct page_ruler *ruler, const struct page_font *font)
{
    char ascii['~' - ' ' + 2] = "";

    for (int i = 0; i < ruler->count; i++)
        if (ruler->ruled[i].font.size_mm == font->size_mm &&
            ruler->ruled[i].font.weight == font->weight)
            return &ruler->ruled[i];
    if (ruler->count == RULED_MAX)
        forget_fonts(ruler);
    struct ruled_font *ruled = &ruler->ruled[ruler->count++];
    for (int i = 0; i < '~' - ' ' + 1; i++)
        ascii[i] = (char)(' ' + i);
    ruled->font = *font;
    ruled->scaled = open_font(&ruler->fonts, font);
    ruled->has_ascii = has_glyphs(&ruler->fonts, ruled->scaled, ascii, strlen(ascii));
    return ruled;
}

double page_ruler_width_mm(struct page_ruler *ruler, const struct page_font *font, const char *utf8)
{
    char memory[TEXT_MAX];
    struct strbuf text = STRBUF(memory);

    if (!ruler->has_cairo)
        return page_text_guess_mm(font, utf8);
    const struct ruled_font *ruled = find_font(ruler, font);
    if (ruled->has_ascii && is_printable_ascii(utf8))
        strbuf_add(&text, utf8);
    else
        make_drawable(&ruler->fonts, ruled->scaled, utf8, &text);
    return width_of(&ruler->fonts, ruled->scaled, memory);
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

void page_cairo_text(const struct page_cairo *cairo, cairo_t *context, const struct page_item *item)
{
    char memory[TEXT_MAX];
    struct strbuf text = STRBUF(memory);
    cairo_scaled_font_t *font = open_font(&cairo->fonts, &item->font);
    const double grey = item->font.grey;

    make_drawable(&cairo->fonts, font, item->text, &text);
    cairo->save(context);
    cairo->translate(context, item->at.x_mm, item->at.y_mm);
    /* y goes down the page, so a counterclockwise turn is negative. */
    cairo->rotate(context, -item->turn_rad);
    cairo->set_source_rgb(context, grey, grey, grey);
    cairo->select_font_face(context, family, CAIRO_FONT_SLANT_NORMAL,
                            item->font.weight == PAGE_BOLD ? CAIRO_FONT_WEIGHT_BOLD
                                                           : CAIRO_FONT_WEIGHT_NORMAL);
    cairo->set_font_size(context, item->font.size_mm);
    cairo->move_to(context, shift_of(item->align, width_of(&cairo->fonts, font, memory)), 0);
    cairo->show_text(context, memory);
    cairo->restore(context);
    cairo->fonts.scaled_font_destroy(font);
}
