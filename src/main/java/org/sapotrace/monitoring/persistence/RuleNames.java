package org.sapotrace.monitoring.persistence;

import java.util.Arrays;
import java.util.Collections;
import java.util.EnumSet;
import java.util.Set;
import org.sapotrace.controlchart.RunRule;

/** Sets of run rules as arrays of their names, in the rules' declared order. */
final class RuleNames {

  private RuleNames() {}

  static String[] of(Set<RunRule> rules) {
    return rules.stream().sorted().map(RunRule::id).toArray(String[]::new);
  }

  static Set<RunRule> rules(String[] names) {
    EnumSet<RunRule> rules = EnumSet.noneOf(RunRule.class);
    Arrays.stream(names).map(RunRule::named).forEach(rules::add);
    return Collections.unmodifiableSet(rules);
  }
}
