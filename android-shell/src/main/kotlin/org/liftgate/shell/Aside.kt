package org.liftgate.shell

import android.os.Handler
import android.os.Looper
import java.util.concurrent.atomic.AtomicInteger
import kotlin.concurrent.thread

/**
 * Work that waits for others for as long as they like, as for another app's documents: each piece of it on a thread of its own, so
 * that neither a touch nor the store waits behind it. Answers come on the main thread.
 */
class Aside {
    private val main = Handler(Looper.getMainLooper())
    private val underWay = AtomicInteger()

    /** Whether an answer is still to come. */
    val busy: Boolean get() = underWay.get() > 0

    fun <T> run(work: () -> T, then: (Result<T>) -> Unit) {
        underWay.incrementAndGet()
        thread(name = "liftgate-aside", isDaemon = true) {
            val outcome = runCatching(work)
            main.post {
                underWay.decrementAndGet()
                then(outcome)
            }
        }
    }
}
