/* SPDX-License-Identifier: MIT */
#include <curses.h>
#include <dirent.h>
#include <fcntl.h>
#include <locale.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/*
 * As little as a full-screen program can do, for comparison: the same library, the same terminal, a
 * screen full of text. Arrows move a mark, digits are echoed, Enter writes 10 kB to the file given
 * as a whole file is kept: beside it, synced, renamed, its folder synced.
 *
 *     bare FOLDER
 *
 * And as little as can be done to a folder of files: to look at each, or to read each whole.
 *
 *     bare FOLDER stat
 *     bare FOLDER read
 */
static void fill(void)
{
    for (int row = 0; row < LINES - 1; row++)
        for (int column = 0; column < COLS - 8; column += 8)
            mvprintw(row, column, "%d.%03d", row, column);
    mvaddstr(LINES - 1, 0, "q quit");
}

static void keep(const char *folder, int times)
{
    static char text[10000];
    char name[4096], temporary[4096];

    memset(text, 'x', sizeof text);
    snprintf(name, sizeof name, "%s/bare.kept", folder);
    snprintf(temporary, sizeof temporary, "%s/bare.tmp", folder);
    const int file = open(temporary, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
    if (write(file, text, sizeof text) < 0 || fsync(file) != 0)
        mvaddstr(0, 0, "not kept");
    close(file);
    rename(temporary, name);
    const int above = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    fsync(above);
    mvprintw(LINES - 2, 60, "kept %d", times);
    close(above);
}

static int go_through(const char *folder, int reading)
{
    static char bytes[1 << 16];
    const struct dirent *entry;
    struct stat facts;
    DIR *names = opendir(folder);

    if (!names)
        return 2;
    while ((entry = readdir(names)) != NULL) {
        if (fstatat(dirfd(names), entry->d_name, &facts, 0) != 0 || !S_ISREG(facts.st_mode) ||
            !reading)
            continue;
        const int file = openat(dirfd(names), entry->d_name, O_RDONLY | O_CLOEXEC);
        while (read(file, bytes, sizeof bytes) > 0)
            ;
        close(file);
    }
    closedir(names);
    return 0;
}

int main(int count, char **words)
{
    int row = 1, typed = 0;

    if (count == 3)
        return go_through(words[1], strcmp(words[2], "read") == 0);
    if (count != 2 || !setlocale(LC_CTYPE, ""))
        return 2;
    initscr();
    raw();
    noecho();
    nonl();
    keypad(stdscr, TRUE);
    set_escdelay(50);
    fill();
    for (int key = 0; key != 'q'; key = getch()) {
        mvchgat(row, 0, 8, A_NORMAL, 0, NULL);
        if (key == KEY_DOWN)
            row = row % (LINES - 3) + 1;
        else if (key == '\r')
            keep(words[1], typed++);
        else if (key >= '0' && key <= '9')
            mvaddch(LINES - 2, typed++ % 60, (chtype)key);
        mvchgat(row, 0, 8, A_REVERSE, 0, NULL);
        move(row, 0);
        refresh();
    }
    endwin();
    return 0;
}
