package org.liftgate.shell

import java.io.File
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner

@RunWith(RobolectricTestRunner::class)
class RealCoreTest {
    @get:Rule val folder = TemporaryFolder()
    private val pictures = File(System.getProperty("liftgate.target"), "real")

    @Test
    fun walk() {
        Phone(folder.newFolder()).use { phone ->
            phone.launch()
            var n = 10
            fun snap() { val name = "%02d".format(n++); phone.picture(name, pictures); println("WORDS $name " + phone.words().joinToString(" | ")); println("T " + phone.targets().map { phone.labels(it).joinToString("/") }) }
            phone.tap("Bench electrics").tap("Next check"); snap()
            phone.back().tap("Each supply bears its load"); snap()
            phone.back().tap("Failsafe stops the motor"); snap()
            phone.back().tap("Pitch at full collective"); snap()
            phone.back().back().tap("Hover ladder"); snap()
            phone.back().tap("Aircraft").tap("Main rotor diameter"); snap()
            phone.back().tap("What feeds the receiver and the servos?"); snap()
        }
    }
}
