package org.liftgate.season

import org.json.JSONObject
import org.liftgate.shell.Phone

/** What the person does with a second aircraft on the same phone. */
class OtherAircraft(private val phone: Phone, private val album: Album, private val story: Story) {
    private val sight = Sight(phone)

    /** Begins it from the board of another, under a name of its own, and takes packs over. */
    fun begin(aircraft: JSONObject) {
        val name = aircraft.getString("name")
        phone.tap("Aircraft").tap("Another aircraft").type("The aircraft's name", name)
        album.take("new-aircraft", "Another aircraft: a name of its own, and nothing proved")
        phone.tap("Begin it")
        check(sight.said() == "$name begun") { "instead of a beginning the app said “${sight.said()}”" }
        album.take("board-another", "Its board: everything is asked anew")
        aircraft.getJSONArray("packs").strings().forEach(::takeOver)
    }

    private fun takeOver(pack: String) {
        phone.tap("Packs")
        album.take("packs-to-take-over", "Packs that the other aircraft flies")
        phone.tap(pack)
        album.take("pack-taken-over", "The same pack: all but its place is filled in")
        phone.tap("Record it")
        while (sight.canTap("Back")) phone.tap("Back")
    }

    /** Turns to one of them through the list. */
    fun turnTo(name: String) {
        phone.tap("Hangar")
        album.take("hangar", "The aircraft on this phone: what stands in the way of each, and what comes first")
        story.tell("  Hangar: " + sight.rows().filter { it.state.endsWith("in the way") }.joinToString("; ") { "${it.title}, ${it.state}" })
        phone.tap(name)
        check(sight.title() == name) { "turned to “$name”, and the board is of “${sight.title()}”" }
    }
}
