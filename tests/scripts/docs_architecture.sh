#!/bin/sh
# SPDX-License-Identifier: MIT
# docs/architecture.md names every source file below src and tests once, and no other.
#
#   docs_architecture.sh SOURCE-ROOT
#
# Under a heading "### src/model" the first cell of each row holds the names: | `a.h`, `a.c` | ... |
set -eu
export LC_ALL=C

root=${1:?the source tree}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# named DOCUMENT: the paths that it names, as often as it does.
named() {
    awk '
        /^#/ { folder = "" }
        /^### (src|tests)/ { folder = $2; sub(/\/$/, "", folder) }
        folder != "" && /^\| *`/ {
            split($0, cell, "|")
            count = split(cell[2], part, "`")
            for (i = 2; i <= count; i += 2)
                print folder "/" part[i]
        }' "$1" | sort
}

present() {
    (cd "$1" && find src tests -type f ! -name '.*' \( -name '*.[ch]' -o -name '*.awk' \
        -o -name '*.tbl' -o -name '*.sh' -o -name run \) | sort)
}

# say WORDS FILE: each line of FILE, as a complaint.
say() {
    sed "s|\$|: $1|" "$2"
}

# complaints TREE DOCUMENT
complaints() {
    named "$2" >"$work/named"
    present "$1" >"$work/present"
    uniq "$work/named" >"$work/named-once"
    comm -23 "$work/present" "$work/named-once" >"$work/missing"
    comm -13 "$work/present" "$work/named-once" >"$work/gone"
    uniq -d "$work/named" >"$work/twice"
    say 'not named' "$work/missing"
    say 'named, but not there' "$work/gone"
    say 'named more than once' "$work/twice"
}

# must_say WORDS: of bad.md exactly these are said.
must_say() {
    said=$(complaints "$work/tree" "$work/bad.md")
    [ "$said" = "$1" ] && return 0
    printf 'self-check: wanted "%s", got "%s"\n' "$1" "$said" >&2
    exit 1
}

# A small tree, and documents with a fault each.
# shellcheck disable=SC2016 # backquotes are the documents' own
self_check() {
    mkdir -p "$work/tree/src/base" "$work/tree/tests"
    : >"$work/tree/src/base/a.c"
    : >"$work/tree/src/base/a.h"
    : >"$work/tree/tests/run"
    : >"$work/tree/tests/notes.txt"
    printf '### src/base\n| `a.h`, `a.c` | a |\n### tests\n| `run` | runs |\n' >"$work/good.md"
    cp "$work/good.md" "$work/bad.md"
    must_say ''
    sed '/run/d' "$work/good.md" >"$work/bad.md"
    must_say 'tests/run: not named'
    { cat "$work/good.md" && printf '| `b.c` | b |\n'; } >"$work/bad.md"
    must_say 'tests/b.c: named, but not there'
    { cat "$work/good.md" && printf '| `run` | again |\n'; } >"$work/bad.md"
    must_say 'tests/run: named more than once'
}

self_check
complaints "$root" "$root/docs/architecture.md" >"$work/complaints"
if [ -s "$work/complaints" ]; then
    printf 'docs/architecture.md, against src and tests:\n'
    cat "$work/complaints"
    exit 1
fi
printf '%s files named\n' "$(wc -l <"$work/present")"
