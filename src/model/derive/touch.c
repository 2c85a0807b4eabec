/* SPDX-License-Identifier: MIT */
#include "model/derive/touch.h"

#include <math.h>
#include <string.h>

#include "model/reading/record_access.h"

/* Nobody plays softer than this share of a medium touch: a clean note of less headroom shows that
 * a reading is off (common practice, no published source). */
#define SHARE_LEAST 0.25

struct kind_touch {
    const char *kind;
    double treble_mm, bass_mm;
};

static const struct kind_touch kinds[] = {
#define TOUCH(kind, treble_mm, bass_mm) {kind, treble_mm, bass_mm},
#include "model/derive/touch_table.h"
#undef TOUCH
};

static const struct kind_touch *find_kind(const struct record *record)
{
    char kind[KIND_NAME_SIZE];

    if (!record_kind(record, kind))
        return &kinds[0];
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        if (strcmp(kinds[i].kind, kind) == 0)
            return &kinds[i];
    return &kinds[0];
}

/* The strings of a course lie at one height, and are plucked together. */
static double medium_mm(const struct kind_touch *kind, const struct outfit *outfit, int string)
{
    const int last = outfit_last_step(outfit);
    const double toward_bass = last > 0 ? (double)outfit_step(outfit, string) / last : 0;

    return kind->treble_mm + toward_bass * (kind->bass_mm - kind->treble_mm);
}

static double stated_share(const struct record *record)
{
    static const double shares[] = {0.75, 1, TOUCH_STEP}; /* soft, medium, hard */

    return shares[(int)record_or_fallback(record, FIELD_TOUCH)];
}

static void set_share(struct touch *touch, const struct record *record, const struct outfit *outfit,
                      double share)
{
    const struct kind_touch *kind = find_kind(record);

    touch->share = share;
    for (int s = 1; s <= outfit->strings; s++)
        touch->mm[s] = share * medium_mm(kind, outfit, s);
}

struct touch touch_as_stated(const struct record *record, const struct outfit *outfit)
{
    struct touch touch = {.by_ear = false};

    set_share(&touch, record, outfit, stated_share(record));
    return touch;
}

/* The least and the most share that the notes of one string leave. */
static void bound_string(struct touch_bounds *bounds, const struct touch_heard *heard,
                         uint64_t notes, double mm)
{
    for (int n = 0; n <= FRETS_MAX; n++) {
        if (!(notes >> n & 1) || !heard->headroom_mm[n].given)
            continue;
        const double share = fmax(SHARE_LEAST, heard->headroom_mm[n].value / mm);

        if (heard->buzzing >> n & 1)
            bounds->least = maybe_given(fmax(share, maybe_or(bounds->least, share)));
        else
            bounds->most = maybe_given(fmin(share, maybe_or(bounds->most, share)));
    }
}

void touch_hear(struct touch_bounds *bounds, const struct record *record,
                const struct outfit *outfit, const struct touch_heard *heard)
{
    const struct kind_touch *kind = find_kind(record);

    for (int s = 1; s <= outfit->strings; s++) {
        const uint64_t notes = (heard[s].buzzing | heard[s].clean) & ~bounds->played[s];

        bound_string(bounds, &heard[s], notes, medium_mm(kind, outfit, s));
        bounds->buzzes[s] = bounds->buzzes[s] || (heard[s].buzzing & notes) != 0;
        bounds->played[s] |= notes;
    }
}

static int count_buzzing(const struct touch_bounds *bounds)
{
    int count = 0;

    for (int s = 1; s <= STRINGS_MAX; s++)
        count += bounds->buzzes[s];
    return count;
}

void touch_listen(struct touch *touch, const struct record *record, const struct outfit *outfit,
                  const struct touch_bounds *bounds)
{
    const double stated = touch->share;
    struct touch found = {.least = bounds->least, .most = bounds->most};

    if (!found.most.given)
        return;
    found.by_ear = count_buzzing(bounds) > 1 && found.least.given &&
                   found.least.value < found.most.value && found.least.value < TOUCH_STEP * stated;
    if (!found.by_ear)
        found.least = maybe_absent();
    set_share(&found, record, outfit,
              found.by_ear ? sqrt(found.least.value * found.most.value)
                           : fmin(stated, found.most.value));
    *touch = found;
}
