package org.liftgate.shell

import android.os.Handler
import android.os.Looper
import java.util.concurrent.Executors
import java.util.concurrent.TimeUnit
import java.util.concurrent.atomic.AtomicInteger
import uniffi.liftgate.Liftgate
import uniffi.liftgate.Moment
import uniffi.liftgate.PilotDesk
import uniffi.liftgate.Tapped

/**
 * The one store of the process and the one thread that talks to it. Calls are carried out in the order in which
 * they were asked for, off the main thread; answers come back on the main thread.
 */
class Core(val clock: Clock, private val open: (Moment) -> Liftgate) {
    private val worker = Executors.newSingleThreadExecutor { Thread(it, "liftgate-core") }
    private val main = Handler(Looper.getMainLooper())
    private val underWay = AtomicInteger()
    private var store: Liftgate? = null

    /** The pilot's handle, kept from one call to the next: it asks by itself whose turn it is. */
    private var desk: PilotDesk? = null

    /** Told on the main thread, before an answer, when the store speaks another language than before: its BCP 47 tag. */
    var speaks: (String) -> Unit = {}
    private var spoken: String? = null

    /** Whether an answer is still to come. */
    val busy: Boolean get() = underWay.get() > 0

    /**
     * Does [work] on the store, opening it first where it is not open, and hands the outcome to [then] on the main
     * thread. The moment is the one at which this was called, not the one at which its turn came.
     */
    fun <T> ask(work: (Liftgate, Moment) -> T, now: Moment = clock.now(), then: (Result<T>) -> Unit) {
        underWay.incrementAndGet()
        worker.execute {
            var first: String? = null
            val outcome = runCatching { work(store ?: opened(now).also { first = tagOf(it) }, now) }
            main.post {
                underWay.decrementAndGet()
                (first ?: (outcome.getOrNull() as? Tapped)?.language)?.let(::spokenIn)
                then(outcome)
            }
        }
    }

    /** The same with the pilot's handle. */
    fun <T> askPilot(work: (PilotDesk, Moment) -> T, now: Moment = clock.now(), then: (Result<T>) -> Unit) =
        ask({ store, at -> work(desk ?: store.pilot().also { desk = it }, at) }, now, then)

    private fun opened(now: Moment): Liftgate = open(now).also { store = it }

    private fun tagOf(store: Liftgate): String? = runCatching { store.languageTag() }.getOrNull()

    /** The phone itself speaks another language now; the store follows it unless the person chose one. */
    fun phoneSpeaks(tag: String) = ask({ store, _ ->
        store.phoneSpeaks(tag)
        store.languageTag()
    }) { it.onSuccess(::spokenIn) }

    /** What the store's words are in can change where it is opened, by a touch, or with the phone's own language; only there it is told. */
    private fun spokenIn(tag: String) {
        if (tag != spoken) speaks(tag)
        spoken = tag
    }

    /** Closes the store after all that was asked for is done. */
    fun close() {
        worker.execute {
            desk?.close()
            desk = null
            store?.run {
                closeJournal()
                close()
            }
            store = null
        }
        worker.shutdown()
    }

    /** Waits until [close] has had its turn. */
    fun waitUntilClosed() {
        check(worker.awaitTermination(PATIENCE_S, TimeUnit.SECONDS)) { "the store did not close" }
    }

    private companion object {
        const val PATIENCE_S = 30L
    }
}
