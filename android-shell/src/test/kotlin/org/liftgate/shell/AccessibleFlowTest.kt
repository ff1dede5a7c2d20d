package org.liftgate.shell

import android.os.Bundle
import android.view.View
import android.view.ViewGroup
import android.view.accessibility.AccessibilityNodeInfo
import android.widget.EditText
import android.widget.TextView
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Rule
import org.junit.Test
import org.junit.rules.TemporaryFolder
import org.junit.runner.RunWith
import org.robolectric.RobolectricTestRunner

/** A flight and its landing without one touch of the glass: found by what is spoken, done by accessibility actions alone. */
@RunWith(RobolectricTestRunner::class)
class AccessibleFlowTest {
    @get:Rule val folder = TemporaryFolder()

    private fun reader(name: String): Reader {
        val place = folder.newFolder()
        val walked = Walked(name).apply { copy(place) }
        return Reader(Phone(place, walked.clock()).launch())
    }

    @Test
    fun aCardAFlightAndALandingByAccessibilityActionsAlone() {
        val reader = reader("flight")
        reader.phone.use { phone ->
            reader.click("Draw up the card")
            reader.click("Pack 1")
            reader.click("Pack 1 was charged")
            reader.click("Air temperature: more")
            reader.write("Spotter's name", "Odo Brandvold")
            reader.click("Hand over")
            assertTrue(phone.activity is SpotterActivity)
            reader.click("Motor on")
            phone.wait(20_000)
            reader.click("Mark Sound")
            phone.wait(15_000)
            reader.click("Motor off")
            reader.click("Back to the pilot")
            assertTrue(phone.activity is PilotActivity)
            for (place in listOf("Motor case", "Controller", "Main pack")) repeat(2) { reader.click("$place: more") }
            reader.click("Charge used: more")
            reader.click("As it should be")
            assertTrue(phone.words().toString(), phone.says("Landing recorded"))
            assertTrue("nothing was touched, but ${phone.touches}", phone.touches.isEmpty())
        }
    }

    @Test
    fun whatIsShownOnceIsSpokenOnce() {
        val reader = reader("hot")
        reader.phone.use { phone ->
            // Words on a control belong to the control's own description and are no stops of their own.
            val stops = reader.nodes().filter { it is TextView && it !is EditText }
            val inControls = stops.filter { view -> generateSequence(view.parent as? View) { it.parent as? View }.any { it.isClickable && !it.contentDescription.isNullOrEmpty() } }
            assertFalse(inControls.joinToString { (it as TextView).text }, inControls.isNotEmpty())
            assertTrue(phone.words().isNotEmpty())
        }
    }

    /** Someone with a screen reader: hears what stands on the screen, and takes things up by name. */
    private class Reader(val phone: Phone) {
        /** Everything that a reader stops at. */
        fun nodes(): List<View> = phone.shown(phone.decor).filter { view ->
            view.importantForAccessibility != View.IMPORTANT_FOR_ACCESSIBILITY_NO && (view !is ViewGroup || view.isClickable) &&
                generateSequence(view.parent as? View) { it.parent as? View }
                    .none { it.importantForAccessibility == View.IMPORTANT_FOR_ACCESSIBILITY_NO_HIDE_DESCENDANTS }
        }.toList()

        private fun heard(view: View): String {
            val node = view.createAccessibilityNodeInfo()
            val label = phone.shown(phone.decor).filterIsInstance<TextView>().firstOrNull { it.labelFor == view.id && view.id != View.NO_ID }
            return listOfNotNull(label?.contentDescription, node.contentDescription ?: node.text).joinToString(", ")
        }

        private fun find(words: String, action: Int): View {
            val all = nodes().map { it to heard(it) }
            val can = all.filter { (view, said) -> said.startsWith(words) && view.createAccessibilityNodeInfo().actionList.any { it.id == action } }
            return can.firstOrNull()?.first ?: throw AssertionError("nothing says “$words” and can do this. Heard: ${all.map { it.second }}")
        }

        fun click(words: String) {
            assertTrue(find(words, AccessibilityNodeInfo.ACTION_CLICK).performAccessibilityAction(AccessibilityNodeInfo.ACTION_CLICK, null))
            phone.settle()
        }

        fun write(words: String, text: String) {
            val what = Bundle().apply { putCharSequence(AccessibilityNodeInfo.ACTION_ARGUMENT_SET_TEXT_CHARSEQUENCE, text) }
            assertTrue(find(words, AccessibilityNodeInfo.ACTION_SET_TEXT).performAccessibilityAction(AccessibilityNodeInfo.ACTION_SET_TEXT, what))
            phone.pause()
        }
    }
}
