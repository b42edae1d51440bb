package org.sapotrace.testing;

import com.fasterxml.jackson.core.JsonPointer;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.util.RawValue;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;

/**
 * Makes of a valid JSON body the bodies that a careless or hostile client might send: each differs
 * from the valid one in one thing. A seed decides which are chosen and where a body is cut, so that
 * a failure can be had again.
 */
public final class HostileInput {

  /**
   * One such body.
   *
   * @param description what was done to the valid one, and where
   * @param body what is to be sent; not always JSON, nor even text
   */
  public record Mutation(String description, byte[] body) {
    @Override
    public String toString() {
      return description;
    }
  }

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final int MANY = 10_000;
  private static final int DEEP = 5_000;
  private static final int CUTS = 10;

  /** What stands in the place of a value: its description and its JSON, well-formed or not. */
  private static final Map<String, String> VALUES = new LinkedHashMap<>();

  static {
    for (String value :
        List.of(
            "null",
            "true",
            "0",
            "-0.0",
            "-1",
            "1.5",
            "1e308",
            "1e-999",
            "1e999",
            "-1e999",
            "NaN",
            "Infinity",
            "99999999999999999999",
            "\"NaN\"",
            "\"1.5\"",
            "\"\"",
            "\"  \"",
            "\" x \"",
            "\"\\u0000\"",
            "\"\\ud800\"",
            "\"\\u202e\"",
            "\"\\r\\nX: y\"",
            "\"'; --\"",
            "\"-1000000000-01-01T00:00:00Z\"",
            "[]",
            "{}",
            "[null]",
            "[[]]")) {
      VALUES.put(value, value);
    }
    VALUES.put("a number of 5,000 digits", "1".repeat(DEEP));
    VALUES.put("a text of 100,000 characters", "\"" + "x".repeat(100_000) + "\"");
    VALUES.put("5,000 nested lists", "[".repeat(DEEP) + "]".repeat(DEEP));
    VALUES.put("5,000 nested objects", "{\"a\":".repeat(DEEP) + "1" + "}".repeat(DEEP));
  }

  private final JsonNode valid;
  private final SplittableRandom random;
  private final List<Mutation> mutations = new ArrayList<>();

  private HostileInput(JsonNode valid, long seed) {
    this.valid = valid;
    this.random = new SplittableRandom(seed);
  }

  /** Every mutation of a valid body, in an order that the seed decides. */
  public static List<Mutation> of(JsonNode valid, long seed) {
    HostileInput input = new HostileInput(valid, seed);
    input.mutate(JsonPointer.empty());
    input.spoil();
    for (int i = input.mutations.size() - 1; i > 0; i--) {
      Collections.swap(input.mutations, i, input.random.nextInt(i + 1));
    }
    return List.copyOf(input.mutations);
  }

  /** As many mutations of a valid body as wanted, or all there are, chosen by the seed. */
  public static List<Mutation> sample(JsonNode valid, long seed, int most) {
    List<Mutation> all = of(valid, seed);
    return all.subList(0, Math.min(most, all.size()));
  }

  private void mutate(JsonPointer at) {
    JsonNode node = valid.at(at);
    VALUES.forEach((name, json) -> replace(at, name, json));
    if (node instanceof ObjectNode object) {
      mutateObject(at, object);
    } else if (node instanceof ArrayNode array && !array.isEmpty()) {
      ArrayNode many = JSON.createArrayNode();
      for (int i = 0; i < MANY; i++) {
        many.add(array.get(0));
      }
      replace(at, "its first entry 10,000 times", text(many));
      for (int i = 0; i < array.size(); i++) {
        mutate(at.appendIndex(i));
      }
    }
  }

  private void mutateObject(JsonPointer at, ObjectNode object) {
    replace(at, "the same with an unknown field", with(object, "surplus", "1"));
    replace(at, "the same with a field named NUL", with(object, "\\u0000", "1"));
    for (String field : (Iterable<String>) object::fieldNames) {
      ObjectNode without = object.deepCopy();
      without.remove(field);
      replace(at, "the same without " + field, text(without));
      replace(
          at, "the same with " + field + " twice", with(object, field, text(object.get(field))));
      replace(at, "the same with " + field + " misspelt", with(without, field + "s", "1"));
      mutate(at.appendProperty(field));
    }
  }

  /** What breaks the body as a whole. */
  private void spoil() {
    byte[] bytes = text(valid).getBytes(StandardCharsets.UTF_8);
    add("nothing at all", new byte[0]);
    add("a second value after it", (text(valid) + "{}").getBytes(StandardCharsets.UTF_8));
    add("garbage after it", (text(valid) + "]").getBytes(StandardCharsets.UTF_8));
    add("UTF-32 that is none", new byte[] {0, 0, 0, '{', 0x7f, 0, 0, 0});
    for (int i = 0; i < CUTS && bytes.length > 1; i++) {
      int length = random.nextInt(1, bytes.length);
      add("cut after byte " + length, Arrays.copyOf(bytes, length));
      byte[] broken = bytes.clone();
      broken[random.nextInt(bytes.length)] = (byte) 0xFF;
      add("one byte of it 0xFF", broken);
    }
  }

  private void replace(JsonPointer at, String name, String json) {
    String where = at.matches() ? "the body" : at.toString();
    String whole = json;
    if (!at.matches()) {
      JsonNode copy = valid.deepCopy();
      JsonNode parent = copy.at(at.head());
      if (parent instanceof ObjectNode object) {
        object.putRawValue(at.last().getMatchingProperty(), new RawValue(json));
      } else {
        ((ArrayNode) parent).setRawValue(at.last().getMatchingIndex(), new RawValue(json));
      }
      whole = text(copy);
    }
    add(where + " replaced by " + name, whole.getBytes(StandardCharsets.UTF_8));
  }

  private void add(String description, byte[] body) {
    mutations.add(new Mutation(description, body));
  }

  private static String with(ObjectNode object, String field, String json) {
    String text = text(object);
    String separator = object.isEmpty() ? "" : ",";
    return text.substring(0, text.length() - 1) + separator + "\"" + field + "\":" + json + "}";
  }

  private static String text(JsonNode node) {
    try {
      return JSON.writeValueAsString(node);
    } catch (JsonProcessingException impossible) {
      throw new IllegalStateException(impossible);
    }
  }
}
