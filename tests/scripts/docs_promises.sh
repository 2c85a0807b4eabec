#!/bin/sh
# SPDX-License-Identifier: MIT
# Every sentence in docs/reliability.md that promises something names the tests behind it.
#
#   docs_promises.sh SOURCE-ROOT
#
# Under the headings "Promises" and "Faults", and their subheadings, everything is a promise: each
# sentence of a list ends with its tests in round brackets, "... comes back (`unit/test_aside.c`).",
# and the last cell of each row of a table holds them. Nothing else is allowed but a line that
# introduces a list or a table and ends with a colon. A test is a file below tests/ that a meson.build
# runs.
set -eu
export LC_ALL=C

root=${1:?the source tree}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# promises DOCUMENT: each sentence and row that promises, on a line of its own.
promises() {
    awk '
        function flush() {
            if (item != "") {
                # A sentence is over at a full stop before a capital letter or the end.
                while (match(item, /[.][)]? +[A-Z`]/)) {
                    print substr(item, 1, RSTART + RLENGTH - 2)
                    item = substr(item, RSTART + RLENGTH - 1)
                }
                print item
            }
            item = ""
        }
        /^## /             { flush(); inside = $2 == "Promises" || $2 == "Faults,"; next }
        !inside || /^###/  { flush(); next }
        /^\|[- |]*$/       { next }
        /^\| *fault *\|/   { next }
        /^\|/              { flush(); print; next }
        /^$/               { flush(); next }
        /^- /              { flush(); item = substr($0, 3); next }
        /^  /              { sub(/^ +/, ""); item = item " " $0; next }
        /:$/               { flush(); next }
                           { flush(); print }
        END                { flush() }' "$1" | sed 's/ *$//'
}

# tests_of: the tests that the sentences on its input name, each behind its sentence and a tab;
# "none" for a sentence that names none where it should.
tests_of() {
    awk '
        {
            line = $0
            if (line ~ /^\|/) {
                count = split(line, cell, "|")
                named = cell[count - 1]
            } else if (match(line, /\([^()]*\)\.?$/)) {
                named = substr(line, RSTART)
            } else {
                named = ""
            }
            found = 0
            parts = split(named, part, "`")
            for (i = 2; i <= parts; i += 2)
                if (part[i] ~ /^[a-z]+\/[a-z_]+\.(c|sh)$/) {
                    print line "\t" part[i]
                    found = 1
                }
            if (!found)
                print line "\tnone"
        }'
}

# is_run TREE TEST: a meson.build below tests/ names it, or the parts that its name is made of there.
is_run() {
    find "$1/tests/" -name meson.build -exec cat {} + >"$work/meson"
    name=$(basename "$2")
    grep -q "[/']$name'" "$work/meson" && return 0
    name=${name%.*}
    [ "$2" = "${2%.c}" ] && { grep -q "'$name'" "$work/meson"; return; }
    prefix=''
    rest=$name
    while [ "$rest" != "${rest#*_}" ]; do
        prefix=$prefix${rest%%_*}_
        rest=${rest#*_}
        grep -q "[/']$prefix' + name" "$work/meson" && grep -q "'$rest'" "$work/meson" && return 0
    done
    return 1
}

# complaints TREE DOCUMENT
complaints() {
    promises "$2" >"$work/promises"
    [ -s "$work/promises" ] || echo 'it promises nothing'
    tests_of <"$work/promises" >"$work/tests"
    while IFS="$(printf '\t')" read -r sentence test; do
        if [ "$test" = none ]; then
            echo "no test: $sentence"
        elif [ ! -f "$1/tests/$test" ]; then
            echo "no such test, $test: $sentence"
        elif ! is_run "$1" "$test"; then
            echo "not in a meson.build, $test: $sentence"
        fi
    done <"$work/tests"
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
    mkdir -p "$work/tree/tests/unit"
    touch "$work/tree/tests/unit/test_a.c" "$work/tree/tests/unit/test_b.c"
    echo "foreach name : ['a'] 'unit/test_' + name + '.c'" >"$work/tree/tests/meson.build"
    printf '# R\n\nIt is kept.\n\n## Promises\n\nSo:\n\n- It is\n  kept (`unit/test_a.c`). It stays (`unit/test_a.c`).\n\n## Faults, and\n\n| fault | what | test |\n|---|---|---|\n| a | b | `unit/test_a.c` |\n\n## Not\n\n- That.\n' >"$work/bad.md"
    must_say ''
    printf '## Promises\n\nSo:\n\n- It is kept. It stays\n  (`unit/test_a.c`).\n' >"$work/bad.md"
    must_say 'no test: It is kept.'
    printf '## Promises\n\nIt is kept.\n' >"$work/bad.md"
    must_say 'no test: It is kept.'
    printf '## Faults, and\n\n| a | `unit/test_a.c` | none |\n' >"$work/bad.md"
    must_say 'no test: | a | `unit/test_a.c` | none |'
    printf '## Promises\n\n- It is kept (`unit/test_c.c`).\n' >"$work/bad.md"
    must_say 'no such test, unit/test_c.c: It is kept (`unit/test_c.c`).'
    printf '## Promises\n\n- It is kept (`unit/test_a.c`, `unit/test_b.c`).\n' >"$work/bad.md"
    must_say 'not in a meson.build, unit/test_b.c: It is kept (`unit/test_a.c`, `unit/test_b.c`).'
    printf '## Other\n\n- It is kept.\n' >"$work/bad.md"
    must_say 'it promises nothing'
}

self_check
complaints "$root" "$root/docs/reliability.md" >"$work/said"
if [ -s "$work/said" ]; then
    sed 's|^|docs/reliability.md: |' "$work/said" >&2
    exit 1
fi
echo "$(wc -l <"$work/promises") promises, $(cut -f2 "$work/tests" | sort -u | wc -l) tests"
