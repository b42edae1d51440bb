package org.sapotrace.controlchart;

import java.util.List;
import java.util.stream.Stream;

/**
 * A condition under which a chart raises a signal: a run rule on the results themselves, or a limit
 * on one of the statistics that gather small shifts.
 */
public sealed interface SignalRule permits RunRule, DriftRule {

  /** All there are, in the order in which they are listed everywhere. */
  List<SignalRule> ALL =
      Stream.<SignalRule>concat(Stream.of(RunRule.values()), Stream.of(DriftRule.values()))
          .toList();

  /** The rule's name in the interface, such as {@code beyond-limits}. */
  String id();

  /** The letter that marks the rule in a picture. */
  char letter();

  /** The condition in plain words, without a capital or a full stop. */
  String description();

  /**
   * The rule with this name in the interface.
   *
   * @throws IllegalArgumentException if there is none
   */
  static SignalRule named(String id) {
    return ALL.stream()
        .filter(rule -> rule.id().equals(id))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("There is no rule \"" + id + "\"."));
  }
}
