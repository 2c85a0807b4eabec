#!/bin/sh
# SPDX-License-Identifier: MIT
# The screens in README.md, docs/walk-through.md and docs/leaves.md are what the program shows.
#
#   docs_screens.sh ROOT SCREENS            checks them
#   GENERATE=1 docs_screens.sh ROOT SCREENS draws them anew
set -eu

root=$1
screens=$2
scratch=$(mktemp -d "${TMPDIR:-/tmp}/sillet-screens.XXXXXX")
trap 'rm -rf "$scratch"' EXIT

# The check must be able to fail: a screen that is none, and a document without its end.
# shellcheck disable=SC2016 # the backquotes are the document's
printf '<!-- 10:05 -->\n```\nnothing\n```\nbehind\n' >"$scratch/faulty"
"$screens" "$root/profiles" <"$scratch/faulty" >"$scratch/drawn"
if cmp -s "$scratch/faulty" "$scratch/drawn" || ! grep -q '^behind' "$scratch/drawn"; then
    echo 'docs_screens: no screen is drawn where one is wanted' >&2
    exit 1
fi

status=0
for document in README.md docs/walk-through.md docs/leaves.md; do
    "$screens" "$root/profiles" <"$root/$document" >"$scratch/drawn"
    if [ "${GENERATE:-}" = 1 ]; then
        cp "$scratch/drawn" "$root/$document"
    elif ! grep -q '^<!-- [0-9s]' "$root/$document"; then
        echo "$document has no screen" >&2
        status=1
    elif ! diff -u "$root/$document" "$scratch/drawn"; then
        status=1
    fi
done
if [ $status -ne 0 ]; then
    echo 'docs_screens: screens have changed; draw them anew with' >&2
    echo '  GENERATE=1 sh tests/scripts/docs_screens.sh . BUILD/tests/screens' >&2
    echo 'and read the words around them again' >&2
fi
exit $status
