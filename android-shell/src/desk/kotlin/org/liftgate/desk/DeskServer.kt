package org.liftgate.desk

import com.sun.net.httpserver.HttpExchange
import com.sun.net.httpserver.HttpServer
import java.io.File
import java.net.InetAddress
import java.net.InetSocketAddress
import java.nio.file.Files
import java.time.DateTimeException
import java.util.concurrent.ExecutionException
import java.util.concurrent.Executors
import org.json.JSONException
import org.json.JSONObject

/**
 * Serves the phone on the desk to a browser on this machine and to nobody else: it listens on loopback alone, answers only
 * to its own name, and lets itself be driven only from its own page, so that a page of another site cannot touch the phone
 * through the person's browser.
 */
class DeskServer(private val desk: Desk, private val page: File, port: Int) : AutoCloseable {
    private val server = HttpServer.create(InetSocketAddress(InetAddress.getByAddress(LOOPBACK), port), 0)
    private val workers = Executors.newCachedThreadPool { Thread(it, "desk-server").apply { isDaemon = true } }

    /** The port that is listened on. */
    val port: Int get() = server.address.port

    init {
        server.executor = workers
        server.createContext("/", ::answer)
        server.start()
    }

    override fun close() {
        server.stop(0)
        workers.shutdown()
    }

    private fun answer(exchange: HttpExchange) = exchange.use { asked ->
        val reply = try {
            refusal(asked) ?: serve(asked)
        } catch (notJson: JSONException) {
            Reply(400, "text/plain", "this is no JSON as the page sends it: ${notJson.message}")
        } catch (failed: ExecutionException) {
            Reply(409, "text/plain", failed.cause?.toString() ?: failed.toString())
        } catch (noDate: DateTimeException) {
            Reply(400, "text/plain", noDate.message.orEmpty())
        } catch (failed: IllegalArgumentException) {
            Reply(400, "text/plain", failed.message.orEmpty())
        }
        send(asked, reply)
    }

    /** Why this request is not this machine's own page asking; null where it is. */
    private fun refusal(asked: HttpExchange): Reply? {
        val names = setOf("127.0.0.1:$port", "localhost:$port")
        val host = asked.requestHeaders.getFirst("Host")
        val origin = asked.requestHeaders.getFirst("Origin")
        val site = asked.requestHeaders.getFirst("Sec-Fetch-Site")
        val drives = asked.requestMethod != "GET"
        val why = when {
            host !in names -> "the desk is at http://127.0.0.1:$port and answers to no other name"
            origin != null && origin != "http://$host" -> "a page of another site may not use the phone on the desk"
            drives && origin == null -> "only the desk's own page drives the phone"
            site != null && site !in OWN_SITE -> "a page of another site may not use the phone on the desk"
            else -> null
        }
        return why?.let { Reply(403, "text/plain", it) }
    }

    private fun serve(asked: HttpExchange): Reply {
        val path = asked.requestURI.path
        if (asked.requestMethod == "POST" && path == "/document") {
            takeIn(asked)
            return Reply(204, "text/plain", "")
        }
        if (asked.requestMethod == "POST" && path == "/saved") {
            return desk.saved()?.let { Reply(200, "application/octet-stream", it) } ?: Reply(204, "text/plain", "")
        }
        if (asked.requestMethod == "POST") {
            val told = asked.requestBody.readNBytes(LONGEST_BODY).decodeToString()
            desk.told(path.removePrefix("/"), JSONObject(told.ifEmpty { "{}" }))
            return Reply(204, "text/plain", "")
        }
        return when (path) {
            "/" -> file("desk.html", "text/html")
            "/desk.css" -> file("desk.css", "text/css")
            "/desk.js" -> file("desk.js", "text/javascript")
            "/spent" -> Reply(200, "application/json", desk.spent().toString())
            "/state" -> Reply(200, "application/json", desk.state(number(asked, "after")).toString())
            "/screen.png" -> desk.picture(number(asked, "revision"))?.let { Reply(200, "image/png", it) }
                ?: Reply(404, "text/plain", "that picture is gone")
            else -> Reply(404, "text/plain", "nothing is here")
        }
    }

    /** A document as long as it likes; it goes over a file, as the app reads it at its own pace. */
    private fun takeIn(asked: HttpExchange) {
        val name = asked.requestURI.query.orEmpty().removePrefix("name=")
        val file = Files.createTempFile("liftgate-desk", ".document").toFile().apply { deleteOnExit() }
        file.outputStream().use(asked.requestBody::transferTo)
        desk.picked(name, file)
    }

    private fun number(asked: HttpExchange, name: String): Long =
        asked.requestURI.query?.split('&')?.firstOrNull { it.startsWith("$name=") }?.substringAfter('=')?.toLongOrNull() ?: 0

    private fun file(name: String, kind: String) = Reply(200, "$kind; charset=utf-8", File(page, name).readBytes())

    private fun send(asked: HttpExchange, reply: Reply) {
        val headers = asked.responseHeaders
        headers["Content-Type"] = reply.kind
        headers["Cache-Control"] = "no-store"
        headers["X-Content-Type-Options"] = "nosniff"
        headers["X-Frame-Options"] = "DENY"
        headers["Referrer-Policy"] = "no-referrer"
        headers["Cross-Origin-Resource-Policy"] = "same-origin"
        headers["Content-Security-Policy"] = "default-src 'self'; img-src 'self' blob:; frame-ancestors 'none'"
        asked.sendResponseHeaders(reply.status, if (reply.body.isEmpty()) -1 else reply.body.size.toLong())
        if (reply.body.isNotEmpty()) asked.responseBody.write(reply.body)
    }

    private operator fun com.sun.net.httpserver.Headers.set(name: String, value: String) = set(name, listOf(value))

    private class Reply(val status: Int, val kind: String, val body: ByteArray) {
        constructor(status: Int, kind: String, words: String) : this(status, kind, words.encodeToByteArray())
    }

    private companion object {
        val LOOPBACK = byteArrayOf(127, 0, 0, 1)
        val OWN_SITE = setOf("same-origin", "none")
        const val LONGEST_BODY = 64 * 1024
    }
}

private inline fun HttpExchange.use(work: (HttpExchange) -> Unit) = try {
    work(this)
} finally {
    close()
}
