package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * What somebody wants to have on record about a signal.
 *
 * @param exclude results that later baselines are to leave out
 */
public record NewFinding(String cause, @Nullable String action, String by, List<UUID> exclude) {

  public NewFinding {
    exclude = List.copyOf(exclude);
  }

  Finding numbered(int number, Instant at) {
    return new Finding(number, cause, action, by, at, exclude);
  }
}
