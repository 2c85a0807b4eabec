#!/bin/sh
# SPDX-License-Identifier: MIT
# The customer's sheet as PDF and SVG: other programs read back its pages, its size and the main
# numbers. If sillet was built without cairo, it has to say so.
#
#   sheet_pdf.sh ROOT SILLET
set -eu
export LC_ALL=C.UTF-8

root=$1
sillet=$2
scratch=$(mktemp -d "${TMPDIR:-/tmp}/sillet-sheet.XXXXXX")
trap 'rm -rf "$scratch"' EXIT
export HOME="$scratch/home"
unset XDG_CONFIG_HOME XDG_DATA_HOME
mkdir -p "$HOME/.config/sillet"
printf '[shop]\nname = Quayside Fret Works\ncontact = by the bell\n' >"$HOME/.config/sillet/shop.ini"

fail() {
    echo "sheet_pdf: $*" >&2
    exit 1
}

# make NAME ARGUMENT...: the sheet, as $scratch/NAME.
make() {
    made=$1
    shift
    "$sillet" sheet -o "$scratch/$made" "$@" || fail "exit $? for $made"
}

check_without_cairo() {
    code=0
    "$sillet" sheet -o "$scratch/a.pdf" "$root/profiles/parlour.ini" 2>"$scratch/said" || code=$?
    [ $code -eq 3 ] || fail "exit $code without cairo"
    grep -q cairo "$scratch/said" || fail 'without cairo nothing says so'
    [ ! -e "$scratch/a.pdf" ] || fail 'a file without cairo'
    make a.txt "$root/profiles/parlour.ini"
    grep -q 'Parlour No. 3' "$scratch/a.txt" || fail 'no text without cairo'
}

# has FILE WORDS: blanks and line breaks between words count as one.
has() {
    tr -s '[:space:]' ' ' <"$1" | grep -qF -- "$2"
}

# wants NAME WORDS...: all of them stand in the PDF.
wants() {
    read_back=$1
    shift
    pdftotext -layout "$scratch/$read_back" "$scratch/text"
    if has "$scratch/text" 'words that no sheet has'; then
        fail 'the search finds everything'
    fi
    for words in "$@"; do
        has "$scratch/text" "$words" || fail "$read_back: no '$words'"
    done
}

# fits NAME WIDTH: that wide in points, on two pages at most.
fits() {
    pdfinfo "$scratch/$1" >"$scratch/info"
    grep -q "^Page size: *$2" "$scratch/info" || fail "$1: $(grep '^Page size' "$scratch/info")"
    pages=$(sed -n 's/^Pages: *//p' "$scratch/info")
    [ "$pages" -le 2 ] || fail "$1: $pages pages"
}

# The readings of the profile, in inches as typed and in mm worked out by hand.
check_parlour() {
    make parlour.pdf --visit 1 "$root/profiles/parlour.ini"
    wants parlour.pdf 'Quayside Fret Works' '19 January 2026' 'Parlour No. 3' 'QFW-P-003' \
        'Marlo Quillfeather' 'hard work at the first three frets' \
        '.011 (0.28) .006 (0.15) .006 (0.15) good' '14.1 (5.60) 11.1 (4.40)' \
        '.034 (0.86) .018 (0.46) .018 (0.46) 8.5 (3.37) 6.0 (2.38) 6.0 (2.38)' \
        'tightened 1/4 turn' 'new set, .012 to .053' '.053 (1.35)' '+8 +2 in tune' \
        'Keep it over 40 % in winter' '38 % humidity' 'March 2026'
    # The sum of tensions is the one that is computed elsewhere.
    newton=$("$sillet" figures "$root/profiles/parlour.ini" |
        sed -n 's/^tension_total_n = //p' | awk '{ printf "%.0f", $1 }')
    [ -n "$newton" ] || fail 'no tension to compare with'
    wants parlour.pdf "($newton)"
    pdfinfo "$scratch/parlour.pdf" | grep -q '^Title: *Set-up sheet: Parlour No. 3' ||
        fail 'the document has no title'
}

check_all() {
    for path in "$root"/profiles/*.ini; do
        for visit in 1 2; do
            make a4.pdf --paper a4 --visit $visit "$path"
            fits a4.pdf '595'
            make letter.pdf --paper letter --visit $visit "$path"
            fits letter.pdf '612'
        done
    done
    # What a shop of inches has in its printer; a metric one has the other.
    make inch.pdf "$root/profiles/bass.ini"
    fits inch.pdf '612'
    printf '[shop]\nunits = metric\n' >"$HOME/.config/sillet/shop.ini"
    make metric.pdf "$root/profiles/bass.ini"
    fits metric.pdf '595'
    wants metric.pdf '-0.05 (-.002)' '863.6 mm (34 in)'
    printf '[shop]\npaper = a4\n' >"$HOME/.config/sillet/shop.ini"
    make said.pdf "$root/profiles/bass.ini"
    fits said.pdf '595'
}

check_svg() {
    make sheet.svg --paper a4 "$root/profiles/bass.ini"
    grep -q '<svg' "$scratch/sheet.svg" || fail 'no SVG'
    tail -c 20 "$scratch/sheet.svg" | grep -q '</svg>' || fail 'half an SVG'
}

# The same record gives the same bytes: nothing in them hangs on the clock.
check_same() {
    make one.pdf "$root/profiles/bass.ini"
    make two.pdf "$root/profiles/bass.ini"
    cmp "$scratch/one.pdf" "$scratch/two.pdf" || fail 'two sheets of one record differ'
}

# label SIZE POINTS: one page of that size, with what a label is for.
label() {
    make label.pdf --label "$1" --visit 1 "$root/profiles/parlour.ini"
    pdfinfo "$scratch/label.pdf" >"$scratch/info"
    grep -q "^Page size: *$2" "$scratch/info" || fail "$1: $(grep '^Page size' "$scratch/info")"
    grep -q '^Pages: *1$' "$scratch/info" || fail "$1: more than a page"
    wants label.pdf 'Parlour No. 3' '19 January 2026' 'March 2026' 'E2 A2 D3 G3 B3 E4' '.053 to .012 in'
}

# 57 x 32, 89 x 36 and 102 x 59 mm in points of 1/72 in.
check_labels() {
    label small '161.57[0-9]* x 90.7'
    label medium '252.28[0-9]* x 102.0'
    label large '289.13[0-9]* x 167.2'
    wants label.pdf 'Relief .006 in' 'Action' 'Marlo Quillfeather'
    if "$sillet" sheet --label small "$root/profiles/parlour.ini" 2>"$scratch/said"; then
        fail 'a label without a file'
    fi
    grep -q 'drawn: -o' "$scratch/said" || fail "$(cat "$scratch/said")"
    if "$sillet" sheet --label tiny -o "$scratch/x.pdf" "$root/profiles/parlour.ini" 2>/dev/null; then
        fail 'a size that is none'
    fi
}

if ! "$sillet" sheet -o "$scratch/probe.pdf" "$root/profiles/bass.ini" 2>/dev/null; then
    check_without_cairo
    echo 'built without cairo'
    exit 0
fi
if ! command -v pdftotext >/dev/null || ! command -v pdfinfo >/dev/null; then
    echo 'pdftotext and pdfinfo (poppler-utils) are missing'
    exit 77
fi
check_parlour
check_all
check_svg
check_same
check_labels
echo 'good'
