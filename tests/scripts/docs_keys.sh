#!/bin/sh
# SPDX-License-Identifier: MIT
# docs/keys.md and the keys in share/man/sillet.1 follow from the program's own tables.
#
#   docs_keys.sh ROOT KEYS_DOC            checks them
#   GENERATE=1 docs_keys.sh ROOT KEYS_DOC writes them anew
set -eu

root=$1
keys_doc=$2
scratch=$(mktemp -d "${TMPDIR:-/tmp}/sillet-keys.XXXXXX")
trap 'rm -rf "$scratch"' EXIT

make_page() {
    cat "$root/share/man/sillet.1.head"
    "$keys_doc" man
}

# same GENERATED KEPT: false, with a diff, when they are not alike.
same() {
    diff -u "$2" "$1"
}

"$keys_doc" md >"$scratch/keys.md"
make_page >"$scratch/sillet.1"

if [ "${GENERATE:-}" = 1 ]; then
    cp "$scratch/keys.md" "$root/docs/keys.md"
    cp "$scratch/sillet.1" "$root/share/man/sillet.1"
    exit 0
fi

# The check must be able to fail.
sed '1d' "$scratch/keys.md" >"$scratch/short.md"
if same "$scratch/keys.md" "$scratch/short.md" >/dev/null; then
    echo 'docs_keys: the comparison finds no difference where there is one' >&2
    exit 1
fi

status=0
same "$scratch/keys.md" "$root/docs/keys.md" || status=1
same "$scratch/sillet.1" "$root/share/man/sillet.1" || status=1
if [ $status -ne 0 ]; then
    echo "docs_keys: the keys have changed; write them anew with" >&2
    echo "  GENERATE=1 sh tests/scripts/docs_keys.sh . BUILD/tests/keys_doc" >&2
fi
exit $status
