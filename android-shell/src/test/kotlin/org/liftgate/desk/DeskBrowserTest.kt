package org.liftgate.desk

import com.sun.net.httpserver.HttpServer
import java.io.File
import java.net.InetAddress
import java.net.InetSocketAddress
import java.net.Socket
import java.net.URI
import java.time.Duration
import org.junit.AfterClass
import org.junit.Assert.assertEquals
import org.junit.Assert.assertFalse
import org.junit.Assert.assertTrue
import org.junit.Assume.assumeTrue
import org.junit.BeforeClass
import org.junit.Test
import org.openqa.selenium.By
import org.openqa.selenium.Keys
import org.openqa.selenium.OutputType
import org.openqa.selenium.WebElement
import org.openqa.selenium.chrome.ChromeDriver
import org.openqa.selenium.chrome.ChromeDriverService
import org.openqa.selenium.chrome.ChromeOptions
import org.openqa.selenium.interactions.Actions
import org.openqa.selenium.interactions.WheelInput

/**
 * The phone on the desk in a real browser without a window: whatever is touched, is touched at a place of the picture. Left out,
 * and said so, where Chromium or its driver is missing; `tests/run` installs or names them.
 */
class DeskBrowserTest {
    /** A hand-over, a flight with a death of the app in it, and a whole landing. */
    @Test
    fun aHandOverAFlightAndALandingByClicksOnThePicture() {
        click("Draw up the card")
        await("First start, slow, no blades")
        click("Pack 1")
        click("Pack 1 was charged")
        click("Air temperature: more")
        // The spotter of the run before stands there already; what is typed goes behind it.
        write("Spotter's name", " and Odo Brandvold", "Tilda Moor and Odo Brandvold")
        click("Hand over")
        awaitControl("Motor on")

        hold("Motor on")
        awaitControl("Motor off")
        pass("10 s")
        click("Mark Sound")
        browser.findElement(By.id("death")).click()
        awaitControl("Mark Sound")
        pass("1 min")
        shot("flying")
        hold("Motor off")
        awaitControl("Motor still on")
        hold("Back to the pilot")

        await("Landing")
        for (place in listOf("Motor case", "Controller", "Main pack")) repeat(2) { click("$place: more") }
        click("Charge used: more")
        shot("landing")
        // What was noted stands further up by now: answered as the keyboard does it, first that there was nothing to it.
        takeUp("Sound at")
        click("As it should be")
        until("the landing is recorded") { controls().any { "Landing" in it.says && "mAh used" in it.says } }
        shot("landed")
    }

    @Test
    fun aDocumentGoesOutThroughTheBrowserAndComesInAgain() {
        home()
        takeUp("Aircraft")
        takeUp("Large electric helicopter")
        takeUp("Save a copy of this plan")
        until("the desk offers to save") { browser.findElement(By.id("save")).isDisplayed }
        val script = "const done = arguments[0]; fetch('/saved', { method: 'POST' }).then((a) => a.text()).then(done)"
        val plan = browser.executeAsyncScript(script) as String
        assertTrue("format = 1" in plan)
        until("it is saved") { !browser.findElement(By.id("save")).isDisplayed }

        home()
        takeUp("Aircraft")
        takeUp("The dossier")
        takeUp("Save the dossier")
        until("the desk offers to save the dossier") { browser.findElement(By.id("save")).isDisplayed }
        val page = browser.executeAsyncScript(script) as String
        assertTrue(page.startsWith("<!doctype html>") && page.trimEnd().endsWith("</html>"))
        shot("dossier-saved")
        home()
        takeUp("Aircraft")
        takeUp("Large electric helicopter")

        takeUp("Open a plan file")
        val mine = File(desk.folder, "mine.toml").apply { writeText(plan.replace("title = \"Walk-round by hand\"", "title = \"Walk round it\"")) }
        until("the desk asks for a file") { browser.findElement(By.id("file")).isDisplayed }
        shot("picker")
        browser.findElement(By.id("file")).sendKeys(mine.path)
        awaitControl("Bring this plan into force")
        until("the file is taken") { !browser.findElement(By.id("file")).isDisplayed }
        home()
        takeUp("Aircraft")
        takeUp("Large electric helicopter")
        takeUp("Open a plan file")
        until("the desk asks again") { browser.findElement(By.id("file")).isDisplayed }
        browser.findElement(By.cssSelector("#opens .none")).click()
        until("nobody asks for a file any more") { !browser.findElement(By.id("file")).isDisplayed }
        home()
    }

    @Test
    fun theDesksOwnSwitchesTurnThePhone() {
        val upright = size()
        switch("held", "lying")
        until("the picture lies") { size() == upright.second to upright.first }
        switch("held", "upright")
        switch("width", "320")
        until("the picture is 320 dp wide") { size() == 320 to 640 }
        switch("width", "360")
        until("the picture is 360 dp wide") { size() == upright }
        val before = revision()
        switch("type", "200")
        until("the type is larger") { revision() > before }
        switch("type", "100")
        val light = brightness()
        switch("theme", "workshop")
        until("the window is dark") { brightness() < light - 100 }
        shot("workshop")
        switch("theme", "field")
        until("the window is light") { brightness() > light - 20 }
    }

    @Test
    fun aSignThatNoKeyHasGoesIntoTheFieldThatWasTouched() {
        home()
        takeUp("Journal")
        await("Journal")
        takeUp("Search: a check, a part, a word")
        until("the field has the keyboard") { buttons().any { it.getAttribute("data-focused") == "true" } }
        browser.executeScript("document.getElementById('signs').value = arguments[0]", SIGNS)
        browser.findElement(By.id("sign")).click()
        until("it stands there") { controls().any { it.says.endsWith(": $SIGNS") } }
        // Backspace takes one sign with each touch, not half of one.
        browser.findElement(By.id("window")).sendKeys(Keys.BACK_SPACE)
        until("one sign is gone") { controls().any { it.says.endsWith(": \uD83D\uDE81") } }
        browser.findElement(By.id("window")).sendKeys(Keys.BACK_SPACE)
        home()
    }

    @Test
    fun theClockAndTheZoneOfThePhoneAreSet() {
        fun time() = browser.findElement(By.id("time")).text
        fun set(at: String, zone: String) {
            browser.executeScript("document.getElementById('at').value = arguments[0]; document.getElementById('zone').value = arguments[1]", at, zone)
            browser.findElement(By.id("set")).click()
        }
        until("there is a time") { "UTC" in time() }
        set("", "Asia/Tokyo")
        until("it is the time of Tokyo") { time().endsWith("(UTC+09:00)") }
        set("", "Europe/Berlin")
        until("and of Berlin, in winter") { time().endsWith("(UTC+01:00)") }
        val shown = java.time.LocalDateTime.parse(
            time().substringBefore(" ("), java.time.format.DateTimeFormatter.ofPattern("EEEE d MMMM uuuu, HH:mm:ss", java.util.Locale.UK),
        )
        val later = shown.plusMinutes(3).withSecond(0)
        set(later.toString(), "")
        until("it is three minutes later") { later.format(java.time.format.DateTimeFormatter.ofPattern("HH:mm")) in time() }
        set("", "Nowhere/At all")
        until("a zone that is none is said") { browser.findElement(By.id("trouble")).text.isNotEmpty() }
        assertTrue(time().endsWith("(UTC+01:00)"))
    }

    @Test
    fun withTheKeyboardAloneEveryControlCanBeReachedAndTakenUp() {
        home()
        browser.findElement(By.id("window")).click()
        home()
        var reached = ""
        repeat(40) {
            Actions(browser).sendKeys(Keys.TAB).perform()
            reached = browser.switchTo().activeElement().getAttribute("data-says").orEmpty().ifEmpty { reached }
        }
        val journal = buttons().first { it.getAttribute("data-says")!!.startsWith("Journal") }
        browser.executeScript("arguments[0].focus()", journal)
        Actions(browser).sendKeys(Keys.ENTER).perform()
        await("Journal")
        Actions(browser).sendKeys(Keys.ESCAPE).perform()
        until("Escape leads back") { "Journal" !in title() }
        assertTrue("Tab came to controls of the phone", reached.isNotEmpty())
    }

    @Test
    fun aPageOfAnotherSiteCannotDriveIt() {
        val before = revision()
        val asked = mutableListOf<Int>()
        val other = HttpServer.create(InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0)
        other.createContext("/") {
            asked += 1
            val page = "<!doctype html><title>other</title>".encodeToByteArray()
            it.responseHeaders["Content-Type"] = listOf("text/html")
            it.sendResponseHeaders(200, page.size.toLong())
            it.responseBody.write(page)
            it.close()
        }
        other.start()
        try {
            browser.get("http://localhost:${other.address.port}/")
            val script = "const done = arguments[1]; fetch(arguments[0], { method: 'POST', mode: 'no-cors', body: '{}' })" +
                ".then(() => done('sent'), () => done('refused'))"
            browser.executeAsyncScript(script, "${desk.address}death")
            browser.executeAsyncScript(script, "${desk.address}back")
        } finally {
            other.stop(0)
            browser.get(desk.address)
        }
        assertTrue(asked.isNotEmpty())
        until("the page is back") { revision() > 0 }
        assertTrue("nothing was done to the phone", revision() <= before + 1)
    }

    @Test
    fun onlyItsOwnNamesAndItsOwnPageAreAnswered() {
        val at = URI(desk.address)
        fun status(vararg lines: String): String = Socket(at.host, at.port).use { socket ->
            socket.getOutputStream().write((lines.joinToString("\r\n") + "\r\n\r\n").encodeToByteArray())
            socket.getInputStream().bufferedReader().readLine().split(' ')[1]
        }
        val own = "Host: ${at.host}:${at.port}"
        val close = "Connection: close"
        assertEquals("200", status("GET / HTTP/1.1", own, close))
        assertEquals("403", status("GET /state HTTP/1.1", "Host: liftgate.example:${at.port}", close))
        assertEquals("403", status("GET /screen.png HTTP/1.1", own, "Origin: http://liftgate.example", close))
        assertEquals("403", status("GET /screen.png HTTP/1.1", own, "Sec-Fetch-Site: cross-site", close))
        assertEquals("403", status("POST /death HTTP/1.1", own, "Content-Length: 0", close))
        assertEquals("403", status("POST /death HTTP/1.1", own, "Origin: http://127.0.0.1:1", "Content-Length: 0", close))
        assertEquals("400", status("POST /nonsense HTTP/1.1", own, "Origin: http://${at.host}:${at.port}", "Content-Length: 0", close))
        val machine = java.net.NetworkInterface.getNetworkInterfaces().asSequence().flatMap { it.inetAddresses.asSequence() }
        for (address in machine.filter { !it.isLoopbackAddress && it is java.net.Inet4Address }) {
            val open = runCatching { Socket().use { it.connect(InetSocketAddress(address, at.port), 500) } }.isSuccess
            assertFalse("it listens on $address", open)
        }
    }

    // What a person at the desk sees and does

    private class Seen(val says: String, val left: Int, val top: Int, val width: Int, val height: Int)

    private fun buttons(): List<WebElement> = browser.findElements(By.cssSelector("#controls button"))

    @Suppress("UNCHECKED_CAST")
    private fun controls(): List<Seen> {
        val found = browser.executeScript(
            "return [...document.querySelectorAll('#controls button')].map((b) => [b.dataset.says, " +
                "b.dataset.seen === 'true' ? [b.offsetLeft, b.offsetTop, b.offsetWidth, b.offsetHeight] : [0, 0, 0, 0]])",
        ) as List<List<Any>>
        return found.map { (says, at) ->
            val (left, top, width, height) = (at as List<Number>).map(Number::toInt)
            Seen(says as String, left, top, width, height)
        }
    }

    private fun picture() = browser.findElement(By.id("picture"))
    private fun title() = browser.findElement(By.id("title")).text
    private fun revision() = picture().getAttribute("data-revision")?.toLongOrNull() ?: 0
    private fun size() = picture().size.let { it.width to it.height }

    private fun until(what: String, there: () -> Boolean) {
        val end = System.nanoTime() + PATIENCE_NS
        while (!there()) {
            if (System.nanoTime() > end) {
                shot("failed")
                throw AssertionError("it never came to this: $what. ${title()}: ${controls().map { it.says }}, ${browser.findElement(By.id("trouble")).text}")
            }
            Thread.sleep(50)
        }
    }

    private fun await(title: String) = until("the screen “$title”") { title in title() }

    private fun awaitControl(says: String) = until("“$says” can be touched") { controls().any { it.says.startsWith(says) } }

    /** Where on the picture the control is whose words begin with [says]; the page is moved by the wheel until it is in sight. */
    private fun place(says: String): Pair<Int, Int> {
        awaitControl(says)
        repeat(40) {
            val seen = controls().first { it.says.startsWith(says) }
            if (seen.height > 20 && seen.width > 20) return seen.left + seen.width / 2 to seen.top + seen.height / 2
            val wheel = WheelInput.ScrollOrigin.fromElement(picture())
            Actions(browser).scrollFromOrigin(wheel, 0, if (it < 25) 150 else -300).perform()
            Thread.sleep(150)
        }
        throw AssertionError("“$says” never came into sight")
    }

    private fun over(says: String): Actions {
        val (x, y) = place(says)
        val (width, height) = size()
        return Actions(browser).moveToElement(picture(), x - width / 2, y - height / 2)
    }

    private fun click(says: String) {
        val before = revision()
        over(says).click().perform()
        until("the picture answers to “$says”") { revision() > before }
        Thread.sleep(300)
    }

    /** Takes a control up as the keyboard does, wherever on the page it is. */
    private fun takeUp(says: String) {
        awaitControl(says)
        browser.executeScript("arguments[0].click()", buttons().first { it.getAttribute("data-says")!!.startsWith(says) })
    }

    private fun hold(says: String) = over(says).clickAndHold().pause(Duration.ofMillis(HOLD_MS)).release().perform()

    private fun write(field: String, words: String, then: String = words) {
        click(field)
        Actions(browser).sendKeys(words).perform()
        until("“$then” stands in “$field”") { controls().any { it.says == "$field: $then" } }
    }

    private fun pass(time: String) {
        browser.findElements(By.cssSelector("[data-seconds]")).first { it.text == time }.click()
        Thread.sleep(400)
    }

    private fun switch(name: String, value: String) =
        browser.findElement(By.cssSelector("[data-switch=$name] option[value='$value']")).click()

    /** As often as there is a way back, until the board is there; its row of the backup is no way back, and a page on its way out has none. */
    private fun home() = until("the board is there") {
        val seen = controls()
        val onTheBoard = seen.any { it.says.startsWith("Journal") } && seen.none { it.says == "Back" }
        if (seen.any { it.says == "Back" }) {
            browser.findElement(By.id("back")).click()
            Thread.sleep(500)
        }
        onTheBoard
    }

    /** The window's ground near its corner, 0 to 255. */
    private fun brightness(): Int {
        val script = "const c = document.createElement('canvas'); const p = document.getElementById('picture'); c.width = p.naturalWidth; " +
            "c.height = p.naturalHeight; const x = c.getContext('2d'); x.drawImage(p, 0, 0); return x.getImageData(4, 300, 1, 1).data[0]"
        return (browser.executeScript(script) as Number).toInt()
    }

    private fun shot(name: String) {
        val file = File(System.getProperty("liftgate.target"), "gallery/desk-$name.png").apply { parentFile.mkdirs() }
        file.writeBytes(browser.getScreenshotAs(OutputType.BYTES))
    }

    companion object {
        private const val SIGNS = "\uD83D\uDE81\u00E4"
        private const val PATIENCE_NS = 20_000_000_000L

        /** Far longer than the control asks for: on a busy machine the finger comes down late. */
        private const val HOLD_MS = 2_500L
        private lateinit var browser: ChromeDriver
        private lateinit var desk: DeskProcess

        private fun found(program: String) = System.getenv("PATH").split(File.pathSeparator).map { File(it, program) }.firstOrNull(File::canExecute)

        @BeforeClass
        @JvmStatic
        fun layTheDesk() {
            val chromium = found("chromium")
            val driver = found("chromedriver")
            assumeTrue("Chromium or chromedriver is missing (Debian: chromium, chromium-driver): not tested in a browser", chromium != null && driver != null)
            val target = File(System.getProperty("liftgate.target"))
            val journal = File(target, "desk-test/journal.db").apply { parentFile.deleteRecursively(); parentFile.mkdirs() }
            File(target, "walked/flight.db").copyTo(journal)
            checkNotNull(driver)
            checkNotNull(chromium)
            desk = DeskProcess(journal, File(target, "walked/flight.txt").readText().trim())
            val options = ChromeOptions().apply {
                setBinary(chromium)
                addArguments("--headless=new", "--no-sandbox", "--disable-dev-shm-usage", "--window-size=1100,1100", "--disable-gpu")
            }
            browser = ChromeDriver(ChromeDriverService.Builder().usingDriverExecutable(driver).build(), options)
            browser.manage().timeouts().scriptTimeout(Duration.ofSeconds(20))
            browser.get(desk.address)
        }

        @AfterClass
        @JvmStatic
        fun clearTheDesk() {
            if (::browser.isInitialized) browser.quit()
            if (::desk.isInitialized) desk.close()
        }
    }
}
