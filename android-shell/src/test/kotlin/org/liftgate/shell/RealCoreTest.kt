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
            phone.picture("first", pictures)
            println("WORDS " + phone.words().joinToString(" | "))
            println("TARGETS " + phone.targets().map { phone.labels(it) })
        }
    }
}
