package org.liftgate.shell

import android.os.Handler
import android.os.Looper
import uniffi.liftgate.Moment

/** A field's text as it was last typed, and when. */
class Typed(val field: String, val text: String, val at: Moment)

/**
 * What is typed waits here for half a second at most, so that a run of letters costs one call and one commit. That half second is
 * all that a killed app can lose. Whatever else is asked of the core asks [flush] first.
 */
class Typing(private val clock: Clock, private val paused: (Typed) -> Unit) {
    private val later = Handler(Looper.getMainLooper())
    private var waiting: Typed? = null

    /** Whether something typed waits to be kept. */
    val isWaiting: Boolean get() = waiting != null

    /** Takes the text of a field as it is now. Gives back what waits of another field, which is to be kept now. */
    fun take(field: String, text: String): Typed? {
        val other = if (waiting?.field == field) null else flush()
        if (waiting == null) later.postDelayed({ flush()?.let(paused) }, MOST_MS)
        waiting = Typed(field, text, clock.now())
        return other
    }

    /** Gives up what waits, to be kept now. */
    fun flush(): Typed? {
        later.removeCallbacksAndMessages(null)
        return waiting.also { waiting = null }
    }

    private companion object {
        /** From the first letter that waits, so that it holds for a person who never pauses too. */
        const val MOST_MS = 500L
    }
}
