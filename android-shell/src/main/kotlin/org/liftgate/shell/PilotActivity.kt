package org.liftgate.shell

import android.content.ActivityNotFoundException
import android.content.Intent
import android.net.Uri
import android.os.Bundle
import android.view.View
import org.liftgate.R
import org.liftgate.shell.blocks.ControlView
import org.liftgate.shell.blocks.Shape
import org.liftgate.shell.blocks.Taps
import uniffi.liftgate.Block
import uniffi.liftgate.Control
import uniffi.liftgate.Document
import uniffi.liftgate.Icon
import uniffi.liftgate.Liftgate
import uniffi.liftgate.LiftgateException
import uniffi.liftgate.Moment
import uniffi.liftgate.PilotDesk
import uniffi.liftgate.PlotFingers
import uniffi.liftgate.Screen
import uniffi.liftgate.Tapped
import uniffi.liftgate.Turn
import uniffi.liftgate.Weight
import uniffi.liftgate.Work
import uniffi.liftgate.Wrote

/** The pilot's side: shows the screen that the core sends and passes back what is tapped and typed. */
class PilotActivity : ShellActivity(), Taps {
    private lateinit var screen: ScreenView
    private var onTap: (Control) -> Unit = { send(it) }

    private val documents = Documents(this)

    internal val typing: Typing by lazy { Typing(core.clock, ::paused) }

    /** A tap is on its way; another one meant for the same screen is not sent after it. */
    private var waiting = false

    /** A step of what takes long is on its way. */
    private var working = false

    override fun onCreate(savedInstanceState: Bundle?) {
        super.onCreate(savedInstanceState)
        screen = ScreenView(this, this)
        screen.switch = themeSwitch()
        savedInstanceState?.let(screen::restore)
        savedInstanceState?.let(documents::restore)
        setContentView(screen)
    }

    override fun onSaveInstanceState(outState: Bundle) {
        keepTyped()
        super.onSaveInstanceState(outState)
        screen.keep(outState)
        documents.keep(outState)
    }

    override fun onStart() {
        super.onStart()
        app.front = this
        look()
    }

    override fun onPause() {
        keepTyped()
        super.onPause()
    }

    override fun onStop() {
        keepTyped()
        super.onStop()
    }

    override fun onDestroy() {
        if (app.front === this) app.front = null
        super.onDestroy()
    }

    /** Asks whose turn it is and shows what the pilot was at. */
    private fun look() {
        waiting = false
        ask({ store, now -> sight(store, now) }) { show(it.first, it.second, null) }
    }

    private fun sight(store: Liftgate, now: Moment): Pair<Turn, Screen?> = when (val seat = store.turn()) {
        Turn.PILOT -> seat to store.pilot().use { it.screen(now) }
        Turn.SPOTTER -> seat to null
    }

    override fun tapped(control: Control) = onTap(control)

    private fun send(control: Control) {
        when (control.document) {
            null -> send { desk, now -> desk.tap(control.token, now) }
            is Document.Take -> take(control)
            else -> open(control)
        }
    }

    /** What an earlier photo left is cleared away first, so that it is not taken for this one. */
    private fun take(control: Control) {
        if (waiting) return
        waiting = true
        app.aside.run({ CameraFile.clear(app) }) {
            waiting = false
            (app.front ?: this).open(control)
        }
    }

    override fun coded(digits: String) = send { desk, now -> desk.setCode(digits, now) }

    override fun fingers(token: String, fingers: PlotFingers, then: (Block) -> Unit) =
        askPilot({ desk, _ -> desk.fingers(token, fingers) }, then = then)

    private fun send(work: (PilotDesk, Moment) -> Tapped) {
        if (waiting) return
        waiting = true
        askPilot(work, then = ::shown)
    }

    private fun shown(tapped: Tapped) {
        waiting = false
        if (tapped.said != null) confirm(screen)
        show(tapped.turn, tapped.screen, tapped.said)
    }

    /** Sends the person to the phone's picker or camera app, where [control] goes with a document. */
    private fun open(control: Control) = try {
        documents.open(control)
    } catch (missing: ActivityNotFoundException) {
        screen.refuse(null, getString(if (control.document is Document.Take) R.string.no_camera else R.string.no_picker))
    }

    @Deprecated("The newer way needs a library.")
    @Suppress("DEPRECATION")
    override fun onActivityResult(requestCode: Int, resultCode: Int, data: Intent?) {
        super.onActivityResult(requestCode, resultCode, data)
        documents.back(requestCode, resultCode, data, ::pick, ::save, ::noneTaken)
    }

    /** No photo was taken: what the camera app left goes. */
    private fun noneTaken() = app.aside.run({ CameraFile.clear(app) }) {}

    /** Opens what was picked, however long its provider takes; the window that is there by then goes on with it. */
    private fun pick(token: String, uri: Uri) = app.aside.run({ documents.picked(uri, app.aside) }) { opened ->
        (app.front ?: this).picked(token, opened)
    }

    private fun picked(token: String, opened: Result<Picked>) {
        if (isDestroyed) {
            opened.onSuccess(Picked::giveUp)
            return
        }
        opened.fold({ document ->
            app.picked?.giveUp()
            app.picked = document
            waiting = true
            askPilot({ desk, now -> desk.picked(token, document.name, document.length, now) }, then = ::shown)
        }, ::trouble)
    }

    /** Begins to save where the person said; the window that is there by then goes on with it. */
    private fun save(token: String, uri: Uri) = app.aside.run({ documents.saving(uri, app.aside) }) { place ->
        (app.front ?: this).saves(token, place)
    }

    private fun saves(token: String, place: Result<Saving>) = place.fold({ saving ->
        if (isDestroyed) return@fold saving.giveUp()
        app.saving?.giveUp()
        app.saving = saving
        waiting = true
        askPilot({ desk, now -> desk.saving(token, saving.name, now) }, ::brokenOff, ::shown)
    }, ::trouble)

    override fun edited(field: String, text: String) {
        typing.take(field, text)?.let(::keep)
    }

    /** Keeps what was typed and shows what comes of it, such as a flag at the field. */
    private fun paused(typed: Typed) {
        core.askPilot({ desk, now -> desk.typed(typed.field, typed.text, now) }, typed.at) { outcome ->
            answered(outcome, ::trouble) { next ->
                // Nothing that more letters or a tap have overtaken.
                if (!typing.isWaiting && !waiting) {
                    screen.show(next, null, typing = true)
                    next.work?.let(::goOn)
                }
            }
        }
    }

    /** Keeps what is typed and not kept yet, before anything that goes by it. */
    private fun keepTyped() {
        typing.flush()?.let(::keep)
    }

    private fun keep(typed: Typed) {
        core.askPilot({ desk, now -> desk.edit(typed.field, typed.text, now) }, typed.at) { answered(it, ::trouble) {} }
    }

    override fun finished(field: String) = look()

    private fun show(turn: Turn, next: Screen?, said: String?) {
        if (turn == Turn.SPOTTER) {
            startActivity(Intent(this, SpotterActivity::class.java))
            finish()
            return
        }
        next?.let { show(it, said) }
    }

    private fun show(next: Screen, said: String?) {
        onTap = { send(it) }
        screen.show(next, said, typing.isWaiting)
        said?.let(screen::announce)
        back(next.back?.let { { tapped(it) } })
        if (next.work !is Work.Feed) letGo()
        if (next.work !is Work.Write) leave()
        next.work?.let(::goOn)
    }

    /** The document is no longer asked for: it is in, or the person stopped it. */
    private fun letGo() {
        app.picked?.takeIf { it.isUnderWay }?.giveUp() ?: return
        app.picked = null
    }

    /** The document is no longer written: it is saved, or given up and taken away. */
    private fun leave() {
        app.saving?.takeIf { it.isUnderWay }?.giveUp() ?: return
        app.saving = null
    }

    /** Goes a step on with what takes long. The screen that comes of it asks for the next one; a tap comes in between. */
    private fun goOn(work: Work) {
        when (work) {
            is Work.Feed -> feed()
            is Work.Write -> write()
            is Work.Touch -> if (!working) step { desk, now -> desk.tap(work.token, now) }
        }
    }

    /** Hands over the next piece of the document once it is read; until then the core is free for touches. */
    private fun feed() {
        val document = app.picked ?: return step { desk, now -> desk.fed(null, now) }
        document.next { piece -> step { desk, now -> desk.fed(piece, now) } }
    }

    /** Writes the next piece of the document that is being saved; until it is written the core is free for touches. */
    private fun write() {
        val document = app.saving ?: return step { desk, now -> desk.wrote(Wrote.GONE, now) }
        document.next({ got -> core.askPilot({ desk, _ -> desk.piece() }, then = got) }) { outcome ->
            if (isDestroyed) return@next
            outcome.fold({ how -> step { desk, now -> desk.wrote(how, now) } }, ::brokenOff)
        }
    }

    private fun step(work: (PilotDesk, Moment) -> Tapped) {
        working = true
        askPilot(work, ::brokenOff) {
            working = false
            if (it.said != null) confirm(screen)
            show(it.turn, it.screen, it.said)
        }
    }

    /** What took long is over: the screen as it is without it, and why. */
    private fun brokenOff(error: Throwable) {
        working = false
        waiting = false
        leave()
        if (error !is LiftgateException.Refused) return trouble(error)
        ask({ store, now -> sight(store, now) }) {
            show(it.first, it.second, null)
            trouble(error)
        }
    }

    private fun <T> ask(work: (Liftgate, Moment) -> T, then: (T) -> Unit) {
        keepTyped()
        core.ask(work) { answered(it, ::trouble, then) }
    }

    private fun <T> askPilot(work: (PilotDesk, Moment) -> T, failed: (Throwable) -> Unit = ::trouble, then: (T) -> Unit) {
        keepTyped()
        core.askPilot(work) { answered(it, failed, then) }
    }

    private fun <T> answered(outcome: Result<T>, failed: (Throwable) -> Unit, then: (T) -> Unit) {
        if (isDestroyed) return
        outcome.fold(then, failed)
        speakAsTheStore()
    }

    /** Shows what went wrong: a refusal on the screen itself, anything else with one way on, to look again. */
    private fun trouble(error: Throwable) {
        waiting = false
        reject(screen)
        if (error is LiftgateException.Refused && screen.isShowing) {
            screen.refuse(error.field, error.reason)
            return
        }
        screen.show(troubleScreen(this, error), null)
        onTap = { look() }
        back { look() }
    }

    private fun themeSwitch(): View {
        val (icon, words) = if (app.workshop) {
            R.drawable.ic_sun to R.string.theme_field
        } else {
            R.drawable.ic_lamp to R.string.theme_workshop
        }
        return ControlView(this, Shape.ICON) { switchTheme() }.apply {
            bind(Control("", getString(words), null, Icon.NONE, Weight.QUIET, true, null, false, getString(words)))
            picture(icon)
            background = null
        }
    }

    private fun switchTheme() {
        app.workshop = !app.workshop
        recreate()
    }
}
