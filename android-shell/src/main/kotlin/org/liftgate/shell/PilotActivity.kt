package org.liftgate.shell

import android.content.ActivityNotFoundException
import android.content.Intent
import android.os.Bundle
import android.view.View
import org.liftgate.R
import org.liftgate.shell.blocks.ControlView
import org.liftgate.shell.blocks.Shape
import org.liftgate.shell.blocks.Taps
import uniffi.liftgate.Block
import uniffi.liftgate.Control
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

/** The pilot's side: shows the screen that the core sends and passes back what is tapped and typed. */
class PilotActivity : ShellActivity(), Taps {
    private lateinit var screen: ScreenView
    private var onTap: (Control) -> Unit = { send(it) }

    private val documents = Documents(this)

    /** How many changes to fields were sent. */
    private var edits = 0

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
        super.onSaveInstanceState(outState)
        screen.keep(outState)
        documents.keep(outState)
    }

    override fun onStart() {
        super.onStart()
        look()
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
        if (!opened(control)) send { desk, now -> desk.tap(control.token, now) }
    }

    override fun coded(digits: String) = send { desk, now -> desk.setCode(digits, now) }

    override fun fingers(token: String, fingers: PlotFingers, then: (Block) -> Unit) =
        ask({ store, _ -> store.pilot().use { it.fingers(token, fingers) } }, then = then)

    private fun send(work: (PilotDesk, Moment) -> Tapped) {
        if (waiting) return
        waiting = true
        ask({ store, now -> store.pilot().use { work(it, now) } }, then = ::shown)
    }

    private fun shown(tapped: Tapped) {
        waiting = false
        if (tapped.said != null) confirm(screen)
        show(tapped.turn, tapped.screen, tapped.said)
    }

    /** Sends the person to the phone's picker where [control] goes with a document; true if it does. */
    private fun opened(control: Control): Boolean = try {
        documents.open(control)
    } catch (missing: ActivityNotFoundException) {
        screen.refuse(null, getString(R.string.no_picker))
        true
    }

    @Deprecated("The newer way needs a library.")
    @Suppress("DEPRECATION")
    override fun onActivityResult(requestCode: Int, resultCode: Int, data: Intent?) {
        super.onActivityResult(requestCode, resultCode, data)
        documents.back(requestCode, data, pick = { token, uri ->
            waiting = true
            ask({ store, now ->
                val picked = documents.picked(uri).also { app.picked = it }
                store.pilot().use { it.picked(token, picked.name, picked.length, now) }
            }, then = ::shown)
        }, save = { token, uri ->
            ask({ store, now -> documents.write(uri, store.pilot().use { it.document(token, now) }) }) {
                confirm(screen)
                screen.announce(getString(R.string.document_saved))
            }
        })
    }

    override fun edited(field: String, text: String) {
        val mine = ++edits
        ask({ store, now ->
            store.pilot().use {
                it.edit(field, text, now)
                it.screen(now)
            }
        }) { next ->
            // Only the last of a run of letters is shown, and nothing that a tap has overtaken.
            if (mine == edits && !waiting) screen.show(next, null, typing = true)
        }
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
        screen.show(next, said)
        said?.let(screen::announce)
        back(next.back?.let { { tapped(it) } })
        next.work?.let(::goOn)
    }

    /** Goes a step on with what takes long. The screen that comes of it asks for the next one; a tap comes in between. */
    private fun goOn(work: Work) {
        if (working) return
        working = true
        ask({ store, now ->
            store.pilot().use { desk ->
                when (work) {
                    is Work.Feed -> desk.fed(app.picked?.next(), now)
                    is Work.Touch -> desk.tap(work.token, now)
                }
            }
        }, ::brokenOff) {
            working = false
            if (it.said != null) confirm(screen)
            show(it.turn, it.screen, it.said)
        }
    }

    /** What took long is over: the screen as it is without it, and why. */
    private fun brokenOff(error: Throwable) {
        working = false
        if (error !is LiftgateException.Refused) return trouble(error)
        ask({ store, now -> sight(store, now) }) {
            show(it.first, it.second, null)
            trouble(error)
        }
    }

    private fun <T> ask(work: (Liftgate, Moment) -> T, failed: (Throwable) -> Unit = ::trouble, then: (T) -> Unit) =
        core.ask(work) { outcome ->
            if (isDestroyed) return@ask
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
