package org.liftgate.shell

import android.os.Handler
import android.os.Looper
import java.util.concurrent.Executors
import java.util.concurrent.TimeUnit
import java.util.concurrent.atomic.AtomicInteger
import uniffi.liftgate.Liftgate
import uniffi.liftgate.Moment

/**
 * The one store of the process and the one thread that talks to it. Calls are carried out in the order in which
 * they were asked for, off the main thread; answers come back on the main thread.
 */
class Core(val clock: Clock, private val open: (Moment) -> Liftgate) {
    private val worker = Executors.newSingleThreadExecutor { Thread(it, "liftgate-core") }
    private val main = Handler(Looper.getMainLooper())
    private val underWay = AtomicInteger()
    private var store: Liftgate? = null

    /** Told on the main thread, before an answer, when the store speaks another language than before: its BCP 47 tag. */
    var speaks: (String) -> Unit = {}
    private var spoken: String? = null

    /** Whether an answer is still to come. */
    val busy: Boolean get() = underWay.get() > 0

    /**
     * Does [work] on the store, opening it first where it is not open, and hands the outcome to [then] on the main
     * thread. The moment is the one at which this was called, not the one at which its turn came.
     */
    fun <T> ask(work: (Liftgate, Moment) -> T, then: (Result<T>) -> Unit) {
        val now = clock.now()
        underWay.incrementAndGet()
        worker.execute {
            val outcome = runCatching { work(opened(now), now) }
            val tag = runCatching { store?.languageTag() }.getOrNull()
            main.post {
                underWay.decrementAndGet()
                if (tag != null && tag != spoken) speaks(tag)
                spoken = tag ?: spoken
                then(outcome)
            }
        }
    }

    private fun opened(now: Moment): Liftgate = store ?: open(now).also { store = it }

    /** Closes the store after all that was asked for is done. */
    fun close() {
        worker.execute {
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
