package org.liftgate.shell

import java.io.File
import javax.xml.parsers.DocumentBuilderFactory
import org.junit.Assert.assertEquals
import org.junit.Test
import org.junit.runner.RunWith
import org.liftgate.R
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.w3c.dom.Element

/** The words that the shell itself owns, in each of its languages. */
@RunWith(RobolectricTestRunner::class)
class ShellWordsTest {
    /** Name, and quantity of a plural, to the placeholders of the text. */
    private fun placeholders(folder: String): Map<String, List<String>> {
        val file = File(System.getProperty("liftgate.basedir"), "src/main/res/$folder/strings.xml")
        val root = DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(file).documentElement
        val texts = listOf("string", "item").flatMap { tag ->
            val found = root.getElementsByTagName(tag)
            (0 until found.length).map { found.item(it) as Element }
        }
        return texts.associate { text ->
            val owner = (if (text.tagName == "item") text.parentNode else text) as Element
            val name = owner.getAttribute("name") + text.getAttribute("quantity")
            name to PLACEHOLDER.findAll(text.textContent).map { it.value }.sorted().toList()
        }
    }

    @Test
    fun germanHasEveryWordWithTheSamePlaceholders() {
        assertEquals(placeholders("values"), placeholders("values-de"))
    }

    @Test
    fun aGermanPhoneShowsGermanWordsAndAnyOtherEnglishOnes() {
        val app = RuntimeEnvironment.getApplication()
        RuntimeEnvironment.setQualifiers("+de-rAT")
        assertEquals("Weiter halten", app.getString(R.string.keep_holding))
        assertEquals("1 Ziffer eingegeben", app.resources.getQuantityString(R.plurals.digits, 1, 1))
        assertEquals("3 Ziffern eingegeben", app.resources.getQuantityString(R.plurals.digits, 3, 3))
        RuntimeEnvironment.setQualifiers("+fr-rFR")
        assertEquals("Keep holding", app.getString(R.string.keep_holding))
    }

    private companion object {
        val PLACEHOLDER = Regex("%\\d\\$[sd]")
    }
}
