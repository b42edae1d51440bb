package org.sapotrace.http;

import com.fasterxml.jackson.databind.JsonMappingException;
import jakarta.validation.ElementKind;
import jakarta.validation.Path;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** JSON pointers in the form of a URI fragment (RFC 6901, section 6): {@code #/items/1}. */
final class Pointers {

  private Pointers() {}

  static String of(List<JsonMappingException.Reference> path) {
    StringBuilder pointer = new StringBuilder("#");
    for (JsonMappingException.Reference step : path) {
      append(pointer, step.getFieldName() == null ? step.getIndex() : step.getFieldName());
    }
    return pointer.toString();
  }

  /** The pointer into the body, of a violation found beneath a resource's parameter. */
  static String of(Path path) {
    StringBuilder pointer = new StringBuilder("#");
    for (Path.Node node : path) {
      if (node.isInIterable()) {
        append(pointer, node.getIndex() == null ? node.getKey() : node.getIndex());
      }
      if (node.getKind() == ElementKind.PROPERTY) {
        append(pointer, node.getName());
      }
    }
    return pointer.toString();
  }

  static String child(String pointer, String field) {
    StringBuilder child = new StringBuilder(pointer);
    append(child, field);
    return child.toString();
  }

  /** What a person calls the place: the field's name, or an entry of it. */
  static String spoken(String pointer) {
    if (pointer.equals("#")) {
      return "The body";
    }
    String last = pointer.substring(pointer.lastIndexOf('/') + 1);
    if (!last.isEmpty() && last.chars().allMatch(Character::isDigit)) {
      String list = pointer.substring(0, pointer.lastIndexOf('/'));
      return "An entry of " + (list.equals("#") ? "the body" : spoken(list));
    }
    return last;
  }

  private static void append(StringBuilder pointer, Object step) {
    String escaped = String.valueOf(step).replace("~", "~0").replace("/", "~1");
    pointer
        .append('/')
        .append(
            URLEncoder.encode(escaped, StandardCharsets.UTF_8)
                .replace("+", "%20")
                .replace("%7E", "~"));
  }
}
