package org.sapotrace;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Produces;
import jakarta.inject.Singleton;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.time.InstantSource;
import java.util.Arrays;
import java.util.Optional;
import org.eclipse.microprofile.config.Config;
import org.sapotrace.access.AccountSettings;
import org.sapotrace.http.Access;
import org.sapotrace.http.RateLimit;
import org.sapotrace.refusal.Refusal;

/** What is set about who may use the service, and how much. */
@ApplicationScoped
class AccessSettings {

  private static final int HIGHEST_RATE = 1_000_000;

  private final Config settings;

  AccessSettings(Config settings) {
    this.settings = settings;
  }

  @Produces
  @Singleton
  Access access() {
    return access(settings);
  }

  @Produces
  @Singleton
  RateLimit rateLimit(InstantSource clock) {
    return new RateLimit(perMinute(settings), clock);
  }

  @Produces
  @Singleton
  AccountSettings accounts() {
    return accounts(settings);
  }

  /**
   * Checks what is set, and that the service listens only where that allows it.
   *
   * @throws Refusal for a value that is none, or when strangers could reach a service into which
   *     nobody signs in
   */
  static void check(Config settings) {
    boolean signsIn = access(settings) == Access.KEYS;
    if (perMinute(settings) > 0 && !signsIn) {
      throw Refusal.impossible(
          "SAPOTRACE_RATE_LIMIT_PER_MINUTE counts for each key: leave it unset, or set"
              + " SAPOTRACE_ACCESS=keys.");
    }
    if (accounts(settings).issuer() != null && !signsIn) {
      throw Refusal.impossible(
          "SAPOTRACE_OIDC_ISSUER lets people sign in with tokens, and with SAPOTRACE_ACCESS=bench nobody signs in: leave it unset, or set SAPOTRACE_ACCESS=keys.");
    }
    String host = settings.getValue("quarkus.http.host", String.class);
    if (!signsIn && !isLoopback(host)) {
      throw Refusal.impossible(
          """
          It would listen on "%s", where other machines reach it, and nobody signs in. Set \
          QUARKUS_HTTP_HOST to 127.0.0.1, or leave it unset; to let other machines in, set \
          SAPOTRACE_ACCESS=keys."""
              .formatted(host));
    }
  }

  private static AccountSettings accounts(Config settings) {
    return AccountSettings.of(
        oidc(settings, "issuer"),
        oidc(settings, "audience"),
        oidc(settings, "scopes-claim"),
        oidc(settings, "lines-claim"));
  }

  private static Optional<String> oidc(Config settings, String name) {
    return settings.getOptionalValue("sapotrace.oidc." + name, String.class);
  }

  private static Access access(Config settings) {
    String value = settings.getOptionalValue("sapotrace.access", String.class).orElse("bench");
    return switch (value) {
      case "bench" -> Access.BENCH;
      case "keys" -> Access.KEYS;
      default ->
          throw Refusal.impossible(
              "SAPOTRACE_ACCESS is \""
                  + value
                  + "\": set \"bench\" or \"keys\", or leave it unset.");
    };
  }

  /** How many requests a key may make in a minute; 0 where that is not limited. */
  private static int perMinute(Config settings) {
    String value =
        settings.getOptionalValue("sapotrace.rate-limit-per-minute", String.class).orElse(null);
    if (value == null) {
      return 0;
    }
    int rate = value.matches("[0-9]{1,7}") ? Integer.parseInt(value) : 0;
    if (rate >= 1 && rate <= HIGHEST_RATE) {
      return rate;
    }
    throw Refusal.impossible(
        "SAPOTRACE_RATE_LIMIT_PER_MINUTE is \"%s\": set a whole number from 1 to %d, or leave it unset."
            .formatted(value, HIGHEST_RATE));
  }

  private static boolean isLoopback(String host) {
    try {
      return Arrays.stream(InetAddress.getAllByName(host)).allMatch(InetAddress::isLoopbackAddress);
    } catch (UnknownHostException unknown) {
      return false;
    }
  }
}
