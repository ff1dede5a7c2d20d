package org.liftgate.season

import java.io.File
import java.time.OffsetDateTime
import java.time.format.DateTimeFormatter
import java.util.Locale
import org.json.JSONArray
import org.json.JSONObject

/** The invented season, as `demo-data/season.toml` tells it and `demo-data/run` hands it on as JSON; its logs lie in [logs]. */
class Season(file: File, private val logs: File) {
    private val all = JSONObject(file.readText())

    val aircraft: String = all.getJSONObject("people").getString("aircraft")
    val builder: String = all.getJSONObject("people").getString("builder")
    val spotter: String = all.getJSONObject("people").getString("spotter")
    val days: List<Day> = all.getJSONArray("days").objects().map(::Day)

    private val flights = all.getJSONArray("flights").objects().map(::Flight).toMutableList()
    private val asked = mutableMapOf<String, Int>()

    val flightsLeft: List<String> get() = flights.map { it.check }

    fun answer(question: String): String = all.getJSONObject("answers").getString(question)

    fun hasFigure(title: String): Boolean = all.getJSONObject("figures").has(title)

    fun figure(title: String): JSONObject = all.getJSONObject("figures").getJSONObject(title)

    fun thing(name: String): JSONObject = all.getJSONObject("things").getJSONObject(name)

    fun setting(title: String): JSONObject = all.getJSONObject("settings").getJSONObject(title)

    /** What the instrument says or the eye sees this time; each call is one more time. */
    fun answerTo(check: String): Answer {
        val known = all.getJSONObject("checks").optJSONObject(check)
            ?: throw AssertionError("the season has no answer for the check “$check”")
        val times = asked.merge(check, 1, Int::plus)!!
        return Answer(known, times)
    }

    /** What a recorder wrote, and what its columns are. */
    fun log(name: String) = RecorderLog(File(logs, name), all.getJSONObject("logs").getJSONObject(name))

    fun hasCheck(title: String): Boolean = all.getJSONObject("checks").has(title)

    fun finding(title: String) = Finding(title, all.getJSONObject("findings").getJSONObject(title))

    /** The finding that a check which is not right brings up. */
    fun findingShownBy(check: String): Finding {
        val titles = all.getJSONObject("findings").keys().asSequence()
        return titles.map(::finding).firstOrNull { it.shownBy == check }
            ?: throw AssertionError("“$check” is not right, and the season knows no finding for it")
    }

    /** The next flight of this check, once. */
    fun flight(check: String): Flight {
        val next = flights.firstOrNull { it.check == check }
            ?: throw AssertionError("the app wants “$check” flown, and the season has no such flight left")
        flights -= next
        return next
    }
}

class Answer(json: JSONObject, times: Int) {
    val right = json.optBoolean("right")
    val computed = json.optBoolean("computed")
    val witness = json.optBoolean("witness")
    val note: String? = json.text("note")
    val minutes: Int = json.optInt("minutes", 4)
    val reading: String? = json.text("reading")?.let { first ->
        val readings = listOf(first) + (json.optJSONArray("again")?.strings() ?: emptyList())
        readings[minOf(times, readings.size) - 1]
    }
}

class Finding(val title: String, json: JSONObject) {
    val area: String = json.getString("area")
    val shownBy: String? = json.text("shown_by")
    val howBad: String = json.getString("how_bad")
    val fix: String = json.getString("fix")
    val touched: List<String> = json.getJSONArray("touched").strings()
    val beforeFix: List<JSONObject> = json.optJSONArray("before_fix")?.objects() ?: emptyList()
}

class RecorderLog(val file: File, json: JSONObject) {
    /** What is said of each column: the column, the name of what is asked as the app words it, what is chosen or typed there. */
    val columns: List<Triple<String, String, String>> = json.getJSONArray("columns").objects()
        .map { Triple(it.getString("column"), it.getString("asked"), it.getString("said")) }

    /** The figure that is looked at on its own page. */
    val figure: String = json.getString("figure")

    /** Where the plot is stretched and touched, as shares of its width. */
    val stretchedAt: Float = json.getDouble("stretched_at").toFloat()
    val touchedAt: Float = json.getDouble("touched_at").toFloat()

    /** The finding that the app is to propose. */
    val proposes: String = json.getString("proposes")
}

class Flight(json: JSONObject) {
    val check: String = json.getString("check")
    val pack: String = json.getString("pack")
    val airC: String = json.getString("air_c")

    /** What the wind moves, in the words of the card; not asked for where nothing leaves the ground. */
    val wind: String? = json.text("wind")
    val seconds: Int = json.getInt("seconds")
    val usedMah: String = json.getString("used_mah")
    val heat: Map<String, String> = json.getJSONObject("heat").strings()
    val notes: String? = json.text("notes")

    /** What the pilot says of how long the motor was on, minutes, where the clock was left running. */
    val toldMinutes: String? = json.text("told_minutes")
    val finding: String? = json.text("finding")

    /** Whether the finding is raised from the check after the landing, rather than from the landing itself. */
    val raisedAtCheck: Boolean = json.text("raised_at") == "check"
    val killedAfterS: Int? = if (json.has("killed_after_s")) json.getInt("killed_after_s") else null
    val marks: List<Pair<Int, String>> =
        json.optJSONArray("marks")?.objects()?.map { it.getInt("at_s") to it.getString("what") } ?: emptyList()
}

class Day(json: JSONObject) {
    val at: OffsetDateTime = OffsetDateTime.parse(json.getString("date"))
    val where: String = json.getString("where")
    val title: String = json.getString("title")
    val workshop: Boolean = json.optBoolean("workshop")
    val steps: List<JSONObject> = json.getJSONArray("steps").objects()
    val slip: JSONObject? = json.optJSONObject("slip")
    val killedAt: JSONObject? = json.optJSONObject("killed_at")
    val short: String get() = at.format(DateTimeFormatter.ofPattern("d MMM", Locale.UK))
}

fun JSONObject.text(key: String): String? = if (has(key)) getString(key) else null

fun JSONObject.strings(): Map<String, String> = keys().asSequence().associateWith(::getString)

fun JSONArray.strings(): List<String> = (0 until length()).map(::getString)

fun JSONArray.objects(): List<JSONObject> = (0 until length()).map(::getJSONObject)
