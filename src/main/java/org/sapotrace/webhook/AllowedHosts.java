package org.sapotrace.webhook;

import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * The hosts to which messages may go wherever they are, and by plain http or on any port, too.
 *
 * @param names or addresses, in lower case
 */
public record AllowedHosts(Set<String> names) {

  private static final Pattern COMMA = Pattern.compile(",");
  private static final Pattern HOST = Pattern.compile("[a-z0-9.-]+|\\[[0-9a-f:.]+]");

  public AllowedHosts {
    names = Set.copyOf(names);
  }

  /**
   * The hosts that a text names, separated by commas.
   *
   * @throws IllegalArgumentException where something in it is no host
   */
  public static AllowedHosts parse(String text) {
    Set<String> names =
        COMMA
            .splitAsStream(text)
            .map(String::strip)
            .filter(name -> !name.isEmpty())
            .map(name -> name.toLowerCase(Locale.ROOT))
            .collect(Collectors.toSet());
    for (String name : names) {
      if (!HOST.matcher(name).matches()) {
        throw new IllegalArgumentException(
            "\"%s\" is no host: name hosts without scheme and port, such as alerts.plant.example or 192.168.7.20, with commas between them."
                .formatted(name));
      }
    }
    return new AllowedHosts(names);
  }

  boolean contains(String host) {
    return names.contains(host.toLowerCase(Locale.ROOT));
  }
}
