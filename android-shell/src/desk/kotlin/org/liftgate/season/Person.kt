package org.liftgate.season

import android.view.View
import org.json.JSONObject
import org.liftgate.R
import org.liftgate.shell.Keystrokes
import org.liftgate.shell.Phone
import org.liftgate.shell.PilotActivity
import org.liftgate.shell.SpotterActivity

/** Does what the app asks for next, with the season's answers, by touching what is on the screen. */
class Person(
    private val phone: Phone,
    private val season: Season,
    private val album: Album,
    private val story: Story,
) {
    private val sight = Sight(phone)
    private val readings = LogReading(phone, season, album, story)
    private val others = OtherAircraft(phone, album, story)
    private lateinit var day: Day
    private var slipped = false
    private var killed = false
    private var refused = false

    /** Gates released and checks flown since the day began, as the app said them. */
    val released = mutableListOf<String>()
    val flown = mutableListOf<String>()

    fun begin(next: Day) {
        day = next
        released.clear()
        flown.clear()
    }

    fun home() {
        while (sight.canTap("Back")) phone.tap("Back")
    }

    /** Carries out one step of the day. */
    fun step(step: JSONObject) {
        for (kind in step.keys()) when (kind) {
            "names" -> names()
            "emergency" -> emergency(step.getJSONObject(kind))
            "things" -> step.getJSONArray(kind).strings().forEach { thing(it, JSONObject()) }
            "figures" -> step.getJSONArray(kind).strings().forEach(::figure)
            "settings" -> step.getJSONArray(kind).strings().forEach { setting(it, season.setting(it)) }
            "change" -> change(step.getJSONObject(kind))
            "fix" -> fix(step.getString(kind))
            "code" -> setCode(step.getString(kind))
            "charged" -> charge(step.getJSONArray(kind).strings())
            "routine" -> routine(step.getString(kind))
            "look" -> look(step.getJSONObject(kind))
            "another" -> home().also { others.begin(step.getJSONObject(kind)) }
            "turn_to" -> home().also { others.turnTo(step.getString(kind)) }
            "log" -> readings.read(season.log(step.getString(kind)))
            "to_gate" -> toGate(step.getString(kind))
            "to_flight" -> toFlight(step.getString(kind))
            else -> error("the season has a step “$kind” that nobody knows how to do")
        }
    }

    // Following the board

    private fun toGate(stage: String) {
        repeat(PATIENCE) {
            home()
            if (sight.state(stage) == "Released") return
            if (!goThrough(stage)) next()
        }
        throw AssertionError("$stage is not released after $PATIENCE things done. The board: ${sight.verdict()}")
    }

    /**
     * Opens the stage where its own next check is what the board wants next, and goes on from check to check there.
     * Whether that was so; if not, the board is in view again.
     */
    private fun goThrough(stage: String): Boolean {
        val (verb, about) = sight.action(VERBS)
        if (verb != "Do") return false
        album.take("board-to-do", "The board: checks are what stands in the way")
        phone.tap(stage)
        if (!sight.canTap("Next check") || sight.action(setOf("Next check")).second != about) {
            home()
            return false
        }
        album.take("stage-open", "A stage on the way: what holds, what is to do")
        phone.tap("Next check")
        do check() while (season.hasCheck(sight.title()))
        return true
    }

    private fun toFlight(check: String) {
        repeat(PATIENCE) {
            home()
            next()
            if (flown.lastOrNull() == check) return
        }
        throw AssertionError("$check is not flown after $PATIENCE things done. The board: ${sight.verdict()}")
    }

    private fun next() {
        val (verb, about) = sight.action(VERBS)
        if (about.isNotEmpty()) album.take("board", "The board: what stands in the way, and the next thing to do")
        phone.tap(verb)
        when (verb) {
            "Answer" -> answer(about)
            "Enter" -> while (season.hasFigure(sight.title())) figureHere()
            "Do" -> check()
            "See to" -> see(about)
            "Prove the fix" -> prove()
            "Decide" -> release()
            "Draw up the card" -> fly()
            else -> error("nobody knows how to “$verb”")
        }
    }

    private fun release() {
        album.take("stage-ready", "A stage with all its evidence: the gate may be released, by the pilot alone")
        if (!sight.hasControl("Release ")) {
            phone.tap(sight.control("Read "))
            album.take("cautions", "A gate that stands on a caution is released where the caution is read")
        }
        settle(sight.control("Release "))
        val said = checkNotNull(sight.said()) { "the release was not said" }
        check(said.endsWith(" released")) { "instead of a release the app said “$said”" }
        released += said.removeSuffix(" released")
    }

    // The aircraft

    private fun atAircraft() {
        if (sight.title() == "Aircraft") return
        home()
        phone.tap("Aircraft")
    }

    private fun names() {
        home()
        album.take("board-new", "A new phone: nothing is known yet")
        phone.tap("Aircraft")
        phone.tap(sight.control("This aircraft"))
        phone.type("The aircraft's name", season.aircraft).type("Builder's name", season.builder)
        album.take("name", "The aircraft and whose it is")
        phone.tap("Record the names")
        home()
    }

    /** Whom to call and where the site is, entered while there is time for it. */
    private fun emergency(known: JSONObject) {
        home()
        phone.tap("Fire or accident")
        phone.type("Number to call", known.getString("call")).type("Address of the site, and the way in", known.getString("address"))
        phone.tap("Record number and address")
        phone.reveal(phone.words().first { it.startsWith("Call ") })
        album.take("emergency", "Fire or accident: one touch from the board, with whom to call and where")
        home()
    }

    private fun answer(question: String) {
        album.take("question", "What differs between aircraft decides which checks there are")
        settle(season.answer(question))
    }

    private fun figure(title: String) {
        atAircraft()
        phone.tap(title)
        figureHere()
    }

    private fun figureHere() {
        val known = season.figure(sight.title())
        phone.type(sight.title(), known.getString("value"))
        album.take("figure", "One figure, its plausible range, and where it comes from")
        val basis = known.getString("basis").replaceFirstChar { it.lowercase() }
        // Said with the touch that records it, where nobody said so yet.
        if (sight.canTap("Record it: $basis")) {
            settle("Record it: $basis")
        } else {
            pick("Where it comes from", known.getString("basis"))
            settle("Record it")
        }
    }

    /** Describes a thing, or describes it anew with what is in [anew]. */
    private fun thing(name: String, anew: JSONObject) {
        val thing = season.thing(name)
        atAircraft()
        val known = sight.rows().any { it.title == name }
        if (known) {
            phone.tap(name)
        } else {
            phone.tap("Add a ${thing.getString("kind").lowercase()}").type("Name", name)
        }
        val asked = if (thing.getString("kind") == "Pack reading") "Of the pack" else "Fed by"
        (anew.text("fed_by") ?: thing.text("fed_by"))?.let { pick(asked, it) }
        val numbers = if (known) anew.optJSONObject("numbers") else thing.getJSONObject("numbers")
        thing.optJSONObject("choices")?.strings()?.forEach { (label, option) -> phone.choose(label, option) }
        numbers?.strings()?.forEach { (label, value) -> phone.type(label, value) }
        album.take("thing", "A supply with its ratings")
        if (known) album.take("thing-changed", "The same form later: what is known stays, what changed is entered")
        val record = (if (known) anew else thing).text("record")
        if (record != null) album.take("thing-on-aircraft", "What was proved stands or falls with what the pilot says of the aircraft")
        // Where the season says nothing of it, what is new on the list was on the aircraft before, and what is entered anew was changed.
        val otherwise = if (known) "Changed on the aircraft" else "It was there before"
        phone.tap(record ?: if (sight.canTap("Record it")) "Record it" else otherwise)
    }

    private fun setting(title: String, to: JSONObject) {
        atAircraft()
        phone.tap(title)
        phone.type("New value", to.getString("value")).type("Why", to.getString("why"))
        if (phone.says("Before")) album.take("setting", "A setting with its past, and why it is changed")
        phone.tap("Record it")
    }

    private fun change(change: JSONObject) {
        atAircraft()
        album.take("aircraft", "All that is known of the aircraft")
        phone.tap("Record a change").type("What was done", change.getString("what"))
        change.getJSONArray("touched").strings().forEach { pick("What it touched", it) }
        album.take("change", "A change says what it touched")
        phone.tap("Record the change")
        tellStale("A change: ${change.getString("what")}.")
    }

    /** What the board says of the last thing recorded: evidence gone stale, gates lapsed. */
    private fun tellStale(what: String) {
        home()
        val changed = sight.rowsUnder("Last recorded")
        val stale = changed.filter { it.state == "Stale" }.map { it.title }
        val lapsed = changed.filter { it.state == "Lapsed" }.map { it.title.removePrefix("Gate of ") }
        check(stale.isNotEmpty()) { "after “$what” nothing went stale, but: $changed" }
        phone.reveal("Last recorded")
        album.take("board-stale", "What the change did: evidence gone stale, gates lapsed, all by itself")
        val gates = if (lapsed.isEmpty()) "" else "; lapsed: ${lapsed.joinToString(", ")}"
        story.tell("        $what Stale by itself: ${stale.joinToString(", ")}$gates")
    }

    // Checks

    private fun check() = if (sight.canTap("To its run")) toItsRun() else check(season.answerTo(sight.title()))

    /** What is read on a run wants its card first; the board leads back to the reading. */
    private fun toItsRun() {
        album.take("check-to-its-run", "What turns the motor goes through a card: the run comes first, then what is read on it")
        phone.tap("To its run")
        val inTheWay = sight.rowsUnder("In the way").firstOrNull()
        if (inTheWay != null) phone.tap(inTheWay.title)
        if (sight.canTap("Draw up the card")) {
            phone.tap("Draw up the card")
            fly()
        } else {
            check()
        }
    }

    private fun check(answer: Answer) {
        val title = sight.title()
        pass(answer.minutes)
        if (answer.witness) phone.type("Second person's name", season.spotter)
        answer.note?.let { phone.type("Remark", it) }
        when {
            answer.reading != null -> reading(title, answer.reading)
            answer.right -> confirm()
            answer.computed -> compute()
            else -> error("the season says nothing for “$title”")
        }
        if (sight.title() == title && sight.canTap("Raise a finding")) {
            album.take("check-not-right", "Not right: the check itself offers to raise a finding")
            raise(season.findingShownBy(title))
        }
    }

    private fun confirm() {
        album.take("check-confirm", "A check that is seen: cautions first, then what to do")
        settle("Seen, and right")
    }

    private fun reading(title: String, reading: String) {
        day.slip?.takeIf { !slipped && it.getString("check") == title }?.let { slip(title, it.getString("typed")) }
        day.killedAt?.takeIf { !killed && it.getString("check") == title }?.let { die(title, it.getString("typed")) }
        phone.type("Reading", reading)
        phone.reveal("Reading")
        album.take("check-measure", "A check that is measured, with its limits")
        settle(sight.control("Record "))
    }

    private fun compute() {
        while (sight.hasControl("That is all")) {
            album.take("check-list", "Every one of a list is judged: the pilot says that these are all")
            phone.tap(sight.control("That is all"))
        }
        val record = if (sight.canTap("Keep this result")) "Keep this result" else "Record this result"
        val name = sight.title().lowercase().replace(Regex("[^a-z]+"), "-")
        val right = if (record == "Keep this result") "right" else "stop"
        album.take("check-compute", "A check that is computed: what it comes to, then its cautions")
        sight.revealDrawing()
        album.take("check-compute-$right-$name", "Computed from what was entered: “${sight.title()}”")
        if (sight.canTap("Another day")) askAboutAnotherDay()
        settle(record)
    }

    /** What would come of it with no airflow at all, and back. */
    private fun askAboutAnotherDay() {
        phone.tap("Another day")
        album.take("hotter-day", "The last hover's heat on the hottest day that is flown")
        repeat(4) { phone.tap("Airflow, of a hover's: less by 25 percent") }
        album.take("hotter-day-no-airflow", "The same with no airflow: how soon, and what would hold it")
        val answer = phone.words().first { it.startsWith("At ") }
        story.tell("        Asked about another day: “$answer”")
        phone.back()
    }

    /** A wrong number is recorded, seen, and taken back in one touch. */
    private fun slip(title: String, typed: String) {
        slipped = true
        phone.type("Reading", typed)
        settle(sight.control("Record "))
        val wrong = checkNotNull(sight.said()) { "the slip was not said" }
        check(typed in wrong) { "the slip was said as “$wrong”" }
        album.take("slip", "A slip of the finger: recorded, and not right")
        phone.tap("Take back")
        val taken = checkNotNull(sight.said()) { "the withdrawal was not said" }
        check(taken.startsWith("Withdrawn")) { "instead of a withdrawal the app said “$taken”" }
        check(sight.title() == title) { "after the withdrawal the screen is “${sight.title()}”" }
        story.tell("        A slip: “$wrong”, then “$taken”")
    }

    /** The process dies with a number half typed; the app opens at the same check with the same number. */
    private fun die(title: String, typed: String) {
        killed = true
        phone.type("Reading", typed).kill()
        val back = sight.title()
        check(back == title) { "killed at “$title”, opened at “$back”" }
        val field = sight.field("Reading")
        check(field == typed) { "killed with “$typed” in the field, opened with “$field”" }
        album.take("after-death", "The process was killed: the same check, the same half-typed number")
        story.tell("        The app was killed at “$back” with “$field” half typed, and opened there with it")
    }

    /** Looks at what the app works out for a check, and keeps no result yet. */
    private fun look(at: JSONObject) {
        home()
        val title = at.getString("check")
        phone.tap(at.getString("stage")).tap(title)
        check(sight.title() == title) { "opened at “$title”, and the screen is “${sight.title()}”" }
        sight.revealDrawing()
        album.take("look-${title.lowercase().replace(Regex("[^a-z]+"), "-")}", "Worked out, and only looked at: “$title”")
        home()
    }

    // Findings

    private fun raise(finding: Finding) {
        phone.tap("Raise a finding").type("What is wrong", finding.title)
        pick("How bad", finding.howBad)
        album.take("new-finding", "A finding: what is wrong, how bad, and what will prove the fix")
        phone.tap("Raise it")
        check(sight.said() == "Finding raised: ${finding.title}") { "the app said “${sight.said()}”" }
        album.take("findings", "Findings, those that hold a gate first")
    }

    /** A finding that the board leads to: fixed if it is open, else proved. */
    private fun see(title: String) {
        if (sight.canTap("Go to the proof")) {
            phone.tap("Go to the proof")
            prove()
            return
        }
        fix(title)
    }

    private fun prove() = if (sight.canTap("Draw up the card")) fly() else check()

    private fun fix(title: String) {
        val finding = season.finding(title)
        finding.beforeFix.forEach(::prepare)
        openFinding(title)
        refuseEmpty()
        phone.type("What was done", finding.fix)
        finding.touched.forEach { pick("What it touched", it) }
        album.take("finding-${finding.area}", "The fix, and what it touched")
        phone.tap("Record the fix")
        check(sight.said()?.startsWith("Fix recorded") == true) { "the app said “${sight.said()}”" }
        album.take("finding-fixed", "Fixed, and waiting for its proof")
        if (finding.touched.isNotEmpty()) tellStale("The fix: ${finding.fix}.")
    }

    /** Once in the season the fix is recorded before anything was written of it. */
    private fun refuseEmpty() {
        if (refused) return
        refused = true
        album.takeAnswer("refused-empty", "Refused, in words that say what to do") {
            phone.tap("Record the fix").expect("is empty: enter it first")
        }
    }

    private fun prepare(step: JSONObject) {
        when {
            step.has("change") -> change(step.getJSONObject("change"))
            step.has("thing") -> thing(step.getString("thing"), step)
            step.has("setting") -> {
                setting(step.getString("setting"), step)
                tellStale("${step.getString("setting")}: ${step.getString("value")}.")
            }
            step.has("check") -> {
                home()
                phone.tap(step.getString("stage"))
                album.take("stage", "A stage: cautions, then its checks, then its gate")
                val (_, title) = sight.action(setOf("Next check"))
                check(title == step.getString("check")) { "the next check is “$title”" }
                phone.tap("Next check")
                check()
            }
            else -> error("the season has a fix that nobody knows how to prepare: $step")
        }
    }

    fun openFinding(title: String) {
        home()
        phone.tap("Findings")
        phone.tap(sight.rows().first { it.title.endsWith(title) }.title)
    }

    // Flying

    private fun fly() {
        val title = sight.title()
        whatIsDue(title)
        val flight = season.flight(title)
        card(flight)
        phone.tap(sight.control("Hand over"))
        check(phone.activity is SpotterActivity) { "handed over, and ${phone.activity.localClassName} is open" }
        album.take("spotter-waiting", "The spotter's side: only this card")
        pass(1)
        phone.hold("Motor on")
        inTheAir(flight)
        phone.hold(if (sight.canTap("Motor off")) "Motor off" else "Touchdown")
        album.take("spotter-down", "Down, motor off")
        if (flight.marks.isNotEmpty()) album.take("spotter-down-marks", "Down, with what was noted in flight")
        elapse(LOOK_ROUND_S)
        handBack()
        check(phone.activity is PilotActivity) { "handed back, and ${phone.activity.localClassName} is open" }
        land(flight)
        flown += title
    }

    /** In service the card comes with what is due before it: each done where it stands, or on its own page. */
    private fun whatIsDue(title: String) {
        repeat(PATIENCE) {
            val due = sight.dueOnCard().firstOrNull() ?: return
            album.take("card-due", "A card in service: what is due, each with a touch of its own")
            val answer = season.answerTo(due)
            val touch = sight.spoken(if (answer.right) "$due: seen, and right" else due + ": " + answer.reading)
                ?: phone.targets().mapNotNull { it.contentDescription?.toString() }
                    .firstOrNull { it.startsWith("$due: ${answer.reading} ") }
            if (touch != null) {
                pass(answer.minutes)
                phone.tap(touch)
            } else {
                phone.tap(due)
                check(answer)
            }
            check(sight.title() == title) { "after “$due” the screen is “${sight.title()}”" }
        }
        throw AssertionError("what is due on the card of “$title” comes to no end: ${sight.dueOnCard()}")
    }

    /** Charged at home, one touch a pack. */
    private fun charge(packs: List<String>) {
        home()
        phone.tap("Packs")
        for (pack in packs) {
            phone.tap("$pack: charged")
            check(sight.said() == "$pack charged") { "instead of a charge the app said “${sight.said()}”" }
        }
        album.take("packs", "The packs: which is charged, and which has rested longest")
        home()
    }

    /** The code that the phone wants before it comes back from the spotter. */
    private fun setCode(code: String) {
        atAircraft()
        phone.tap("Pilot's code")
        album.take("code", "The pilot's code, on keys for gloves")
        code.forEach { phone.tap(it.toString()) }
        phone.tap("Set this code")
        check(sight.said() == "Pilot's code set") { "instead of the code the app said “${sight.said()}”" }
        this.code = code
        home()
    }

    /** The pilot's code, once it was set. */
    var code: String? = null
        private set

    /** The spotter gives the phone back: by the pilot's code, where there is one. */
    private fun handBack() {
        phone.hold("Back to the pilot")
        val digits = code ?: return
        album.take("spotter-code", "The phone comes back by the pilot's code")
        if (!wrongTried) {
            wrongTried = true
            digits.reversed().forEach { phone.tap(it.toString()) }
            phone.tap("Open").expect("That is not the pilot's code")
            album.take("spotter-code-wrong", "A wrong code is said, and written down")
        }
        digits.forEach { phone.tap(it.toString()) }
        phone.tap("Open")
    }

    private var wrongTried = false

    /**
     * A flight as on any day in service, counted in touches: the app is opened at the card where it was left, each due
     * check is seen and touched, the clock runs; down, back, three temperatures, and the phone goes into the pocket.
     */
    private fun routine(title: String) {
        check(sight.title() == title) { "in service the next card should be in view, not “${sight.title()}”" }
        phone.kill()
        album.take("card-routine", "Opened in service: the short pre-flight, with what it wants today")
        val keys = Keystrokes(phone).begin()
        whatIsDue(title)
        val flight = season.flight(title)
        phone.tap(sight.control("Hand over"))
        phone.hold("Motor on")
        check(keys.touches <= TO_THE_CLOCK) { "${keys.touches} touches from the opened app to the clock" }
        val toTheClock = keys.touches
        elapse(flight.seconds)
        keys.begin()
        phone.hold("Touchdown", ms = TOUCHDOWN_MS)
        val down = keys.seconds(homing = false)
        check(keys.touches == 1 && down <= DOWN_S) { "the touchdown takes ${keys.touches} touches and $down s" }
        elapse(LOOK_ROUND_S)
        keys.begin()
        handBack()
        val back = keys.touches
        keys.begin()
        for ((place, celsius) in flight.heat) phone.wait(TO_THE_NEXT_MS).tap("$place: $celsius degrees Celsius")
        val landing = keys.seconds(homing = true)
        check(keys.touches <= LANDING_TOUCHES && landing <= LANDING_S) {
            "the landing takes ${keys.touches} touches and $landing s"
        }
        check(sight.title() == title) { "after the landing the screen is “${sight.title()}”" }
        story.tell(
            "        A routine flight: $toTheClock touches from the opened app to the clock (4 checks due); touchdown 1 touch, " +
                "%.2f s; back by the code %d; three temperatures %d touches, %.2f s".format(down, back, keys.touches, landing),
        )
        flown += title
    }

    private fun card(flight: Flight) {
        album.take("card", "A card: head speed, what is due, when to call it off")
        pick("Pack", flight.pack)
        // Charged since it was flown: the card asks where nobody wrote that down.
        val charged = "${flight.pack} was charged"
        if (sight.canTap(charged)) phone.tap(charged)
        phone.type("Air temperature", flight.airC)
        flight.wind?.let { pick("Wind, by what it moves (Beaufort), if you know", it) }
        when {
            sight.canTap(season.spotter) -> pick("Spotter", season.spotter)
            phone.says("Spotter's name, if not flying alone") ->
                phone.type("Spotter's name, if not flying alone", season.spotter)
            else -> phone.type("Spotter's name", season.spotter)
        }
        if (phone.says("Charge it should use")) {
            phone.reveal("Charge it should use")
            album.take("card-prediction", "What it should take from the pack, and from what that is computed")
        }
    }

    private fun inTheAir(flight: Flight) {
        var at = 0
        fun until(seconds: Int) {
            elapse(seconds - at)
            at = seconds
        }
        for ((second, what) in flight.marks) {
            until(second)
            phone.tap(what)
        }
        if (flight.marks.isNotEmpty()) album.take("spotter-marks", "The clock runs; one touch for what is seen or heard")
        flight.killedAfterS?.let {
            until(it)
            dieInTheAir(it)
        }
        if (flight.seconds > HALF_WAY_S) {
            until(maxOf(at, flight.seconds / 2))
            album.take("spotter-running", "The clock runs, and says the calls aloud")
        }
        until(flight.seconds)
    }

    private fun dieInTheAir(second: Int) {
        phone.kill()
        check(phone.activity is SpotterActivity) { "killed in flight, opened as ${phone.activity.localClassName}" }
        val clock = phone.decor.findViewById<View>(R.id.clock).contentDescription.toString()
        val (minutes, seconds) = Regex("\\d+").findAll(clock).map { it.value.toInt() }.toList()
        check(minutes * 60 + seconds in second..second + 5) { "killed at $second s, the clock shows “$clock”" }
        story.tell("        The app was killed in flight at $second s and opened at the spotter's clock: $clock")
    }

    private fun land(flight: Flight) {
        check(sight.title() == "Landing") { "handed back, and the screen is “${sight.title()}”" }
        album.take("landing-empty", "Right after touchdown: the hottest places first, steps from the last values")
        flight.toldMinutes?.let(::tellTheTime)
        for ((place, celsius) in flight.heat) {
            elapse(SECONDS_A_READING)
            if (place == "Controller") refuseNonsense()
            phone.type(place, celsius)
        }
        phone.type("Charge used", flight.usedMah)
        flight.notes?.let { phone.type("Anything else", it) }
        phone.reveal(flight.heat.keys.first())
        album.take("landing", "The landing entry")
        if (phone.says("Past its stop")) album.take("landing-heat", "A temperature past its stop is flagged at once")
        if (flight.finding != null && !flight.raisedAtCheck) {
            raise(season.finding(flight.finding))
            phone.tap("Back")
            check(sight.title() == "Landing") { "back from the finding the screen is “${sight.title()}”" }
        }
        if (!flight.raisedAtCheck) answerMarks(flight)
        record(flight)
        if (sight.title() == "Landing") {
            phone.reveal("Before the next card")
            album.take("landing-stop", "A temperature past its stop holds every later card until it is a finding, or was a slip")
            phone.tap("Back")
        }
        if (phone.says("Last recorded")) {
            phone.reveal("Last recorded")
            album.take("board-after-landing", "The board after a landing says what it changed")
        } else {
            check(sight.title() == flight.check) { "in service the next card follows a landing, not “${sight.title()}”" }
        }
        if (flight.finding != null && flight.raisedAtCheck) raiseFromCheck(flight)
    }

    /** The clock was left running: the app asks, and what the pilot says counts. */
    private fun tellTheTime(minutes: String) {
        val asked = phone.words().first { it.startsWith("How long the motor was on: ") }
        album.take("landing-time", "A clock that was left running is asked about; what it counted is kept")
        phone.type("Time with the motor on", minutes).tap("So long it flew")
        story.tell("        Asked after the landing: “$asked”; $minutes min, says the pilot")
    }

    /** The control that records the landing says how it was; what was not so is said in words. */
    private fun record(flight: Flight) {
        if (flight.finding == null) {
            phone.tap(sight.control("As it should be"))
            return
        }
        if (sight.canTap("Not so, or called off")) phone.tap("Not so, or called off")
        phone.type("What was not so, or why it was called off", flight.finding)
        album.take("landing-not-so", "The pilot says how it was: as it should be, not so, called off")
        phone.tap("Not so")
    }

    /** What the spotter noted is of the finding that was just raised, or was looked at and came to nothing. */
    private fun answerMarks(flight: Flight) {
        if (flight.marks.isEmpty()) return
        phone.reveal("Before the next card")
        album.take("landing-seen", "What was seen is answered before the next card: in words, or as a finding")
        val answer = if (flight.finding == null) "nothing to it. Looked at" else "it is finding"
        for (kind in flight.marks.map { it.second }.distinct()) {
            phone.wait(TO_THE_NEXT_MS)
            val said = phone.targets().mapNotNull { it.contentDescription?.toString() }
            phone.tap(said.first { it.startsWith(kind) && answer in it })
        }
        check(!phone.says("Before the next card")) { "all marks were answered, and the landing asks on" }
    }

    private fun raiseFromCheck(flight: Flight) {
        check(sight.state(flight.check) == "Not right") { "${flight.check} is “${sight.state(flight.check)}”" }
        phone.tap(flight.check)
        album.take("check-fly", "A check that is flown, and was not right")
        raise(season.finding(checkNotNull(flight.finding)))
        home()
        if (flight.marks.isEmpty()) return
        // What was noted stands first on the board.
        phone.tap("Answer")
        answerMarks(flight)
        home()
    }

    private var nonsenseRefused = false

    /** Once in the season 1000 degrees are typed: nothing is recorded, and the draft is still there. */
    private fun refuseNonsense() {
        if (nonsenseRefused) return
        nonsenseRefused = true
        phone.type("Controller", "1000")
        album.takeAnswer("refused-range", "1000 °C is refused with the range that is plausible") {
            phone.pause().reveal("Controller").expect("cannot be right").expect("Put the number right first")
            check(!sight.canTap("As it should be")) { "the landing can be recorded with 1000 °C" }
        }
        check(sight.field("Controller") == "1000") { "after the refusal the field holds “${sight.field("Controller")}”" }
    }

    /** Touches an option and looks whether it took: a touch on a page that still moves only stops it. */
    private fun pick(label: String, option: String) {
        phone.choose(label, option)
        if (!sight.isChosen(label, option)) phone.choose(label, option)
        check(sight.isChosen(label, option)) { "“$option” was touched twice and is not chosen for “$label”" }
    }

    // Time

    private fun pass(minutes: Int) = phone.clock.pass(minutes * MS_A_MINUTE)

    /** Touches what settles a page, once it was looked at: faster than that the app takes no touch for a second one. */
    private fun settle(control: String) {
        elapse(SECONDS_A_LOOK)
        phone.tap(control)
    }

    /** Lets seconds go by with the screen on: long stretches in a few steps, so that calls are still said. */
    private fun elapse(seconds: Int) {
        var left = seconds
        while (left > 0) {
            val stretch = minOf(left, STRETCH_S)
            phone.clock.pass((stretch - 1) * MS)
            phone.wait(MS)
            left -= stretch
        }
    }

    private companion object {
        val VERBS = setOf("Answer", "Enter", "Do", "See to", "Prove the fix", "Decide", "Draw up the card")
        const val PATIENCE = 80
        const val MS = 1_000L
        const val MS_A_MINUTE = 60_000L
        const val STRETCH_S = 15
        const val HALF_WAY_S = 100
        const val LOOK_ROUND_S = 12

        /** As long as a practised person takes to decide and to point (keystroke-level model). */
        const val TO_THE_NEXT_MS = 2_450L
        const val SECONDS_A_LOOK = 1
        const val SECONDS_A_READING = 6

        // What field use allows: touches, and seconds by the keystroke-level model.
        const val TO_THE_CLOCK = 6
        const val LANDING_TOUCHES = 4
        const val LANDING_S = 11.0
        const val DOWN_S = 2.75 + 1e-9
        const val TOUCHDOWN_MS = 300L
    }
}
