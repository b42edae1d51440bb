package org.sapotrace.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Api.put;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import org.sapotrace.testing.Wash;

/** What plants whose truth is known ask of the attribution, and what it answers. */
final class Attributed {

  static final int QUIET = 30;

  static final int MOVED = 12;

  private Attributed() {}

  /** From the first results of crude and washed fuel, and with it of the removal. */
  static void adopt(Wash wash) {
    adopt(wash, QUIET);
  }

  static void adopt(Wash wash, int first) {
    for (String stream : List.of("crude", "washed")) {
      json(
          201,
          post(wash.path + stream + "/limits", "{\"baseline\": {\"first\": %d}}".formatted(first)));
    }
  }

  static void checked(Wash wash) {
    json(
        201,
        put(
            wash.path + "check",
            "{\"name\": \"Check\", \"samplingPoint\": \"check-standard\", \"measurand\": \"soap\", \"unit\": \"mg/kg\"}"));
  }

  /** The latest signal of a stream. */
  static String signal(Wash wash, String stream) {
    JsonNode signals =
        json(200, get("/signals?line=%s&stream=%s&limit=1000".formatted(wash.line, stream)))
            .get("items");
    assertThat(signals).as("signals of " + stream).isNotEmpty();
    return signals.get(signals.size() - 1).get("id").asText();
  }

  /** The first signal of a stream that goes on for several results. */
  static String firstSignal(Wash wash, String stream) {
    for (JsonNode signal :
        json(200, get("/signals?line=%s&stream=%s&limit=1000".formatted(wash.line, stream)))
            .get("items")) {
      if (signal.get("count").asInt() > MOVED / 2) {
        return signal.get("id").asText();
      }
    }
    throw new AssertionError("no signal of " + stream);
  }

  /** The part of a cause. */
  static double partOf(JsonNode answer, String cause) {
    for (JsonNode part : answer.get("parts")) {
      if (part.get("cause").asText().equals(cause)) {
        return part.get("estimate").asDouble();
      }
    }
    throw new AssertionError("no part of " + cause);
  }

  static JsonNode attribution(String signal) {
    return json(200, get("/signals/" + signal + "/attribution"));
  }

  static double shares(JsonNode answer) {
    return sum(answer, "share");
  }

  static double parts(JsonNode answer) {
    return sum(answer, "estimate");
  }

  private static double sum(JsonNode answer, String field) {
    double sum = 0;
    for (JsonNode part : answer.get("parts")) {
      sum += part.get(field).asDouble();
    }
    return sum;
  }
}
