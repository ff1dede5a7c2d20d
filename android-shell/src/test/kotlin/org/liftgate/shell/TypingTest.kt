package org.liftgate.shell

import android.widget.EditText
import java.io.File
import java.io.RandomAccessFile
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner

/** What typing costs, counted: calls across the bindings, and commits to the journal's file. */
@RunWith(RobolectricTestRunner::class)
class TypingTest {
    @get:Rule val folder = TemporaryFolder()
    private val journal by lazy { File(folder.newFolder(), "liftgate.db") }

    /**
     * Commits that SQLite's write-ahead log of [journal] holds: frames that give the size of the database after them (SQLite's
     * description of its file format, section 4.1), with the salts of the log's own header.
     */
    private fun commits(): Int = RandomAccessFile(File(journal.path + "-wal"), "r").use { log ->
        if (log.length() < HEADER) return 0
        log.seek(PAGE_SIZE_AT)
        val page = log.readInt().toLong()
        log.seek(SALTS_AT)
        val salts = log.readLong()
        (HEADER until log.length() - page step page + FRAME).count { at ->
            log.seek(at + SIZE_AFTER_AT)
            val commits = log.readInt() != 0
            commits && log.readLong() == salts
        }
    }

    private fun text(phone: Phone) = phone.shown(phone.decor).filterIsInstance<EditText>().first().text.toString()

    private fun keys(phone: Phone, letters: String) = letters.forEach { phone.write(it.toString()) }

    @Test
    fun fiveKeysAndAPauseAreOneCall() {
        val core = FakeCore(Samples.check)
        Phone(folder.newFolder(), open = { _, _ -> core }).use { phone ->
            phone.launch().focus("Ballast").wait(PAUSE_MS)
            phone.erase().wait(PAUSE_MS)
            val before = core.calls.get()
            keys(phone, "12345")
            phone.wait(PAUSE_MS)
            val took = core.calls.get() - before
            println("typing five letters and a pause took $took calls across the bindings")
            assertTrue(core.edits.last().toString(), core.edits.last().second.endsWith("12345"))
            assertEquals(1, took)
        }
    }

    @Test
    fun fiveKeysAndAPauseAreOneCommit() {
        Phone(journal.parentFile).use { phone ->
            phone.launch().tap("Aircraft").tap("Main rotor diameter").focus("Main rotor diameter")
            phone.wait(PAUSE_MS)
            val before = commits()
            keys(phone, "12345")
            phone.wait(PAUSE_MS)
            println("typing five letters and a pause took ${commits() - before} commits")
            assertEquals(1, commits() - before)
            phone.kill()
            assertEquals("12345", text(phone))
        }
    }

    @Test
    fun aTemperatureAndWhenItWasReadAreOneCommit() {
        val walked = Walked("hovering")
        walked.copy(journal.parentFile)
        Phone(journal.parentFile, walked.clock()).use { phone ->
            phone.launch().hold("Touchdown").wait(12_000).hold("Back to the pilot").expect("Controller reads").wait(A_LOOK_MS)
            val before = commits()
            phone.touch(phone.targets().first { target -> phone.labels(target).any { it.startsWith("Controller: ") } })
            println("touching a temperature took ${commits() - before} commits")
            assertEquals(1, commits() - before)
        }
    }

    private companion object {
        /** A pause in typing: longer than the half second that typed letters may wait to be kept. */
        const val PAUSE_MS = 600L

        /** A touch that follows the one before faster than a person reads is refused as a bounce. */
        const val A_LOOK_MS = 1_000L
        const val HEADER = 32L
        const val PAGE_SIZE_AT = 8L
        const val SALTS_AT = 16L
        const val FRAME = 24L
        const val SIZE_AFTER_AT = 4L
    }
}
