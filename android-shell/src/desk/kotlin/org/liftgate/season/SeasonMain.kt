package org.liftgate.season

import android.net.Uri
import android.widget.TextView
import java.io.ByteArrayInputStream
import java.io.ByteArrayOutputStream
import java.io.File
import java.time.Duration
import org.json.JSONObject
import org.liftgate.onjvm.Arguments
import org.liftgate.onjvm.OnAndroid
import org.liftgate.onjvm.Program
import org.liftgate.shell.HandClock
import org.liftgate.shell.LiftgateApp
import org.liftgate.shell.Phone
import org.liftgate.shell.read
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf
import uniffi.liftgate.Liftgate
import uniffi.liftgate.Verified

/**
 * Plays the invented season through the app's own windows, as `demo-data/run` starts it: with `--season` (the season as JSON), `--logs`
 * (the folder of its recorder's logs) and `--out` (where to leave what came of it).
 */
object SeasonMain {
    @JvmStatic
    fun main(arguments: Array<String>) = OnAndroid.main(SeasonProgram::class.java, arguments)
}

class SeasonProgram : Program {
    override fun run(arguments: List<String>) {
        val told = Arguments(arguments)
        Play(Season(File(told.get("season")), File(told.get("logs"))), File(told.get("out"))).all()
    }
}

/** One play of a season, from a new phone to the released envelope. */
private class Play(private val season: Season, private val out: File) {
    private val began = System.nanoTime()
    private val clock = HandClock()
    private val folder = File(out, "phone").apply { deleteRecursively() }
    private val story = Story(::progress)

    private fun progress(line: String) =
        System.err.println("[%3d s] %s".format((System.nanoTime() - began) / 1_000_000_000, line.take(110)))

    fun all() {
        File(out, "screens").mkdirs()
        set(season.days.first())
        val phone = Phone(folder, clock)
        val album = Album(phone, File(out, "screens"))
        val person = Person(phone, season, album, story)
        phone.use {
            phone.launch()
            season.days.forEach { day(phone, album, person, it) }
            closing(phone, album, person)
            photo(phone, album, person)
            dossier(phone, album, person)
            backup(phone, album, person)
            journal(phone, album)
        }
        album.finish()
        leave(album, person.code)
    }

    private fun set(day: Day) {
        clock.pass(day.at.toInstant().toEpochMilli() - clock.wallMs)
        clock.offsetMin = day.at.offset.totalSeconds / 60
    }

    private fun day(phone: Phone, album: Album, person: Person, day: Day) {
        progress("${day.short}, ${day.where}: ${day.title}")
        check(Duration.between(java.time.Instant.ofEpochMilli(clock.wallMs), day.at.toInstant()).toMillis() >= 0) {
            "the day before ${day.short} was not over yet"
        }
        set(day)
        phone.theme(day.workshop)
        album.day = "${day.short}, ${day.where}: ${day.title}"
        person.begin(day)
        val at = story.lines.size
        day.steps.forEach(person::step)
        person.home()
        if (day.slip != null) withdrawn(phone, album, person, day)
        story.lines.add(at, dayLine(phone, person, day))
    }

    private fun dayLine(phone: Phone, person: Person, day: Day): String {
        val released = person.released.distinct()
        val gates = if (released.isEmpty()) "" else " Released: ${released.joinToString(", ")}."
        val flown = if (person.flown.isEmpty()) "" else " Flown: ${person.flown.size}."
        return "%-6s  %s: %s.%s%s “%s”".format(day.short, day.where, day.title, gates, flown, Sight(phone).verdict())
    }

    /** The slip stays readable in the journal. */
    private fun withdrawn(phone: Phone, album: Album, person: Person, day: Day) {
        val slip = checkNotNull(day.slip)
        phone.tap("Journal")
        album.take("journal", "The journal, newest first")
        val title = Sight(phone).rows().single { it.state == "Withdrawn" }.title
        check(slip.getString("check") in title && slip.getString("typed") in title) { "withdrawn is “$title”" }
        phone.tap(title).expect("Withdrawn")
        album.take("entry", "The slip is still there, with what took it back")
        person.home()
    }

    private fun closing(phone: Phone, album: Album, person: Person) {
        val sight = Sight(phone)
        head(phone, person)
        album.take("board-in-service", "In service: only what is due stands before the next flight")
        findings(phone, album, person)
        trends(phone, album, person)
        val gates = sight.rowsUnder("Stages")
        val shut = gates.filter { it.state != "Released" && it.state != "Recurring" }
        check(shut.isEmpty()) { "not released at the end: $shut" }
        val released = gates.filter { it.state == "Released" }
        story.tell("Gates released (${released.size}): ${released.joinToString(", ") { it.title }}")
        check(season.flightsLeft.isEmpty()) { "the app never asked for: ${season.flightsLeft}" }
    }

    /** Whose season it was, as the app has it. */
    private fun head(phone: Phone, person: Person) {
        phone.tap("Aircraft")
        val builtBy = phone.words().first { it.startsWith("built by ") }
        check(phone.says(season.aircraft)) { "the aircraft's screen does not name ${season.aircraft}" }
        story.lines.add(0, "${season.aircraft}, $builtBy, in ${season.days.first().at.year}")
        person.home()
    }

    private fun findings(phone: Phone, album: Album, person: Person) {
        phone.tap("Findings")
        album.take("findings-closed", "All findings, each fixed and proven")
        val sight = Sight(phone)
        val titles = sight.rows().map { it.title }.filter { it.first().isDigit() }.sortedBy { it.substringBefore('.').toInt() }
        check(titles.size == 5) { "five findings were raised, the screen shows $titles" }
        for (title in titles) {
            person.openFinding(title.substringAfter(". "))
            phone.expect("Fixed and proven.")
            album.take("finding-proven", "A finding with its fix and its proof")
            val proof = sight.after("What proves the fix")
            check(proof[0] == "Proved it") { "instead of a proof the finding says $proof" }
            val area = season.finding(title.substringAfter(". ")).area
            val what = title.substringAfter(". ").let { if (it.endsWith("?")) it else "$it." }
            story.tell("${sight.title()} ($area): $what ${sight.after("Fixed and proven.")[0]}")
            story.tell(
                "        shown by “${sight.after("What showed it")[0]}”; " +
                    "fixed: ${sight.after("What was done")[1]}; proved by “${proof[1]}”, ${proof[2]}",
            )
        }
        person.home()
    }

    /** What the flights and the readings say of how the aircraft ages. */
    private fun trends(phone: Phone, album: Album, person: Person) {
        phone.tap("Aircraft").tap("Trends over its life")
        album.take("trends", "What was read flight by flight, and whether any of it has begun to drift")
        val said = phone.words().first { " drifted" in it || it.endsWith(" to see a drift.") }
        check(said.startsWith("Nothing has drifted") || said.startsWith("Too little")) { "of the season's trends the app says “$said”" }
        val readings = phone.words().filter { it.startsWith("Last of ") }
        check(readings.size > 3) { "the trends of a season are $readings" }
        val heat = phone.shown(phone.decor).first { it is TextView && read(it) == "Controller, above the air" }
        phone.scrollTo(heat)
        album.take("trends-heat", "The controller after flights in service, above the air of its day")
        story.tell("Trends over the season: “$said” (${phone.words().first { it.endsWith(" readings or more") }})")
        person.home()
    }

    /** A photo of the aircraft, for the first page of the dossier. */
    private fun photo(phone: Phone, album: Album, person: Person) {
        phone.tap("Aircraft").tap("Attach a photo")
        val there = Uri.parse("content://season/hangar.jpg")
        shadowOf(RuntimeEnvironment.getApplication().contentResolver).registerInputStream(there, ByteArrayInputStream(drawnPhoto()))
        phone.answerPicker(there)
        phone.tap(phone.words().first { it.startsWith("Photo 1,") })
        album.take("photo", "A photo as evidence: kept as it came, with its digest")
        person.home()
    }

    private lateinit var verified: Verified
    private val dossier = ByteArrayOutputStream()

    /** The dossier leaves the phone through its own page and the phone's picker. */
    private fun dossier(phone: Phone, album: Album, person: Person) {
        phone.tap("Aircraft").tap("The dossier")
        album.take("dossier", "What leaves the phone for another person, and how")
        phone.tap("Save the dossier")
        val there = Uri.parse("content://season/dossier.html")
        shadowOf(RuntimeEnvironment.getApplication().contentResolver).registerOutputStream(there, dossier)
        phone.answerPicker(there)
        phone.expect("Saved: dossier.html")
        story.tell("The dossier was saved by its own control: ${dossier.size() / 1_000} kB")
        person.home()
    }

    private val backup = ByteArrayOutputStream()

    /** The whole record leaves the phone in one file; picked again, the phone says how the two compare. */
    private fun backup(phone: Phone, album: Album, person: Person) {
        val row = phone.words().first { it == "Backup" || it.endsWith(" in no backup") }
        phone.tap(row)
        album.take("backup", "The whole record in one file: how old the last one is, and what is not in it")
        phone.tap("Save a backup")
        val there = Uri.parse("content://season/backup.zip")
        val resolver = shadowOf(RuntimeEnvironment.getApplication().contentResolver)
        resolver.registerOutputStream(there, backup)
        phone.answerPicker(there)
        phone.expect("Saved: backup.zip")
        phone.tap("Bring a backup in")
        resolver.registerInputStream(there, ByteArrayInputStream(backup.toByteArray()))
        phone.answerPicker(there)
        phone.expect("The backup holds what this phone holds.")
        album.take("backup-offer", "A backup that was picked: checked, and compared with what is on the phone")
        story.tell("The backup was saved and read again: ${backup.size() / 1_000} kB")
        person.home()
    }

    private fun journal(phone: Phone, album: Album) {
        phone.tap("Journal")
        album.take("journal-end", "The journal at the end of the season")
        val shown = phone.words().first { it.endsWith(" entries") }.removeSuffix(" entries").substringAfterLast(' ').toLong()
        ask { store ->
            verified = store.verify()
        }
        phone.settle()
        check(shown == verified.count) { "the screen counts $shown entries, the chain ${verified.count}" }
        check(verified.head in dossier.toString(Charsets.UTF_8)) { "the dossier does not name the head ${verified.head}" }
        searched(phone, album)
    }

    /** The journal by a word, and by its first day. */
    private fun searched(phone: Phone, album: Album) {
        phone.type(SEARCH, "belt")
        phone.pause()
        phone.expect("Found in ")
        album.take("journal-found", "The journal searched by a word")
        story.tell("Searched for “belt”: ${phone.words().first { it.startsWith("Found in ") }}")
        phone.type(SEARCH, "")
        phone.pause()
        phone.tap(phone.words().last { Regex("[A-Z][a-z]+ 20[0-9]{2}").matches(it) })
        album.take("journal-month", "The first month, by its days")
        phone.tap(phone.words().last { Regex("[0-9]+ [A-Z][a-z]+ 20[0-9]{2}").matches(it) })
        album.take("journal-day", "The first day of all")
        phone.back().back()
    }

    private fun now() = java.time.Instant.ofEpochMilli(clock.wallMs)
        .atOffset(java.time.ZoneOffset.ofTotalSeconds(clock.offsetMin * 60))

    private fun ask(work: (Liftgate) -> Unit) {
        val app = RuntimeEnvironment.getApplication() as LiftgateApp
        var outcome: Result<Unit>? = null
        app.core.ask({ store, _ -> work(store) }) { outcome = it }
        while (outcome == null) {
            org.robolectric.shadows.ShadowLooper.idleMainLooper()
            Thread.sleep(1)
        }
        outcome!!.getOrThrow()
    }

    /** Everything that a person looks at afterwards; the journal is opened and walked once more as it was left. */
    private fun leave(album: Album, code: String?) {
        val journal = File(out, "journal.db")
        File(folder, "liftgate.db").copyTo(journal, overwrite = true)
        check(folder.listFiles().orEmpty().none { it.name.endsWith("-wal") && it.length() > 0 }) { "the journal was not closed" }
        val copy = File(folder, "again.db").also { journal.copyTo(it, overwrite = true) }
        val again = Liftgate.open(copy.path, clock.now()).use { it.verify() }
        check(again == verified) { "the journal that was left says $again, the app said $verified" }
        File(out, "backup.zip").writeBytes(backup.toByteArray())
        File(out, "dossier.html").writeBytes(dossier.toByteArray())
        File(out, "ended.json").writeText(JSONObject().put("at", "${now()}").put("code", code).toString() + "\n")
        story.tell("Journal verified: ${again.count} entries, head ${again.head}")
        story.tell("Left in out/: ${2 * album.shots.size} pictures in screens/, journal.db, dossier.html, backup.zip, index.html to look through them")
        File(out, "story.txt").writeText(story.lines.joinToString("\n", postfix = "\n"))
        Contents(season, story, album).write(File(out, "index.html"))
        folder.deleteRecursively()
    }

    private companion object {
        const val SEARCH = "Search: a check, a part, a word"
    }
}
