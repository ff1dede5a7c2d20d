package org.liftgate.season

import java.io.File

/** Writes the page through which a person looks at everything that the play left behind. */
class Contents(private val season: Season, private val story: Story, private val album: Album) {
    fun write(file: File) = file.writeText(page())

    private fun page() = """
        |<!doctype html>
        |<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">
        |<title>${escaped(season.aircraft)}: a season</title>
        |<style>
        |body { font: 16px/1.45 system-ui, sans-serif; color: #1c1b19; background: #faf8f4; margin: 2rem auto; max-width: 76rem; padding: 0 1rem }
        |pre { white-space: pre-wrap; border-left: 4px solid #1c1b19; padding-left: 1rem; font-size: 14px }
        |section { border-top: 1px solid #1c1b19; margin-top: 2rem }
        |.shots { display: grid; grid-template-columns: repeat(auto-fill, minmax(21rem, 1fr)); gap: 1.5rem }
        |figure { margin: 0 } figure div { display: flex; gap: .5rem } figure a { flex: 1 }
        |img { width: 100%; border: 1px solid #1c1b19 } figcaption { font-size: 14px; min-height: 3em }
        |</style></head><body>
        |<h1>${escaped(season.aircraft)}: a season</h1>
        |<p>Invented from the first screw to the last flight. Every picture is the app's own window, every line of the story
        |is what the app said. The left picture is the light theme for the field, the right one the dark theme for the workshop.</p>
        |<p><a href="dossier.html">The dossier</a>, <a href="journal.db">the journal</a> (SQLite), <a href="backup.zip">the backup</a>.</p>
        |<pre>${escaped(story.lines.joinToString("\n"))}</pre>
        |${album.shots.groupBy { it.day }.map { (day, shots) -> section(day, shots) }.joinToString("\n")}
        |</body></html>
        |
    """.trimMargin()

    private fun section(day: String, shots: List<Shot>) =
        "<section><h2>${escaped(day)}</h2><div class=\"shots\">${shots.joinToString("\n") { figure(it) }}</div></section>"

    private fun figure(shot: Shot): String {
        val pictures = listOf("field", "workshop").joinToString("") { theme ->
            val file = "screens/${shot.name}-$theme.png"
            "<a href=\"$file\"><img loading=\"lazy\" src=\"$file\" alt=\"${escaped(shot.title)}, $theme theme\"></a>"
        }
        val words = "<b>${shot.name}</b> ${escaped(shot.caption)}"
        return "<figure><div>$pictures</div><figcaption>$words</figcaption></figure>"
    }

    private fun escaped(text: String) =
        text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace("\"", "&quot;")
}
