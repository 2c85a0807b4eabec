# SPDX-License-Identifier: MIT
# Makes the C table of wood.c from share/wood.csv. POSIX awk. The last column says where
# the numbers come from; a row that is not whole stops the build.

BEGIN {
    FS = ","
    columns = "wood,botanical,modulus_mpa,shear_parallel_mpa,shrink_radial_pct," \
              "shrink_tangential_pct,coef_radial,coef_tangential,how"
    print "/* Made from share/wood.csv by embed_wood.awk. */"
}

function stop(why)
{
    print "wood.csv:" FNR ": " why > "/dev/stderr"
    failed = 1
    exit 1
}

function text(s)
{
    if (s == "" || s ~ /["\\]/)
        stop("a text is empty or holds a quote or backslash")
    return "\"" s "\""
}

function number(s)
{
    if (s == "")
        return "{false, 0}"
    if (s !~ /^[0-9]+(\.[0-9]+)?$/ || s + 0 <= 0)
        stop("not a positive number: " s)
    return s ~ /\./ ? "{true, " s "}" : "{true, " s ".0}"
}

{ sub(/\r$/, "") }

FNR == 1 {
    if ($0 != columns)
        stop("the columns must be " columns)
    next
}

/^$/ { next }

{
    if (NF != 9)
        stop(NF " columns where 9 belong")
    print "{.name = " text($1) ", .botanical = " text($2) ","
    print " .modulus_mpa = " number($3) ", .shear_mpa = " number($4) ","
    print " .shrinkage_pct = {" number($5) ", " number($6) "},"
    print " .coefficient = {" number($7) ", " number($8) "},"
    print " .source = " text($9) "},"
    rows++
}

END {
    if (!failed && rows == 0)
        stop("no wood in the table")
}
