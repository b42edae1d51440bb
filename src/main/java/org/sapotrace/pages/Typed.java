package org.sapotrace.pages;

import jakarta.ws.rs.core.MultivaluedMap;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.sapotrace.http.SafeText;

/** What was typed into a form, and what is wrong with it, by the names of the fields. */
final class Typed {

  private final Map<String, String> texts = new HashMap<>();
  private final Map<String, String> faults = new LinkedHashMap<>();
  private final List<String> faultsOfAll = new ArrayList<>();

  /** A form in which nothing stands. */
  Typed() {}

  /** What was sent; of a field that was sent twice, the first. */
  Typed(MultivaluedMap<String, String> sent) {
    sent.forEach((name, values) -> texts.put(name, values.isEmpty() ? "" : values.get(0).strip()));
  }

  void put(String field, @Nullable String text) {
    texts.put(field, text == null ? "" : text);
  }

  void put(String field, @Nullable Double number) {
    put(field, number == null ? null : DecimalText.write(number));
  }

  /** What stands in a field; empty for nothing. */
  String text(String field) {
    return texts.getOrDefault(field, "");
  }

  boolean has(String field) {
    return !text(field).isEmpty();
  }

  /** The text of a field that may be left empty. */
  @Nullable String optional(String field, int longest) {
    if (!has(field)) {
      return null;
    }
    String text = text(field);
    if (!SafeText.Check.isSafe(text, longest, false)) {
      fault(
          field,
          "Write up to %d characters, without control or invisible ones.".formatted(longest));
    }
    return text;
  }

  /** The text of a field that must not be left empty. */
  String needed(String field, int longest, String otherwise) {
    String text = optional(field, longest);
    if (text == null) {
      fault(field, otherwise);
      return "";
    }
    return text;
  }

  /** The number of a field; null where it is empty, or holds none, which is then its fault. */
  @Nullable Double number(String field) {
    return has(field) ? read(field, DecimalText::parse) : null;
  }

  /** What a text stands for; null where it stands for nothing, which is then the field's fault. */
  <T> @Nullable T read(String field, Function<String, T> reading) {
    try {
      return reading.apply(text(field));
    } catch (IllegalArgumentException unreadable) {
      fault(field, String.valueOf(unreadable.getMessage()));
      return null;
    }
  }

  /** Finds fault with a field; the first fault that was found stays. */
  void fault(String field, String message) {
    faults.putIfAbsent(field, message);
  }

  /** Finds fault with more than one field. */
  void faultOfAll(String message) {
    faultsOfAll.add(message);
  }

  @Nullable String fault(String field) {
    return faults.get(field);
  }

  List<String> faultsOfAll() {
    return List.copyOf(faultsOfAll);
  }

  boolean isFaulty() {
    return !faults.isEmpty() || !faultsOfAll.isEmpty();
  }
}
