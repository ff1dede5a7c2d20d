package org.liftgate.shell

import android.app.ActivityManager
import android.content.Intent
import android.os.Bundle
import android.os.Handler
import android.os.Looper
import android.view.WindowManager
import org.liftgate.R
import org.liftgate.shell.blocks.Taps
import org.liftgate.shell.spotter.SpotterView
import uniffi.liftgate.Control
import uniffi.liftgate.LiftgateException
import uniffi.liftgate.MarkKind
import uniffi.liftgate.Moment
import uniffi.liftgate.Turn
import uniffi.liftgate.SpotterAct
import uniffi.liftgate.SpotterDesk
import uniffi.liftgate.SpotterScreen

/**
 * The spotter's side. What a spotter may do is decided by the core's handle; this only shows it, keeps the clock
 * moving between the core's answers and says the calls that the core planned.
 */
class SpotterActivity : ShellActivity() {
    private lateinit var view: SpotterView
    private lateinit var speaker: Speaker
    private val ticker = Handler(Looper.getMainLooper())
    private var screen: SpotterScreen? = null
    private var pinAsked = false

    /** Acts that are on their way to the core. It takes each in the order of the touches, at the moment of its touch. */
    private var underWay = 0

    /** The running clock's reading, in milliseconds, at which the shown screen was true. */
    private var seenAtMs = 0L

    /** Calls up to this second of the flight have been made or missed. */
    private var calledToS = 0L

    /** The second of the flight at which the call that is shown was made. */
    private var shownSinceS = 0L

    override fun onCreate(savedInstanceState: Bundle?) {
        super.onCreate(savedInstanceState)
        window.addFlags(WindowManager.LayoutParams.FLAG_KEEP_SCREEN_ON)
        speaker = app.speakers(this)
        view = SpotterView(this, ::act, ::mark, ::code)
        view.asking = savedInstanceState?.getBoolean(ASKING) == true
        pinAsked = savedInstanceState?.getBoolean(PIN_ASKED) == true
        setContentView(view)
        back { view.announceForAccessibility(getString(R.string.back_is_off)) }
    }

    override fun onStart() {
        super.onStart()
        look()
    }

    override fun onSaveInstanceState(outState: Bundle) {
        super.onSaveInstanceState(outState)
        outState.putBoolean(ASKING, view.asking)
        outState.putBoolean(PIN_ASKED, pinAsked)
    }

    override fun onResume() {
        super.onResume()
        pin()
    }

    /**
     * Pins the screen where the phone allows it, once for each hand-over; an ordinary phone asks its holder, who may say no, and
     * can leave it at any time. Nothing rests on it: what a spotter may do is the core's to say.
     */
    private fun pin() {
        if (pinAsked || pinning() != ActivityManager.LOCK_TASK_MODE_NONE) return
        pinAsked = true
        try {
            startLockTask()
        } catch (_: IllegalArgumentException) {
            // Not now, as while the screen is not in front.
        } catch (_: SecurityException) {
            // Not on this phone.
        }
    }

    private fun unpin() {
        if (pinning() != ActivityManager.LOCK_TASK_MODE_NONE) stopLockTask()
    }

    private fun pinning() = getSystemService(ActivityManager::class.java).lockTaskModeState

    override fun onStop() {
        ticker.removeCallbacksAndMessages(null)
        super.onStop()
    }

    override fun onDestroy() {
        ticker.removeCallbacksAndMessages(null)
        speaker.close()
        super.onDestroy()
    }

    private fun look() {
        setContentView(view)
        send({ desk, now -> desk.screen(now) }, first = true)
    }

    private fun act(act: SpotterAct) {
        // What these do hangs on the screen that they were touched on, and that one is about to change: not at a venture.
        if (underWay > 0 && act in OF_THIS_SCREEN) return reject(view)
        record { desk, now -> carryOut(act, desk, now) }
    }

    private fun carryOut(act: SpotterAct, desk: SpotterDesk, now: Moment): SpotterScreen? =
        when (act) {
            SpotterAct.START -> desk.start(now)
            SpotterAct.LAND -> desk.land(now)
            SpotterAct.RESUME -> desk.resume(now)
            SpotterAct.UNMARK -> desk.unmark(now)
            SpotterAct.WAIT_WITHOUT_CODE -> desk.waitWithoutCode(now)
            // The keys are the shell's own; what is typed on them comes by [code].
            SpotterAct.ENTER_CODE -> desk.screen(now)
            SpotterAct.HAND_BACK -> {
                desk.handBack(now)
                null
            }
        }

    private fun code(digits: String) {
        // The keys were emptied by the first touch: a second one would be tried as a wrong code.
        if (underWay > 0) return reject(view)
        record { desk, now ->
            desk.handBackWithCode(digits, now)
            null
        }
    }

    private fun mark(kind: MarkKind) = record { desk, now -> desk.mark(kind, now) }

    /** Sends what was touched. Nothing that is under way holds it up: no touchdown may be lost behind a mark. */
    private fun record(work: (SpotterDesk, Moment) -> SpotterScreen?) {
        underWay++
        send(work, answered = { underWay-- })
    }

    private fun send(
        work: (SpotterDesk, Moment) -> SpotterScreen?,
        first: Boolean = false,
        quiet: Boolean = first,
        answered: () -> Unit = {},
    ) = core.ask({ store, now ->
        when (store.turn()) {
            Turn.PILOT -> Answer(Turn.PILOT, null, now)
            Turn.SPOTTER -> store.spotter().use { work(it, now) }.let { Answer(store.turn(), it, now) }
        }
    }) { outcome ->
        answered()
        // Once it is the pilot's turn, what was touched after that has nothing to say here.
        if (isDestroyed || isFinishing) return@ask
        outcome.fold({ show(it, first, quiet) }, ::trouble)
        speakAsTheStore()
    }

    private class Answer(val turn: Turn, val screen: SpotterScreen?, val at: Moment)

    private fun show(answer: Answer, first: Boolean, quiet: Boolean) {
        if (answer.turn == Turn.PILOT) {
            unpin()
            startActivity(Intent(this, PilotActivity::class.java))
            finish()
            return
        }
        val next = answer.screen ?: return
        if (!quiet) confirm(view)
        screen = next
        seenAtMs = answer.at.monotonicMs
        if (first) calledToS = next.clock.elapsedMs / MS
        view.show(next)
        tick()
    }

    /** Moves the clock on and makes the calls whose time has come. */
    private fun tick() {
        ticker.removeCallbacksAndMessages(null)
        val now = screen ?: return
        val running = if (now.clock.running) core.clock.now().monotonicMs - seenAtMs else 0L
        val elapsedMs = now.clock.elapsedMs + running
        view.tick(elapsedMs)
        if (now.lock?.counting == true && view.asking) ticker.postDelayed(::recount, MS)
        if (!now.clock.running) return
        val second = elapsedMs / MS
        now.calls.filter { it.atS in calledToS + 1..second }.forEach { say(it.words, second) }
        calledToS = maxOf(calledToS, second)
        if (second > shownSinceS + CALL_SHOWN_S) view.calling(null)
        ticker.postDelayed(::tick, TICK_MS)
    }

    /** What is left of a wait is the core's to say. */
    private fun recount() {
        if (underWay == 0) send({ desk, now -> desk.screen(now) }, quiet = true)
    }

    private fun say(words: String, second: Long) {
        shownSinceS = second
        view.calling(words)
        speaker.say(words)
    }

    private fun trouble(error: Throwable) {
        reject(view)
        if (error is LiftgateException.Refused) {
            view.refuse(error.reason)
            send({ desk, now -> desk.screen(now) }, quiet = true)
            return
        }
        val shown = ScreenView(
            this,
            object : Taps {
                override fun tapped(control: Control) = look()
                override fun edited(field: String, text: String) = Unit
                override fun finished(field: String) = Unit
            },
        )
        shown.show(troubleScreen(this, error), null)
        setContentView(shown)
    }

    private companion object {
        const val MS = 1000L
        const val ASKING = "asking"
        const val PIN_ASKED = "pin-asked"

        /** What takes back or ends something: by the screen that it was touched on, or not at all. */
        val OF_THIS_SCREEN = setOf(SpotterAct.UNMARK, SpotterAct.HAND_BACK)
        const val TICK_MS = 200L
        const val CALL_SHOWN_S = 10L
    }
}
