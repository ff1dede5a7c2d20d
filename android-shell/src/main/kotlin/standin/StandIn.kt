// Temporary: the objects that the generated bindings will have. Deleted once they exist.
package uniffi.liftgate

data class Moment(val wallMs: Long, val offsetMin: Int, val monotonicMs: Long, val boot: String)
open class LiftgateException(message: String) : Exception(message)
interface LiftgateInterface { fun turn(): Turn; fun pilot(): PilotDesk; fun spotter(): SpotterDesk }
open class Liftgate(n: NoHandle) : AutoCloseable, LiftgateInterface {
    override fun turn(): Turn = TODO()
    override fun pilot(): PilotDesk = TODO()
    override fun spotter(): SpotterDesk = TODO()
    override fun close() {}
    companion object { fun open(path: String, now: Moment): Liftgate = throw LiftgateException("no core yet: $path $now") }
}
open class PilotDesk(n: NoHandle) : AutoCloseable {
    open fun screen(now: Moment): Screen = TODO()
    open fun tap(token: String, now: Moment): Tapped = TODO()
    open fun edit(field: String, text: String, now: Moment) {}
    override fun close() {}
}
open class SpotterDesk(n: NoHandle) : AutoCloseable {
    open fun screen(now: Moment): SpotterScreen = TODO()
    open fun start(now: Moment): SpotterScreen = TODO()
    open fun mark(kind: MarkKind, now: Moment): SpotterScreen = TODO()
    open fun land(now: Moment): SpotterScreen = TODO()
    open fun resume(now: Moment): SpotterScreen = TODO()
    open fun handBack(now: Moment): SpotterScreen = TODO()
    override fun close() {}
}
