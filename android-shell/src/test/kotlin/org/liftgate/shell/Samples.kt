package org.liftgate.shell

import uniffi.liftgate.Anchor
import uniffi.liftgate.Block
import uniffi.liftgate.Control
import uniffi.liftgate.Edge
import uniffi.liftgate.Icon
import uniffi.liftgate.Ink
import uniffi.liftgate.Keyboard
import uniffi.liftgate.LabelSize
import uniffi.liftgate.MarkButton
import uniffi.liftgate.MarkKind
import uniffi.liftgate.Picture
import uniffi.liftgate.PictureLabel
import uniffi.liftgate.Point
import uniffi.liftgate.Screen
import uniffi.liftgate.SpotterAct
import uniffi.liftgate.SpotterClock
import uniffi.liftgate.SpotterControl
import uniffi.liftgate.SpotterLock
import uniffi.liftgate.SpotterScreen
import uniffi.liftgate.Stroke
import uniffi.liftgate.TimeCall
import uniffi.liftgate.Tone
import uniffi.liftgate.Weight

/** Screens with every kind of block, made up for these tests; the real ones come from the core. */
object Samples {
    fun control(
        label: String, icon: Icon = Icon.NONE, weight: Weight = Weight.PLAIN, detail: String? = null,
        whyNot: String? = null, chosen: Boolean = false, spoken: String = label,
    ) = Control(
        token = "token:$label", label = label, detail = detail, icon = icon, weight = weight,
        enabled = whyNot == null, whyNot = whyNot, chosen = chosen, spoken = spoken,
    )

    fun row(edge: Edge, state: String, title: String, detail: String?, leads: Boolean = true) =
        Block.Row(edge, state, title, detail, control("Open $title").takeIf { leads })

    val board = Screen(
        name = "board", title = "Wagtail", above = "Workbench, 1 June",
        back = null,
        blocks = listOf(
            Block.Verdict(
                "Three checks stand between Wagtail and its next flight.",
                "Gate of bench electrics is shut.", Edge.MISSING,
            ),
            Block.Heading("What stands in the way", "Most critical first"),
            row(Edge.STOP, "stop", "Servo supply over its rating", "8.4 V on a receiver rated for 7.4 V"),
            row(Edge.MISSING, "missing", "Failsafe proved", "Radio off, motor stops within 1 s"),
            row(Edge.STALE, "stale", "Centre of gravity", "Tail servo changed on 30 May"),
            row(Edge.CAUTION, "caution", "Regulator heat", "71 \u00b0C after 10 min, caution from 70 \u00b0C"),
            row(Edge.FRESH, "fresh", "Control directions", "Confirmed today", leads = false),
        ),
        foot = listOf(
            control("Prove the failsafe", Icon.NEXT, Weight.PRIMARY, detail = "Bench electrics"),
            control("Aircraft", Icon.ROTOR, Weight.QUIET), control("Findings", Icon.FLAG, Weight.QUIET),
        ),
        undo = null,
        work = null,
    )

    val check = Screen(
        name = "check", title = "Centre of gravity", above = "Weight and balance",
        back = control("Back", Icon.BACK),
        blocks = listOf(
            Block.Caution("Blades off", "Take the main blades off before you lift the aircraft by its head."),
            Block.Paragraph("Hang the aircraft from the head and read how far the skids tip.", Tone.PLAIN),
            Block.Paragraph("Judged against the maker's range; common practice, no source.", Tone.QUIET),
            Block.Figure("Moment to balance", "\u2212184", "g\u00b7m", "Computed from seven parts", Edge.STALE),
            Block.Drawing(balance()),
            Block.Stepper(
                "cg_mm", "Centre of gravity", "12.5", "mm",
                control("Less", Icon.REMOVE, spoken = "Centre of gravity, less by 0.5 mm"),
                control("More", Icon.ADD, spoken = "Centre of gravity, more by 0.5 mm"),
                null, "Ahead of the mast is positive",
            ),
            Block.Stepper(
                "temp_c", "Motor temperature", "605", "\u00b0C",
                control("Less", Icon.REMOVE, spoken = "Motor temperature, less by 1 \u00b0C"),
                control("More", Icon.ADD, spoken = "Motor temperature, more by 1 \u00b0C"),
                "Last time 58 \u00b0C. Did you mean 60.5 \u00b0C?", null,
            ),
            Block.Choice(
                "Pack used",
                listOf(control("Pack A", chosen = true), control("Pack B"), control("Pack C", whyNot = "Not charged")),
            ),
            Block.Entry("note", "Note", "Skids level on the granite", null, Keyboard.WORDS, "What another person should know", null),
            Block.Entry("mass_g", "Ballast", "240", "g", Keyboard.DECIMAL, null, "Twice the last value"),
        ),
        foot = listOf(
            control("Record", Icon.TICK, Weight.PRIMARY),
            control("Raise a finding", Icon.FLAG, Weight.PLAIN),
            control("Release gate", Icon.LOCK, Weight.PLAIN, whyNot = "Two checks are missing"),
        ),
        undo = control("Withdraw 12.0 mm", Icon.UNDO),
        work = null,
    )

    val card = Screen(
        name = "card", title = "First hover", above = "Wagtail, flight 1",
        back = control("Back to the board", Icon.BACK),
        blocks = listOf(
            Block.Verdict("Hover at 1250 rpm for four minutes, then land.", null, Edge.NONE),
            Block.Figure("Head speed", "1250", "rpm", "predicted 1180 to 1320 W", Edge.NONE),
        ),
        foot = listOf(control("Hand to the spotter", Icon.HAND, Weight.FIELD, detail = "Tomke holds the phone")),
        undo = null,
        work = null,
    )

    val bare = Screen(
        name = "book", title = "About the plan", above = null, back = control("Back to the board", Icon.BACK),
        blocks = listOf(Block.Paragraph("Nothing to do here.", Tone.STRONG)), foot = emptyList(), undo = null, work = null,
    )

    private fun balance(): Picture {
        fun line(vararg xy: Float, ink: Ink = Ink.STRONG, width: Float = 2f, dashed: Boolean = false, closed: Boolean = false, filled: Boolean = false) =
            Stroke(xy.toList().chunked(2).map { Point(it[0], it[1]) }, ink, width, dashed, closed, filled)
        return Picture(
            width = 320f, height = 170f,
            strokes = listOf(
                line(16f, 90f, 304f, 90f, ink = Ink.STRONG, width = 3f),
                line(130f, 40f, 130f, 140f, ink = Ink.LIMIT, dashed = true),
                line(190f, 40f, 190f, 140f, ink = Ink.LIMIT, dashed = true),
                line(16f, 140f, 304f, 140f, ink = Ink.QUIET, width = 1f),
                line(160f, 90f, 150f, 112f, 170f, 112f, closed = true),
                line(203f, 82f, 211f, 90f, 203f, 98f, 195f, 90f, ink = Ink.ACTION, closed = true, filled = true),
            ),
            labels = listOf(
                PictureLabel(130f, 32f, "aft limit", Ink.QUIET, LabelSize.SMALL, Anchor.END),
                PictureLabel(190f, 32f, "forward limit", Ink.QUIET, LabelSize.SMALL, Anchor.START),
                PictureLabel(216f, 80f, "4 mm over", Ink.STRONG, LabelSize.LARGE, Anchor.START),
                PictureLabel(16f, 160f, "tail", Ink.QUIET, LabelSize.SMALL, Anchor.START),
                PictureLabel(304f, 160f, "nose", Ink.QUIET, LabelSize.SMALL, Anchor.END),
            ),
            spoken = "Centre of gravity 4 mm ahead of the forward limit",
        )
    }

    /** A code is wanted; [waitNote] where it cannot be tried yet. */
    fun lock(waitNote: String? = null) = SpotterLock(
        pad = Block.CodePad("The pilot's code", waitNote, "Open", hidden = true, enabled = waitNote == null),
        without = SpotterControl(SpotterAct.WAIT_WITHOUT_CODE, "No code at hand", Icon.LOCK, 0u),
        withoutNote = "Opens half an hour later", counting = waitNote != null,
    )

    /** After touchdown. */
    val landed get() = spotter(running = false, elapsedMs = 231_000).copy(
        phase = "Down, motor off",
        main = SpotterControl(SpotterAct.HAND_BACK, "Back to the pilot", Icon.HAND, 600u),
        second = SpotterControl(SpotterAct.RESUME, "Still flying", Icon.UNDO, 0u),
    )

    fun spotter(running: Boolean, elapsedMs: Long = 0) = SpotterScreen(
        aircraft = "Wagtail", title = "First hover, 1250 rpm", phase = if (running) "Flying" else "Ready to start",
        clock = SpotterClock(running, elapsedMs, 240, "of 4:00 planned"),
        calls = listOf(TimeCall(60, "One minute"), TimeCall(180, "Three minutes"), TimeCall(240, "Land now")),
        main = if (running) {
            SpotterControl(SpotterAct.LAND, "Touchdown", Icon.STOP, 300u)
        } else {
            SpotterControl(SpotterAct.START, "Start the clock", Icon.PLAY, 600u)
        },
        second = null, undo = null, lock = null,
        marks = listOf(
            Triple(MarkKind.SHAKE, "Shake", Icon.SHAKE), Triple(MarkKind.SOUND, "Sound", Icon.SOUND),
            Triple(MarkKind.TAIL, "Tail", Icon.TAIL), Triple(MarkKind.DRIFT, "Drift", Icon.DRIFT),
            Triple(MarkKind.POWER, "Power", Icon.POWER), Triple(MarkKind.SMELL, "Smell", Icon.SMELL),
            Triple(MarkKind.ALARM, "Radio alarm", Icon.WARNING), Triple(MarkKind.OTHER, "Other", Icon.OTHER),
        ).mapIndexed { i, (kind, label, icon) -> MarkButton(kind, label, icon, if (i == 2) 2u else 0u, running) },
        log = listOf("0:41 tail", "1:02 tail"), limits = listOf("Stay below 3 m", "Nobody nearer than 15 m"),
        knockOff = listOf("Nose swings more than a quarter turn", "Any smoke, any smell"),
    )
}
