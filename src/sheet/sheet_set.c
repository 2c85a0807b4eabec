/* SPDX-License-Identifier: MIT */
#include "sheet/sheet_set.h"

#include <string.h>

#include "base/utf8.h"
#include "page/page_write.h"
#include "sheet/sheet_say.h"

const struct set_style set_body = {{3.1, PAGE_PLAIN, 0.1}, 4.4};
const struct set_style set_small = {{2.65, PAGE_PLAIN, 0.35}, 3.6};
const struct set_style set_cell = {{3.0, PAGE_PLAIN, 0.1}, 4.5};
const struct set_style set_head = {{2.65, PAGE_PLAIN, 0.35}, 4.0};

enum { LINE_BYTES = 512 };

double set_room_mm(const struct setter *setter)
{
    return setter->size.height_mm - SET_BOTTOM_MM - setter->kept_free_mm - setter->y_mm;
}

static void set_foot(struct setter *setter)
{
    const double y_mm = setter->size.height_mm - SET_BOTTOM_MM + 5;
    char memory[32];
    struct strbuf number = STRBUF(memory);

    if (setter->total < 2 || !setter->list)
        return;
    strbuf_addf(&number, "%d / %d", setter->pages, setter->total);
    set_text(setter, SET_MARGIN_MM, y_mm, PAGE_LEFT, &set_small,
             setter->sheet->title ? setter->sheet->title : "");
    set_text(setter, setter->size.width_mm - SET_MARGIN_MM, y_mm, PAGE_RIGHT, &set_small, memory);
}

void set_begin_page(struct setter *setter)
{
    setter->pages++;
    setter->y_mm = SET_TOP_MM;
    if (setter->list)
        page_begin(setter->list);
    set_foot(setter);
}

void set_need(struct setter *setter, double height_mm)
{
    if (setter->list && height_mm > set_room_mm(setter) && setter->y_mm > SET_TOP_MM)
        set_begin_page(setter);
}

void set_text(struct setter *setter, double x_mm, double y_mm, enum page_align align,
              const struct set_style *style, const char *text)
{
    if (setter->list && text[0])
        page_draw_text(
            setter->list,
            (struct page_point){x_mm, y_mm + (style->line_mm + 0.7 * style->font.size_mm) / 2},
            align, 0, &style->font, text);
}

static bool fits(struct page_ruler *ruler, const struct page_font *font, const char *text,
                 size_t length, double width_mm)
{
    char memory[LINE_BYTES];
    struct strbuf line = STRBUF(memory);

    strbuf_add_bytes(&line, text, length);
    return !line.truncated && page_ruler_width_mm(ruler, font, memory) <= width_mm;
}

/* The bytes of an overlong word that fit; at least one character, so that callers advance. */
static size_t part_of_word(struct page_ruler *ruler, const struct page_font *font, const char *text,
                           double width_mm)
{
    const size_t left = strlen(text);
    uint32_t rune;
    size_t fit = utf8_decode(text, left, &rune, NULL);

    while (fit < left && text[fit] != ' ') {
        const size_t next = fit + utf8_decode(text + fit, left - fit, &rune, NULL);

        if (!fits(ruler, font, text, next, width_mm))
            break;
        fit = next;
    }
    return fit;
}

/* Whether a unit follows: "mm)", "in". */
static bool is_unit(const char *text)
{
    return (strncmp(text, "mm", 2) == 0 || strncmp(text, "in", 2) == 0) &&
           strchr(" .,;:)", text[2]) != NULL;
}

/* The end of the word that starts at `at`, or of a number and its unit, which stay together. */
static size_t find_end(const char *text, size_t at)
{
    size_t end = at + strspn(text + at, " ");

    end += strcspn(text + end, " ");
    if (end > 0 && text[end - 1] >= '0' && text[end - 1] <= '9' && text[end] == ' ' &&
        is_unit(text + end + 1))
        end += 1 + strcspn(text + end + 1, " ");
    return end;
}

size_t set_line(struct page_ruler *ruler, const struct page_font *font, const char *text,
                double width_mm)
{
    size_t fit = 0;

    for (size_t end = 0; text[end];) {
        end = find_end(text, end);
        if (!fits(ruler, font, text, end, width_mm))
            return fit > 0 ? fit : part_of_word(ruler, font, text, width_mm);
        fit = end;
    }
    return fit;
}

bool set_next_line(struct page_ruler *ruler, const struct page_font *font, const char **at,
                   double width_mm, struct strbuf *ret_line)
{
    if ((*at)[0] == '\0')
        return false;
    const size_t length = set_line(ruler, font, *at, width_mm);
    strbuf_clear(ret_line);
    strbuf_add_bytes(ret_line, *at, length);
    *at += length;
    *at += strspn(*at, " ");
    return true;
}
