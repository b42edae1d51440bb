package org.sapotrace.monitoring.persistence;

import java.util.Arrays;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.Set;
import java.util.stream.Collectors;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.controlchart.SignalRule;

/** Sets of rules as arrays of their names, in the order of all rules. */
final class RuleNames {

  private RuleNames() {}

  static String[] of(Collection<? extends SignalRule> rules) {
    return rules.stream().map(SignalRule::id).toArray(String[]::new);
  }

  static Set<SignalRule> rules(String[] names) {
    return Arrays.stream(names)
        .map(SignalRule::named)
        .collect(Collectors.toCollection(LinkedHashSet::new));
  }

  static Set<RunRule> runRules(String[] names) {
    return Arrays.stream(names).map(RunRule::named).collect(Collectors.toSet());
  }
}
