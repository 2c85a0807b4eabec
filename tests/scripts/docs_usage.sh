#!/bin/sh
# SPDX-License-Identifier: MIT
# The usage in docs/command-line.md and in the manual page's head is what `sillet --help` prints.
#
#   docs_usage.sh ROOT PROGRAM            checks them
#   GENERATE=1 docs_usage.sh ROOT PROGRAM writes them anew; then the manual page (docs_keys.sh)
set -eu

root=$1
program=$2
scratch=$(mktemp -d "${TMPDIR:-/tmp}/sillet-usage.XXXXXX")
trap 'rm -rf "$scratch"' EXIT

# Without the word in front and the exit codes, which both pages tell at length.
"$program" --help | sed -n 's/^usage:/      /; s/^   //; /^exit:/!p' >"$scratch/usage"
sed 's/\\/\\\\/g; s/-/\\-/g' "$scratch/usage" >"$scratch/usage.man"

# put FROM TO USAGE <PAGE: the page with what stands between two lines put anew.
put() {
    awk -v from="$1" -v to="$2" -v usage="$3" '
        $0 == to { inside = 0 }
        !inside { print }
        $0 == from { inside = 1; while ((getline line < usage) > 0) print line }'
}

put '<!-- sillet --help -->' '<!-- end -->' "$scratch/usage" \
    <"$root/docs/command-line.md" >"$scratch/command-line.md"
put '.nf' '.fi' "$scratch/usage.man" <"$root/share/man/sillet.1.head" >"$scratch/sillet.1.head"
if [ "${GENERATE:-}" = 1 ]; then
    cp "$scratch/command-line.md" "$root/docs/command-line.md"
    cp "$scratch/sillet.1.head" "$root/share/man/sillet.1.head"
    exit 0
fi

# The check must be able to fail.
sed '/figures/d' "$scratch/usage" >"$scratch/short"
put '<!-- sillet --help -->' '<!-- end -->' "$scratch/short" \
    <"$root/docs/command-line.md" >"$scratch/wrong"
if cmp -s "$root/docs/command-line.md" "$scratch/wrong"; then
    echo 'docs_usage: the comparison finds no difference where there is one' >&2
    exit 1
fi
status=0
diff -u "$root/docs/command-line.md" "$scratch/command-line.md" || status=1
diff -u "$root/share/man/sillet.1.head" "$scratch/sillet.1.head" || status=1
if [ $status -ne 0 ]; then
    echo 'docs_usage: the command line has changed; write the pages anew with' >&2
    echo '  GENERATE=1 sh tests/scripts/docs_usage.sh . BUILD/src/sillet' >&2
fi
exit $status
