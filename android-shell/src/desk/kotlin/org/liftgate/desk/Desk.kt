package org.liftgate.desk

import android.graphics.Bitmap
import android.graphics.Rect
import android.view.MotionEvent
import android.view.View
import android.view.accessibility.AccessibilityNodeInfo
import android.widget.EditText
import java.io.File
import java.nio.ByteBuffer
import java.time.Instant
import java.time.LocalDateTime
import java.time.ZoneId
import java.time.ZoneOffset
import java.time.format.DateTimeFormatter
import java.util.concurrent.CompletableFuture
import java.util.concurrent.LinkedBlockingQueue
import java.util.concurrent.TimeUnit
import org.json.JSONArray
import org.json.JSONObject
import org.liftgate.onjvm.Png
import org.liftgate.shell.LiftgateApp
import org.liftgate.shell.Phone
import org.robolectric.RuntimeEnvironment
import org.robolectric.shadows.ShadowLooper

/**
 * A phone that lies on the desk: its window is kept drawn for whoever looks, its clock runs with the real one, and what the
 * page tells is done to it. All of that happens on one thread, the one that is the phone's main thread, in [run].
 */
class Desk(private val phone: Phone, private val from: String) {
    private val jobs = LinkedBlockingQueue<() -> Unit>()
    private val lock = Object()
    private var frame: Bitmap? = null
    private var pixels: ByteBuffer? = null
    private var seen = JSONObject()
    private var revision = 0L
    private var png: Pair<Long, ByteArray>? = null
    private val spent = Spent()
    private val switches = Switches()
    private val picker = DeskPicker(phone)
    private val said = mutableListOf<String>()
    private var saidSoFar = 0

    /** When somebody last looked, in nanoseconds; nothing is drawn for nobody. */
    @Volatile private var lookedAt = 0L

    // What the page asks, on the server's threads

    /** The window as it is, as soon as it is another one than [after], or as it still is after a second. */
    fun state(after: Long): JSONObject {
        lookedAt = System.nanoTime()
        val until = System.currentTimeMillis() + LONGEST_WAIT_MS
        synchronized(lock) {
            while (revision <= after) {
                val left = until - System.currentTimeMillis()
                if (left <= 0) break
                lock.wait(left)
            }
            return JSONObject(seen.toString()).put("revision", revision)
        }
    }

    /** The drawn window of [wanted], or null where it was drawn over since. */
    fun picture(wanted: Long): ByteArray? = synchronized(lock) {
        png?.takeIf { it.first == revision }?.second?.let { return it }
        val drawn = frame?.takeIf { wanted == revision } ?: return null
        val from = System.nanoTime()
        Png.of(drawn).also {
            png = revision to it
            spent.packing = System.nanoTime() - from
        }
    }

    /** How long the last thing took that was done to the phone, part by part. */
    fun spent(): JSONObject = synchronized(lock) { spent.asJson() }

    /** Does what the page tells, and comes back when it is done. */
    fun told(what: String, how: JSONObject) {
        val does: () -> Unit = when (what) {
            "touch" -> { -> touch(how) }
            "wheel" -> { -> wheel(how) }
            "key" -> { -> key(how) }
            "control" -> { -> control(how) }
            "back" -> { -> phone.back() }
            "death" -> { -> phone.kill() }
            "switch" -> { -> switches.turn(how.getString("name"), how.getString("value")) }
            "time" -> { -> pass(how.getLong("seconds")) }
            "clock" -> { -> setClock(how.optString("at"), how.optString("zone")) }
            "text" -> { -> phone.write(how.getString("text").take(LONGEST_TEXT)).let { } }
            "none" -> { -> if (picker.isOpen) picker.chooseNone() }
            else -> throw IllegalArgumentException("the desk does not know what “$what” is")
        }
        await(does)
    }

    /** Hands [file] to the app as the document that was picked, under the name that it has for the person. */
    fun picked(name: String, file: File) = await { picker.choose(name, file) }

    /** Lets the app save its document, and gives what it wrote once it is done; nothing where it was stopped or failed. */
    fun saved(): ByteArray? = await { picker.save() }.get()

    private fun <T> await(does: () -> T): T {
        val done = CompletableFuture<T>()
        jobs += {
            try {
                done.complete(does())
            } catch (@Suppress("TooGenericExceptionCaught") failed: Throwable) {
                done.completeExceptionally(failed)
            }
        }
        return done.get()
    }

    // The phone's own thread

    /** Lives as long as [open] says: lets time go by, does what was told, draws for whoever looks. */
    fun run(open: () -> Boolean) {
        var before = System.nanoTime()
        var drawnAt = 0L
        var touchedAt = 0L
        while (open()) {
            val job = jobs.poll(if (watched()) FRAME_MS else IDLE_MS, TimeUnit.MILLISECONDS)
            val now = System.nanoTime()
            val gone = (now - before) / NS_A_MS
            before += gone * NS_A_MS
            if (gone > 0) {
                phone.clock.pass(gone)
                ShadowLooper.idleMainLooper(gone, TimeUnit.MILLISECONDS)
            }
            job?.let(::timed)
            if (!phone.busy) phone.settle()
            picker.look()
            if (job != null) touchedAt = System.nanoTime()
            // A finger that moves sends more than can be drawn; and what nobody touches changes once a second at most.
            val isQuiet = System.nanoTime() - touchedAt > QUIET_AFTER_NS
            val due = if (isQuiet) QUIET_FRAME_MS * NS_A_MS else if (jobs.isEmpty()) 0 else FRAME_MS * NS_A_MS
            if (watched() && System.nanoTime() - drawnAt >= due) {
                look()
                drawnAt = System.nanoTime()
            }
        }
    }

    /** Does [job]; what the phone did besides waiting for its core was to lay its window out. */
    private fun timed(job: () -> Unit) {
        val (from, waited) = System.nanoTime() to phone.waitedNs
        job()
        if (!phone.busy) phone.settle()
        synchronized(lock) {
            spent.core = phone.waitedNs - waited
            spent.layout = System.nanoTime() - from - spent.core
        }
    }

    private fun watched() = System.nanoTime() - lookedAt < WATCHED_NS

    private fun look() {
        val from = System.nanoTime()
        val drawn = phone.drawn()
        val after = System.nanoTime()
        val now = ByteBuffer.allocate(drawn.byteCount).also(drawn::copyPixelsToBuffer).flip() as ByteBuffer
        val what = describe(drawn)
        synchronized(lock) {
            spent.drawing = after - from
            spent.telling = System.nanoTime() - after
            val same = pixels == now && frame?.width == drawn.width && what.same(seen)
            seen = what
            if (same) return
            frame = drawn
            pixels = now
            revision++
            lock.notifyAll()
        }
    }

    private fun JSONObject.same(other: JSONObject) =
        listOf("controls", "said", "switches", "picker").all { optString(it) == other.optString(it) }

    private fun describe(drawn: Bitmap) = JSONObject()
        .put("from", from)
        .put("width", drawn.width).put("height", drawn.height)
        .put("density", phone.activity.resources.displayMetrics.density.toDouble())
        .put("title", phone.words().take(2).joinToString(": "))
        .put("controls", JSONArray(phone.targets().map(::describe)))
        .put("switches", switches.asJson())
        .put("said", JSONArray(heard()))
        .put("time", time() + " (UTC" + shown().offset.id.replace("Z", "") + ")")
        .put("picker", picker.asJson())

    private fun shown() = Instant.ofEpochMilli(phone.clock.wallMs).atOffset(ZoneOffset.ofTotalSeconds(phone.clock.offsetMin * S_A_MINUTE))

    private fun time(): String = shown().format(DateTimeFormatter.ofPattern("EEEE d MMMM uuuu, HH:mm:ss", java.util.Locale.UK))

    /** The calls said aloud so far, the last ones of them. */
    private fun heard(): List<String> {
        val all = phone.spoken
        val at = time().takeLast("HH:mm:ss".length)
        all.drop(saidSoFar).forEach { said += "$at $it" }
        saidSoFar = all.size
        return said.takeLast(SAID_IN_SIGHT)
    }

    private fun describe(view: View): JSONObject {
        val seen = Rect()
        val visible = view.getGlobalVisibleRect(seen)
        val place = if (visible) JSONArray(listOf(seen.left, seen.top, seen.width(), seen.height())) else JSONObject.NULL
        return JSONObject().put("says", says(view)).put("field", view is EditText).put("focused", view.isFocused).put("at", place)
    }

    private fun says(view: View): String = when {
        view is EditText -> phone.nameOf(view) + ": " + view.text.ifEmpty { "empty" }
        else -> view.contentDescription?.toString() ?: phone.labels(view).joinToString(", ")
    }

    private fun touch(how: JSONObject) {
        val action = when (val kind = how.getString("kind")) {
            "down" -> MotionEvent.ACTION_DOWN
            "move" -> MotionEvent.ACTION_MOVE
            "up" -> MotionEvent.ACTION_UP
            "cancel" -> MotionEvent.ACTION_CANCEL
            else -> throw IllegalArgumentException("no finger does “$kind”")
        }
        phone.finger(action, how.getDouble("x").toFloat(), how.getDouble("y").toFloat())
    }

    private fun wheel(how: JSONObject) = phone.scrollBy(how.getInt("by"))

    private fun key(how: JSONObject) {
        when (val key = how.getString("key")) {
            "Backspace" -> phone.erase()
            "Enter" -> phone.enter()
            "Escape" -> phone.back()
            else -> if (key.codePointCount(0, key.length) == 1) phone.write(key)
        }
    }

    /** A control taken up by its words, as a screen reader or a keyboard does it, or only brought into sight. */
    private fun control(how: JSONObject) {
        val view = phone.targets().getOrNull(how.getInt("number"))?.takeIf { says(it) == how.getString("says") }
            ?: throw IllegalArgumentException("the screen has changed")
        phone.scrollTo(view)
        if (how.optBoolean("act")) {
            if (view is EditText) phone.touch(view) else view.performAccessibilityAction(AccessibilityNodeInfo.ACTION_CLICK, null)
        }
        phone.settle()
    }

    /** The phone's clock as a person sets it: the day and the time that it shows, the zone that it shows them in, or both. */
    private fun setClock(at: String, zone: String) {
        val clock = phone.clock
        val local = if (at.isEmpty()) shown().toLocalDateTime() else LocalDateTime.parse(at)
        if (zone.isNotEmpty()) this.zone = ZoneId.of(zone)
        val rules = this.zone ?: ZoneOffset.ofTotalSeconds(clock.offsetMin * S_A_MINUTE)
        // Another zone alone is the same moment with another name; another time is another moment.
        val moment = if (at.isEmpty()) Instant.ofEpochMilli(clock.wallMs).atZone(rules) else local.atZone(rules)
        clock.wallMs = moment.toInstant().toEpochMilli()
        clock.offsetMin = moment.offset.totalSeconds / S_A_MINUTE
        phone.lookAgain()
    }

    /** The zone that was set here; none: as the phone came. */
    private var zone: ZoneId? = null

    private fun pass(seconds: Long) {
        require(seconds in 1..LONGEST_JUMP_S) { "a day at most goes by at a time" }
        // With the screen on as long as calls may come; a longer time passes behind the app's back.
        val seen = minOf(seconds, LONGEST_SEEN_S)
        phone.clock.pass((seconds - seen) * MS_A_S)
        phone.wait(seen * MS_A_S)
    }

    /** How the phone is held and set. */
    private inner class Switches {
        private var width = 360
        private var lying = false
        private var toTheLeft = false

        fun turn(name: String, value: String) {
            when (name) {
                "theme" -> return phone.theme(value == "workshop").let { }
                "type" -> return phone.configure("+${way()}", value.toInt() / PER_CENT).let { }
                "width" -> width = value.toInt().also { require(it in HEIGHTS) { "no phone here is $value dp wide" } }
                "held" -> lying = value == "lying"
                "reading" -> toTheLeft = value == "rtl"
                else -> throw IllegalArgumentException("the phone on the desk has no switch “$name”")
            }
            val high = HEIGHTS.getValue(width)
            phone.configure(if (lying) "+${way()}-w${high}dp-h${width}dp-land" else "+${way()}-w${width}dp-h${high}dp-port")
        }

        private fun way() = if (toTheLeft) "ldrtl" else "ldltr"

        fun asJson() = JSONObject()
            .put("theme", if ((RuntimeEnvironment.getApplication() as LiftgateApp).workshop) "workshop" else "field")
            .put("type", (RuntimeEnvironment.getFontScale() * PER_CENT).toInt().toString())
            .put("width", width.toString()).put("held", if (lying) "lying" else "upright")
            .put("reading", if (toTheLeft) "rtl" else "ltr")
    }

    /** Nanoseconds of the last thing that was done, part by part. */
    private class Spent {
        var core = 0L
        var layout = 0L
        var drawing = 0L
        var telling = 0L
        var packing = 0L

        fun asJson() = JSONObject().put("core", ms(core)).put("layout", ms(layout)).put("drawing", ms(drawing))
            .put("telling", ms(telling)).put("packing", ms(packing))

        private fun ms(ns: Long) = ns / 1e6
    }

    private companion object {
        const val LONGEST_TEXT = 500
        const val FRAME_MS = 100L
        const val IDLE_MS = 200L

        /** So long after the last touch every animation has come to rest. */
        const val QUIET_AFTER_NS = 2_000_000_000L
        const val QUIET_FRAME_MS = 400L
        const val NS_A_MS = 1_000_000L
        const val WATCHED_NS = 3_000_000_000L
        const val LONGEST_WAIT_MS = 1_000L
        const val MS_A_S = 1_000L
        const val S_A_MINUTE = 60
        const val LONGEST_SEEN_S = 3_600L
        const val LONGEST_JUMP_S = 86_400L
        const val SAID_IN_SIGHT = 5
        const val PER_CENT = 100f

        /** Heights in dp of phones of these widths. */
        val HEIGHTS = mapOf(320 to 640, 360 to 800, 412 to 915, 600 to 960)
    }
}
