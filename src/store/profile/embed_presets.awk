# SPDX-License-Identifier: MIT
# Makes the C table of preset.c from share/presets/*.ini. POSIX awk. The first line of each file is
# a comment with its title; the second may be "; also: ", what else it is called, semicolons between.
# Other comment lines say where the numbers come from and are left out.

function stop(why)
{
    print FILENAME ":" FNR ": " why > "/dev/stderr"
    failed = 1
    exit 1
}

function finish()
{
    if (open)
        print "},"
}

BEGIN {
    print "/* Made from share/presets by embed_presets.awk. */"
}

{ sub(/\r$/, "") }

/["\\?]/ || /[^ -~]/ { stop("a character that has no place in a preset") }

FNR == 1 {
    finish()
    if ($0 !~ /^; [A-Z]/)
        stop("the first line must be the title, as a comment")
    id = FILENAME
    sub(/.*\//, "", id)
    sub(/\.ini$/, "", id)
    # The number at the start only sets the order.
    sub(/^[0-9]+-/, "", id)
    print "{.id = \"" id "\", .title = \"" substr($0, 3) "\","
    also = ""
    open = 1
    next
}

FNR == 2 {
    if ($0 ~ /^; also: /)
        also = substr($0, 9)
    print ".also = \"" also "\", .text ="
}

/^;/ { next }

{ print "\"" $0 "\\n\"" }

END {
    if (failed)
        exit 1
    finish()
    if (!open)
        stop("no preset")
}
