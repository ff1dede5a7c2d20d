package org.liftgate.desk

import java.io.File
import java.net.BindException
import java.nio.file.Files
import java.time.OffsetDateTime
import java.util.TimeZone
import java.util.concurrent.CountDownLatch
import java.util.concurrent.TimeUnit
import java.util.concurrent.atomic.AtomicBoolean
import org.json.JSONObject
import org.junit.Assume.assumeTrue
import org.junit.Test
import org.junit.runner.RunWith
import org.liftgate.shell.HandClock
import org.liftgate.shell.Phone
import org.robolectric.RobolectricTestRunner

/**
 * The phone on the desk. `android-shell/desk` starts it, with `liftgate.desk` set to `new`, `season` or `journal`; it runs
 * until its process is told to end, and then closes the journal. Without that it is left out.
 */
@RunWith(RobolectricTestRunner::class)
class DeskRun {
    private val ending = AtomicBoolean()
    private val ended = CountDownLatch(1)

    @Test
    fun lieOnTheDesk() {
        val kind = System.getProperty("liftgate.desk")
        assumeTrue("liftgate.desk is not set", kind != null)
        val scratch = Files.createTempDirectory("liftgate-desk").toFile()
        Runtime.getRuntime().addShutdownHook(
            Thread {
                ending.set(true)
                ended.await(PATIENCE_S, TimeUnit.SECONDS)
                scratch.deleteRecursively()
            },
        )
        val file = System.getProperty("liftgate.desk.file")?.let(::File)
        val phone = when (kind) {
            "season" -> season(scratch, checkNotNull(file))
            "journal" -> Phone(scratch, System.getProperty("liftgate.desk.at")?.let(::at) ?: now(), checkNotNull(file))
            else -> Phone(scratch, now())
        }
        try {
            phone.use { lie(it, System.getProperty("liftgate.desk.words").orEmpty()) }
        } finally {
            ended.countDown()
        }
    }

    /** The season's journal, as a copy that may be spoilt, at the moment at which the season ended. */
    private fun season(scratch: File, journal: File): Phone {
        journal.copyTo(File(scratch, "liftgate.db"))
        val ended = File(journal.parentFile, "ended.json").takeIf(File::exists)?.let { JSONObject(it.readText()) }
        return Phone(scratch, ended?.let { at(it.getString("at")) } ?: now())
    }

    private fun at(words: String): HandClock = now().apply {
        val at = OffsetDateTime.parse(words)
        wallMs = at.toInstant().toEpochMilli()
        offsetMin = at.offset.totalSeconds / S_A_MINUTE
    }

    private fun now(): HandClock {
        val wall = System.currentTimeMillis()
        val zone = TimeZone.getTimeZone(System.getProperty("liftgate.desk.zone") ?: "UTC")
        val offset = zone.getOffset(wall) / (MS_A_S * S_A_MINUTE)
        // Each time the desk is laid anew is another start of the phone.
        return HandClock(wall, offset, START_MS, "desk-$wall")
    }

    private fun lie(phone: Phone, from: String) {
        phone.launch()
        val desk = Desk(phone, from)
        val page = File(System.getProperty("liftgate.basedir"), "src/test/desk")
        val server = try {
            DeskServer(desk, page, Integer.getInteger("liftgate.desk.port", 0))
        } catch (taken: BindException) {
            return System.err.println("desk: this port is in use (${taken.message}); choose another one with --port")
        }
        server.use {
            System.err.println("desk: http://127.0.0.1:${it.port}/")
            desk.run { !ending.get() }
        }
    }

    private companion object {
        const val MS_A_S = 1_000
        const val S_A_MINUTE = 60
        const val PATIENCE_S = 5L
        const val START_MS = 60_000L
    }
}
