package org.liftgate.desk

import java.io.File
import java.time.Instant
import java.time.ZoneOffset
import java.util.concurrent.LinkedBlockingQueue
import java.util.concurrent.TimeUnit

/** The desk as `android-shell/desk` starts it, in a process of its own, with [journal] in use at the [moment] it was left. */
class DeskProcess(journal: File, moment: String) : AutoCloseable {
    private val process: Process

    /** Where its journal lies. */
    val folder: File = journal.parentFile
    private val said = LinkedBlockingQueue<String>()

    /** Where the page is. */
    val address: String

    init {
        val (wallMs, offsetMin) = moment.split(' ')
        val at = Instant.ofEpochMilli(wallMs.toLong()).atOffset(ZoneOffset.ofTotalSeconds(offsetMin.toInt() * S_A_MINUTE))
        val classes = System.getProperty("surefire.test.class.path") ?: System.getProperty("java.class.path")
        val told = listOf("jna.library.path", "liftgate.target", "liftgate.basedir").map { "-D$it=${System.getProperty(it)}" }
        process = ProcessBuilder(
            listOf(
                File(System.getProperty("java.home"), "bin/java").path, "-Xmx1g", "-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1",
                "-Dfile.encoding=UTF-8", "-Duser.timezone=UTC",
                "--add-opens=java.base/java.lang=ALL-UNNAMED", "--add-opens=java.base/java.util=ALL-UNNAMED",
            ) + told + listOf(
                "-cp", classes, "org.liftgate.desk.DeskMain", "--kind", "journal", "--file", journal.path, "--at", "$at",
            ),
        ).redirectErrorStream(true).start()
        Thread { process.inputStream.bufferedReader().forEachLine(said::add) }.apply { isDaemon = true }.start()
        address = awaitAddress()
    }

    private fun awaitAddress(): String {
        val before = mutableListOf<String>()
        val until = System.nanoTime() + PATIENCE_NS
        while (System.nanoTime() < until && (process.isAlive || said.isNotEmpty())) {
            val line = said.poll(1, TimeUnit.SECONDS) ?: continue
            before += line
            if ("${ADDRESS}http" in line) return line.substringAfter(ADDRESS)
        }
        process.destroyForcibly()
        throw AssertionError("the desk did not open. It said:\n${before.joinToString("\n")}")
    }

    /** Ends it as Ctrl-C does, and waits until it has closed the journal. */
    override fun close() {
        process.destroy()
        check(process.waitFor(PATIENCE_NS, TimeUnit.NANOSECONDS)) { "the desk did not end" }
    }

    private companion object {
        const val ADDRESS = "desk: "
        const val S_A_MINUTE = 60
        const val PATIENCE_NS = 90_000_000_000L
    }
}
