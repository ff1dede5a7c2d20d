package org.liftgate.shell

import java.io.File
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment

/** What the built package asks of the phone, what it offers to other apps, what the phone may copy of it, and what its classes call. */
@RunWith(RobolectricTestRunner::class)
class PackageTest {
    private val app = RuntimeEnvironment.getApplication()
    private val built = BuiltPackage(File(System.getProperty("liftgate.target"), "resources.apk"))
    private val manifest = built.xml("AndroidManifest.xml")

    /** What the shell is made of: every class that is compiled here and shipped, with what each calls. */
    private val calls: List<Pair<String, ClassCall>> by lazy {
        val shipped = compiled("classes").values.toList()
        assertTrue("no classes to look into", shipped.size > 50)
        val calls = shipped.flatMap { file -> ClassCalls.of(file).map { file.nameWithoutExtension to it } }
        assertTrue("the calls are not found", calls.any { (_, call) -> call.method == "startLockTask" })
        calls
    }

    /** The classes in a folder of the build, by their names as class files have them. */
    private fun compiled(folder: String): Map<String, File> {
        val root = File(System.getProperty("liftgate.target"), folder)
        return root.walk().filter { it.extension == "class" }.associateBy { it.relativeTo(root).path.removeSuffix(".class") }
    }

    /** The programs for this computer and the tests are compiled beside what is shipped: none of it is among that, and nothing there calls it. */
    @Test
    fun nothingThatRunsOnAComputerIsShipped() {
        val beside = compiled("test-classes").keys
        for (program in listOf("org/liftgate/desk/DeskMain", "org/liftgate/season/SeasonMain")) assertTrue(program, program in beside)
        val shipped = compiled("classes").keys
        assertEquals("shipped and for this computer", emptySet<String>(), shipped intersect beside)
        val astray = shipped.filterNot { name -> OWN.any { name.startsWith(it) } }
        assertEquals("shipped and neither the shell nor its bindings", emptyList<String>(), astray)
        val leaning = calls.filter { (_, call) -> call.owner in beside || COMPUTERS.any { call.owner.startsWith(it) } }
        assertTrue(leaning.joinToString("\n") { (of, call) -> "$of calls $call" }, leaning.isEmpty())
    }

    @Test
    fun asksForNoPermission() {
        assertEquals("package: org.liftgate", built.dump("permissions").trim())
        assertEquals(emptyList<String>(), manifest.all().map { it.name }.filter { "permission" in it })
    }

    /** A part that does not say so is offered by older phones where it has a filter, so each says it. */
    @Test
    fun offersOnlyItsFrontDoorToOtherApps() {
        val parts = manifest.all().filter { it.name in PARTS }
        val isDoor = { part: BuiltElement -> part.all().any { it.attributes["name"] == "android.intent.category.LAUNCHER" } }
        val (doors, inner) = parts.partition(isDoor)
        assertEquals(listOf("org.liftgate.shell.PilotActivity"), doors.map { it.attributes["name"] })
        assertTrue("no part but the door was found", inner.any { it.attributes["name"] == "org.liftgate.shell.SpotterActivity" })
        for (part in inner) assertEquals("exported of ${part.attributes["name"]}", "false", part.attributes["exported"])
        val registers = calls.filter { (_, call) -> call.method == "registerReceiver" }
        assertTrue("a part that no manifest names: $registers", registers.isEmpty())
    }

    @Test
    fun theLiveJournalIsNeverCopiedByThePhone() {
        val application = manifest.children.single { it.name == "application" }
        fun rules(attribute: String) = built.xml(built.fileOf(application.attributes.getValue(attribute)))
        val older = rules("fullBackupContent")
        assertEquals("full-backup-content", older.name)
        assertEquals(listOf("database/."), excluded(older))
        val newer = rules("dataExtractionRules")
        assertEquals(
            mapOf("cloud-backup" to listOf("database/."), "device-transfer" to listOf("database/.")),
            newer.children.associate { it.name to excluded(it) },
        )
        // One that lets something in would turn the rules round.
        assertTrue((older.all() + newer.all()).none { it.name == "include" })
        assertEquals("databases", app.getDatabasePath("liftgate.db").parentFile?.name)
    }

    private fun excluded(from: BuiltElement) =
        from.children.filter { it.name == "exclude" }.map { "${it.attributes["domain"]}/${it.attributes["path"]}" }

    /** What a person typed stays out of the phone's logs, which other programs on a computer read: nothing of it is written to any. */
    @Test
    fun writesToNoLog() {
        val writes = calls.filter { (_, call) -> call.method in WRITING || WRITERS.any { call.owner.startsWith(it) } }
        assertTrue(writes.joinToString("\n") { (of, call) -> "$of calls $call" }, writes.isEmpty())
    }

    /**
     * A JDK from 21 on has these for every list, and Kotlin then takes the list's own in place of its library's; phones before
     * Android 15 have none. Which of the two it is hangs on the JDK of the day, so neither is called.
     */
    @Test
    fun callsNothingOfAListThatOlderPhonesLack() {
        val lacking = calls.filter { (_, call) -> call.method in NEWER_OF_LISTS && call.owner in LISTS }
        assertTrue(lacking.joinToString("\n") { (of, call) -> "$of calls $call" }, lacking.isEmpty())
    }

    @Test
    fun runsFromAndroid8OnAndIsBuiltForAndroid15() {
        val badging = built.dump("badging")
        assertTrue(badging, "sdkVersion:'26'" in badging && "targetSdkVersion:'35'" in badging)
    }

    private companion object {
        /** Where everything that is shipped from here lies. */
        val OWN = listOf("org/liftgate/shell/", "org/liftgate/R", "uniffi/liftgate/")

        /** What only a computer has. */
        val COMPUTERS = listOf("org/robolectric/", "org/junit/", "com/sun/net/")
        val PARTS = setOf("activity", "activity-alias", "service", "provider", "receiver")

        /** Whatever they write to, a phone keeps or a computer beside it can read. */
        val WRITERS = listOf(
            "android/util/Log", "android/util/EventLog", "java/io/PrintStream", "java/util/logging/", "java/lang/System\$Logger",
            "kotlin/io/ConsoleKt", "org/slf4j/", "timber/",
        )
        val WRITING = setOf("printStackTrace", "dumpStack")
        val NEWER_OF_LISTS = setOf("removeFirst", "removeLast", "getFirst", "getLast", "addFirst", "addLast", "reversed")
        val LISTS = setOf(
            "java/util/List", "java/util/ArrayList", "java/util/Vector", "java/util/SequencedCollection",
            "java/util/LinkedHashSet", "java/util/SortedSet", "kotlin/collections/CollectionsKt",
        )
    }
}
