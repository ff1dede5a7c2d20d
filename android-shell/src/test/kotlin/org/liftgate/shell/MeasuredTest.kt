package org.liftgate.shell

import android.graphics.Rect
import android.view.View
import android.widget.EditText
import android.widget.TextView
import com.google.android.apps.common.testing.accessibility.framework.AccessibilityCheckPreset
import com.google.android.apps.common.testing.accessibility.framework.AccessibilityViewHierarchyCheck
import com.google.android.apps.common.testing.accessibility.framework.AccessibilityCheckResult.AccessibilityCheckResultType
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.liftgate.R
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import uniffi.liftgate.Block
import uniffi.liftgate.Icon
import uniffi.liftgate.Screen
import uniffi.liftgate.SpotterScreen
import uniffi.liftgate.Turn
import uniffi.liftgate.Weight

/**
 * Every screen that the core makes of the example aircraft, measured as it is laid out and drawn: both languages, four widths, three
 * sizes of type, both ways up, both directions of writing, both themes. Plainly each screen is measured in a few of those, in turn, so
 * that all of them come up; with `-Dliftgate.measured=all` each is measured in all, with `=de` those of one language are.
 *
 * WCAG 2.2 defines contrast; the sizes and the least contrast are this project's own budgets.
 */
@RunWith(RobolectricTestRunner::class)
class MeasuredTest {
    @get:Rule val folder = TemporaryFolder()
    private val asked = System.getProperty("liftgate.measured")

    private fun whole(spoken: RealScreens) = asked == "all" || asked == spoken.language

    /** A phone's size, way up, direction of writing and size of type. */
    private class Way(val qualifiers: String, val type: Float) {
        override fun toString() = "$qualifiers at ${(type * 100).toInt()} %"
    }

    private val ways = listOf(1f, 1.3f, 2f).flatMap { type ->
        listOf("w320dp-h640dp", "w360dp-h800dp", "w412dp-h915dp", "w600dp-h960dp").flatMap { size ->
            val (width, height) = size.split('-')
            listOf("$size-port", "w${height.drop(1)}-h${width.drop(1)}-land").flatMap { held ->
                listOf("ldltr", "ldrtl").map { Way("+$it-$held", type) }
            }
        }
    }

    /** Those of the [screens] that are measured in the [nth] way. */
    private fun <T> RealScreens.share(screens: List<T>, nth: Int, mine: (Int) -> Boolean = { true }): List<T> =
        screens.filterIndexed { i, _ -> whole(this) || (i * STRIDE + nth) % ways.size < EACH && mine(i) }

    private fun inTurn(nth: Int) = RealScreens.all[nth % RealScreens.all.size]

    @Test
    fun everyScreenIsWholeAndInReach() {
        val faults = sortedMapOf<String, String>()
        var measured = 0
        ways.forEachIndexed { nth, way ->
            RuntimeEnvironment.setFontScale(way.type)
            RuntimeEnvironment.setQualifiers(way.qualifiers)
            for (spoken in RealScreens.all) {
                // So many screens in a row that all ways come up, then as many in the other language.
                val pilots = spoken.share(spoken.pilots, nth) { spoken === inTurn(it / ways.size) }
                val shown = pilots.mapIndexed { i, screen -> if (i % 2 == 0) screen else takenBack(screen, spoken.language) }
                each(spoken, shown, spoken.share(spoken.spotters, nth)) { name, phone ->
                    measured++
                    Inspector(phone).run { layoutFaults() + tallStrip() + unspoken() }.forEach { faults.putIfAbsent("$name: $it", "$way") }
                }
            }
        }
        for (spoken in RealScreens.all) {
            println("${spoken.language}: ${spoken.pilots.size} screens of the pilot's and ${spoken.spotters.size} of the spotter's")
            assertTrue("only ${spoken.pilots.size} screens", spoken.pilots.size > 150)
        }
        println("measured $measured layouts")
        assertEquals(faults.map { "${it.key} (${it.value})" }.joinToString("\n"), 0, faults.size)
    }

    /** The same screen a moment after something was recorded. */
    private fun takenBack(screen: Screen, language: String): Screen = screen.copy(
        undo = screen.undo ?: Samples.control(
            if (language == "de") "Wieder eintragen" else "Take back", Icon.UNDO, Weight.QUIET,
            detail = if (language == "de") "Hauptrotordurchmesser 1,8 m, nachgemessen am…" else "Main rotor diameter 1.8 m, measured on the…",
        ),
    )

    /** What was just recorded is said in full, and leaves the main action and the way to take it back where they are seen. */
    @Test
    fun whatWasJustRecordedLeavesTheMainActionInSight() {
        val faults = sortedMapOf<String, String>()
        val words = "Recorded: the tail belt was tightened by a quarter of a turn, and its proof is wanted once more before the next flight"
        for (way in ways) {
            RuntimeEnvironment.setFontScale(way.type)
            RuntimeEnvironment.setQualifiers(way.qualifiers)
            val core = FakeCore(Samples.check)
            Phone(folder.newFolder(), open = { _, _ -> core }).use { phone ->
                phone.launch()
                core.said = words
                phone.tap("Record")
                Inspector(phone).run { layoutFaults() + tallStrip() }.forEach { faults.putIfAbsent(it, "$way") }
                assertTrue("$way: ${phone.words()}", phone.says(words))
            }
        }
        assertEquals(faults.map { "${it.key} (${it.value})" }.joinToString("\n"), 0, faults.size)
    }

    /** On a phone held upright the first trace of a plot, its scale and the time axis are in view at once. */
    @Test
    fun aPlotsFirstTraceItsScaleAndTheTimeAreInViewTogether() {
        for (spoken in RealScreens.all) for (size in listOf("w360dp-h640dp", "w411dp-h891dp")) for (type in listOf(1f, 2f)) {
            RuntimeEnvironment.setFontScale(type)
            RuntimeEnvironment.setQualifiers("+$size-port")
            val review = spoken.pilots.first { screen -> screen.blocks.any { it is Block.Plot } }
            val core = FakeCore(review).apply { language = spoken.language }
            Phone(folder.newFolder(), open = { _, _ -> core }).use { phone ->
                phone.launch()
                val picture = phone.toTopOfPlot()
                val seen = Rect().also(picture::getGlobalVisibleRect).height()
                val places = picture.labelPlaces()
                val where = "${spoken.language}, $size at $type, $seen px in view: $places"
                val times = places.filter { (words, _) -> Regex("[0-9]+:[0-9.,]+").matches(words) }
                val axis = times.minOf { (_, at) -> at.bottom }
                assertTrue("the time axis is at $axis; $where", axis <= seen)
                val numbers = places.filter { (words, at) -> Regex("[\u2212\\-]?[0-9.,]+(\u00A0\\S+)?").matches(words) && at.bottom < axis }
                assertEquals("the scale of the first trace; $where", 2, numbers.size)
            }
        }
    }

    @Test
    fun everyTextStandsOutInBothThemes() {
        val faint = sortedSetOf<String>()
        for (workshop in listOf(false, true)) {
            val odd = if (workshop) 1 else 0
            for (spoken in RealScreens.all) {
                val mine = spoken.pilots.filterIndexed { i, _ -> whole(spoken) || i % THEMES == odd && spoken === inTurn(i / THEMES) }
                each(spoken, mine, spoken.spotters, workshop) { name, phone ->
                    faintAnywhere(phone).forEach { faint += "$name, workshop $workshop: $it" }
                }
            }
        }
        assertEquals(faint.joinToString("\n"), 0, faint.size)
    }

    /** Looks at the page in steps, since only what is drawn can be measured. */
    private fun faintAnywhere(phone: Phone): Set<String> {
        val found = mutableSetOf<String>()
        val page = phone.decor.findViewById<View>(R.id.page)
        val value = phone.activity.resources.getDimension(R.dimen.type_step_value) - 1
        var before = -1
        var steps = 0
        while (page.scrollY != before && (asked == "all" || steps++ < STEPS)) {
            before = page.scrollY
            val drawn = phone.drawn()
            found += Inspector(phone).faintTexts(drawn) { if (it.textSize >= value) KEY_CONTRAST else CONTRAST }
            found += Inspector(phone).faintLabels(drawn, CONTRAST)
            page.scrollBy(0, page.height * 2 / 3)
        }
        return found
    }

    /** One pass over all screens as they plainly are, for what does not hang on the layout. */
    @Test
    fun everyScreenSpeaksAndItsFieldActionsAreLargeAndLow() {
        val checks = AccessibilityCheckPreset.getViewChecksForPreset(AccessibilityCheckPreset.LATEST)
        assertTrue("only ${checks.size} checks", checks.size >= 6)
        val counted = sortedMapOf<String, Int>()
        val faults = sortedSetOf<String>()
        for (spoken in RealScreens.all) {
            val mine = spoken.pilots.filterIndexed { i, _ -> whole(spoken) || spoken === inTurn(i) }
            // In the order in which they are shown: several screens may have one name.
            val pilots = mine.iterator()
            val spotters = spoken.spotters.iterator()
            each(spoken, mine, spoken.spotters) { name, phone ->
                faults += googles(checks, phone, counted).map { "$name: $it" }
                val screen = if (pilots.hasNext()) pilots.next() else null
                faults += screen?.let { silentNumbers(it, phone) }.orEmpty().map { "$name: $it" }
                val field = screen?.foot?.filter { it.weight == Weight.FIELD && it.enabled }?.map { it.label } ?: listOf(spotters.next().main.label)
                field.forEach { label ->
                    counted.merge("field actions", 1, Int::plus)
                    faults += smallOrHigh(phone, label).map { "$name: $it" }
                }
            }
        }
        println("Accessibility Test Framework 2.1, ${checks.map { it.javaClass.simpleName }}: $counted")
        assertTrue("$counted", counted.getValue("field actions") > 20)
        assertEquals(faults.joinToString("\n"), 0, faults.size)
    }

    private fun googles(checks: Set<AccessibilityViewHierarchyCheck>, phone: Phone, counted: MutableMap<String, Int>): List<String> =
        checks.flatMap { check ->
            check.runCheckOnViewHierarchy(phone.decor).mapNotNull { result ->
                counted.merge(result.type.name, 1, Int::plus)
                val bad = result.type == AccessibilityCheckResultType.ERROR || result.type == AccessibilityCheckResultType.WARNING
                if (!bad || isFieldWithItsLabel(phone, result.view)) return@mapNotNull null
                val what = (result.view as? TextView)?.text ?: result.view?.let { phone.labels(it).firstOrNull() }
                "${check.javaClass.simpleName} on “$what”: ${result.message}"
            }
        }

    /**
     * A field is named by the text above it through `labelFor`, as the platform has it, so the two say the same; this version of
     * the checks takes that for a repetition. Any other view that says it too is still found.
     */
    private fun isFieldWithItsLabel(phone: Phone, view: View?): Boolean {
        val texts = phone.shown(phone.decor).filterIsInstance<TextView>().toList()
        val label = when (view) {
            is EditText -> texts.firstOrNull { it.labelFor == view.id } ?: return false
            is TextView -> view.takeIf { it.labelFor != View.NO_ID } ?: return false
            else -> return false
        }
        return phone.shown(phone.decor).count { it.contentDescription?.toString() == label.contentDescription?.toString() } == 1
    }

    private fun silentNumbers(screen: Screen, phone: Phone): List<String> = screen.blocks.flatMap { block ->
        val unit = (block as? Block.Stepper)?.unit ?: (block as? Block.Entry)?.unit ?: return@flatMap emptyList<String>()
        val label = (block as? Block.Stepper)?.label ?: (block as Block.Entry).label
        val spoken = phone.shown(phone.decor).filterIsInstance<TextView>().filter { read(it) == label }.map { it.contentDescription ?: "" }
        val steps = (block as? Block.Stepper)?.let { listOf(it.less, it.more) }.orEmpty().filter { !it.spoken.contains(Regex("[0-9]")) }
        listOfNotNull("“$label” is said as $spoken, without $unit".takeIf { unit.isNotEmpty() && spoken.none { unit in it } }) +
            steps.map { "“$label” steps by “${it.spoken}”" }
    }

    private fun smallOrHigh(phone: Phone, label: String): List<String> {
        val least = phone.activity.resources.getDimensionPixelSize(R.dimen.target_field)
        val view = phone.targets().first { it.tag == label }
        val top = IntArray(2).also(view::getLocationInWindow)[1]
        return listOfNotNull(
            "$label is ${view.height} px high, wanted $least".takeIf { view.height < least },
            "$label begins at $top of ${phone.decor.height}".takeIf { top < phone.decor.height * (1 - LOWER) },
        )
    }

    private fun named(screen: Screen) = "${screen.name} “${screen.title}”"
    private fun named(screen: SpotterScreen) = "spotter “${screen.phase}”"

    /** Shows each screen in one window, as a core would send it, and hands it to [then] with its name. */
    private fun each(
        spoken: RealScreens,
        pilots: List<Screen>,
        spotters: List<SpotterScreen>,
        workshop: Boolean = false,
        then: (String, Phone) -> Unit,
    ) {
        if (pilots.isNotEmpty()) {
            val core = FakeCore(pilots.first()).apply { language = spoken.language }
            Phone(folder.newFolder(), open = { _, _ -> core }).use { phone ->
                phone.launch().theme(workshop)
                for (screen in pilots) {
                    core.screen = screen
                    phone.lookAgain()
                    then(named(screen), phone)
                }
            }
        }
        if (spotters.isEmpty()) return
        val core = FakeCore(Samples.board).apply {
            language = spoken.language
            turn = Turn.SPOTTER
            spotterScreen = spotters.first()
        }
        Phone(folder.newFolder(), open = { _, _ -> core }).use { phone ->
            phone.launch().theme(workshop)
            for (screen in spotters) {
                core.spotterScreen = screen
                phone.lookAgain()
                then(named(screen), phone)
            }
        }
    }

    private companion object {
        /** In how many of the ways each screen is measured where not all are asked for. */
        const val EACH = 1

        /** Neighbouring screens are measured in ways that have little in common. */
        const val STRIDE = 19
        const val THEMES = 2
        const val STEPS = 4
        const val CONTRAST = 7.5
        const val KEY_CONTRAST = 10.0
        const val LOWER = 0.6
    }
}
