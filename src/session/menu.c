/* SPDX-License-Identifier: MIT */
#include "session/menu.h"

#include <stddef.h>

#include "session/event.h"

void menu_clear(struct menu *menu)
{
    menu->count = menu->page = 0;
    menu->pages = 0;
    menu->at = -1;
}

static int place_of(const struct menu_item *item)
{
    return 10 * item->page + item->digit;
}

void menu_keep_page(struct menu *menu, int place)
{
    menu->pages |= 1U << (place / 10);
}

static bool has_page(const struct menu *menu, int page)
{
    return menu->pages >> page & 1;
}

struct menu_item *menu_add(struct menu *menu, int id, int place, uint32_t letter)
{
    int at = menu->count;

    if (menu->count == MENU_ITEMS_MAX)
        return NULL;
    while (at > 0 && place_of(&menu->items[at - 1]) > place) {
        menu->items[at] = menu->items[at - 1];
        at--;
    }
    menu_keep_page(menu, place);
    menu->count++;
    menu->items[at] =
        (struct menu_item){.id = id, .page = place / 10, .digit = place % 10, .letter = letter};
    return &menu->items[at];
}

int menu_first(const struct menu *menu, int page)
{
    int at = 0;

    while (at < menu->count && menu->items[at].page != page)
        at++;
    return at;
}

int menu_page(const struct menu *menu)
{
    int page = menu->page;

    while (page < MENU_PAGES - 1 && !has_page(menu, page))
        page++;
    return page;
}

/* An item in hand moves to the first one of the page. */
static void take_page(struct menu *menu, int page)
{
    const int first = menu_first(menu, page);

    menu->page = page;
    if (menu->at >= 0)
        menu->at = first < menu->count ? first : -1;
}

/* Goes to the next page, forward (1) or back (-1). A page whose commands cannot be done now is not
 * passed over: the digit after it would mean another command. */
static void turn_page(struct menu *menu, int by)
{
    const int now = menu_page(menu);

    for (int i = 1; i <= MENU_PAGES; i++) {
        const int page = ((now + by * i) % MENU_PAGES + MENU_PAGES) % MENU_PAGES;

        if (has_page(menu, page)) {
            take_page(menu, page);
            return;
        }
    }
}

/* A point goes to the page of what is needed less often, from there to the rest. */
static void take_point(struct menu *menu)
{
    const int more = ON_MORE(0) / 10, rest = ON_REST(0) / 10;
    const int page = menu_page(menu) == more && has_page(menu, rest) ? rest : more;

    if (has_page(menu, page))
        take_page(menu, page);
}

static void take_item(struct menu *menu, int at)
{
    menu->at = at;
    menu->page = menu->items[at].page;
}

/* The first step takes the first item of the page in hand, or of the next that has one. */
static void move(struct menu *menu, int by)
{
    int page = menu_page(menu);

    while (menu->at < 0 && menu_first(menu, page) == menu->count)
        page = (page + 1) % MENU_PAGES;
    if (menu->at < 0)
        take_item(menu, menu_first(menu, page));
    else
        take_item(menu, (menu->at + by + menu->count) % menu->count);
}

/* True when the key moves in the menu. */
static bool moves(struct menu *menu, uint32_t key)
{
    switch (key) {
    case SILLET_KEY_UP:
    case SILLET_KEY_DOWN:
        move(menu, key == SILLET_KEY_UP ? -1 : 1);
        return true;
    case '0':
    case SILLET_KEY_INSERT: /* the pad's 0 with Num Lock off, as Del is its point */
    case SILLET_KEY_RIGHT:
    case SILLET_KEY_PAGE_DOWN:
        turn_page(menu, 1);
        return true;
    case SILLET_KEY_LEFT:
    case SILLET_KEY_PAGE_UP:
        turn_page(menu, -1);
        return true;
    case SILLET_KEY_HOME:
        take_item(menu, 0);
        return true;
    case '.':
    case ',':
    case SILLET_KEY_DELETE:
        take_point(menu);
        return true;
    case SILLET_KEY_END:
        take_item(menu, menu->count - 1);
        return true;
    default:
        return false;
    }
}

/* The item that a digit or letter stands for; -1 for none. */
static int find(const struct menu *menu, uint32_t key)
{
    const int page = menu_page(menu);

    for (int i = 0; i < menu->count; i++) {
        const struct menu_item *item = &menu->items[i];

        if (key == item->letter || (item->page == page && key == '0' + (uint32_t)item->digit))
            return i;
    }
    return -1;
}

enum menu_answer menu_handle(struct menu *menu, uint32_t key, int *ret_id)
{
    if (key == MENU_KEY || key == SILLET_KEY_ESCAPE || key == SILLET_KEY_BACKSPACE ||
        menu->count == 0 || (key == SILLET_KEY_ENTER && menu->at < 0))
        return MENU_CLOSES;
    if (moves(menu, key))
        return MENU_STAYS;
    const int found = key == SILLET_KEY_ENTER ? menu->at : find(menu, key);
    if (found >= 0) {
        *ret_id = menu->items[found].id;
        return MENU_TAKES;
    }
    if (key >= '1' && key <= '9')
        return MENU_LACKS;
    return (key >= ' ' && key < SILLET_KEY_ENTER) || key == SILLET_KEY_UNKNOWN ? MENU_STAYS
                                                                               : MENU_PASSES;
}
