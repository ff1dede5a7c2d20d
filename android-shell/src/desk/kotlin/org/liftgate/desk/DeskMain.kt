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
import org.liftgate.onjvm.Arguments
import org.liftgate.onjvm.OnAndroid
import org.liftgate.onjvm.Program
import org.liftgate.shell.HandClock
import org.liftgate.shell.Phone

/**
 * The phone on the desk, as `android-shell/desk` starts it: `--kind` is `new`, `season` or `journal`, the last two with `--file`; also
 * `--port`, `--words` (what the page says of where all of it comes from), `--zone`, and `--at`, the moment at which a journal was left.
 * It runs until its process is told to end, and then closes the journal.
 */
object DeskMain {
    @JvmStatic
    fun main(arguments: Array<String>) = OnAndroid.main(DeskProgram::class.java, arguments)
}

class DeskProgram : Program {
    private val ending = AtomicBoolean()
    private val ended = CountDownLatch(1)

    override fun run(arguments: List<String>) {
        val told = Arguments(arguments)
        val scratch = Files.createTempDirectory("liftgate-desk").toFile()
        Runtime.getRuntime().addShutdownHook(
            Thread {
                ending.set(true)
                ended.await(PATIENCE_S, TimeUnit.SECONDS)
                scratch.deleteRecursively()
            },
        )
        val file = told.find("file")?.let(::File)
        val phone = when (told.get("kind")) {
            "season" -> season(scratch, checkNotNull(file), ended(checkNotNull(file)), now(told))
            "journal" -> Phone(scratch, told.find("at")?.let { now(told).setTo(it) } ?: now(told), checkNotNull(file))
            else -> Phone(scratch, now(told))
        }
        try {
            phone.use { lie(it, told, file?.let(::ended)?.optString("code")?.ifEmpty { null }) }
        } finally {
            ended.countDown()
        }
    }

    /** The season's journal, as a copy that may be spoilt, at the moment at which the season ended. */
    private fun season(scratch: File, journal: File, ended: JSONObject?, now: HandClock): Phone {
        journal.copyTo(File(scratch, "liftgate.db"))
        return Phone(scratch, ended?.let { now.setTo(it.getString("at")) } ?: now)
    }

    /** What the season's player left beside its journal: when it ended, and the invented pilot's code. */
    private fun ended(journal: File): JSONObject? =
        File(journal.absoluteFile.parentFile, "ended.json").takeIf(File::exists)?.let { JSONObject(it.readText()) }

    private fun HandClock.setTo(words: String): HandClock = apply {
        val at = OffsetDateTime.parse(words)
        wallMs = at.toInstant().toEpochMilli()
        offsetMin = at.offset.totalSeconds / S_A_MINUTE
    }

    private fun now(told: Arguments): HandClock {
        val wall = System.currentTimeMillis()
        val zone = TimeZone.getTimeZone(told.find("zone") ?: "UTC")
        val offset = zone.getOffset(wall) / (MS_A_S * S_A_MINUTE)
        // Each time the desk is laid anew is another start of the phone.
        return HandClock(wall, offset, START_MS, "desk-$wall")
    }

    private fun lie(phone: Phone, told: Arguments, code: String?) {
        phone.launch()
        val from = listOfNotNull(told.find("words"), code?.let { "The pilot's code of the invented season is $it." })
        val desk = Desk(phone, from.joinToString(" "))
        val page = File(System.getProperty("liftgate.basedir"), "src/desk/page")
        val server = try {
            DeskServer(desk, page, told.find("port")?.toInt() ?: 0)
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
