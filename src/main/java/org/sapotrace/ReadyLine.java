package org.sapotrace;

import io.quarkus.vertx.http.HttpServer;
import io.quarkus.vertx.http.HttpServerStart;
import jakarta.enterprise.event.ObservesAsync;
import jakarta.inject.Singleton;
import org.jboss.logging.Logger;

/** Says, once requests are answered, where they are and where the data is. */
@Singleton
class ReadyLine {

  private static final Logger LOG = Logger.getLogger(ReadyLine.class);
  private static volatile String data = "the configured database";

  static void dataIn(String place) {
    data = place;
  }

  private final HttpServer server;

  ReadyLine(HttpServer server) {
    this.server = server;
  }

  void say(@ObservesAsync HttpServerStart start) {
    LOG.infof(
        "Sapotrace is ready on http://%s:%d; its data is in %s.",
        start.options().getHost(), server.getPort(), data);
  }
}
