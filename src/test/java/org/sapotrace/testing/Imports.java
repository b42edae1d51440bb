package org.sapotrace.testing;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.sapotrace.testing.Api.json;

import com.fasterxml.jackson.databind.JsonNode;
import io.restassured.response.Response;
import org.sapotrace.testing.Api.TestStream;

/** Imports into a stream as a client sends them. */
public final class Imports {

  public static final String CSV = "text/csv;charset=utf-8";
  public static final String NDJSON = "application/x-ndjson";

  private Imports() {}

  /** Sends CSV. */
  public static Response csv(TestStream stream, String body) {
    return send(stream, CSV, body.getBytes(UTF_8));
  }

  /** Sends one JSON object in each line. */
  public static Response ndjson(TestStream stream, String body) {
    return send(stream, NDJSON, body.getBytes(UTF_8));
  }

  public static Response send(TestStream stream, String type, byte[] body) {
    return Api.request().contentType(type).body(body).post("/api/v1" + stream.path + "/imports");
  }

  /** The results on record, in the order of sampling. */
  public static JsonNode recorded(TestStream stream) {
    return json(200, Api.get(stream.path + "/results?limit=1000")).get("items");
  }
}
