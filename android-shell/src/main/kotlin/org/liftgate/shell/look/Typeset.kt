package org.liftgate.shell.look

/** A number, the space after it, and what may be its unit: up to three letters, or anything with a sign that only units have. */
private val UNIT = Regex("""(?<=\p{Nd}) (?=(?:\p{L}{1,3}|[\p{L}\p{Nd}\-]*[°·%²³ΩµÅ/][^\s,.;:)]*)(?!\p{L}))""")
private val TOLERANCE = Regex("± (?=\\p{Nd})")

/** A unit over another: no line ends at its stroke. */
private val STROKE = Regex("""/(?=(?:min|s|h|V|W)(?!\p{L}))""")

/** The hyphen of a word that is long on either side. */
private val HYPHEN = Regex("""(?<=\p{L}{2}-)(?=\p{L}{4})""")

/** The space that holds a number and its unit together. */
internal const val NO_BREAK = '\u00A0'

/** Holds what is on either side of it together, without a space. */
internal const val JOIN = '\u2060'

/** Where a line may end, without a space. */
internal const val MAY_BREAK = '\u200B'

/**
 * Words as they are set on a screen: a number stays on one line with its unit, a line may end at the hyphen of a long word, and
 * quotation marks and apostrophes are curved.
 * The one place where that is done; what a person types, and what is said aloud, is left as it is.
 */
fun typeset(words: String): String {
    val held = words.replace(UNIT, NO_BREAK.toString()).replace(TOLERANCE, "±$NO_BREAK")
        .replace(STROKE, "/$JOIN").replace(HYPHEN, MAY_BREAK.toString())
    if ('\'' !in held && '"' !in held) return held
    return buildString(held.length) { held.forEachIndexed { i, letter -> append(curved(letter, held.getOrNull(i - 1))) } }
}

private fun curved(letter: Char, before: Char?): Char {
    val opens = before == null || before.isWhitespace() || before in "([{/\u2018\u201C\u2013\u2014"
    return when (letter) {
        '\'' -> if (opens) '\u2018' else '\u2019'
        '"' -> if (opens) '\u201C' else '\u201D'
        else -> letter
    }
}
