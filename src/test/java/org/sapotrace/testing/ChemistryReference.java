package org.sapotrace.testing;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.stream.StreamSupport;

/**
 * The reference values in {@code chemistry/chemistry.json}. Each entry there names its source, and
 * its inputs and expected values are read from it rather than copied.
 */
public final class ChemistryReference {

  private static final JsonNode ROOT = read();

  private ChemistryReference() {}

  /** One entry by its name. */
  public static JsonNode entry(String name) {
    return ROOT.required(name);
  }

  /** The rows of an entry that is a list. */
  public static List<JsonNode> rows(String name) {
    return StreamSupport.stream(entry(name).spliterator(), false).toList();
  }

  private static JsonNode read() {
    try (InputStream file =
        ChemistryReference.class.getResourceAsStream("/chemistry/chemistry.json")) {
      return new ObjectMapper().readTree(file);
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }
}
