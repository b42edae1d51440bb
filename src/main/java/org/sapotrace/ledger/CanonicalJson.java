package org.sapotrace.ledger;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Map;
import org.erdtman.jcs.JsonCanonicalizer;
import org.erdtman.jcs.NumberToJSON;
import org.jspecify.annotations.Nullable;

/*
 * The library takes text, and takes it apart by itself, which was a third of all that an import
 * costs. What is entered is written from the tree instead, in which only the order of names and the
 * digits of numbers are left to be seen to. Whatever is checked later is checked by the library.
 */
/** JSON in the one form that RFC 8785 gives it, so that the same data has the same hash. */
public final class CanonicalJson {

  private CanonicalJson() {}

  /**
   * An object or array in its canonical form.
   *
   * @throws UncheckedIOException if the text is no such JSON
   */
  public static String of(String json) {
    try {
      return new JsonCanonicalizer(json).getEncodedString();
    } catch (IOException notJson) {
      throw new UncheckedIOException(notJson);
    }
  }

  /** The same of JSON that is not text yet. */
  public static String of(JsonNode json) {
    StringBuilder text = new StringBuilder(512);
    append(json, text);
    return text.toString();
  }

  private static void append(JsonNode json, StringBuilder text) {
    switch (json.getNodeType()) {
      case OBJECT -> appendMembers(json, text);
      case ARRAY -> appendElements(json, text);
      case STRING -> quote(json.textValue(), text);
      case NUMBER -> text.append(number(json.doubleValue()));
      case BOOLEAN, NULL -> text.append(json.asText());
      default -> throw new IllegalArgumentException("No JSON: " + json.getNodeType());
    }
  }

  /** Section 3.2.3: by names, as Java compares them too, by their UTF-16 code units. */
  private static void appendMembers(JsonNode json, StringBuilder text) {
    char before = '{';
    for (var member : json.properties().stream().sorted(Map.Entry.comparingByKey()).toList()) {
      text.append(before);
      quote(member.getKey(), text);
      append(member.getValue(), text.append(':'));
      before = ',';
    }
    text.append(before == '{' ? "{}" : "}");
  }

  private static void appendElements(JsonNode json, StringBuilder text) {
    char before = '[';
    for (JsonNode element : json) {
      append(element, text.append(before));
      before = ',';
    }
    text.append(before == '[' ? "[]" : "]");
  }

  /** A number in its canonical form (section 3.2.2.3). */
  static String number(double number) {
    try {
      return NumberToJSON.serializeNumber(number);
    } catch (IOException notFinite) {
      throw new UncheckedIOException(notFinite);
    }
  }

  /** A string in its canonical form (RFC 8785, section 3.2.2.2); null as JSON's null. */
  static String quoted(@Nullable String text) {
    if (text == null) {
      return "null";
    }
    StringBuilder quoted = new StringBuilder(text.length() + 2);
    quote(text, quoted);
    return quoted.toString();
  }

  private static void quote(String text, StringBuilder quoted) {
    quoted.append('"');
    for (int i = 0; i < text.length(); i++) {
      append(text.charAt(i), quoted);
    }
    quoted.append('"');
  }

  private static void append(char c, StringBuilder quoted) {
    switch (c) {
      case '"', '\\' -> quoted.append('\\').append(c);
      case '\b' -> quoted.append("\\b");
      case '\t' -> quoted.append("\\t");
      case '\n' -> quoted.append("\\n");
      case '\f' -> quoted.append("\\f");
      case '\r' -> quoted.append("\\r");
      default -> {
        if (c < ' ') {
          quoted.append("\\u%04x".formatted((int) c));
        } else {
          quoted.append(c);
        }
      }
    }
  }
}
