package org.liftgate.shell

import android.app.Activity
import android.content.Intent
import android.graphics.Bitmap
import android.graphics.Canvas
import android.graphics.Rect
import android.net.Uri
import android.os.SystemClock
import android.provider.MediaStore
import android.view.MotionEvent
import android.view.View
import android.view.ViewGroup
import android.view.inputmethod.EditorInfo
import android.view.inputmethod.InputConnection
import android.widget.EditText
import android.widget.ScrollView
import android.widget.TextView
import android.window.BackEvent
import android.window.OnBackInvokedDispatcher
import java.io.File
import org.liftgate.R
import org.liftgate.shell.blocks.PictureView
import org.robolectric.Robolectric
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf
import org.robolectric.android.controller.ActivityController
import org.robolectric.shadows.ShadowLooper
import org.robolectric.shadows.ShadowWindowManagerGlobal
import org.robolectric.shadows.ShadowWindowOnBackInvokedDispatcher
import org.robolectric.util.ReflectionHelpers
import uniffi.liftgate.Liftgate
import uniffi.liftgate.Moment

/** What a text says, without the care with which it is set: plain spaces and straight quotation marks. */
fun read(view: TextView): String = view.text.toString().mapNotNull {
    when (it) {
        '\u00A0' -> ' '
        '\u2060', '\u200B' -> null
        '\u2018', '\u2019' -> '\''
        '\u201C', '\u201D' -> '"'
        else -> it
    }
}.joinToString("")

/** Both clocks of a phone, moved by hand. */
class HandClock(
    var wallMs: Long = 1_780_300_800_000, // 1 June 2026, 08:00 UTC
    var offsetMin: Int = 120,
    var monotonicMs: Long = 3_600_000,
    var boot: String = "boot-1",
) : Clock {
    override fun now() = Moment(wallMs = wallMs, offsetMin = offsetMin, monotonicMs = monotonicMs, boot = boot)

    fun pass(ms: Long) {
        wallMs += ms
        monotonicMs += ms
    }
}

/**
 * A phone in a person's hand: the real activities on real framework classes, used through touches at places on the
 * drawn window, with a real journal file in [folder] and a clock moved by hand.
 *
 * Nothing here reaches past the screen: a control is found by the words it shows, brought into view by scrolling, and
 * touched at its middle. What cannot be found, seen or reached fails with what is on the screen instead.
 */
class Phone(
    private val folder: File,
    val clock: HandClock = HandClock(),
    private val journal: File = File(folder, "liftgate.db"),
    private val open: (String, Moment) -> Liftgate = { path, now -> Liftgate.open(path, now) },
) : AutoCloseable {
    /** Calls said aloud so far. */
    val spoken = mutableListOf<String>()

    /** What was touched so far, by the first words it shows, with the running clock's reading in milliseconds. */
    val touches = mutableListOf<Pair<Long, String>>()

    /** How long the finger rested each time, milliseconds. */
    val heldMs = mutableListOf<Long>()
    private var lives = 0
    private val app = RuntimeEnvironment.getApplication() as LiftgateApp
    private var controller: ActivityController<out Activity>? = null

    val activity: Activity get() = checkNotNull(controller) { "the app is not open" }.get()
    val decor: View get() = activity.window.decorView

    init {
        backAsOnAndroid15()
        folder.mkdirs()
        app.speakers = {
            val life = lives
            object : Speaker {
                override fun say(words: String) {
                    // A process that died says nothing any more.
                    if (life == lives) spoken += words
                }

                override fun close() = Unit
            }
        }
        boot()
    }

    /** Turns on the way back that the manifest asks for; Robolectric's reader of manifests does not know the word. */
    private fun backAsOnAndroid15() {
        ReflectionHelpers.callStaticMethod<Unit>(
            ShadowWindowOnBackInvokedDispatcher::class.java, "setEnablePredictiveBack",
            ReflectionHelpers.ClassParameter.from(Boolean::class.javaPrimitiveType, true),
        )
        val known = shadowOf(app.packageManager).getInternalMutablePackageInfo(app.packageName).applicationInfo
        for (info in listOfNotNull(known, app.applicationInfo)) info.setEnableOnBackInvokedCallback(true)
    }

    private fun boot() = app.use(Core(clock) { now -> open(journal.path, now) })

    // Opening, leaving, dying

    /** Taps the app's icon: the launcher's activity, as a new process starts it. */
    fun launch(): Phone = apply {
        start(Intent(app, PilotActivity::class.java))
        settle()
    }

    private fun start(intent: Intent) {
        @Suppress("UNCHECKED_CAST")
        val kind = Class.forName(checkNotNull(intent.component).className) as Class<Activity>
        controller = Robolectric.buildActivity(kind, intent).setup()
    }

    /**
     * The process dies without a word to any activity: only what the journal's files hold at this moment is left,
     * and the app is opened again from that.
     */
    fun kill(): Phone = apply {
        settle(follow = false)
        // What is typed and waits to be kept goes with the process; the queue that it waits in outlives it here.
        (controller?.get() as? PilotActivity)?.typing?.flush()
        val saved = File(folder, "killed").apply { deleteRecursively(); mkdirs() }
        val files = { from: File -> from.listFiles { file -> file.name.startsWith(journal.name) }.orEmpty() }
        val home = journal.absoluteFile.parentFile
        files(home).forEach { it.copyTo(File(saved, it.name)) }
        controller = null
        lives++
        app.core.close()
        app.core.waitUntilClosed()
        ShadowLooper.idleMainLooper()
        shadowOf(app).clearNextStartedActivities()
        // A journal that is kept elsewhere is somebody's own and is never deleted, not even to put it back.
        if (home.canonicalFile == folder.canonicalFile) {
            files(home).forEach { it.delete() }
            files(saved).forEach { it.copyTo(File(home, it.name)) }
        }
        saved.deleteRecursively()
        boot()
        launch()
    }

    /** The phone is put away and the app closed by the system in good order. */
    override fun close() {
        settle(follow = false)
        controller?.pause()?.stop()?.destroy()
        controller = null
        app.core.close()
        app.core.waitUntilClosed()
        ShadowLooper.idleMainLooper()
    }

    private var meanwhile: Pair<String, () -> Unit>? = null

    /** What a person does once, as soon as the screen shows [words] while the core is at work. */
    fun whileItShows(words: String, act: () -> Unit): Phone = apply { meanwhile = words to act }

    /** Whether the core has still to answer. */
    val busy: Boolean get() = app.core.busy || app.aside.busy

    private var patient = true

    /** What a person does who does not wait for the core between one touch and the next. */
    fun atOnce(act: (Phone) -> Unit): Phone = apply {
        patient = false
        try {
            act(this)
        } finally {
            patient = true
        }
    }

    /** Lets the app go on until the screen says [part], with the core or a document still at work. */
    fun awaits(part: String): Phone = apply {
        val until = System.nanoTime() + PATIENCE_NS
        while (!says(part)) {
            if (System.nanoTime() > until) expect(part)
            Thread.sleep(1)
            ShadowLooper.idleMainLooper()
        }
    }

    /** Waits until the core has answered, the screen is laid out, and any other activity asked for has opened. */
    fun settle(follow: Boolean = true) {
        if (!patient) return ShadowLooper.idleMainLooper()
        val until = System.nanoTime() + PATIENCE_NS
        do {
            ShadowLooper.idleMainLooper()
            meanwhile?.takeIf { (words, _) -> busy && says(words) }?.let { (_, act) ->
                meanwhile = null
                act()
            }
            if (busy) waitForCore()
            check(System.nanoTime() < until) { "the core did not answer in ${PATIENCE_NS / 1_000_000_000} s" }
        } while (busy)
        ShadowLooper.idleMainLooper()
        if (!follow) return
        // What another app is to do, like the picker of documents, stays asked for: the test answers in its place.
        val next = shadowOf(app).peekNextStartedActivity()?.takeIf { it.component != null } ?: return
        shadowOf(app).nextStartedActivity
        controller?.takeIf { it.get().isFinishing }?.pause()?.stop()?.destroy()
        start(next)
        settle()
    }

    /** How long was waited so far for the core alone, with nothing else to do, nanoseconds. */
    var waitedNs = 0L
        private set

    private fun waitForCore() {
        val from = System.nanoTime()
        Thread.sleep(0, CORE_LOOK_NS)
        waitedNs += System.nanoTime() - from
    }

    /** Lets [ms] go by on all clocks, with the screen on. */
    fun wait(ms: Long): Phone = apply {
        var left = ms
        while (left > 0) {
            val step = minOf(left, STEP_MS)
            clock.pass(step)
            ShadowLooper.idleMainLooper(step, java.util.concurrent.TimeUnit.MILLISECONDS)
            left -= step
        }
        settle()
    }

    // What a person sees

    /** Every text on the screen, from top to bottom as it is built, also what must be scrolled to. */
    fun words(): List<String> = shown(decor).filterIsInstance<TextView>()
        .map(::read).filter { it.isNotBlank() }.toList()

    /** Whether the screen says [part] anywhere. */
    fun says(part: String): Boolean = words().any { part in it }

    /** Fails, with what the screen says instead, where it does not say [part]. */
    fun expect(part: String): Phone = apply {
        if (!says(part)) throw AssertionError("the screen does not say “$part”. It says:\n${listing()}")
    }

    private fun listing() = words().joinToString("\n") { "  $it" }

    /** All views under [root] that are shown, [root] first. */
    fun shown(root: View): Sequence<View> = sequence {
        if (root.visibility != View.VISIBLE) return@sequence
        yield(root)
        if (root is ViewGroup) for (i in 0 until root.childCount) yieldAll(shown(root.getChildAt(i)))
    }

    /** Everything that can be tapped now. */
    fun targets(): List<View> = shown(decor).filter { it.isClickable && it.isEnabled }.toList()

    /** The words that a target shows, and what it says to a screen reader. */
    fun labels(target: View): List<String> = shown(target).filterIsInstance<TextView>()
        .map(::read).filter { it.isNotBlank() }.toList() + listOfNotNull(target.contentDescription?.toString())

    private fun target(label: String): View {
        val all = targets()
        val exact = all.filter { label in labels(it) }
        val found = exact.ifEmpty { all.filter { view -> labels(view).any { label in it } } }
        return when (found.size) {
            1 -> found.single()
            0 -> throw AssertionError("nothing to tap that shows “$label”. The screen says:\n${listing()}")
            else -> throw AssertionError("“$label” can be tapped in ${found.size} places. The screen says:\n${listing()}")
        }
    }

    // What a person does

    /** Touches the one control that shows [label], or says it to a screen reader where it shows an icon alone. */
    fun tap(label: String): Phone = apply { touch(target(label)) }

    /** What the phone's picker of documents was asked for and has not answered yet. */
    val askedPicker: Intent?
        get() = controller?.get()?.let { shadowOf(it).peekNextStartedActivityForResult()?.intent }?.takeIf(::isPicker)

    /** What is merely started is on the same list. */
    private fun isPicker(intent: Intent) =
        intent.action in setOf(Intent.ACTION_OPEN_DOCUMENT, Intent.ACTION_CREATE_DOCUMENT, MediaStore.ACTION_IMAGE_CAPTURE)

    /** Answers the phone's picker of documents with [uri]; null: the person chose none. What comes of it is awaited, or not. */
    fun answerPicker(uri: Uri?, await: Boolean = true): Intent {
        val started = generateSequence { shadowOf(activity).nextStartedActivityForResult }
        val asked = checkNotNull(started.firstOrNull { isPicker(it.intent) }) { "no picker was opened" }
        while (shadowOf(app).peekNextStartedActivity() != null) shadowOf(app).nextStartedActivity
        val answer = if (uri == null) Activity.RESULT_CANCELED else Activity.RESULT_OK
        shadowOf(activity).receiveResult(asked.intent, answer, uri?.let { Intent().setData(it) })
        if (await) settle()
        return asked.intent
    }

    /** Is the phone's camera app, which was asked for a photo: writes [jpeg] where it was told to, or takes none, and goes back. */
    fun answerCamera(jpeg: ByteArray?, await: Boolean = true): Intent {
        val asked = checkNotNull(askedPicker) { "no camera was opened" }
        val there = checkNotNull(asked.extras?.get(MediaStore.EXTRA_OUTPUT) as? Uri) { "the camera was told no place" }
        if (jpeg != null) app.contentResolver.openOutputStream(there, "w")!!.use { it.write(jpeg) }
        val started = generateSequence { shadowOf(activity).nextStartedActivityForResult }.first { isPicker(it.intent) }
        while (shadowOf(app).peekNextStartedActivity() != null) shadowOf(app).nextStartedActivity
        // A camera that was told a place gives nothing back with its answer.
        shadowOf(activity).receiveResult(started.intent, if (jpeg == null) Activity.RESULT_CANCELED else Activity.RESULT_OK, null)
        if (await) settle()
        return asked
    }

    /** Rests a finger on the control that shows [label] until it acts. */
    fun hold(label: String, ms: Long = 700): Phone = apply {
        val view = target(label)
        val (x, y) = reach(view, ms)
        send(MotionEvent.ACTION_DOWN, x, y)
        clock.pass(ms)
        ShadowLooper.idleMainLooper(ms, java.util.concurrent.TimeUnit.MILLISECONDS)
        send(MotionEvent.ACTION_UP, x, y)
        settle()
    }

    /** Touches the plus, or for negative [times] the minus, of the stepper called [label]. */
    fun step(label: String, times: Int): Phone = apply {
        repeat(kotlin.math.abs(times)) {
            val stepper = block(label)
            val buttons = shown(stepper).filter { it.isClickable && it.getTag(R.id.token) != null }.toList()
            check(buttons.size == 2) { "“$label” is no stepper" }
            touch(if (times < 0) buttons.first() else buttons.last())
        }
    }

    /** Touches the option [option] of the choice called [label]. */
    fun choose(label: String, option: String): Phone = apply {
        val options = shown(block(label)).filter { it.isClickable }.toList()
        val found = options.singleOrNull { option in labels(it) }
            ?: throw AssertionError("“$label” offers ${options.map { labels(it).first() }}, not “$option”")
        touch(found)
    }

    /** Touches the field called [label] and writes [text] in it through the keyboard's own connection. */
    fun type(label: String, text: String): Phone = apply {
        touch(shown(block(label)).filterIsInstance<EditText>().singleOrNull() ?: error("“$label” is no field"))
        val field = shown(block(label)).filterIsInstance<EditText>().single()
        check(field.isFocused) { "the field “$label” took no focus" }
        val keyboard = field.onCreateInputConnection(EditorInfo())
        keyboard.performContextMenuAction(android.R.id.selectAll)
        keyboard.setSelection(0, field.text.length)
        keyboard.commitText(text, 1)
        pause()
    }

    /** As long as typed letters may wait to be kept, and what comes of it; the clocks stand still, as for the touch itself. */
    fun pause(): Phone = apply {
        ShadowLooper.idleMainLooper(TYPED_MS, java.util.concurrent.TimeUnit.MILLISECONDS)
        settle()
    }

    /** Touches the field called [label], so that it has the keyboard. */
    fun focus(label: String): Phone = apply { touch(shown(block(label)).filterIsInstance<EditText>().single()) }

    /** Letters from the keyboard into the field that has the focus; nothing where none has. */
    fun write(letters: String): Phone = keys { it.commitText(letters, 1) }

    /** The keyboard's key that takes the letter before the cursor, or what is selected, away. */
    fun erase(): Phone = keys {
        if (it.getSelectedText(0).isNullOrEmpty()) it.deleteSurroundingText(1, 0) else it.commitText("", 1)
    }

    /** The keyboard's key that ends a line or is done with the field. */
    fun enter(): Phone = keys {
        if (focused()!!.inputType and MULTI_LINE == 0) {
            it.performEditorAction(EditorInfo.IME_ACTION_DONE)
        } else {
            it.commitText("\n", 1)
        }
    }

    /** The field that has the focus. */
    fun focused(): EditText? = shown(decor).filterIsInstance<EditText>().firstOrNull { it.isFocused }

    private fun keys(press: (InputConnection) -> Unit): Phone = apply {
        focused()?.onCreateInputConnection(EditorInfo())?.let(press)
        settle()
    }

    /** Scrolls to the text or field called [label]. */
    fun reveal(label: String): Phone = apply {
        val view = shown(decor).lastOrNull { (it as? TextView)?.let(::read) == label || it.tag == label }
            ?: throw AssertionError("nothing on the screen is called “$label”. It says:\n${listing()}")
        scrollTo(view)
        settle()
    }

    /** The keyboard's “done” key in the field called [label]. */
    fun done(label: String): Phone = apply {
        val field = shown(block(label)).filterIsInstance<EditText>().single()
        field.onCreateInputConnection(EditorInfo()).performEditorAction(EditorInfo.IME_ACTION_DONE)
        settle()
    }

    /** The back gesture: a swipe from the edge, given to whatever the window has registered for it. */
    fun back(): Phone = apply {
        val swipe = ShadowWindowManagerGlobal.startPredictiveBackGesture(BackEvent.EDGE_LEFT)
        @Suppress("DEPRECATION")
        if (swipe != null) {
            swipe.moveBy(SWIPE_PX, 0f)
            swipe.close()
        } else {
            activity.onBackPressed()
        }
        settle()
    }

    /** Whether the app takes the back gesture itself on this screen. */
    fun takesBack(): Boolean = decor.viewRootImpl.onBackInvokedDispatcher.mOnBackInvokedCallbacks
        .getOrDefault(OnBackInvokedDispatcher.PRIORITY_DEFAULT, arrayListOf()).isNotEmpty()

    private fun block(label: String): View = shown(decor).filter { it is ViewGroup && !it.isClickable && it.tag == label }
        .toList().let { found ->
            found.singleOrNull()
                ?: throw AssertionError("${found.size} fields are called “$label”. The screen says:\n${listing()}")
        }

    /** Touches [view] at its middle, wherever it is on the page. */
    fun touch(view: View) {
        val (x, y) = reach(view, TOUCH_MS)
        send(MotionEvent.ACTION_DOWN, x, y)
        clock.pass(TOUCH_MS)
        ShadowLooper.idleMainLooper(TOUCH_MS, java.util.concurrent.TimeUnit.MILLISECONDS)
        send(MotionEvent.ACTION_UP, x, y)
        // Until the control looks untouched again.
        ShadowLooper.idleMainLooper(TOUCH_MS * 2, java.util.concurrent.TimeUnit.MILLISECONDS)
        settle()
    }

    /** Brings [view] into sight and gives the place of its middle in the window. */
    private fun reach(view: View, ms: Long): Pair<Float, Float> {
        heldMs += ms
        touches += clock.monotonicMs to labels(view).firstOrNull().orEmpty()
        scrollTo(view)
        val seen = Rect()
        val middle = middle(view)
        check(view.getGlobalVisibleRect(seen) && seen.contains(middle.first.toInt(), middle.second.toInt())) {
            "${labels(view)} is out of sight at $middle, seen $seen"
        }
        return middle
    }

    private fun middle(view: View): Pair<Float, Float> {
        val at = IntArray(2).also(view::getLocationInWindow)
        return at[0] + view.width / 2f to at[1] + view.height / 2f
    }

    /** What the field [view] is called. */
    fun nameOf(view: EditText): String = generateSequence(view.parent as? View) { it.parent as? View }
        .firstNotNullOfOrNull { it.tag as? String }.orEmpty()

    /** Moves the page by [px] pixels, as a wheel or a finger that stopped would. */
    fun scrollBy(px: Int): Phone = apply {
        shown(decor).filterIsInstance<ScrollView>().firstOrNull { it.id == R.id.page }?.scrollBy(0, px)
        settle()
    }

    /** Brings [view] into sight where the page has to be moved for it. */
    fun scrollTo(view: View) {
        val scroll = generateSequence(view.parent) { it.parent }.filterIsInstance<ScrollView>().firstOrNull() ?: return
        val at = Rect(0, 0, view.width, view.height)
        scroll.offsetDescendantRectToMyCoords(view, at)
        if (at.top >= scroll.scrollY && at.bottom <= scroll.scrollY + scroll.height) return
        scroll.scrollTo(0, (at.centerY() - scroll.height / 2).coerceAtLeast(0))
        ShadowLooper.idleMainLooper()
    }

    /** Moves the page so that the drawing of its first plot begins where the page does. */
    fun toTopOfPlot(): PictureView {
        val picture = shown(decor).filterIsInstance<PictureView>().first { it.isClickable }
        val page = decor.findViewById<ScrollView>(R.id.page)
        val at = Rect(0, 0, picture.width, picture.height).also { page.offsetDescendantRectToMyCoords(picture, it) }
        page.scrollTo(0, at.top)
        ShadowLooper.idleMainLooper()
        return picture
    }

    private fun send(action: Int, x: Float, y: Float) {
        val now = SystemClock.uptimeMillis()
        if (action == MotionEvent.ACTION_DOWN) downAt = now
        val event = MotionEvent.obtain(downAt, now, action, x, y, 0)
        decor.dispatchTouchEvent(event)
        event.recycle()
    }

    private var downAt = 0L

    /** One movement of a finger at a place of the window in pixels, as a `MotionEvent` action; what it did is waited for. */
    fun finger(action: Int, x: Float, y: Float): Phone = apply {
        send(action, x, y)
        settle()
    }

    /** Two fingers on [view], from [apart] pixels apart to [to] in eight moves, about [share] of its width. */
    fun pinch(view: View, share: Float, apart: Float, to: Float): Phone = apply {
        scrollTo(view)
        val at = IntArray(2).also(view::getLocationInWindow)
        val x = at[0] + view.width * share
        val y = at[1] + view.height / 2f
        val began = SystemClock.uptimeMillis()
        fun fingers(action: Int, count: Int, half: Float) {
            val ids = Array(count) { MotionEvent.PointerProperties().apply { id = it } }
            val places = Array(count) { i ->
                MotionEvent.PointerCoords().apply {
                    this.x = x + if (i == 0) -half else half
                    this.y = y
                }
            }
            val event = MotionEvent.obtain(began, SystemClock.uptimeMillis(), action, count, ids, places, 0, 0, 1f, 1f, 0, 0, 0, 0)
            decor.dispatchTouchEvent(event)
            event.recycle()
        }
        val second = 1 shl MotionEvent.ACTION_POINTER_INDEX_SHIFT
        fingers(MotionEvent.ACTION_DOWN, 1, apart / 2)
        fingers(MotionEvent.ACTION_POINTER_DOWN or second, 2, apart / 2)
        for (step in 1..PINCH_MOVES) fingers(MotionEvent.ACTION_MOVE, 2, (apart + (to - apart) * step / PINCH_MOVES) / 2)
        fingers(MotionEvent.ACTION_POINTER_UP or second, 2, to / 2)
        fingers(MotionEvent.ACTION_UP, 1, to / 2)
        settle()
    }

    // Pictures

    /** The window as drawn now. */
    fun drawn(): Bitmap {
        val bitmap = Bitmap.createBitmap(decor.width, decor.height, Bitmap.Config.ARGB_8888)
        decor.draw(Canvas(bitmap))
        return bitmap
    }

    /** Writes the window as `name-field.png` and `name-workshop.png` into [into], and comes back to the theme it had. */
    fun picture(name: String, into: File): Phone = apply {
        into.mkdirs()
        val before = app.workshop
        for (workshop in listOf(!before, before)) {
            theme(workshop)
            snapshot(File(into, "$name-${if (workshop) "workshop" else "field"}.png"))
        }
    }

    /** Writes the window as it is now to [file]. */
    fun snapshot(file: File): Phone = apply {
        file.parentFile?.mkdirs()
        file.outputStream().use { drawn().compress(Bitmap.CompressFormat.PNG, 100, it) }
    }

    /** Shows the dark theme or the light one, as after the switch in the corner of the board. */
    fun theme(workshop: Boolean): Phone = apply {
        if (app.workshop == workshop) return@apply
        app.workshop = workshop
        checkNotNull(controller).recreate()
        settle()
    }

    /** Another size or way up of the window, in Android's words for it (`+w360dp-h800dp-port`), or size of type. */
    fun configure(qualifiers: String, type: Float = RuntimeEnvironment.getFontScale()): Phone = apply {
        RuntimeEnvironment.setFontScale(type)
        RuntimeEnvironment.setQualifiers(qualifiers)
        recreate()
    }

    /** Looks away and back: the app asks the core for its screen again, in the same window. */
    fun lookAgain(): Phone = apply {
        checkNotNull(controller).pause().stop().restart().resume()
        settle()
    }

    /** Something lies over the app for so long, which is still seen: a call that comes in, the shade of notices. */
    fun covered(ms: Long): Phone = apply {
        checkNotNull(controller).pause()
        wait(ms)
        checkNotNull(controller).resume()
        settle()
    }

    /** The app is out of sight for so long: the screen is dark, or another app has it. */
    fun away(ms: Long): Phone = apply {
        checkNotNull(controller).pause().stop()
        wait(ms)
        checkNotNull(controller).restart().resume()
        settle()
    }

    /** Opens the window anew, as after a turn of the phone or another size of type. */
    fun recreate(): Phone = apply {
        checkNotNull(controller).recreate()
        settle()
    }

    private companion object {
        const val PATIENCE_NS = 30_000_000_000L
        const val CORE_LOOK_NS = 200_000
        const val TOUCH_MS = 60L
        const val TYPED_MS = 500L
        const val STEP_MS = 200L
        const val SWIPE_PX = 300f
        const val PINCH_MOVES = 8
        const val MULTI_LINE = android.text.InputType.TYPE_TEXT_FLAG_MULTI_LINE
    }
}
