package org.sapotrace.controlchart;

import com.fasterxml.jackson.core.json.JsonReadFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.StreamSupport;

/** Published data and figures, as they lie in the test resources with their sources. */
public final class Published {

  private static final ObjectMapper JSON =
      JsonMapper.builder().enable(JsonReadFeature.ALLOW_NON_NUMERIC_NUMBERS).build();

  private Published() {}

  /** The expected figures of one entry of worked-examples.json. */
  public static JsonNode example(String id) {
    return StreamSupport.stream(json("worked-examples.json").spliterator(), false)
        .filter(example -> example.path("id").asText().equals(id))
        .findFirst()
        .orElseThrow()
        .path("expected");
  }

  /** A series by its name in datasets.json, or else of the NIST reference datasets. */
  public static double[] series(String name) {
    JsonNode data = json("datasets.json").path(name).path("data");
    if (data.isArray()) {
      return JSON.convertValue(data, double[].class);
    }
    return lines("strd/" + name + ".csv").stream()
        .skip(1)
        .mapToDouble(Double::parseDouble)
        .toArray();
  }

  public static JsonNode json(String file) {
    try (InputStream in = open(file)) {
      return JSON.readTree(in);
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  public static List<String> lines(String file) {
    try (InputStream in = open(file)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8).lines().toList();
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  private static InputStream open(String file) throws IOException {
    InputStream in = Published.class.getResourceAsStream("/control-charts/" + file);
    if (in == null) {
      throw new IOException("no test resource " + file);
    }
    return in;
  }
}
