package org.liftgate.shell

import android.graphics.BitmapFactory
import android.graphics.Color
import java.io.File
import org.junit.Assert.assertEquals
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import org.robolectric.RuntimeEnvironment
import uniffi.liftgate.Block
import uniffi.liftgate.LiftgateException
import uniffi.liftgate.Turn

/** Draws every kind of block in both themes and at double type, for a person to look at: `target/gallery`. */
@RunWith(RobolectricTestRunner::class)
class GalleryTest {
    @get:Rule val folder = TemporaryFolder()
    private val gallery = File(System.getProperty("liftgate.target"), "gallery")

    private fun show(name: String, core: FakeCore, before: (Phone) -> Unit = {}) {
        Phone(folder.newFolder(), open = { _, _ -> core }).use { phone ->
            phone.launch()
            before(phone)
            phone.picture(name, gallery)
            val (light, dark) = listOf("field", "workshop").map { File(gallery, "$name-$it.png") }
            assertEquals("$name is light in the field", true, brightness(light) > 0.5)
            assertEquals("$name is dark in the workshop", true, brightness(dark) < 0.4)
        }
    }

    /** Mean brightness of a drawn window, 0 to 1, from the file that a person would look at. */
    private fun brightness(file: File): Double {
        val drawn = BitmapFactory.decodeFile(file.path)
        val pixels = IntArray(drawn.width * drawn.height)
        drawn.getPixels(pixels, 0, drawn.width, 0, 0, drawn.width, drawn.height)
        return pixels.map { (Color.red(it) + Color.green(it) + Color.blue(it)) / 765.0 }.average()
    }

    @Test fun board() = show("board", FakeCore(Samples.board))
    @Test fun check() = show("check", FakeCore(Samples.check).apply { said = "Recorded 12.0 mm" }) { it.tap("Record") }
    @Test fun checkLower() = show("check-lower", FakeCore(Samples.check)) { it.reveal("Ballast") }
    @Test fun checkSteps() = show("check-steps", FakeCore(Samples.check)) { it.reveal("Motor temperature") }
    @Test fun checkPicture() = show("check-picture", FakeCore(Samples.check.copy(undo = null, foot = Samples.check.foot.take(1)))) { it.reveal("Centre of gravity") }
    @Test fun card() = show("card", FakeCore(Samples.card))
    @Test
    fun refused() {
        val core = FakeCore(Samples.check)
        core.after = { throw LiftgateException.Refused("mass_g", "The tray holds 200 g at most.") }
        Phone(folder.newFolder(), open = { _, _ -> core }).use { phone ->
            phone.launch().tap("Record").snapshot(File(gallery, "refused-field.png"))
        }
    }

    @Test fun bare() = show("bare", FakeCore(Samples.bare))

    @Test
    fun spotterBefore() = show("spotter-before", FakeCore(Samples.board).apply { turn = Turn.SPOTTER })

    @Test
    fun spotterFlying() = show(
        "spotter-flying",
        FakeCore(Samples.board).apply {
            turn = Turn.SPOTTER
            spotterScreen = Samples.spotter(running = true, elapsedMs = 173_000)
        },
    ) { it.wait(9_000) }

    @Test
    fun spotterLanded() = show(
        "spotter-landed",
        FakeCore(Samples.board).apply {
            turn = Turn.SPOTTER
            spotterScreen = Samples.landed
        },
    )

    @Test
    fun doubleType() {
        RuntimeEnvironment.setFontScale(2f)
        show("board-200", FakeCore(Samples.board))
        show("check-200", FakeCore(Samples.check)) { it.reveal("Motor temperature") }
        show("spotter-200", FakeCore(Samples.board).apply { turn = Turn.SPOTTER })
    }

    /** The longer of the two languages, on the narrowest phone, in the largest type. */
    @Test
    fun german() {
        RuntimeEnvironment.setFontScale(2f)
        RuntimeEnvironment.setQualifiers("+w320dp-h1600dp-port")
        val german = RealScreens.all.first { it.language == "de" }
        for (name in listOf("board", "card", "landing", "plan", "code")) {
            show("german-$name", FakeCore(german.pilots.last { it.name == name }).apply { language = german.language })
        }
    }

    /** A log's plot on phones held upright, with the top of its drawing at the top of the page. */
    @Test
    fun plots() {
        val english = RealScreens.all.first { it.language == "en" }
        val review = english.pilots.first { screen -> screen.blocks.any { it is Block.Plot } }
        for (size in listOf("w360dp-h640dp", "w411dp-h891dp")) for (type in listOf(1f, 2f)) {
            RuntimeEnvironment.setFontScale(type)
            RuntimeEnvironment.setQualifiers("+$size-port")
            show("plot-$size-${(type * 100).toInt()}", FakeCore(review)) { it.toTopOfPlot() }
        }
    }

    /** What was just recorded, where the foot has least room. */
    @Test
    fun said() {
        for ((name, held, type) in listOf(
            Triple("said", "+w360dp-h640dp-port", 1f), Triple("said-200", "+w320dp-h640dp-port", 2f), Triple("said-land-200", "+w640dp-h360dp-land", 2f),
        )) {
            RuntimeEnvironment.setFontScale(type)
            RuntimeEnvironment.setQualifiers(held)
            show(name, FakeCore(Samples.check).apply { said = "Recorded 12.0 mm: centre of gravity within limits" }) { it.tap("Record") }
        }
        RuntimeEnvironment.setFontScale(1f)
        RuntimeEnvironment.setQualifiers("+w360dp-h640dp-port")
        val refused = FakeCore(Samples.check).apply { after = { throw LiftgateException.Refused("mass_g", "The tray holds 200 g at most.") } }
        Phone(folder.newFolder(), open = { _, _ -> refused }).use { phone ->
            phone.launch().tap("Record").snapshot(File(gallery, "refused-small-field.png"))
        }
    }

    @Test
    fun lyingDown() {
        RuntimeEnvironment.setQualifiers("+land")
        show("check-land", FakeCore(Samples.check))
        show("spotter-land", FakeCore(Samples.board).apply { turn = Turn.SPOTTER })
    }

    @Test
    fun rightToLeft() {
        RuntimeEnvironment.setQualifiers("+ar-rXB-ldrtl")
        show("check-rtl", FakeCore(Samples.check))
    }
}
