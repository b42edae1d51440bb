package org.sapotrace.testing;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.Socket;
import java.net.SocketException;
import java.net.SocketTimeoutException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * A client that sends whatever it is given, byte for byte, as a library for HTTP would not.
 *
 * @param port where the service listens on loopback
 */
public record RawHttp(int port) {

  /**
   * What came back.
   *
   * @param status 0 where nothing came
   * @param headers by their names in lower case
   */
  public record Answer(int status, Map<String, String> headers, String body) {
    public String header(String name) {
      return headers.getOrDefault(name.toLowerCase(Locale.ROOT), "");
    }
  }

  /** Sends a request whose target and headers stand as they are given. */
  public Answer request(String method, String target, String body, String... headers) {
    byte[] bytes = body == null ? new byte[0] : body.getBytes(StandardCharsets.UTF_8);
    return request(method, target, bytes, body != null, headers);
  }

  public Answer request(
      String method, String target, byte[] body, boolean withLength, String... headers) {
    StringBuilder head = new StringBuilder(method + " " + target + " HTTP/1.1\r\n");
    String given = String.join("\r\n", headers);
    if (Arrays.stream(headers).noneMatch(header -> header.startsWith("Host:"))) {
      head.append("Host: localhost:").append(port).append("\r\n");
    }
    if (withLength) {
      head.append("Content-Length: ").append(body.length).append("\r\n");
    }
    head.append("Connection: close\r\n").append(given);
    head.append(given.isEmpty() ? "\r\n" : "\r\n\r\n");
    ByteArrayOutputStream message = new ByteArrayOutputStream();
    message.writeBytes(head.toString().getBytes(StandardCharsets.ISO_8859_1));
    message.writeBytes(body);
    return send(message.toByteArray());
  }

  public Answer json(String method, String target, String body) {
    return request(method, target, body, "Content-Type: application/json");
  }

  public Answer get(String target, String... headers) {
    return request("GET", target, null, headers);
  }

  /** Sends bytes and reads until the service hangs up. */
  public Answer send(byte[] message) {
    ByteArrayOutputStream answer = new ByteArrayOutputStream();
    try (Socket socket = new Socket("127.0.0.1", port)) {
      socket.setSoTimeout(5_000);
      try {
        socket.getOutputStream().write(message);
      } catch (SocketException hungUpEarly) {
        // It may answer before it has read all; the answer is read all the same.
      }
      read(socket.getInputStream(), answer);
    } catch (IOException failed) {
      throw new java.io.UncheckedIOException(failed);
    }
    return parse(answer.toByteArray());
  }

  /** Sends bytes, waits for something else to happen, and is gone without a look at any answer. */
  public void hangUpAfter(byte[] message, Runnable waiting) {
    try (Socket socket = new Socket("127.0.0.1", port)) {
      socket.getOutputStream().write(message);
      socket.getOutputStream().flush();
      waiting.run();
    } catch (IOException failed) {
      throw new java.io.UncheckedIOException(failed);
    }
  }

  private static void read(InputStream in, ByteArrayOutputStream answer) throws IOException {
    try {
      byte[] part = new byte[8_192];
      for (int n = in.read(part); n >= 0; n = in.read(part)) {
        answer.write(part, 0, n);
        if (isBegunStream(answer.toString(StandardCharsets.ISO_8859_1))) {
          return;
        }
      }
    } catch (SocketException | SocketTimeoutException reset) {
      // What came before it counts.
    }
  }

  /** Of events without an end, what comes with the first counts. */
  private static boolean isBegunStream(String answer) {
    int end = answer.indexOf("\r\n\r\n");
    return end > 0
        && answer.substring(0, end).toLowerCase(Locale.ROOT).contains("text/event-stream")
        && answer.length() > end + 4
        && answer.endsWith("\r\n");
  }

  private static Answer parse(byte[] answer) {
    // One character for each byte, so that lengths are those of bytes.
    String text = new String(answer, StandardCharsets.ISO_8859_1);
    int end = text.indexOf("\r\n\r\n");
    if (end < 0) {
      return new Answer(0, Map.of(), text);
    }
    String[] lines = text.substring(0, end).split("\r\n");
    Map<String, String> headers = new TreeMap<>();
    for (int i = 1; i < lines.length; i++) {
      int colon = lines[i].indexOf(':');
      headers.put(
          lines[i].substring(0, colon).toLowerCase(Locale.ROOT),
          lines[i].substring(colon + 1).strip());
    }
    String body = text.substring(end + 4);
    byte[] bytes =
        ("chunked".equals(headers.get("transfer-encoding")) ? joined(body) : body)
            .getBytes(StandardCharsets.ISO_8859_1);
    return new Answer(
        Integer.parseInt(lines[0].split(" ")[1]),
        headers,
        new String(bytes, StandardCharsets.UTF_8));
  }

  /** The chunks of a body, each of which begins with its length, in one. */
  private static String joined(String chunks) {
    StringBuilder body = new StringBuilder();
    int at = 0;
    while (at < chunks.length()) {
      int start = chunks.indexOf("\r\n", at) + 2;
      int length = Integer.parseInt(chunks.substring(at, start - 2), 16);
      body.append(chunks, start, start + length);
      at = start + length + 2;
    }
    return body.toString();
  }
}
