package org.liftgate.shell

import android.view.MotionEvent
import java.io.File
import kotlin.random.Random
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.liftgate.R
import org.robolectric.RobolectricTestRunner

/**
 * Touches at random. `-Dliftgate.taps=N` asks for another number on the spotter's screen, `-Dliftgate.wander=N` over the whole app,
 * `-Dliftgate.seed=N` for other ones; `tests/soak` does.
 */
@RunWith(RobolectricTestRunner::class)
class MonkeyTest {
    @get:Rule val folder = TemporaryFolder()
    private val seed = Integer.getInteger("liftgate.seed", 6)

    private fun phoneWith(name: String): Pair<Phone, File> {
        val place = folder.newFolder()
        val journal = Walked(name).run { copy(place) }
        return Phone(place, Walked(name).clock()).launch() to journal
    }

    private fun Random.spot(phone: Phone) = nextFloat() * phone.decor.width to nextFloat() * phone.decor.height

    /** A finger comes down anywhere, rests as long as it likes, may slide, and is lifted. */
    private fun poke(phone: Phone, chance: Random) {
        val (x, y) = chance.spot(phone)
        phone.finger(MotionEvent.ACTION_DOWN, x, y)
        if (chance.nextInt(6) == 0) {
            val (toX, toY) = chance.spot(phone)
            for (step in 1..4) phone.finger(MotionEvent.ACTION_MOVE, x + (toX - x) * step / 4, y + (toY - y) * step / 4)
        }
        phone.wait(listOf(60L, 60L, 60L, 300L, 700L, 1_500L)[chance.nextInt(6)])
        if (phone.decor.isAttachedToWindow) {
            phone.finger(if (chance.nextInt(20) == 0) MotionEvent.ACTION_CANCEL else MotionEvent.ACTION_UP, x, y)
        }
        phone.wait(120)
    }

    @Test
    fun randomTapsOnTheSpottersScreenLeaveOnlyWhatASpotterMay() {
        val taps = Integer.getInteger("liftgate.taps", 2_000)
        val chance = Random(seed)
        val kinds = sortedMapOf<String, Int>()
        var done = 0
        var lives = 0
        while (done < taps) {
            val (phone, journal) = phoneWith("flying")
            val before = entries(Walked("flying").file).size
            lives++
            phone.use {
                while (done < taps && phone.activity is SpotterActivity) {
                    done++
                    when (chance.nextInt(200)) {
                        0 -> phone.kill()
                        1 -> phone.back()
                        2 -> phone.recreate()
                        3 -> phone.clock.wallMs += chance.nextLong(-600_000, 600_000)
                        in 4..11 -> phone.wait(5_000)
                        else -> poke(phone, chance)
                    }
                }
            }
            val made = entries(journal).drop(before)
            made.forEach { (kind, author) ->
                assertTrue("$author made a $kind", kind in SPOTTERS && author == "spotter")
                kinds.merge(kind, 1, Int::plus)
            }
        }
        println("$done taps on the spotter's screen, the phone handed back ${lives - 1} times: $kinds")
        assertTrue("too little came of it: $kinds", kinds.values.sum() > taps / 20)
        assertTrue("$kinds", "Marked" in kinds && "TouchedDown" in kinds)
    }

    /** Kind and author of every entry, read beside the app by another program. */
    private fun entries(journal: File): List<Pair<String, String>> {
        val program = File(System.getProperty("jna.library.path"), "entries")
        val process = ProcessBuilder(program.path, journal.path).redirectError(ProcessBuilder.Redirect.INHERIT).start()
        val lines = process.inputStream.bufferedReader().readLines()
        assertEquals("reading $journal", 0, process.waitFor())
        return lines.map { it.split(' ') }.map { (author, kind) -> kind to author }
    }

    /** Whoever holds the phone: touches, letters, the way back, another window, death, and time that jumps. */
    private fun wander(journal: String, taps: Int): Pair<Int, Set<String>> {
        val chance = Random(seed + journal.hashCode())
        val (phone, _) = phoneWith(journal)
        val seen = sortedSetOf<String>()
        phone.use {
            repeat(taps) {
                when (chance.nextInt(60)) {
                    0 -> phone.kill()
                    1 -> phone.recreate()
                    2, 3 -> phone.back()
                    4 -> phone.clock.pass(chance.nextLong(86_400_000))
                    5 -> phone.clock.wallMs += chance.nextLong(-86_400_000, 86_400_000)
                    in 6..13 -> letters(phone, chance)
                    in 14..43 -> phone.targets().let { if (it.isNotEmpty()) touch(phone, it[chance.nextInt(it.size)]) }
                    else -> poke(phone, chance)
                }
                seen += phone.words().take(2).joinToString(" / ")
                val bad = phone.words().filter { "Exception" in it || "panicked" in it }
                assertEquals("a fault shows on the screen", emptyList<String>(), bad)
            }
            assertTrue("the screen is not empty", phone.decor.findViewById<android.view.View>(R.id.page) != null)
        }
        return taps to seen
    }

    private fun touch(phone: Phone, view: android.view.View) {
        phone.scrollTo(view)
        val seen = android.graphics.Rect()
        if (view.getGlobalVisibleRect(seen)) {
            phone.finger(MotionEvent.ACTION_DOWN, seen.exactCenterX(), seen.exactCenterY()).wait(60)
            if (phone.decor.isAttachedToWindow) phone.finger(MotionEvent.ACTION_UP, seen.exactCenterX(), seen.exactCenterY()).wait(120)
        }
    }

    private fun letters(phone: Phone, chance: Random) {
        val fields = phone.targets().filterIsInstance<android.widget.EditText>()
        if (fields.isEmpty()) return
        touch(phone, fields[chance.nextInt(fields.size)])
        repeat(chance.nextInt(1, 6)) {
            when (chance.nextInt(8)) {
                0 -> phone.erase()
                1 -> phone.enter()
                else -> phone.write(LETTERS[chance.nextInt(LETTERS.length)].toString())
            }
        }
    }

    @Test
    fun randomTapsOverTheWholeAppCrashNothing() {
        val taps = Integer.getInteger("liftgate.wander", 400)
        val all = sortedSetOf<String>()
        for (journal in listOf("hot", "service")) {
            val (done, seen) = wander(journal, taps / 2)
            println("$done random acts from “$journal” over ${seen.size} screens")
            // In service the phone is soon with the spotter, whose screen is left rarely.
            assertTrue("only ${seen.size} screens", seen.size > 5)
            all += seen
        }
        assertTrue("only ${all.size} screens", all.size > 20)
    }

    private companion object {
        val SPOTTERS = setOf("Started", "Marked", "Unmarked", "TouchedDown", "Resumed", "HandedBack")
        const val LETTERS = "0123456789.,-−eE%' \"<&äß漢🚁 nmgA"
    }
}
