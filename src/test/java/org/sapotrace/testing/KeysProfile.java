package org.sapotrace.testing;

import io.quarkus.test.junit.QuarkusTestProfile;
import java.util.Map;

/** The service as it runs where keys are needed, with a limit of requests that a test can reach. */
public final class KeysProfile implements QuarkusTestProfile {

  /** How many requests each key may make in a minute. */
  public static final int PER_MINUTE = 500;

  @Override
  public Map<String, String> getConfigOverrides() {
    return Map.of(
        "sapotrace.access", "keys", "sapotrace.rate-limit-per-minute", String.valueOf(PER_MINUTE));
  }
}
