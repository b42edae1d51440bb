package org.sapotrace.http;

import io.quarkus.vertx.http.HttpServerOptionsCustomizer;
import io.vertx.core.http.HttpServerOptions;
import jakarta.inject.Singleton;

/**
 * Lets the server read somewhat longer addresses and headers than are taken. What it cannot read it
 * refuses with an empty answer; what {@link Perimeter} refuses gets its reason told.
 */
@Singleton
public final class RoomForRefusal implements HttpServerOptionsCustomizer {

  private static final int FACTOR = 4;

  @Override
  public void customizeHttpServer(HttpServerOptions options) {
    options.setMaxHeaderSize(options.getMaxHeaderSize() * FACTOR);
    options.setMaxInitialLineLength(options.getMaxInitialLineLength() * FACTOR);
  }
}
