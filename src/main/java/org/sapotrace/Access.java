package org.sapotrace;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.Arrays;
import org.eclipse.microprofile.config.Config;
import org.sapotrace.refusal.Refusal;

/** Who may use the service, as {@code SAPOTRACE_ACCESS} says. */
enum Access {
  /** Whoever sits at the machine: nobody signs in, so the service listens on loopback only. */
  BENCH;

  /**
   * The configured way, {@link #BENCH} where none is.
   *
   * @throws Refusal for a value that is not known, or not built yet
   */
  static Access from(Config settings) {
    String value = settings.getOptionalValue("sapotrace.access", String.class).orElse("bench");
    return switch (value) {
      case "bench" -> BENCH;
      case "keys" ->
          throw Refusal.impossible(
              "SAPOTRACE_ACCESS=keys is not yet part of this version: leave it unset, or set"
                  + " \"bench\".");
      default ->
          throw Refusal.impossible(
              "SAPOTRACE_ACCESS is \"" + value + "\": set \"bench\", or leave it unset.");
    };
  }

  /**
   * Checks that the service listens only where this way allows it.
   *
   * @throws Refusal when strangers could reach a service into which nobody signs in
   */
  void check(Config settings) {
    String host = settings.getValue("quarkus.http.host", String.class);
    if (!isLoopback(host)) {
      throw Refusal.impossible(
          """
          It would listen on "%s", where other machines reach it, and nobody signs in. Set \
          QUARKUS_HTTP_HOST to 127.0.0.1, or leave it unset; to let other machines in, put a proxy \
          that signs people in on this machine."""
              .formatted(host));
    }
  }

  private static boolean isLoopback(String host) {
    try {
      return Arrays.stream(InetAddress.getAllByName(host)).allMatch(InetAddress::isLoopbackAddress);
    } catch (UnknownHostException unknown) {
      return false;
    }
  }
}
