package org.liftgate.shell

import org.junit.Assert.assertEquals
import org.junit.Test
import org.liftgate.shell.look.typeset

/** Words as they are set: numbers with their units, curved quotation marks. `_` stands for the space that does not break, `|` for where a line may end without one, `~` for where none may. */
class TypesetTest {
    private fun becomes(set: String, plain: String, language: String = "en") =
        assertEquals(set, typeset(plain, language).replace('\u00A0', '_').replace('\u200B', '|').replace('\u2060', '~'))

    @Test
    fun aNumberStaysWithItsUnit() {
        becomes("Balance point 1.4_mm ahead of the main shaft, 1.5_mm left", "Balance point 1.4 mm ahead of the main shaft, 1.5 mm left")
        becomes("Past its stop, 80_°C", "Past its stop, 80 °C")
        becomes("2010_mAh used at 1060_rpm in 5:54", "2010 mAh used at 1060 rpm in 5:54")
        becomes("3.72_kg·m², 12_g·mm, 0.4_mV/cell and 85_%", "3.72 kg·m², 12 g·mm, 0.4 mV/cell and 85 %")
        becomes("known to ±_0.7_mm", "known to ± 0.7 mm")
        becomes("2,5_kg", "2,5 kg")
    }

    @Test
    fun wordsMayPart() {
        becomes("3 checks stand between", "3 checks stand between")
        becomes("12 motor runs", "12 motor runs")
        becomes("Stage 4, six checks", "Stage 4, six checks")
        becomes("on 30 March", "on 30 March")
    }

    @Test
    fun aUnitOverAnotherStaysWhole() {
        becomes("From 1000_U/~min on, 3_m/~s", "From 1000 U/min on, 3 m/s")
        becomes("U/~min/~V", "U/min/V")
        becomes("Schreiben/Lesen", "Schreiben/Lesen")
    }

    @Test
    fun aLineMayEndAtTheHyphenOfALongWord() {
        becomes("Großer Elektro-|Hubschrauber", "Großer Elektro-Hubschrauber")
        becomes("large-|electric-|helicopter, edition 2027-01", "large-electric-helicopter, edition 2027-01")
        becomes("spool-up", "spool-up")
    }

    @Test
    fun quotationMarksAreCurved() {
        becomes("It rests on ‘Failsafe proved’", "It rests on 'Failsafe proved'")
        becomes("The aircraft’s name", "The aircraft's name")
        becomes("(‘Pack 1’) “loose”", "('Pack 1') \"loose\"")
        becomes("skids’ ends", "skids' ends")
        becomes("‘Flight in service’ at 1060_rpm, 4 checks are due", "'Flight in service' at 1060 rpm, 4 checks are due")
        becomes("‘Flight in service’", "'Flight in service'")
    }

    /** Duden, „Anführungszeichen“: „…“ and within them ‚…‘ in German text. */
    @Test
    fun germanIsSetInGermanQuotationMarks() {
        becomes("Der Riemen ist „locker“, (‚Pack 1‘)", "Der Riemen ist \"locker\", ('Pack 1')", "de")
        becomes("„So geht’s“", "\"So geht's\"", "de")
        becomes("‚Flug im Betrieb‘ bei 1060_U/~min", "‚Flug im Betrieb‘ bei 1060 U/min", "de")
    }

    @Test
    fun settingTwiceIsSettingOnce() {
        for (plain in listOf("'Pack 1' at 80 °C", "Elektro-Hubschrauber", "1000 U/min")) {
            val once = typeset(plain, "en")
            assertEquals(once, typeset(once, "en"))
        }
    }
}
