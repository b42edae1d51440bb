package org.sapotrace;

import org.eclipse.microprofile.config.Config;
import org.sapotrace.refusal.Refusal;

/** Whether the demonstration plant is wanted. */
final class DemonstrationSettings {

  static final String WANTED = "sapotrace.demo";

  private DemonstrationSettings() {}

  /**
   * Whether an empty database is to be filled.
   *
   * @throws Refusal for what is neither true nor false
   */
  static boolean isWanted(Config settings) {
    String wanted = settings.getOptionalValue(WANTED, String.class).orElse("false");
    return switch (wanted) {
      case "true" -> true;
      case "false" -> false;
      default ->
          throw Refusal.impossible(
              "SAPOTRACE_DEMO is \"%s\": set true, or leave it unset.".formatted(wanted));
    };
  }
}
