#!/bin/sh
# SPDX-License-Identifier: MIT
# The sheet in docs/sheet.md is what `sillet sheet` prints.
#
#   docs_sheet.sh ROOT SILLET            checks it
#   GENERATE=1 docs_sheet.sh ROOT SILLET writes it anew
set -eu
export LC_ALL=C.UTF-8

root=$1
sillet=$2
command='    sillet sheet --visit 1 profiles/parlour.ini'
scratch=$(mktemp -d "${TMPDIR:-/tmp}/sillet-docs.XXXXXX")
trap 'rm -rf "$scratch"' EXIT
export HOME="$scratch/home"
unset XDG_CONFIG_HOME XDG_DATA_HOME
mkdir -p "$HOME/.config/sillet"
printf '[shop]\nname = Quayside Fret Works\naddress = 3 Quay Steps, upstairs\n' \
    >"$HOME/.config/sillet/shop.ini"

"$sillet" sheet --visit 1 "$root/profiles/parlour.ini" >"$scratch/made"

# with_block DOCUMENT FILE: the document, its first fenced block behind the command replaced.
with_block() {
    awk -v command="$command" -v block="$2" '
        $0 == command { wanted = 1 }
        $0 == "```" && inside { inside = 0 }
        !inside { print }
        $0 == "```" && wanted {
            wanted = 0
            inside = 1
            while ((getline line < block) > 0)
                print line
        }' "$1"
}

with_block "$root/docs/sheet.md" "$scratch/made" >"$scratch/sheet.md"
grep -qF '.011 (0.28)' "$scratch/sheet.md" || {
    echo "docs_sheet: docs/sheet.md has no block behind '$command'" >&2
    exit 1
}
if [ "${GENERATE:-}" = 1 ]; then
    cp "$scratch/sheet.md" "$root/docs/sheet.md"
    exit 0
fi

# The check must be able to fail.
sed 's/\.011 (0\.28)/.012 (0.30)/' "$scratch/sheet.md" >"$scratch/wrong.md"
if cmp -s "$scratch/wrong.md" "$scratch/sheet.md"; then
    echo 'docs_sheet: the comparison finds no difference where there is one' >&2
    exit 1
fi
if ! diff -u "$root/docs/sheet.md" "$scratch/sheet.md"; then
    echo 'docs_sheet: the sheet has changed; write it anew with' >&2
    echo '  GENERATE=1 sh tests/scripts/docs_sheet.sh . BUILD/src/sillet' >&2
    exit 1
fi
