package org.liftgate.shell

import android.content.pm.PackageManager
import java.io.File
import javax.xml.parsers.DocumentBuilderFactory
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.liftgate.R
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import org.w3c.dom.Element
import org.xmlpull.v1.XmlPullParser

/** What the package asks of the phone, and what the phone may copy of it. */
@RunWith(RobolectricTestRunner::class)
class PackageTest {
    private val app = RuntimeEnvironment.getApplication()
    private val apk = File(System.getProperty("liftgate.target"), "resources.apk")

    private fun aapt2(vararg words: String): String {
        val process = ProcessBuilder(listOf("aapt2", "dump") + words + apk.path).start()
        val said = process.inputStream.bufferedReader().readText()
        assertEquals(process.errorStream.bufferedReader().readText(), 0, process.waitFor())
        return said
    }

    @Test
    fun asksForNoPermission() {
        assertEquals("package: org.liftgate", aapt2("permissions").trim())
        val asked = app.packageManager.getPackageInfo(app.packageName, PackageManager.GET_PERMISSIONS).requestedPermissions
        assertTrue("asks for ${asked?.toList()}", asked.isNullOrEmpty())
    }

    @Test
    fun offersOnlyItsFrontDoorToOtherApps() {
        val factory = DocumentBuilderFactory.newInstance().apply { isNamespaceAware = true }
        val manifest = factory.newDocumentBuilder().parse(File(System.getProperty("liftgate.basedir"), "src/main/AndroidManifest.xml"))
        val android = "http://schemas.android.com/apk/res/android"
        val offered = listOf("activity", "service", "provider", "receiver").flatMap { kind ->
            val found = manifest.getElementsByTagName(kind)
            (0 until found.length).map { found.item(it) as Element }
        }.filter { it.getAttributeNS(android, "exported") == "true" }.map { it.getAttributeNS(android, "name") }
        assertEquals(listOf("org.liftgate.shell.PilotActivity"), offered)
    }

    @Test
    fun theLiveJournalIsNeverCopiedByThePhone() {
        assertEquals(listOf("full-backup-content"), exclusionsOf(R.xml.backup_rules))
        assertEquals(listOf("cloud-backup", "device-transfer"), exclusionsOf(R.xml.transfer_rules))
        val tree = aapt2("xmltree", "--file", "AndroidManifest.xml")
        assertTrue(tree, "fullBackupContent" in tree && "dataExtractionRules" in tree)
        val journal = app.getDatabasePath("liftgate.db")
        assertEquals("databases", journal.parentFile?.name)
    }

    /** The kinds of copy whose rules leave out the whole folder of databases. */
    private fun exclusionsOf(rules: Int): List<String> {
        val found = mutableListOf<String>()
        val xml = app.resources.getXml(rules)
        var inside = ""
        while (xml.next() != XmlPullParser.END_DOCUMENT) {
            if (xml.eventType != XmlPullParser.START_TAG) continue
            val all = xml.name == "exclude" && xml.getAttributeValue(null, "domain") == "database" &&
                xml.getAttributeValue(null, "path") == "."
            if (all) found += inside else inside = xml.name
        }
        return found
    }

    /**
     * A JDK from 21 on has these for every list, and Kotlin then takes the list's own in place of its library's; phones before
     * Android 15 have none. Which of the two it is hangs on the JDK of the day, so neither is called.
     */
    @Test
    fun callsNothingOfAListThatOlderPhonesLack() {
        val shipped = File(System.getProperty("liftgate.target"), "classes").walk().filter { it.extension == "class" }.toList()
        assertTrue("no classes to look into", shipped.size > 50)
        val calls = shipped.flatMap { file -> ClassCalls.of(file).map { file.nameWithoutExtension to it } }
        assertTrue("the calls are not found", calls.any { (_, call) -> call.method == "startLockTask" })
        val lacking = calls.filter { (_, call) -> call.method in NEWER_OF_LISTS && call.owner in LISTS }
        assertTrue(lacking.joinToString("\n") { (of, call) -> "$of calls $call" }, lacking.isEmpty())
    }

    @Test
    fun runsFromAndroid8OnAndIsBuiltForAndroid15() {
        val badging = aapt2("badging")
        assertTrue(badging, "sdkVersion:'26'" in badging && "targetSdkVersion:'35'" in badging)
    }

    private companion object {
        val NEWER_OF_LISTS = setOf("removeFirst", "removeLast", "getFirst", "getLast", "addFirst", "addLast", "reversed")
        val LISTS = setOf(
            "java/util/List", "java/util/ArrayList", "java/util/Vector", "java/util/SequencedCollection",
            "java/util/LinkedHashSet", "java/util/SortedSet", "kotlin/collections/CollectionsKt",
        )
    }
}
