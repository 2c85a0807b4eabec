/* SPDX-License-Identifier: MIT */
#include "model/strings/pitch.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

/* Semitones over C of the letters A to G. */
static const int letter_semitones[] = {9, 11, 0, 2, 4, 5, 7};

static const char *const sharp_names[] = {"C",  "C#", "D",  "D#", "E",  "F",
                                          "F#", "G",  "G#", "A",  "A#", "B"};
static const char *const flat_names[] = {"C",  "Db", "D",  "Eb", "E",  "F",
                                         "Gb", "G",  "Ab", "A",  "Bb", "B"};

struct accidental {
    const char *text;
    int semitones;
};

static const struct accidental accidentals[] = {
    {"#", 1},
    {"b", -1},
    {"\xE2\x99\xAF", 1},  /* ♯ */
    {"\xE2\x99\xAD", -1}, /* ♭ */
    {"flat", -1},
    {" flat", -1},
    {"sharp", 1},
    {" sharp", 1},
};

static int is_blank(char c)
{
    return c == ' ' || c == '\t';
}

/* The letter's semitone over C, -1 when the character is none of A to G. */
static int letter_semitone(char c)
{
    if (c >= 'a' && c <= 'g')
        return letter_semitones[c - 'a'];
    if (c >= 'A' && c <= 'G')
        return letter_semitones[c - 'A'];
    return -1;
}

/* Takes an accidental at the front of text: its bytes, 0 when there is none. */
static size_t take_accidental(const char *text, size_t length, int *ret_semitones)
{
    for (size_t i = 0; i < sizeof accidentals / sizeof accidentals[0]; i++) {
        size_t bytes = strlen(accidentals[i].text);

        if (bytes <= length && memcmp(text, accidentals[i].text, bytes) == 0) {
            *ret_semitones = accidentals[i].semitones;
            return bytes;
        }
    }
    *ret_semitones = 0;
    return 0;
}

/* A note name taken apart. */
struct name {
    int letter; /* its semitone over C */
    int shift;
    char octave;
    char written; /* the letter */
};

static bool take_apart(const char *text, struct name *ret_name)
{
    size_t length = strlen(text);

    while (length > 0 && is_blank(text[0])) {
        text++;
        length--;
    }
    while (length > 0 && is_blank(text[length - 1]))
        length--;
    if (length < 2)
        return false;

    struct name name = {.letter = letter_semitone(text[0]), .written = text[0]};
    size_t octave_at = 1 + take_accidental(text + 1, length - 1, &name.shift);

    octave_at += strspn(text + octave_at, " ");
    if (name.letter < 0 || octave_at + 1 != length || text[octave_at] < '0' ||
        text[octave_at] > '9')
        return false;
    name.octave = text[octave_at];
    *ret_name = name;
    return true;
}

enum status pitch_parse(const char *text, int *ret_semitone)
{
    struct name name;

    if (!take_apart(text, &name))
        return STATUS_SYNTAX;

    const int semitone = PITCH_LOWEST + 12 * (name.octave - '0') + name.letter + name.shift;

    if (semitone < PITCH_LOWEST || semitone > PITCH_HIGHEST)
        return STATUS_RANGE;
    *ret_semitone = semitone;
    return STATUS_OK;
}

enum status pitch_spell(int semitone, bool flats, struct strbuf *out)
{
    if (semitone < PITCH_LOWEST || semitone > PITCH_HIGHEST)
        return STATUS_RANGE;
    strbuf_addf(out, "%s%d", (flats ? flat_names : sharp_names)[semitone % 12], semitone / 12 - 1);
    return STATUS_OK;
}

int pitch_accidental(const char *text)
{
    struct name name;

    return take_apart(text, &name) ? name.shift : 0;
}

enum status pitch_tidy(const char *text, struct strbuf *out)
{
    static const char *const signs[] = {"b", "", "#"};
    struct name name;
    int semitone;
    const enum status status = pitch_parse(text, &semitone);

    if (status != STATUS_OK || !take_apart(text, &name))
        return status;
    /* The two cases of an ASCII letter differ in one bit. */
    strbuf_addf(out, "%c%s%c", name.written & ~0x20, signs[name.shift + 1], name.octave);
    return STATUS_OK;
}

enum status pitch_add_nearest(const char *text, int semitone, struct strbuf *out)
{
    char memory[16], best[16] = "";
    int best_off = 0, found;

    if (strlen(text) > 4 || pitch_parse(text, &found) != STATUS_SYNTAX)
        return STATUS_SYNTAX;
    for (char octave = '0'; octave <= '9'; octave++) {
        struct strbuf note = STRBUF(memory);

        strbuf_addf(&note, "%s%c", text, octave);
        if (pitch_parse(memory, &found) != STATUS_OK)
            continue;
        const int off = found > semitone ? found - semitone : semitone - found;
        if (best[0] == '\0' || off < best_off) {
            memcpy(best, memory, sizeof best);
            best_off = off;
        }
    }
    return best[0] == '\0' ? STATUS_SYNTAX : pitch_tidy(best, out);
}

enum status pitch_frequency(double semitone, double a4_hz, double *ret_hz)
{
    double hz = a4_hz * exp2((semitone - PITCH_A4) / 12.0);

    if (!(a4_hz > 0) || !(hz > 0) || !isfinite(hz))
        return STATUS_DOMAIN;
    *ret_hz = hz;
    return STATUS_OK;
}
