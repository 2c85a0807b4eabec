#!/bin/sh
# SPDX-License-Identifier: MIT
# share/man/sillet-profile.5 follows from the table of fields, and groff, if it is there, formats the
# manual pages without a warning.
#
#   docs_man.sh ROOT PROFILE_DOC            checks them
#   GENERATE=1 docs_man.sh ROOT PROFILE_DOC writes sillet-profile.5 anew
set -eu

root=$1
profile_doc=$2
man=$root/share/man
scratch=$(mktemp -d "${TMPDIR:-/tmp}/sillet-man.XXXXXX")
trap 'rm -rf "$scratch"' EXIT

{
    cat "$man/sillet-profile.5.head"
    "$profile_doc"
    cat "$man/sillet-profile.5.tail"
} >"$scratch/sillet-profile.5"

if [ "${GENERATE:-}" = 1 ]; then
    cp "$scratch/sillet-profile.5" "$man/sillet-profile.5"
    exit 0
fi

# The check must be able to fail.
sed '1d' "$scratch/sillet-profile.5" >"$scratch/short"
if cmp -s "$scratch/sillet-profile.5" "$scratch/short"; then
    echo 'docs_man: the comparison finds no difference where there is one' >&2
    exit 1
fi
if ! diff -u "$man/sillet-profile.5" "$scratch/sillet-profile.5"; then
    echo 'docs_man: the fields have changed; write the page anew with' >&2
    echo '  GENERATE=1 sh tests/scripts/docs_man.sh . BUILD/tests/profile_doc' >&2
    exit 1
fi

command -v groff >/dev/null || { echo 'no groff: the pages were not set'; exit 0; }

# complaints PAGE: what groff says about it.
complaints() {
    groff -ww -b -man -Tutf8 -rLL=78n "$1" >"$scratch/set" 2>"$scratch/said"
    cat "$scratch/said"
}

printf '.TH BAD 1\n.SH NAME\nbad \\- \\*[nosuchstring]\n' >"$scratch/bad.1"
if [ -z "$(complaints "$scratch/bad.1")" ]; then
    echo 'docs_man: groff does not complain about a faulty page' >&2
    exit 1
fi
for page in sillet.1 sillet-profile.5; do
    said=$(complaints "$man/$page")
    if [ -n "$said" ]; then
        printf '%s: %s\n' "$page" "$said" >&2
        exit 1
    fi
    lines=$(wc -l <"$scratch/set")
    if [ "$lines" -lt 60 ]; then
        echo "$page: only $lines lines were set" >&2
        exit 1
    fi
done
echo 'both pages are set without a warning'
