#!/bin/sh
# SPDX-License-Identifier: MIT
# The tables of checks in docs/method.md are what tests/published comes to, and its list of formulas
# names the groups that there are.
#
#   docs_published.sh ROOT RUN_PUBLISHED            checks them
#   GENERATE=1 docs_published.sh ROOT RUN_PUBLISHED writes them anew
set -eu
export LC_ALL=C.UTF-8

root=$1
run=$2
document=$root/docs/method.md
scratch=$(mktemp -d "${TMPDIR:-/tmp}/sillet-published.XXXXXX")
trap 'rm -rf "$scratch"' EXIT

"$run" --summary "$scratch/summary" "$root"/tests/published/*.tbl >"$scratch/out" 2>&1 || {
    cat "$scratch/out" >&2
    exit 1
}

# with_summary: the document, what is between its marks replaced.
with_summary() {
    awk -v summary="$scratch/summary" '
        $0 == "<!-- end of checks -->" { inside = 0 }
        !inside { print }
        $0 == "<!-- checks -->" {
            inside = 1
            while ((getline line < summary) > 0)
                print line
        }' "$1"
}

with_summary "$document" >"$scratch/method.md"
if [ "${GENERATE:-}" = 1 ]; then
    cp "$scratch/method.md" "$document"
fi
if ! grep -q '^| moisture content | emc |' "$document" ||
    ! diff -u "$document" "$scratch/method.md"; then
    echo 'docs_published: the checks have changed; write them anew with' >&2
    echo '  GENERATE=1 sh tests/scripts/docs_published.sh . BUILD/tests/run_published' >&2
    echo 'and read the list of formulas before them again' >&2
    exit 1
fi

# Groups as the list of formulas names them, *so*, and as the tables have them.
sed -n '/^## What is checked by what/,/^<!-- checks -->/p' "$document" | grep '^|' |
    grep -o '\*[^*|]*\*' | tr -d '*' | sort -u >"$scratch/named"
sed -n 's/^all *//p' "$root"/tests/published/*.tbl | sort -u >"$scratch/groups"
if ! diff "$scratch/groups" "$scratch/named" >"$scratch/difference"; then
    echo 'docs_published: groups without a formula (<) or formulas of no group (>):' >&2
    cat "$scratch/difference" >&2
    exit 1
fi
