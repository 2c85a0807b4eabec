/* SPDX-License-Identifier: MIT */
#include "model/pitch.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

/* Semitones over C of the letters A to G. */
static const int letter_semitones[] = {9, 11, 0, 2, 4, 5, 7};

static const char *const sharp_names[] = {"C",  "C#", "D",  "D#", "E",  "F",
                                          "F#", "G",  "G#", "A",  "A#", "B"};

struct accidental {
    const char *text;
    int semitones;
};

static const struct accidental accidentals[] = {
    {"#", 1},
    {"b", -1},
    {"\xE2\x99\xAF", 1},  /* ♯ */
    {"\xE2\x99\xAD", -1}, /* ♭ */
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

enum status pitch_parse(const char *text, int *ret_semitone)
{
    size_t length = strlen(text);

    while (length > 0 && is_blank(text[0])) {
        text++;
        length--;
    }
    while (length > 0 && is_blank(text[length - 1]))
        length--;
    if (length < 2)
        return STATUS_SYNTAX;

    int letter = letter_semitone(text[0]);
    int shift;
    size_t octave_at = 1 + take_accidental(text + 1, length - 1, &shift);

    if (letter < 0 || octave_at + 1 != length || text[octave_at] < '0' || text[octave_at] > '9')
        return STATUS_SYNTAX;

    int semitone = PITCH_LOWEST + 12 * (text[octave_at] - '0') + letter + shift;

    if (semitone < PITCH_LOWEST || semitone > PITCH_HIGHEST)
        return STATUS_RANGE;
    *ret_semitone = semitone;
    return STATUS_OK;
}

enum status pitch_spell(int semitone, struct strbuf *out)
{
    if (semitone < PITCH_LOWEST || semitone > PITCH_HIGHEST)
        return STATUS_RANGE;
    strbuf_addf(out, "%s%d", sharp_names[semitone % 12], semitone / 12 - 1);
    return STATUS_OK;
}

enum status pitch_frequency(double semitone, double a4_hz, double *ret_hz)
{
    double hz = a4_hz * exp2((semitone - PITCH_A4) / 12.0);

    if (!(a4_hz > 0) || !(hz > 0) || !isfinite(hz))
        return STATUS_DOMAIN;
    *ret_hz = hz;
    return STATUS_OK;
}

enum status pitch_cents(double from_hz, double to_hz, double *ret_cents)
{
    if (!(from_hz > 0) || !(to_hz > 0) || !isfinite(from_hz) || !isfinite(to_hz))
        return STATUS_DOMAIN;
    /* The difference of the logarithms cannot overflow; the quotient could. */
    *ret_cents = 1200.0 * (log2(to_hz) - log2(from_hz));
    return STATUS_OK;
}
