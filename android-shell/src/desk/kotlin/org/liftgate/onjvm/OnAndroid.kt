package org.liftgate.onjvm

import kotlin.system.exitProcess
import org.junit.runners.model.FrameworkMethod
import org.junit.runners.model.Statement
import org.robolectric.RobolectricTestRunner

/** A program that uses Android's classes on this computer. */
fun interface Program {
    /** Does all of it; [arguments] are those of the command line. */
    fun run(arguments: List<String>)
}

/**
 * Runs a program among Android's real classes, as Robolectric lays them out for a test: it has no other way in than a test's
 * runner, so this asks that runner for the one method, and reports to nobody. The process ends with the program.
 */
class OnAndroid(program: Class<out Program>, private val arguments: List<String>) : RobolectricTestRunner(program) {
    private val entry = program.getMethod("run", List::class.java)

    override fun computeTestMethods() = listOf(FrameworkMethod(entry))

    /** A program has no annotations of a test; that is no fault of it. */
    override fun collectInitializationErrors(errors: MutableList<Throwable>) = Unit

    override fun getHelperTestRunner(among: Class<*>): org.robolectric.internal.SandboxTestRunner.HelperTestRunner =
        object : HelperTestRunner(among) {
            override fun collectInitializationErrors(errors: MutableList<Throwable>) = Unit

            override fun methodInvoker(method: FrameworkMethod, test: Any) = object : Statement() {
                override fun evaluate() {
                    method.invokeExplosively(test, arguments)
                }
            }
        }

    private fun all() = methodBlock(children.single()).evaluate()

    companion object {
        /** Runs [program] to its end, says on stderr what it failed on, and ends the process. */
        fun main(program: Class<out Program>, arguments: Array<String>) {
            val status = try {
                OnAndroid(program, arguments.toList()).all()
                0
            } catch (@Suppress("TooGenericExceptionCaught") failed: Throwable) {
                failed.printStackTrace()
                1
            }
            exitProcess(status)
        }
    }
}

/** What a command line says by pairs of a name and a value: `--port 8080`. */
class Arguments(words: List<String>) {
    private val said = words.chunked(2).associate { pair ->
        require(pair.size == 2 && pair[0].startsWith("--")) { "“${pair.joinToString(" ")}” is no argument" }
        pair[0].removePrefix("--") to pair[1]
    }

    fun find(name: String): String? = said[name]

    fun get(name: String): String = requireNotNull(said[name]) { "--$name is missing" }
}
