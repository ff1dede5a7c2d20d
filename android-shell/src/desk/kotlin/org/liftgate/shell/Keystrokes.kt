package org.liftgate.shell

/**
 * How long a practised person takes for what a test touched, by the keystroke-level model of Card, Moran and Newell (The
 * Psychology of Human-Computer Interaction, 1983): K 0.20 s a keystroke, P 1.10 s to point, H 0.40 s for the hand to come
 * to the device, M 1.35 s to decide. Every touch is counted with its own decision; a finger that has to rest counts as
 * long as it rests.
 */
class Keystrokes(private val phone: Phone) {
    private var from = phone.touches.size

    /** Counts from here. */
    fun begin(): Keystrokes = apply { from = phone.touches.size }

    val touches: Int get() = phone.touches.size - from

    /** Seconds; with [homing] where the phone was not in the hand yet. */
    fun seconds(homing: Boolean): Double {
        val held = phone.heldMs.drop(from).map { maxOf(K, it / 1000.0) }
        return held.sumOf { M + P + it } + if (homing) H else 0.0
    }

    private companion object {
        const val K = 0.20
        const val P = 1.10
        const val H = 0.40
        const val M = 1.35
    }
}
