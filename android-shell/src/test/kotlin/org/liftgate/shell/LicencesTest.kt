package org.liftgate.shell

import java.io.File
import javax.xml.parsers.DocumentBuilderFactory
import org.junit.Assert.assertEquals
import org.junit.Test
import org.w3c.dom.Element

/** Every jar that a package is made of is under a licence that was read: `core/docs/licences.md` names them. */
class LicencesTest {
    private val shell = File(System.getProperty("liftgate.basedir"))

    /** The jars that are made into the package, by the script that makes it. */
    private fun shipped(): List<Triple<String, String, String>> {
        val script = File(shell, "package").readText()
        val versions = VARIABLE.findAll(script).associate { it.groupValues[1] to it.groupValues[2] }
        val list = script.substringAfter("jars=(").substringBefore(")\n")
        return JAR.findAll(list).map { found ->
            val (group, name, version) = found.destructured
            Triple(group, name, if (version.startsWith("$")) versions.getValue(version.drop(1)) else version)
        }.toList()
    }

    /** What the jar's own description in the registry says of its licence. */
    private fun licence(name: String, version: String): String {
        // The tests run on the jars that are shipped: a jar's description lies beside it.
        val jar = System.getProperty("java.class.path").split(File.pathSeparator).single { it.endsWith("/$name-$version.jar") }
        val pom = File(jar.removeSuffix(".jar") + ".pom")
        val licences = DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(pom).getElementsByTagName("license")
        return (0 until licences.length).map { licences.item(it) as Element }
            .joinToString(" OR ") { it.getElementsByTagName("name").item(0).textContent.trim() }
    }

    @Test
    fun everyJarThatIsShippedIsUnderALicenceThatWasRead() {
        val page = File(shell, "../core/docs/licences.md").readText()
        val told = page.substringAfter("| jar | version | licence |\n| --- | --- | --- |\n").trim().lines()
        val found = shipped().map { (group, name, version) -> "| $group:$name | $version | ${licence(name, version)} |" }
        assertEquals(found.sorted(), told)
    }

    private companion object {
        val VARIABLE = Regex("""(?m)^(\w+)=([\d.]+)$""")
        val JAR = Regex("""\(artifact (\S+) (\S+) "?(\S+?)"? jar\)""")
    }
}
