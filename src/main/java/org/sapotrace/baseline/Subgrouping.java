package org.sapotrace.baseline;

import java.util.List;
import org.hipparchus.stat.inference.OneWayAnova;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.Baseline;
import org.sapotrace.controlchart.Subgroup;

/**
 * What the subgroups of a baseline are, and whether they differ by more than chance: limits taken
 * from within subgroups suppose that nothing else makes their means differ.
 *
 * <p>By one-way analysis of variance, F is the mean square between the subgroups over that within
 * them. Source: NIST/SEMATECH e-Handbook of Statistical Methods, 7.4.3.
 *
 * @param sizes how many values each has, in order
 * @param ratio √F, how many times further means scatter than the values within let expect; null
 *     where fewer than two subgroups have two values or more
 * @param pValue how often subgroups that differ by chance alone reach F; null likewise
 */
public record Subgrouping(List<Integer> sizes, @Nullable Double ratio, @Nullable Double pValue) {

  public Subgrouping {
    sizes = List.copyOf(sizes);
  }

  /**
   * Of a baseline; null where all of it are single results.
   *
   * @param plotted on the scale on which it is judged; its values within subgroups not all equal
   */
  static @Nullable Subgrouping of(Baseline plotted) {
    List<Integer> sizes = plotted.subgroups().stream().map(Subgroup::size).toList();
    List<double[]> several =
        plotted.subgroups().stream()
            .filter(subgroup -> subgroup.size() > 1)
            .map(subgroup -> subgroup.values().stream().mapToDouble(x -> x).toArray())
            .toList();
    if (several.isEmpty()) {
      return null;
    }
    if (several.size() < 2) {
      return new Subgrouping(sizes, null, null);
    }
    OneWayAnova analysis = new OneWayAnova();
    return new Subgrouping(
        sizes, Math.sqrt(analysis.anovaFValue(several)), analysis.anovaPValue(several));
  }

  /** How many values there are in all. */
  int values() {
    return sizes.stream().mapToInt(Integer::intValue).sum();
  }
}
