package org.sapotrace.chemistry;

import java.util.List;
import java.util.function.Function;
import java.util.stream.Collectors;

/** Finds one of a few things by the name that it has in the interface. */
final class ByName {

  private ByName() {}

  /**
   * The one of that name.
   *
   * @param kind what they are, for the sentence of the refusal
   * @throws IllegalArgumentException for a name that none has; it lists those that are known
   */
  static <T> T find(String kind, String name, List<T> all, Function<T, String> nameOf) {
    return all.stream()
        .filter(each -> nameOf.apply(each).equals(name))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "The %s \"%s\" is not known; give one of %s."
                        .formatted(
                            kind,
                            name,
                            all.stream().map(nameOf).collect(Collectors.joining(", ")))));
  }
}
