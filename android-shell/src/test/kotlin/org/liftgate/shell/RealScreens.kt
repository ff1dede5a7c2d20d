package org.liftgate.shell

import java.io.File
import java.nio.file.Files
import uniffi.liftgate.Block
import uniffi.liftgate.Control
import uniffi.liftgate.Liftgate
import uniffi.liftgate.Screen
import uniffi.liftgate.SpotterAct
import uniffi.liftgate.SpotterScreen
import uniffi.liftgate.Turn

/** A journal of the example aircraft, as `tools/generate` had it walked, and the clock as it stood when it was left. */
class Walked(private val name: String) {
    private val folder = File(System.getProperty("liftgate.target"), "walked")

    val file = File(folder, "$name.db")

    /** Copies the journal to where a [Phone] in [into] looks for it. */
    fun copy(into: File): File = File(into, "liftgate.db").also { file.copyTo(it, overwrite = true) }

    fun clock(): HandClock {
        val (wallMs, offsetMin, monotonicMs, boot) = File(folder, "$name.txt").readText().trim().split(' ')
        return HandClock(wallMs.toLong(), offsetMin.toInt(), monotonicMs.toLong(), boot)
    }
}

/**
 * Every screen that the core makes of the example aircraft in one language: whatever can be come to from the board by going
 * somewhere, at several moments of its story, and what the spotter sees.
 */
class RealScreens private constructor(val language: String) {
    val pilots: List<Screen> by lazy {
        val found = linkedMapOf<String, Screen>()
        fun take(more: List<Screen>) = more.forEach { found.putIfAbsent(key(it), it) }
        take(withStore(NEW_PHONE) { store, clock -> reach(store, clock) })
        for (name in listOf("flight", "hot", "service")) take(withStore(name) { store, clock -> reach(store, clock) })
        take(withStore("service") { store, clock -> picking(store, clock) })
        found.values.toList()
    }

    /** A log on its way in, offered with its columns and the page of each, and being read. */
    private fun picking(store: Liftgate, clock: HandClock): List<Screen> {
        val review = reach(store, clock).first { screen -> screen.name == "review" }
        val pick = review.foot.first { it.document != null }.token
        return store.pilot().use { desk ->
            fun pick(text: String): List<Screen> {
                val begun = desk.picked(pick, "a-recorder-with-a-long-name.csv", text.length.toULong(), clock.now()).screen
                desk.fed(text.encodeToByteArray(), clock.now())
                return listOf(begun, desk.fed(ByteArray(0), clock.now()).screen)
            }
            val offered = pick(rows("Time [s];Pack voltage [V];Current [mA];Rotor [rpm];Controller temperature [°C];Aux", 200))
            val columns = ways(offered.last()).map { way ->
                desk.tap(way, clock.now()).screen.also { desk.tap(checkNotNull(it.back).token, clock.now()) }
            }
            val long = pick(rows("Count;Pack voltage [V];Current [mA];Rotor [rpm];Controller temperature [°C];Aux", 120_000))
            val reading = desk.tap(long.last().foot.first().token, clock.now()).screen
            offered + columns + long.last() + reading.also { check(it.work != null) { "it was read at once" } }
        }
    }

    private fun rows(header: String, count: Int) = buildString {
        append(header).append('\n')
        for (row in 0 until count) append("${row / 2};48.${row % 10};${52_000 + row % 7};1180;61.5;\n")
    }

    val spotters: List<SpotterScreen> by lazy {
        withStore("flying") { store, clock ->
            check(store.turn() == Turn.SPOTTER)
            val desk = store.spotter()
            val down = desk.screen(clock.now()).let { desk.land(clock.now()) }
            listOf(down, desk.resume(clock.now())).also { check(it.first().main.act == SpotterAct.HAND_BACK) }
        } + withStore("flight") { store, clock -> listOf(handedOver(store, clock)) }
    }

    /** A check for each of the plan's counts as one more screen, an entry of the journal for each kind of entry. */
    private fun key(screen: Screen): String = when (screen.name) {
        "entry" -> "entry " + screen.title.takeWhile { it != ':' && it != ',' } + screen.blocks.map { it.javaClass.simpleName }
        "board", "stage", "findings", "aircraft", "journal", "landing", "card" ->
            listOf(screen.name, screen.title, screen.blocks.map { it.javaClass.simpleName }, screen.foot.map { it.label }).toString()
        else -> listOf(screen.name, screen.title, screen.foot.map { it.label }).toString()
    }

    private fun <T> withStore(name: String, work: (Liftgate, HandClock) -> T): T {
        val folder = Files.createTempDirectory("liftgate-screens").toFile()
        val clock = if (name.isEmpty()) HandClock() else Walked(name).clock()
        val file = if (name.isEmpty()) File(folder, "liftgate.db") else Walked(name).copy(folder)
        val store = Liftgate.open(file.path, clock.now(), language)
        return try {
            work(store, clock)
        } finally {
            store.closeJournal()
            store.close()
            folder.deleteRecursively()
        }
    }

    private fun reach(store: Liftgate, clock: HandClock): List<Screen> = store.pilot().use { desk ->
        val found = linkedMapOf<String, Screen>()
        val begin = desk.screen(clock.now())
        val open = ArrayDeque<String>()
        fun see(screen: Screen) {
            if (found.putIfAbsent(key(screen), screen) == null) open += ways(screen)
        }
        see(begin)
        generateSequence(begin) { seen -> seen.back?.let { desk.tap(it.token, clock.now()).screen } }.forEach(::see)
        val gone = mutableSetOf<String>()
        while (open.isNotEmpty() && gone.size < MOST_WAYS) {
            val token = open.removeFirst()
            if (!gone.add(token)) continue
            // From the board each time: the way there is part of no screen.
            while (true) desk.tap(desk.screen(clock.now()).back?.token ?: break, clock.now())
            see(desk.tap(token, clock.now()).screen)
        }
        found.values.toList()
    }

    /** Tokens that only lead somewhere. A shell cannot look into one; this test does, to keep from recording anything. */
    private fun ways(screen: Screen): List<String> {
        val rows = screen.blocks.filterIsInstance<Block.Row>().mapNotNull { it.control }
        return (rows + screen.foot).filter(Control::enabled).map { it.token }.filter { it.startsWith("{\"do\":{\"go\":{\"to\"") }
    }

    /** Handed over by its English words, then looked at in this language. */
    private fun handedOver(store: Liftgate, clock: HandClock): SpotterScreen = store.pilot().use { desk ->
        store.phoneSpeaks("en")
        fun controls(screen: Screen) = screen.foot + screen.blocks.flatMap { block ->
            when (block) {
                is Block.Choice -> block.options
                is Block.Stepper -> listOf(block.more)
                else -> emptyList()
            }
        }
        fun tap(label: String) {
            val seen = controls(desk.screen(clock.now()))
            val control = seen.firstOrNull { it.label == label || it.spoken.startsWith(label) }
            desk.tap(checkNotNull(control) { "no “$label”, but ${seen.map { it.label }}" }.token, clock.now())
        }
        while (true) desk.tap(desk.screen(clock.now()).back?.token ?: break, clock.now())
        tap("Draw up the card")
        tap("Pack 1")
        tap("Pack 1 was charged")
        tap("Air temperature: more")
        desk.screen(clock.now()).blocks.filterIsInstance<Block.Entry>().first { it.label.startsWith("Spotter's name") }
            .let { desk.edit(it.field, "Odo Brandvold", clock.now()) }
        tap("Hand over")
        store.phoneSpeaks(language)
        store.spotter().use { it.screen(clock.now()) }
    }

    companion object {
        /** Each language that the app speaks. */
        val all = listOf("en", "de").map(::RealScreens)

        private const val NEW_PHONE = ""
        private const val MOST_WAYS = 2_000
    }
}
