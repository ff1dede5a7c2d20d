package org.liftgate.shell

import java.io.File
import org.junit.Assert.assertEquals

/** An element of an XML file as it stands in a built package. */
class BuiltElement(val name: String) {
    /** By name, those of Android's own without their namespace: what is said of each, as aapt2 writes it. */
    val attributes = mutableMapOf<String, String>()
    val children = mutableListOf<BuiltElement>()

    /** All below it, itself among them. */
    fun all(): List<BuiltElement> = listOf(this) + children.flatMap { it.all() }
}

/** What a built package says of itself, as aapt2 reads it: what a phone gets, and not what it was made from. */
class BuiltPackage(private val apk: File) {
    fun dump(vararg words: String): String {
        val process = ProcessBuilder(listOf("aapt2", "dump") + words + apk.path).start()
        val said = process.inputStream.bufferedReader().readText()
        assertEquals(process.errorStream.bufferedReader().readText(), 0, process.waitFor())
        return said
    }

    /** The root of an XML file in the package, by its path there. */
    fun xml(path: String): BuiltElement = treeOf(dump("xmltree", "--file", path))

    /** The path in the package of the file that a reference like `@0x7f0a0000` stands for. */
    fun fileOf(reference: String): String {
        val lines = dump("resources").lines()
        val at = lines.indexOfFirst { it.trim().startsWith("resource ${reference.removePrefix("@")} ") }
        check(at >= 0) { "there is no resource $reference" }
        val named = lines.drop(at + 1).takeWhile { !it.trim().startsWith("resource ") }
        return named.mapNotNull { FILE.find(it)?.groupValues?.get(1) }.single()
    }

    companion object {
        /** The tree that aapt2 writes line by line, each element further in than the one around it. */
        fun treeOf(dumped: String): BuiltElement {
            val around = ArrayDeque<Pair<Int, BuiltElement>>()
            var root: BuiltElement? = null
            for (line in dumped.lines()) {
                val depth = line.indexOfFirst { it != ' ' }
                ELEMENT.find(line)?.let { found ->
                    val element = BuiltElement(found.groupValues[1])
                    while (around.isNotEmpty() && around.last().first >= depth) around.removeLast()
                    around.lastOrNull()?.second?.children?.add(element)
                    root = root ?: element
                    around.addLast(depth to element)
                }
                ATTRIBUTE.find(line)?.let { found ->
                    val (name, quoted, bare) = found.destructured
                    around.last().second.attributes[name] = if (bare.isEmpty()) quoted else bare
                }
            }
            return checkNotNull(root) { "no XML: $dumped" }
        }

        private val ELEMENT = Regex("""^ *E: (\S+)""")
        private val ATTRIBUTE = Regex("""^ *A: (?:http://schemas\.android\.com/apk/res/android:)?([^(=]+)(?:\(0x[0-9a-f]+\))?=(?:"([^"]*)"|(\S+))""")
        private val FILE = Regex("""\(file\) (\S+)""")
    }
}
