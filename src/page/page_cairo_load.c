/* SPDX-License-Identifier: MIT */
#include "page/page_cairo_load.h"

#include <dlfcn.h>
#include <string.h>

/* The name that programs linked with cairo 1.x find it by. */
#ifdef __APPLE__
static const char library_name[] = "libcairo.2.dylib";
#else
static const char library_name[] = "libcairo.so.2";
#endif

/* Never closed: what it brings along (fontconfig) is not made to be unloaded. */
static void *open_library(void)
{
    return dlopen(library_name, RTLD_LAZY | RTLD_LOCAL);
}

/* ISO C has no conversion from an object's address to a function's. */
static bool find(void *library, const char *name, void *ret_function, size_t size)
{
    void *address = dlsym(library, name);

    if (address && size == sizeof address)
        memcpy(ret_function, &address, size);
    return address && size == sizeof address;
}

#define FIND(name) good = good && find(library, "cairo_" #name, &calls.name, sizeof calls.name);

bool page_cairo_load_fonts(struct page_cairo_fonts *ret_fonts)
{
    struct page_cairo_fonts calls = {.font_face_destroy = NULL};
    void *library = open_library();
    bool good = library != NULL;

    PAGE_CAIRO_FONT_CALLS(FIND)
    if (good)
        *ret_fonts = calls;
    return good;
}

bool page_cairo_load(struct page_cairo *ret_cairo)
{
    struct page_cairo calls = {.create = NULL};
    void *library = open_library();
    bool good = library != NULL && page_cairo_load_fonts(&calls.fonts);

    PAGE_CAIRO_DRAW_CALLS(FIND)
    if (good)
        *ret_cairo = calls;
    return good;
}
