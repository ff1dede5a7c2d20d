package org.liftgate.season

import android.net.Uri
import android.view.MotionEvent
import android.view.View
import android.widget.EditText
import android.widget.TextView
import java.io.ByteArrayInputStream
import org.liftgate.shell.Phone
import org.liftgate.shell.blocks.PictureView
import org.liftgate.shell.read
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf

/** An evening with a recorder's log: attached to the last flight, read with fingers, and what it proposes made a finding. */
class LogReading(
    private val phone: Phone,
    private val season: Season,
    private val album: Album,
    private val story: Story,
) {
    private val sight = Sight(phone)

    /** Attaches the log to the last flight that landed, and looks at all that it says. */
    fun read(log: RecorderLog) {
        toTheLastFlight()
        attach(log)
        val counts = phone.words().first { " rows read, " in it }
        story.tell("        ${log.file.name} of that flight: $counts; “${phone.words().first { it.endsWith("past a limit.") }}”")
        plot(log)
        figure(log)
        predicted(log)
    }

    private fun toTheLastFlight() {
        while (sight.canTap("Back")) phone.tap("Back")
        phone.tap("Journal")
        phone.touch(phone.targets().first { view -> phone.labels(view).any { it.startsWith("Landing") } })
        phone.tap("Log of this flight").expect("No log is attached to this flight")
        album.take("log-none", "A flight without its log: any table of text that a recorder wrote will do")
    }

    private fun attach(log: RecorderLog) {
        phone.tap("Pick a log")
        val there = Uri.parse("content://documents/${log.file.name}")
        val resolver = shadowOf(RuntimeEnvironment.getApplication().contentResolver)
        resolver.registerInputStream(there, ByteArrayInputStream(log.file.readBytes()))
        phone.answerPicker(there)
        // What is read of a long file passes by in pieces; the page comes when the last one is in.
        until("Say once what its columns are.")
        album.take("log-columns", "A recorder's own columns, and what the app takes each for")
        for ((column, asked, said) in log.columns) {
            phone.tap(column)
            say(asked, said)
            if ("measured" in asked) album.take("log-column-place", "A temperature is of a place, which has limits in the plan")
            phone.tap("That is it").expect("Say once what its columns are.")
        }
        album.take("log-columns-named", "The columns as they were named")
        phone.tap("Attach this log")
        until("What it says") { plots().size == 1 }
        val attached = checkNotNull(sight.said()) { "the log was not said" }
        check(attached.startsWith("Log attached: ") && log.file.name in attached) { "instead of a log the app said “$attached”" }
        phone.scrollBy(-phone.decor.height * PAGES)
        album.take("log-review", "The log: what is past its limit, and its plot")
    }

    /** A column is chosen for, or a number about it typed. */
    private fun say(asked: String, said: String) {
        val block = phone.shown(phone.decor).first { it.tag == asked && !it.isClickable && it !is EditText }
        if (phone.shown(block).any { it is EditText }) {
            phone.type(asked, said)
            return
        }
        phone.choose(asked, said)
        if (!sight.isChosen(asked, said)) phone.choose(asked, said)
        check(sight.isChosen(asked, said)) { "“$said” was touched twice and is not chosen for “$asked”" }
    }

    /** Two fingers stretch it about a pull of the stick, a third puts the cursor on it and draws it along. */
    private fun plot(log: RecorderLog) {
        val whole = spoken()
        phone.pinch(plot(), log.stretchedAt, NEAR_PX, FAR_PX)
        check(spoken() != whole) { "two fingers did not move the plot: $whole" }
        val (x, y) = at(log.touchedAt)
        phone.finger(MotionEvent.ACTION_DOWN, x, y).finger(MotionEvent.ACTION_UP, x, y)
        check(spoken().startsWith("At ")) { "a touch put no cursor: ${spoken()}" }
        drag(log.touchedAt, log.touchedAt + DRAWN_ALONG)
        val read = spoken()
        check(read.startsWith("At ")) { "the cursor was lost: $read" }
        phone.scrollTo(plot())
        album.take("log-zoomed", "Stretched by two fingers about a quick pitch, the cursor drawn along by a third")
        story.tell("        Under the cursor: $read")
        phone.tap("No cursor").tap("All of it")
        check(spoken() == whole) { "all of it is “${spoken()}”, and was “$whole”" }
    }

    private fun drag(from: Float, to: Float) {
        val (begin, y) = at(from)
        val (end, _) = at(to)
        phone.finger(MotionEvent.ACTION_DOWN, begin, y)
        for (step in 1..MOVES) phone.finger(MotionEvent.ACTION_MOVE, begin + (end - begin) * step / MOVES, y)
        phone.finger(MotionEvent.ACTION_UP, end, y)
    }

    /** A place on the plot in the window, by its share of the plot's width. */
    private fun at(share: Float): Pair<Float, Float> {
        phone.scrollTo(plot())
        val corner = IntArray(2).also(plot()::getLocationInWindow)
        return corner[0] + plot().width * share to corner[1] + plot().height / 2f
    }

    private fun plot(): View = plots().single()

    private fun plots() = phone.shown(phone.decor).filter { it is PictureView && it.isClickable }.toList()

    private fun spoken() = plot().contentDescription.toString().removePrefix("Plot. ")

    private fun figure(log: RecorderLog) {
        atTop("What it says")
        album.take("log-figures", "Every figure of the log; one that has a limit says how it stands")
        phone.tap(log.figure).expect("Where it comes from")
        album.take("log-figure", "One figure, and the stretch of the plot that it comes from")
        phone.back().expect("What it says")
    }

    /** What was predicted stands beside what was read; what disagrees is made a finding by one touch. */
    private fun predicted(log: RecorderLog) {
        atTop("Predicted and read")
        album.take("log-predicted", "What the hovers before it predicted, beside what was read")
        atTop("Why it may be")
        album.take("log-proposal", "What disagrees, why it may be, and a finding that may be left")
        phone.tap("Make it a finding")
        check(sight.said() == "Finding raised: ${log.proposes}") { "the app said “${sight.said()}”" }
        check(!sight.canTap("Make it a finding")) { "the finding was raised, and is proposed again" }
        album.take("log-raised", "Raised: it holds the gate like any other, and is told here")
        season.finding(log.proposes)
        story.tell("        Proposed by the figures and raised: “${log.proposes}”")
    }

    /** Scrolls until the heading [words] is the first thing in sight. */
    private fun atTop(words: String) {
        phone.scrollBy(phone.decor.height * PAGES).reveal(words)
        val heading = phone.shown(phone.decor).first { it is TextView && read(it) == words }
        val above = IntArray(2).also(heading::getLocationInWindow)[1]
        phone.scrollBy(above - phone.decor.height / MARGIN)
    }

    /** Waits until the page that says [words] is there, [whole] with all that belongs to it. */
    private fun until(words: String, whole: () -> Boolean = { true }) {
        val end = System.nanoTime() + PATIENCE_NS
        while (!(phone.says(words) && whole()) && System.nanoTime() < end) phone.wait(STEP_MS)
        phone.settle()
        phone.expect(words)
    }

    private companion object {
        const val NEAR_PX = 60f
        const val FAR_PX = 660f
        const val DRAWN_ALONG = 0.075f
        const val MOVES = 6
        const val PAGES = 20
        const val MARGIN = 20
        const val STEP_MS = 200L
        const val PATIENCE_NS = 60_000_000_000L
    }
}
