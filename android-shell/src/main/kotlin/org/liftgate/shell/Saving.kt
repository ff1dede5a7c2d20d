package org.liftgate.shell

import android.system.ErrnoException
import android.system.Os
import android.system.OsConstants
import java.io.FileOutputStream
import java.io.OutputStream
import uniffi.liftgate.Wrote

/**
 * A document that is being saved where the person said: what the phone calls it, and the way to write its pieces. Each is written
 * aside; the rest of it belongs to the main thread. [open] opens the place, [remove] takes away what was written there.
 */
class Saving(val name: String, private val open: () -> OutputStream, private val remove: () -> Unit, private val aside: Aside) {
    @Volatile private var stream: OutputStream? = null
    private var wanted: ((Result<Wrote>) -> Unit)? = null
    private var writing = false
    private var givenUp = false

    /** Whether a piece of it was asked for yet. */
    var isUnderWay = false
        private set

    /** Whether all of it is there. */
    var isDone = false
        private set

    /**
     * Gets the next piece by [ask], null at the end, writes it, and tells [then] what became of it. Who comes while a piece is on
     * its way is told in the place of whoever asked before: a turned screen goes on with the same piece.
     */
    fun next(ask: ((Result<ByteArray?>) -> Unit) -> Unit, then: (Result<Wrote>) -> Unit) {
        isUnderWay = true
        wanted = then
        if (writing) return
        writing = true
        ask { asked -> asked.fold(::write) { told(Result.failure(it)) } }
    }

    private fun write(piece: ByteArray?) = aside.run({
        val to = stream ?: open().also { stream = it }
        if (piece == null) closed(to) else to.write(piece)
    }) { written ->
        isDone = piece == null && written.isSuccess && !givenUp
        told(Result.success(outcome(written)))
    }

    private fun told(outcome: Result<Wrote>) {
        writing = false
        if (givenUp) clearAway() else wanted?.invoke(outcome)
    }

    /** Nothing of it is wanted any more, unless all of it is there: what was written is taken away. */
    fun giveUp() {
        if (isDone) return
        givenUp = true
        clearAway()
    }

    private fun clearAway() = aside.run({
        runCatching { stream?.close() }
        remove()
    }) {}

    /** Closes it once it is on what it is written to, where that is a file of this phone. */
    private fun closed(to: OutputStream) = to.use {
        it.flush()
        if (it is FileOutputStream) {
            try {
                Os.fsync(it.fd)
            } catch (failed: ErrnoException) {
                // A pipe to another app has nothing to sync.
                if (failed.errno != OsConstants.EINVAL && failed.errno != OsConstants.EROFS) throw failed
            }
        }
    }

    private fun outcome(written: Result<Unit>): Wrote {
        val failure = written.exceptionOrNull() ?: return Wrote.KEPT
        val errno = generateSequence(failure) { it.cause }.filterIsInstance<ErrnoException>().firstOrNull()?.errno
        return if (errno == OsConstants.ENOSPC || errno == OsConstants.EDQUOT) Wrote.NO_ROOM else Wrote.GONE
    }
}
