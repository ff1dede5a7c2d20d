package org.liftgate.season

import android.net.Uri
import android.view.View
import java.io.ByteArrayInputStream
import org.json.JSONObject
import org.liftgate.shell.Phone
import org.liftgate.shell.blocks.PictureView
import org.robolectric.RuntimeEnvironment
import org.robolectric.Shadows.shadowOf

/** The evening after a flight: its recorder's log is picked, its columns named, its plot looked into, and what it proposes weighed. */
class Review(private val phone: Phone, private val album: Album, private val story: Story) {
    private val sight = Sight(phone)

    fun log(told: JSONObject) {
        newestLanding()
        album.take("review", "After landing, with no log yet: what was predicted beside what was read")
        pick(told)
        figures(told.getString("spike"))
        plot()
        proposal()
        trends()
    }

    private fun newestLanding() {
        while (sight.canTap("Back")) phone.tap("Back")
        phone.tap("Journal")
        phone.touch(phone.targets().first { view -> phone.labels(view).any { it.startsWith("Landing") } })
        phone.tap("Log of this flight")
    }

    private fun pick(told: JSONObject) {
        phone.tap("Pick a log")
        val there = Uri.parse("content://documents/${told.getString("file")}")
        val resolver = shadowOf(RuntimeEnvironment.getApplication().contentResolver)
        resolver.registerInputStream(there, ByteArrayInputStream(told.getString("text").toByteArray()))
        phone.answerPicker(there)
        phone.expect("Say once what its columns are.")
        album.take("log-columns", "The recorder's file: each column is named once, and known the next time")
        phone.choose(told.getString("spare"), "Leave out")
        val heat = told.getJSONObject("heat")
        phone.choose(heat.getString("column"), heat.getString("place"))
        phone.tap("Attach this log")
        story.tell("        ${checkNotNull(sight.said()) { "the log was not said" }}")
        story.tell("        ${sight.verdict()}")
        album.take("review-log", "The log: what is past a limit, and the plot of it")
    }

    /** A figure leads to the stretch of the plot that it comes from. */
    private fun figures(spike: String) {
        phone.reveal("What it says")
        album.take("review-figures", "What the log says, each figure one touch from where it comes from")
        phone.tap(spike).expect("Where it comes from")
        check("46.8" in said()) { "the spike of one sample is not in its plot: ${said()}" }
        album.take("log-figure", "The highest current, and the moment at which it was")
        phone.back()
    }

    private fun plot() {
        phone.tap("All of it")
        phone.pinch(plotView(), PINCH_AT, PINCH_FROM, PINCH_TO)
        check("46.8" in said()) { "the spike went lost in the plot: ${said()}" }
        phone.scrollTo(plotView())
        album.take("review-closer", "Two fingers apart: closer to the burst, the spike of one sample still there")
        phone.touch(plotView())
        check(said().startsWith("At ")) { "a touch put no cursor: ${said()}" }
        album.take("review-cursor", "A touch puts the cursor there, with every value at it")
        story.tell("        The cursor says: “${said()}”")
    }

    private fun proposal() {
        phone.reveal("Why it may be")
        album.take("review-proposal", "Not as predicted: the causes that the figures support, and a finding proposed")
        story.tell("        Proposed: “${phone.words().first { "its prediction at" in it }}”")
        phone.tap("Make it a finding").reveal("Why it may be")
        album.take("review-raised", "One touch made it a finding")
        phone.tap("Take back")
        story.tell("        Taken back: the check had raised it already")
    }

    private fun trends() {
        phone.tap("Trends over its life")
        album.take("trends", "Over its life: what drifts and what does not")
        story.tell("        Trends: “${sight.verdict()}”")
        while (sight.canTap("Back")) phone.tap("Back")
    }

    private fun plotView(): View = phone.shown(phone.decor).first { it is PictureView && it.isClickable }

    private fun said(): String = plotView().contentDescription.toString().removePrefix("Plot. ")

    private companion object {
        /** Where the spike lies along the whole log: 141 of 248 s. */
        const val PINCH_AT = 0.57f
        const val PINCH_FROM = 60f
        const val PINCH_TO = 420f
    }
}
