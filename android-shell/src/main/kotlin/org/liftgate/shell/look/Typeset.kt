package org.liftgate.shell.look

import android.content.Context

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

/** The marks that a language sets around what is quoted, the inner ones first, and its apostrophe. */
private class Marks(val inner: Pair<Char, Char>, val outer: Pair<Char, Char>, val apostrophe: Char)

private val ENGLISH = Marks('\u2018' to '\u2019', '\u201C' to '\u201D', '\u2019')
private val GERMAN = Marks('\u201A' to '\u2018', '\u201E' to '\u201C', '\u2019')

/**
 * Words as they are set on a screen that speaks [language]: a number stays on one line with its unit, a line may end at the hyphen
 * of a long word, and quotation marks and apostrophes are that language's own.
 * The one place where that is done; what a person types, and what is said aloud, is left as it is.
 */
fun typeset(words: String, language: String): String {
    val held = words.replace(UNIT, NO_BREAK.toString()).replace(TOLERANCE, "±$NO_BREAK")
        .replace(STROKE, "/$JOIN").replace(HYPHEN, MAY_BREAK.toString())
    if ('\'' !in held && '"' !in held) return held
    return held.quoted(if (language == "de") GERMAN else ENGLISH)
}

/** Words as they are set on the screens of this context. */
fun Context.typeset(words: String): String = typeset(words, resources.configuration.locales[0].language)

private fun String.quoted(marks: Marks): String {
    var isOpen = false
    return mapIndexed { i, letter ->
        val before = getOrNull(i - 1)
        val opens = before == null || before.isWhitespace() || before in "([{/'\"\u2013\u2014"
        when (letter) {
            '"' -> if (opens) marks.outer.first else marks.outer.second
            '\'' -> when {
                opens -> marks.inner.first.also { isOpen = true }
                // Within a word, or where nothing is quoted, it stands for a letter left out.
                !isOpen || getOrNull(i + 1)?.isLetter() == true -> marks.apostrophe
                else -> marks.inner.second.also { isOpen = false }
            }
            else -> letter
        }
    }.joinToString("")
}
