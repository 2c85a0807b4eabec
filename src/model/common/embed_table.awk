# SPDX-License-Identifier: MIT
# Makes the C table of a module from a table of share/, so that the model opens no file.
# POSIX awk: awk -v table=wood -f embed_table.awk wood.csv. Every table ends in a column
# that says where its row comes from; a row that is not whole stops the build.

# A column: its name, the member that it fills, and what it holds. number: positive or
# empty, a struct maybe. positive: number, 0 where empty. inches, grams: the same, into
# mm and kg. word: of an enum, after its prefix; NONE where empty. texts: ; between, or empty.
function column(name, member, kind, prefix)
{
    columns = columns (columns == "" ? "" : ",") name
    members[++count] = member
    kinds[count] = kind
    prefixes[count] = prefix
}

BEGIN {
    FS = ","
    if (table == "wood") {
        column("wood", "name", "text")
        column("botanical", "botanical", "text")
        column("also", "also", "texts")
        column("modulus_mpa", "modulus_mpa", "number")
        column("shear_parallel_mpa", "shear_mpa", "number")
        column("shrink_radial_pct", "shrinkage_pct[WOOD_RADIAL]", "number")
        column("shrink_tangential_pct", "shrinkage_pct[WOOD_TANGENTIAL]", "number")
        column("coef_radial", "coefficient[WOOD_RADIAL]", "number")
        column("coef_tangential", "coefficient[WOOD_TANGENTIAL]", "number")
        column("how", "source", "text")
    } else if (table == "tunings") {
        column("tuning", "name", "text")
        column("said", "said", "text")
        column("notes", "notes", "text")
        column("also", "also", "texts")
        column("source", "source", "text")
    } else if (table == "sets") {
        column("set", "set", "text")
        column("string", "string", "count")
        column("gauge_in", "build.gauge_mm", "inches")
        column("build", "build.kind", "word", "BUILD_")
        column("core_in", "build.core_mm", "inches")
        column("core_material", "build.core_material", "word", "MATERIAL_")
        column("wrap_material", "build.wrap_material", "word", "MATERIAL_")
        column("mass_g_per_m", "mass_kg_per_m", "grams")
        column("source", "source", "text")
    } else {
        stop("there is no table " table)
    }
    print "/* Made from share/" table ".csv by embed_table.awk. */"
}

function stop(why)
{
    print table ".csv:" FNR ": " why > "/dev/stderr"
    failed = 1
    exit 1
}

function text(s)
{
    if (s == "" || s ~ /["\\]/)
        stop("a text is empty or holds a quote or backslash")
    return "\"" s "\""
}

function positive(s)
{
    if (s !~ /^[0-9]*\.?[0-9]+$/ || s + 0 <= 0)
        stop("not a positive number: " s)
    if (s ~ /^\./)
        s = "0" s
    return s ~ /\./ ? s : s ".0"
}

function whole(s)
{
    if (s !~ /^[1-9][0-9]*$/)
        stop("not a number from 1 on: " s)
    return s
}

function word(s, prefix)
{
    if (s !~ /^[a-z0-9-]*$/)
        stop("not a word: " s)
    s = s == "" ? "NONE" : toupper(s)
    gsub(/-/, "_", s)
    return prefix s
}

function value(s, kind, prefix)
{
    if (kind == "texts" && s == "")
        return "\"\""
    if (kind == "text" || kind == "texts")
        return text(s)
    if (kind == "count")
        return whole(s)
    if (kind == "word")
        return word(s, prefix)
    if (kind == "number")
        return s == "" ? "{0, false}" : "{" positive(s) ", true}"
    if (s == "")
        return "0"
    return positive(s) (kind == "inches" ? " * 25.4" : " / 1000")
}

{ sub(/\r$/, "") }

FNR == 1 {
    if ($0 != columns)
        stop("the columns must be " columns)
    next
}

/^$/ { next }

{
    if (NF != count)
        stop(NF " columns where " count " belong")
    print "{"
    for (i = 1; i <= count; i++)
        print "    ." members[i] " = " value($i, kinds[i], prefixes[i]) ","
    print "},"
    rows++
}

END {
    if (!failed && rows == 0)
        stop("nothing in the table")
}
