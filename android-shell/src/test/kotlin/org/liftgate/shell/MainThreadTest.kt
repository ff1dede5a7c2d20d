package org.liftgate.shell

import android.os.Looper
import java.io.File
import java.lang.reflect.InvocationTargetException
import java.lang.reflect.Proxy
import java.util.Collections
import org.junit.Assert.assertEquals
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner
import uniffi.liftgate.Liftgate
import uniffi.liftgate.LiftgateInterface
import uniffi.liftgate.NoHandle
import uniffi.liftgate.PilotDesk
import uniffi.liftgate.PilotDeskInterface
import uniffi.liftgate.SpotterDesk
import uniffi.liftgate.SpotterDeskInterface

/**
 * The thread that draws waits for nothing: no call to the core, and with it none to the journal, is made on it, and no file and no
 * other app's document is opened by a class that does not do it aside. Each call to the core is watched at run time. Files are told by
 * what the compiled classes call: this JVM does not tell them as a phone's StrictMode would; the one file that is taken away refuses to be
 * on the thread that draws.
 */
@RunWith(RobolectricTestRunner::class)
class MainThreadTest {
    @get:Rule val folder = TemporaryFolder()
    private val called = Collections.synchronizedList(mutableListOf<String>())
    private val onMain = Collections.synchronizedList(mutableListOf<String>())

    /** What [real] does, with a note of each call and of those on the main thread. */
    private inline fun <reified T : Any> watched(real: T, crossinline answer: (Any?) -> Any? = { it }): T =
        Proxy.newProxyInstance(T::class.java.classLoader, arrayOf(T::class.java)) { _, method, given ->
            called += method.name
            if (Looper.getMainLooper().isCurrentThread) onMain += "${T::class.simpleName}.${method.name}"
            try {
                answer(method.invoke(real, *given.orEmpty()))
            } catch (failed: InvocationTargetException) {
                throw failed.targetException
            }
        } as T

    @Suppress("DELEGATED_MEMBER_HIDES_SUPERTYPE_OVERRIDE") // which is what it is for
    private class WatchedDesk(real: PilotDeskInterface, val end: () -> Unit) : PilotDesk(NoHandle), PilotDeskInterface by real {
        override fun close() = end()
    }

    @Suppress("DELEGATED_MEMBER_HIDES_SUPERTYPE_OVERRIDE")
    private class WatchedSpotter(real: SpotterDeskInterface, val end: () -> Unit) : SpotterDesk(NoHandle), SpotterDeskInterface by real {
        override fun close() = end()
    }

    @Suppress("DELEGATED_MEMBER_HIDES_SUPERTYPE_OVERRIDE")
    private class WatchedCore(real: LiftgateInterface, val end: () -> Unit) : Liftgate(NoHandle), LiftgateInterface by real {
        override fun close() = end()
    }

    private fun watched(real: Liftgate): Liftgate = WatchedCore(
        watched<LiftgateInterface>(real) { made ->
            when (made) {
                is PilotDesk -> WatchedDesk(watched<PilotDeskInterface>(made), made::close)
                is SpotterDesk -> WatchedSpotter(watched<SpotterDeskInterface>(made), made::close)
                else -> made
            }
        },
        real::close,
    )

    @Test
    fun noCallToTheCoreIsMadeOnTheMainThread() {
        Phone(folder.newFolder(), open = { path, now -> watched(Liftgate.open(path, now)) }).use { phone ->
            phone.launch().tap("Aircraft").tap("Main rotor diameter").type("Main rotor diameter", "18").pause()
            phone.type("Main rotor diameter", "1.8").tap("Record it: measured").tap("Take back").back()
            phone.configure("+w640dp-h360dp-land").away(1_000).theme(true).kill()
        }
        val walked = Walked("flying")
        val home = folder.newFolder()
        walked.copy(home)
        Phone(home, walked.clock(), open = { path, now -> watched(Liftgate.open(path, now)) }).use { phone ->
            phone.launch().tap("Shake").wait(5_000).configure("+w640dp-h360dp-land")
        }
        assertTrue("only $called was called", called.containsAll(listOf("turn", "screen", "tap", "typed", "mark", "closeJournal")))
        assertEquals("of ${called.size} calls", emptyList<String>(), onMain)
    }

    @Test
    fun aCallOnTheMainThreadWouldBeSeen() {
        val clock = HandClock()
        val store = watched(Liftgate.open(File(folder.newFolder(), "liftgate.db").path, clock.now()))
        store.turn()
        store.pilot().use { it.screen(clock.now()) }
        store.closeJournal()
        store.close()
        assertEquals(listOf("turn", "pilot", "screen", "closeJournal"), onMain.map { it.substringAfter('.') })
    }

    @Test
    fun filesAndDocumentsAreOpenedByClassesThatDoItAside() {
        val classes = File(System.getProperty("liftgate.target"), "classes/org/liftgate/shell").walk().filter { it.extension == "class" }
        val open = Regex("java/io/File(Input|Output)Stream|java/io/RandomAccessFile|android/content/ContentResolver|android/database/.*|java/nio/file/Files")
        val openers = classes.filter { file -> ClassCalls.of(file).any { open.matches(it.owner) } }
            .map { it.nameWithoutExtension.substringBefore('$') }.toSortedSet()
        // The camera app's calls reach the provider of its one file on threads of their own.
        assertEquals(sortedSetOf("CameraFile", "Documents", "Saving"), openers)
    }
}
