package org.liftgate.shell

import java.util.Locale
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
    var turn = Turn.PILOT

    /** What its screens are in; null: as the phone has it. */
    var language: String? = null
    var said: String? = null
    var spotterScreen: SpotterScreen = Samples.spotter(running = false)
    var fails: Exception? = null
    var after: (String) -> Unit = {}

    override fun turn(): Turn = turn
    override fun pilot(): PilotDesk = Pilot()
    override fun spotter(): SpotterDesk = Spotter()
    override fun closeJournal() = Unit
    override fun languageTag(): String = language ?: Locale.getDefault().toLanguageTag()
    override fun phoneSpeaks(languageTag: String) = Unit
    override fun close() = Unit

    inner class Pilot : PilotDesk(NoHandle) {
        override fun screen(now: Moment): Screen {
            fails?.let { throw it }
            return screen
        }

        override fun tap(token: String, now: Moment): Tapped {
            fails?.let { throw it }
            taps += token
            after(token)
            return Tapped(screen, turn, said)
        }

        override fun edit(field: String, text: String, now: Moment) {
            edits += field to text
        }

        override fun setCode(code: String, now: Moment): Tapped {
            fails?.let { throw it }
            taps += "code $code"
            return Tapped(screen, turn, said)
        }

        override fun close() = Unit
    }

    inner class Spotter : SpotterDesk(NoHandle) {
        private fun act(name: String): SpotterScreen {
            fails?.let { throw it }
            acts += name
            after(name)
            return spotterScreen
        }

        override fun screen(now: Moment) = spotterScreen
        override fun start(now: Moment) = act("start")
        override fun mark(mark: MarkKind, now: Moment) = act("mark $mark")
        override fun land(now: Moment) = act("land")
        override fun resume(now: Moment) = act("resume")
        override fun unmark(now: Moment) = act("unmark")
        override fun waitWithoutCode(now: Moment) = act("wait")
        override fun handBackWithCode(code: String, now: Moment) {
            act("code $code")
        }

        override fun handBack(now: Moment) {
            act("hand back")
        }

        override fun close() = Unit
    }
}
