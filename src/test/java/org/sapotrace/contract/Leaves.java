package org.sapotrace.contract;

import com.fasterxml.jackson.databind.JsonNode;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Set;
import java.util.TreeSet;

/**
 * What a tree says, as one text for each leaf: its JSON pointer and its value. Numbers count to
 * nine digits, as the last ones are left to rounding; the order of names does not count.
 */
final class Leaves {

  private Leaves() {}

  static Set<String> of(JsonNode tree) {
    Set<String> leaves = new TreeSet<>();
    add(leaves, "", tree);
    return leaves;
  }

  private static void add(Set<String> leaves, String at, JsonNode node) {
    if (node.isEmpty()) {
      leaves.add(at + " = " + (node.isNumber() ? sevenDigits(node.doubleValue()) : node));
    } else if (node.isObject()) {
      node.forEachEntry((name, value) -> add(leaves, at + "/" + name.replace("/", "~1"), value));
    } else {
      for (int i = 0; i < node.size(); i++) {
        add(leaves, at + "/" + i, node.get(i));
      }
    }
  }

  private static String sevenDigits(double value) {
    return String.valueOf(new BigDecimal(value).round(new MathContext(7)).doubleValue());
  }
}
