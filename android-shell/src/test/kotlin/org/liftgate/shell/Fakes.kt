package org.liftgate.shell

import java.util.Locale
import java.util.concurrent.atomic.AtomicInteger
import uniffi.liftgate.Liftgate
import uniffi.liftgate.MarkKind
import uniffi.liftgate.Moment
import uniffi.liftgate.NoHandle
import uniffi.liftgate.PilotDesk
import uniffi.liftgate.Screen
import uniffi.liftgate.SpotterDesk
import uniffi.liftgate.SpotterScreen
import uniffi.liftgate.Tapped
import uniffi.liftgate.Turn

/** A core that shows what a test puts in and writes down what the shell sends. */
class FakeCore(var screen: Screen) : Liftgate(NoHandle) {
    val taps = mutableListOf<String>()
    val edits = mutableListOf<Pair<String, String>>()
    val acts = mutableListOf<String>()

    /** When each of them was done, by the running clock in milliseconds. */
    val actedAt = mutableListOf<Long>()

    /** Calls that the shell made across the bindings. */
    val calls = AtomicInteger()
    var turn = Turn.PILOT

    /** What its screens are in; null: as the phone has it. */
    var language: String? = null
    var said: String? = null
    var spotterScreen: SpotterScreen = Samples.spotter(running = false)
    var fails: Exception? = null
    var after: (String) -> Unit = {}

    private fun <T> called(answer: () -> T): T {
        calls.incrementAndGet()
        return answer()
    }

    private fun tag() = language ?: Locale.getDefault().toLanguageTag()

    override fun turn(): Turn = called { turn }
    override fun pilot(): PilotDesk = called { Pilot() }
    override fun spotter(): SpotterDesk = called { Spotter() }
    override fun closeJournal() = Unit
    override fun languageTag(): String = called(::tag)
    override fun phoneSpeaks(languageTag: String) = Unit
    override fun close() = Unit

    inner class Pilot : PilotDesk(NoHandle) {
        override fun screen(now: Moment): Screen {
            calls.incrementAndGet()
            fails?.let { throw it }
            return screen
        }

        override fun tap(token: String, now: Moment): Tapped {
            calls.incrementAndGet()
            fails?.let { throw it }
            taps += token
            after(token)
            return Tapped(screen, turn, said, tag())
        }

        override fun edit(field: String, text: String, now: Moment) {
            calls.incrementAndGet()
            edits += field to text
        }

        override fun typed(field: String, text: String, now: Moment): Screen {
            calls.incrementAndGet()
            edits += field to text
            return screen
        }

        override fun setCode(code: String, now: Moment): Tapped {
            fails?.let { throw it }
            taps += "code $code"
            return Tapped(screen, turn, said, tag())
        }

        override fun close() = called { }
    }

    inner class Spotter : SpotterDesk(NoHandle) {
        private fun act(name: String, now: Moment): SpotterScreen {
            fails?.let { throw it }
            acts += name
            actedAt += now.monotonicMs
            after(name)
            return spotterScreen
        }

        override fun screen(now: Moment) = spotterScreen
        override fun start(now: Moment) = act("start", now)
        override fun mark(mark: MarkKind, now: Moment) = act("mark $mark", now)
        override fun land(now: Moment) = act("land", now)
        override fun resume(now: Moment) = act("resume", now)
        override fun unmark(now: Moment) = act("unmark", now)
        override fun waitWithoutCode(now: Moment) = act("wait", now)
        override fun handBackWithCode(code: String, now: Moment) {
            act("code $code", now)
        }

        override fun handBack(now: Moment) {
            act("hand back", now)
        }

        override fun close() = Unit
    }
}
