#!/bin/sh
# SPDX-License-Identifier: MIT
# docs/profile-format.md has a row for every field of src/model/reading/field_table.h and no other, with its
# choices and its default; and it names what no visit changes as correction_table.h does.
#
#   docs_profile_format.sh SOURCE-ROOT
set -eu
export LC_ALL=C

root=${1:?the source tree}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# fields TABLE: "section key<TAB>fallback<TAB>choices" of each row, keys as documents spell them.
fields() {
    awk '
        BEGIN {
            of["STRING"] = "string.N"
            of["VISIT"] = "visit.V"
            of["PASS"] = "visit.V.pass.P"
            of["WORK"] = "visit.V.work.K"
            behind["STRING"] = ".S"
            behind["FRET"] = ".F"
            behind["STRING_FRET"] = ".S.F"
        }
        /^FIELD\(/ { row = "" }
        /^FIELD\(/, /"\)$/ { row = row $0 }
        /"\)$/ && row != "" {
            split(row, string, "\"")
            split(string[1], head, /[(, ]+/)
            section = head[3] in of ? of[head[3]] : tolower(head[3])
            printf "%s %s%s\t%s\t%s\n", section, string[2], behind[head[4]], string[6], string[8]
            row = ""
        }' "$1"
}

# rows DOCUMENT: "section key<TAB>text" of each row under a heading "### [section]".
rows() {
    awk '
        /^#/ { section = "" }
        /^### \[/ { section = $2; gsub(/[][]/, "", section) }
        section != "" && /^\| *`/ {
            split($0, part, "`")
            text = $0
            sub(/^\|[^|]*\|/, "", text)
            printf "%s %s\t%s\n", section, part[2], text
        }' "$1"
}

# complaints TABLE DOCUMENT
complaints() {
    fields "$1" >"$work/fields"
    rows "$2" >"$work/rows"
    [ -s "$work/fields" ] || printf 'no field was found in %s\n' "$1"
    awk -F '\t' '
        FNR == NR {
            text[$1] = $2
            if (seen[$1]++)
                print $1 ": described more than once"
            next
        }
        {
            known[$1] = 1
            if (!($1 in text)) {
                print $1 ": not described"
                next
            }
            # A choice in backquotes is only named; the default stands in plain words.
            plain = text[$1]
            gsub(/`[^`]*`/, "", plain)
            if ($2 != "" && index(plain, $2) == 0)
                print $1 ": does not say that " $2 " holds when it is absent"
            count = split($3, choice, "|")
            for (i = 1; i <= count; i++)
                if (index(text[$1], "`" choice[i] "`") == 0)
                    print $1 ": does not name the choice " choice[i]
        }
        END {
            for (name in text)
                if (!(name in known))
                    print name ": described, but not in the table"
        }' "$work/rows" "$work/fields" | sort
}

# must_say WORDS: of bad.md exactly these are said.
must_say() {
    said=$(complaints "$work/table.h" "$work/bad.md")
    [ "$said" = "$1" ] && return 0
    printf 'self-check: wanted "%s", got "%s"\n' "$1" "$said" >&2
    exit 1
}

# A table of two rows, and documents with a fault each.
# shellcheck disable=SC2016 # backquotes are the documents' own
self_check() {
    cat >"$work/table.h" <<'TABLE'
FIELD(KIND, NUT, ONE, "kind", "nut", CHOICE, PLAIN, NONE, NONE,
      0, 0, 0, 0, "slotted", "slotted|zero-fret", "Slots.")
FIELD(CENTS, PASS, STRING_FRET, "cents", "cents", NUMBER, CENTS, NONE, TUNER,
      -1, 1, 0, 1, "", "", "Sharp.")
TABLE
    cat >"$work/good.md" <<'GOOD'
### [nut]
| `kind` | `slotted` or `zero-fret`; if absent, slotted |
### [visit.V.pass.P]
| `cents.S.F` | cents |
GOOD
    cp "$work/good.md" "$work/bad.md"
    must_say ''
    sed '/cents/d' "$work/good.md" >"$work/bad.md"
    must_say 'visit.V.pass.P cents.S.F: not described'
    sed 's/`zero-fret`/more/' "$work/good.md" >"$work/bad.md"
    must_say 'nut kind: does not name the choice zero-fret'
    sed 's/; if absent, slotted/; if absent, zero/' "$work/good.md" >"$work/bad.md"
    must_say 'nut kind: does not say that slotted holds when it is absent'
    { cat "$work/good.md" && printf '| `bent.S` | b |\n'; } >"$work/bad.md"
    must_say 'visit.V.pass.P bent.S: described, but not in the table'
    { cat "$work/good.md" && printf '| `cents.S.F` | c |\n'; } >"$work/bad.md"
    must_say 'visit.V.pass.P cents.S.F: described more than once'
}

# same_in_all CORRECTIONS FIELDS: "section key" of what no visit changes, by the tables.
same_in_all() {
    awk '
        FNR == NR { if (/^CORRECTION\(/) { gsub(/^CORRECTION\(|\)$/, ""); wanted[$0] = 1 } next }
        /^FIELD\(/ {
            split($0, head, /[(, ]+/)
            split($0, string, "\"")
            if (head[2] in wanted)
                print tolower(head[3]), string[2]
        }' "$1" "$2" | sort
}

# said_the_same DOCUMENT: the same by the table under "## Changes".
said_the_same() {
    awk -F '`' '
        /^## / { changes = $0 == "## Changes" }
        changes && /^\| *`\[/ {
            gsub(/[][]/, "", $2)
            for (i = 4; i <= NF; i += 2)
                print $2, $i
        }' "$1" | sort
}

self_check
same_in_all "$root/src/model/reading/correction_table.h" "$root/src/model/reading/field_table.h" \
    >"$work/same"
said_the_same "$root/docs/profile-format.md" >"$work/said"
[ -s "$work/same" ] || { echo 'no correction was found' >&2; exit 1; }
diff "$work/same" "$work/said" || {
    echo 'docs/profile-format.md, Changes, against src/model/reading/correction_table.h' >&2
    exit 1
}
complaints "$root/src/model/reading/field_table.h" "$root/docs/profile-format.md" >"$work/complaints"
if [ -s "$work/complaints" ]; then
    printf 'docs/profile-format.md, against src/model/reading/field_table.h:\n'
    cat "$work/complaints"
    exit 1
fi
printf '%s fields described\n' "$(wc -l <"$work/fields")"
