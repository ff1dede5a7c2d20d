package org.liftgate.shell

import java.io.DataInputStream
import java.io.File

/** A method that a compiled class calls, by its owner's name in the class file's form. */
data class ClassCall(val owner: String, val method: String)

/** What a compiled class calls, read from its constant pool (The Java Virtual Machine Specification, section 4.4). */
object ClassCalls {
    fun of(file: File): List<ClassCall> = DataInputStream(file.inputStream().buffered()).use { from ->
        check(from.readInt() == MAGIC) { "$file is no class" }
        from.skipBytes(VERSION_BYTES)
        val count = from.readUnsignedShort()
        val words = arrayOfNulls<String>(count)
        val first = IntArray(count)
        val second = IntArray(count)
        val methods = mutableListOf<Int>()
        var at = 1
        while (at < count) {
            when (val tag = from.readUnsignedByte()) {
                UTF8 -> words[at] = from.readUTF()
                INTEGER, FLOAT, DYNAMIC, INVOKE_DYNAMIC -> from.skipBytes(4)
                // These two take two places.
                LONG, DOUBLE -> {
                    from.skipBytes(8)
                    at++
                }
                CLASS, STRING, METHOD_TYPE, MODULE, PACKAGE -> first[at] = from.readUnsignedShort()
                METHOD_HANDLE -> from.skipBytes(3)
                FIELD, METHOD, INTERFACE_METHOD, NAME_AND_TYPE -> {
                    first[at] = from.readUnsignedShort()
                    second[at] = from.readUnsignedShort()
                    if (tag == METHOD || tag == INTERFACE_METHOD) methods += at
                }
                else -> error("$file: a constant of kind $tag")
            }
            at++
        }
        methods.map { ClassCall(words[first[first[it]]].orEmpty(), words[first[second[it]]].orEmpty()) }
    }

    private const val MAGIC = 0xCAFEBABE.toInt()
    private const val VERSION_BYTES = 4
    private const val UTF8 = 1
    private const val INTEGER = 3
    private const val FLOAT = 4
    private const val LONG = 5
    private const val DOUBLE = 6
    private const val CLASS = 7
    private const val STRING = 8
    private const val FIELD = 9
    private const val METHOD = 10
    private const val INTERFACE_METHOD = 11
    private const val NAME_AND_TYPE = 12
    private const val METHOD_HANDLE = 15
    private const val METHOD_TYPE = 16
    private const val DYNAMIC = 17
    private const val INVOKE_DYNAMIC = 18
    private const val MODULE = 19
    private const val PACKAGE = 20
}
