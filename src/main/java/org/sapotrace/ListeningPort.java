package org.sapotrace;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import org.eclipse.microprofile.config.Config;
import org.sapotrace.refusal.Refusal;

/** The port on which requests are to be answered. */
final class ListeningPort {

  private ListeningPort() {}

  /**
   * Checks that the configured port can be had, before anything is started that needs time.
   *
   * @throws Refusal where it is no port, or something else listens there
   */
  static void check(Config settings) {
    String host = settings.getValue("quarkus.http.host", String.class);
    String port = settings.getValue("quarkus.http.port", String.class);
    try (ServerSocket trial = new ServerSocket()) {
      trial.bind(new InetSocketAddress(host, Integer.parseInt(port)));
    } catch (IOException taken) {
      throw Refusal.impossible(
          """
          Port %s of %s cannot be had: end the program that listens there, or set \
          QUARKUS_HTTP_PORT to another port."""
              .formatted(port, host));
    } catch (IllegalArgumentException none) {
      throw Refusal.impossible(
          "QUARKUS_HTTP_PORT is \"%s\": set a number from 1 to 65535, or 0 for any free port."
              .formatted(port));
    }
  }
}
