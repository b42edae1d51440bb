package org.sapotrace.bench;

import java.time.Instant;
import java.util.UUID;
import org.sapotrace.refusal.Refusal;

/**
 * What the removal of a batch was found from. Nobody entered it: the service did.
 *
 * @param sampledAt when the outlet was sampled
 * @param inlet the result before the wash or tower
 * @param outlet the result behind it
 */
public record BatchRemoval(String batch, Instant sampledAt, UUID inlet, UUID outlet)
    implements Entry {

  Refusal refuseCorrection() {
    return Refusal.impossible(
        "This removal was found from the results %s and %s: correct or withdraw those, and it follows as long as the stream has its inlet."
            .formatted(inlet, outlet));
  }
}
