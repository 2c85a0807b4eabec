#!/bin/sh
# SPDX-License-Identifier: MIT
# The model is pure, only term keeps state, and includes go one way.
#
#   purity.sh SOURCE-ROOT base=ARCHIVE model=ARCHIVE, and so on for every folder of src
#
# The functions that an object may call from outside, by archive:
#   base    libm, mem*, str*; formatting and parsing of digits only in num_decimal.c, num_format.c
#           and strbuf.c, realloc only in array.c
#   model   libm, mem*, str*, base; malloc and its kin only in record.c
# No archive but term's may hold a writable global, and files of one folder may not call each other
# in a circle. Includes follow the table in check_directions. A leaf includes no other leaf; in
# store, profile does not include shelf, and the files outside both rooms include neither.
# CC (for the self-check) and NM may name other tools. Exit 77: this build cannot be read.
set -eu

nm=${NM:-nm}
root=${1:?the source tree}
shift

libm='acos acosh asin asinh atan atan2 atanh cbrt ceil copysign cos cosh erf erfc exp exp2 expm1
fabs fdim floor fma fmax fmin fmod frexp hypot ilogb ldexp lgamma llrint llround log log10 log1p
log2 logb lrint lround modf nearbyint nextafter pow remainder remquo rint round scalbln scalbn
sin sincos sinh sqrt tan tanh tgamma trunc'
# Only functions that neither allocate nor keep state nor depend on the locale.
memory='memchr memcmp memcpy memmove memset strchr strcmp strcpy strcspn strlen strncat strncmp
strncpy strnlen strpbrk strrchr strspn strstr'
allocation='malloc calloc realloc free'
formatting='snprintf vsnprintf strtol strtod'
# Symbols from the compiler and from hardened and sanitized builds. __memcpy_chk is checked as memcpy.
runtime='^(_GLOBAL_OFFSET_TABLE_|__stack_chk_fail|__stack_chk_guard|___?(odr_asan|asan|ubsan|sanitizer|msan|tsan|sancov|gcov|llvm|prof)_.*)$'

failures=$(mktemp)
work=$(mktemp -d)
trap 'rm -rf "$failures" "$work"' EXIT

complain() {
    printf '%s\n' "$*" >>"$failures"
}

# Lines "object name section-or-U type" of an archive or object.
symbols() {
    "$nm" -f sysv "$1" 2>/dev/null | awk -F'|' '
        /^(Undefined s|S)ymbols from / {
            object = $0
            sub(/^(Undefined s|S)ymbols from /, "", object)
            sub(/:$/, "", object)
            sub(/\]$/, "", object)
            sub(/.*[\/\[]/, "", object)
            next
        }
        NF >= 7 {
            gsub(/ /, "", $1); gsub(/ /, "", $3); gsub(/ /, "", $7)
            print object, $1, ($7 == "" ? "-" : $7), $3
        }'
}

defined_names() {
    symbols "$1" | awk '$4 ~ /^[TtRrDdBbVvWw]$/ { print $2 }'
}

# check_undefined ARCHIVE NAMES OBJECTS MORE-NAMES: NAMES are allowed everywhere, MORE-NAMES
# in OBJECTS. OWN-NAMES come on standard input.
check_undefined() {
    cat >"$work/own"
    symbols "$1" | awk '$4 == "U" || $4 == "w" { print $1, $2 }' | sort -u >"$work/wanted"
    awk -v names="$2" -v objects="$3" -v more="$4" -v runtime="$runtime" -v own="$work/own" '
        function take(text, set,   part, n, i) {
            n = split(text, part, /[ \n]+/)
            for (i = 1; i <= n; i++)
                set[part[i]] = 1
        }
        BEGIN {
            take(names, good)
            take(more, narrow)
            take(objects, there)
            while ((getline line < own) > 0)
                good[line] = 1
        }
        {
            name = $2
            if (name ~ runtime)
                next
            if (name ~ /^__.*_chk$/) {
                sub(/^__/, "", name)
                sub(/_chk$/, "", name)
            }
            if (name in good || (name in narrow && $1 in there))
                next
            print $1 ": asks for " $2
        }' "$work/wanted" >>"$failures"
}

# In position-independent code, constant tables of pointers are in .data.rel.ro.
check_no_globals() {
    symbols "$1" | awk '
        $2 ~ /^(\.L|___?(odr_asan|asan|ubsan|sancov|gcov|llvm|prof|covrec)|asan\.|__start_|__stop_)/ { next }
        $3 ~ /^\.data\.rel\.ro/ { next }
        $3 ~ /^\.(data|bss|tdata|tbss|sdata|sbss)/ || $3 == "*COM*" {
            print $1 ": writable global " $2 " in " $3
        }' >>"$failures"
}

# check_circles ARCHIVE-OR-OBJECT...: sorts objects before those whose functions they call; tsort
# names those that are in a circle.
check_circles() {
    for archive in "$@"; do symbols "$archive"; done | awk '
        $4 == "T" || $4 == "R" || $4 == "D" { home[$2] = $1 }
        $4 == "U" { asked[$1 " " $2] = 1 }
        END {
            for (pair in asked) {
                split(pair, part, " ")
                if (part[2] in home && home[part[2]] != part[1])
                    print part[1], home[part[2]]
            }
        }' | sort -u >"$work/calls"
    tsort "$work/calls" 2>&1 >/dev/null | awk '
        /loop/ { loop = 1; next }
        { sub(/^[^:]*: /, ""); names = names " " $0 }
        END { if (loop) print "files that call each other:" names }' >>"$failures"
}

# check_includes TREE LAYER ALLOWED-LAYERS
check_includes() {
    [ -d "$1/$2" ] || {
        complain "$2: no such layer in $1"
        return
    }
    found=$(find "$1/$2" -name '*.[ch]' | wc -l)
    [ "$found" -gt 0 ] || complain "$2: no sources in $1"
    find "$1/$2" -name '*.[ch]' -exec awk -v allowed="$3" -v layer="$2" '
        BEGIN {
            n = split(allowed, part, " ")
            for (i = 1; i <= n; i++)
                good[part[i]] = 1
        }
        /^[ \t]*#[ \t]*include[ \t]*"/ {
            split($0, quoted, "\"")
            # Generated tables are beside the objects, without a folder.
            if (quoted[2] ~ /^[a-z_]+\.inc$/)
                next
            of = quoted[2]
            sub(/\/.*/, "", of)
            if (quoted[2] !~ /\// || !(of in good))
                print FILENAME ":" FNR ": " layer " includes " quoted[2]
        }' {} + >>"$failures"
}

# Who may include whom.
check_directions() {
    check_includes "$1" base 'base'
    check_includes "$1" page 'base page'
    check_includes "$1" model 'base model'
    check_includes "$1" template 'base model page template'
    check_includes "$1" demo 'base model demo'
    check_includes "$1" store 'base model store'
    check_includes "$1" words 'base model words'
    check_includes "$1" picture 'base model picture'
    check_includes "$1" sheet 'base model words picture page sheet'
    check_includes "$1" session 'base model words session'
    check_includes "$1" draw 'base picture draw'
    check_includes "$1" screen 'base model words session draw screen'
    check_includes "$1" leaf 'base model words picture session draw screen leaf'
    check_includes "$1" shelf 'base model words session draw screen shelf'
    check_includes "$1" term 'base session draw term'
    check_includes "$1" commands 'base model store words shelf page template sheet demo commands'
    check_includes "$1" run 'base model store words session draw screen leaf shelf term sheet commands run'
    check_leaves "$1/leaf"
    check_barred "$1/store" 'profile|shelf'
    check_barred "$1/store/profile" 'shelf'
    check_order "$1" model 'common strings neck pitch reading frets figure doubt setup derive survey'
}

# check_order TREE LAYER ROOMS: a room of the layer includes itself and the rooms before it.
check_order() {
    before=
    for room in $3; do
        [ -d "$1/$2/$room" ] || continue
        before="$before $room"
        find "$1/$2/$room" -name '*.[ch]' -exec awk -v layer="$2" -v room="$room" -v before="$before" '
            BEGIN {
                n = split(before, part, " ")
                for (i = 1; i <= n; i++)
                    good[part[i]] = 1
            }
            /^[ \t]*#[ \t]*include[ \t]*"/ {
                split($0, quoted, "\"")
                split(quoted[2], at, "/")
                if (at[1] == layer && !(at[2] in good))
                    print FILENAME ":" FNR ": " room " includes " quoted[2]
            }' {} + >>"$failures"
    done
}

# check_barred FOLDER ROOMS: the files of a folder of store include none of these rooms of store.
check_barred() {
    [ -d "$1" ] || complain "$1: no such room"
    grep -En "^[[:blank:]]*#[[:blank:]]*include[[:blank:]]*\"store/($2)/" "$1"/*.[ch] /dev/null \
        >>"$failures" || true
}

# check_leaves FOLDER: a leaf's folder may include only itself and the list of leaves.
check_leaves() {
    for room in "$1"/*/; do
        [ -d "$room" ] || continue
        name=$(basename "$room")
        find "$room" -name '*.[ch]' -exec awk -v room="$name" '
            /^[ \t]*#[ \t]*include[ \t]*"leaf\// {
                split($0, quoted, "\"")
                split(quoted[2], part, "/")
                if (part[2] != room && part[2] != "leaves.h")
                    print FILENAME ":" FNR ": " room " includes " quoted[2]
            }' {} + >>"$failures"
    done
}

# The model may include no system headers for files, clock, locale or terminal.
check_model_headers() {
    find "$1/model" -name '*.[ch]' -exec awk '
        /^[ \t]*#[ \t]*include[ \t]*</ {
            split($0, part, /[<>]/)
            if (part[2] !~ /^(float|limits|math|stdbool|stddef|stdint|stdlib|string|stdarg|inttypes)\.h$/)
                print FILENAME ":" FNR ": model includes <" part[2] ">"
        }' {} + >>"$failures"
}

must_complain() {
    grep -q -- "$1" "$failures" || {
        printf 'self-check: not noticed: %s\n' "$1" >&2
        exit 1
    }
}

must_be_silent() {
    [ ! -s "$failures" ] || {
        printf 'self-check: complains for no reason:\n' >&2
        cat "$failures" >&2
        exit 1
    }
}

compile() {
    # shellcheck disable=SC2086
    ${CC:-cc} $1 -c "$2" -o "$3"
}

# The checks must complain about bad objects and sources, and not about good ones.
self_check() {
    cat >"$work/bad.c" <<'BAD'
#include <stdio.h>
#include <stdlib.h>
#include <time.h>
int counter;
static int calls;
static int starting = 3;
long bad(void);
long bad(void)
{
    calls++;
    starting++;
    counter += calls + starting;
    puts("heard");
    return (long)time(malloc((size_t)counter));
}
BAD
    cat >"$work/good.c" <<'GOOD'
#include <math.h>
#include <stdlib.h>
#include <string.h>
static const char *const words[] = {"nut", "saddle"};
double *good(const char *text, double x);
double *good(const char *text, double x)
{
    double *memory = malloc(strlen(text) + strlen(words[x > 0]) + sizeof x);
    if (memory)
        *memory = pow(x, x);
    return memory;
}
GOOD
    for flags in '-O0' '-O2 -fPIC'; do
        compile "$flags" "$work/bad.c" "$work/bad.o"
        compile "$flags" "$work/good.c" "$work/good.o"
        : >"$failures"
        check_undefined "$work/good.o" "$libm $memory" 'good.o' "$allocation" </dev/null
        check_no_globals "$work/good.o"
        must_be_silent
        check_undefined "$work/good.o" "$libm $memory" 'record.c.o' "$allocation" </dev/null
        must_complain 'asks for malloc'
        : >"$failures"
        check_undefined "$work/bad.o" "$libm $memory" 'record.c.o' "$allocation" </dev/null
        check_no_globals "$work/bad.o"
        for sign in 'asks for time' 'asks for puts' 'asks for malloc' 'global counter' \
            'global calls' 'global starting'; do
            must_complain "$sign"
        done
    done
    printf 'int one(void);\nint two(void);\nint one(void) { return two(); }\n' >"$work/one.c"
    printf 'int one(void);\nint two(void);\nint two(void) { return 2; }\n' >"$work/two.c"
    printf 'int one(void);\nint two(void);\nint two(void) { return one(); }\n' >"$work/round.c"
    for name in one two round; do
        compile '-O0' "$work/$name.c" "$work/$name.o"
    done
    : >"$failures"
    check_circles "$work/one.o" "$work/two.o"
    must_be_silent
    check_circles "$work/one.o" "$work/round.o"
    must_complain 'call each other'
    layers='base page template model demo store words picture sheet session draw screen leaf shelf term commands run'
    for layer in $layers; do
        mkdir -p "$work/src/$layer"
        printf '#include <stddef.h>\n#include "%s/x.h"\n' "$layer" >"$work/src/$layer/x.c"
    done
    mkdir "$work/src/store/profile" "$work/src/store/shelf"
    printf '#include "store/x.h"\n' >"$work/src/store/profile/x.c"
    printf '#include "store/profile/x.h"\n' >"$work/src/store/shelf/x.c"
    : >"$failures"
    check_directions "$work/src"
    check_model_headers "$work/src"
    must_be_silent
    printf '#include "store/shelf/x.h"\n' >>"$work/src/store/profile/x.c"
    printf ' # include "store/profile/x.h"\n' >>"$work/src/store/x.c"
    printf '#include "model/x.h"\n' >>"$work/src/base/x.c"
    printf '  #  include "store/x.h"\n#include <stdio.h>\n' >>"$work/src/model/x.c"
    printf '#include "words/x.h"\n' >>"$work/src/store/x.c"
    printf '#include "model/x.h"\n' >>"$work/src/page/x.c"
    printf '#include "store/x.h"\n' >>"$work/src/template/x.c"
    printf '#include "leaf/x.h"\n' >>"$work/src/session/x.c"
    printf '#include "x.h"\n' >>"$work/src/words/x.c"
    printf '#include "term/x.h"\n' >>"$work/src/screen/x.c"
    mkdir -p "$work/src/leaf/bench" "$work/src/model/reading"
    printf '#include "model/reading/x.h"\n#include "model/setup/x.h"\n' >"$work/src/model/reading/x.c"
    printf '#include "leaf/leaves.h"\n#include "leaf/jobs/x.h"\n' >"$work/src/leaf/bench/x.c"
    printf '#include "store/x.h"\n' >>"$work/src/sheet/x.c"
    printf '#include "store/x.h"\n' >>"$work/src/term/x.c"
    check_directions "$work/src"
    check_model_headers "$work/src"
    for sign in 'page includes model/x.h' 'template includes store/x.h' \
        'base includes model/x.h' 'model includes store/x.h' 'store includes words/x.h' \
        'session includes leaf/x.h' 'words includes x.h' 'screen includes term/x.h' \
        'bench includes leaf/jobs/x.h' 'reading includes model/setup/x.h' 'sheet includes store/x.h' \
        'term includes store/x.h' 'profile/x.c:2:#include "store/shelf/x.h"' \
        'store/x.c:3: # include "store/profile/x.h"' \
        'model includes <stdio.h>'; do
        must_complain "$sign"
    done
    : >"$failures"
}

archive_of() {
    for pair in $archives; do
        case $pair in
        "$1"=*) printf '%s\n' "${pair#*=}" ;;
        esac
    done
}

archives=$*
base=$(archive_of base)
model=$(archive_of model)
# A plain nm cannot read the symbols of archives built with link-time optimisation.
defined_names "$base" >"$work/base-names"
defined_names "$model" >"$work/model-names"
if ! grep -qx num_parse "$work/base-names" || ! grep -qx moves_solve "$work/model-names"; then
    printf 'the archives hold no readable symbols\n'
    exit 77
fi
self_check
check_undefined "$base" "$libm $memory" 'array.c.o num_decimal.c.o num_format.c.o strbuf.c.o' \
    "$formatting realloc" \
    <"$work/base-names"
cat "$work/base-names" "$work/model-names" >"$work/both-names"
check_undefined "$model" "$libm $memory" 'reading_record.c.o' "$allocation" <"$work/both-names"
for pair in $archives; do
    [ "${pair%%=*}" = term ] || check_no_globals "${pair#*=}"
    check_circles "${pair#*=}"
done
check_directions "$root/src"
check_model_headers "$root/src"
if [ -s "$failures" ]; then
    cat "$failures"
    exit 1
fi
printf 'pure\n'
