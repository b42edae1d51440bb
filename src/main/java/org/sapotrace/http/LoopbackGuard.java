package org.sapotrace.http;

import io.quarkus.vertx.http.runtime.VertxHttpConfig;
import io.vertx.core.http.HttpHeaders;
import io.vertx.core.http.HttpServerRequest;
import io.vertx.core.net.HostAndPort;
import jakarta.inject.Singleton;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * While the service listens on loopback it trusts whoever reaches it. A page in the same machine's
 * browser reaches it too, so what comes under a foreign name (DNS rebinding), or is sent by a page
 * from elsewhere, is refused. Listening elsewhere turns this off.
 */
@Singleton
final class LoopbackGuard {

  private static final Pattern AUTHORITY =
      Pattern.compile("(\\[[0-9a-fA-F:]+]|[^:\\[\\]]+)(:\\d+)?");
  private static final Pattern LOOPBACK =
      Pattern.compile("localhost|127(\\.\\d{1,3}){3}|\\[::1]|::1", Pattern.CASE_INSENSITIVE);
  private static final Set<String> SAFE = Set.of("GET", "HEAD", "OPTIONS");

  private final boolean on;

  LoopbackGuard(VertxHttpConfig http) {
    this.on = LOOPBACK.matcher(http.host()).matches();
  }

  /** The problem with an exchange; empty where there is none. */
  Optional<Problem> objection(HttpServerRequest request) {
    if (!on) {
      return Optional.empty();
    }
    String host = name(request);
    if (host == null || !isLoopback(host)) {
      return Optional.of(
          Problem.of(ProblemType.MISDIRECTED, "Ask for localhost or 127.0.0.1 by that name."));
    }
    String origin = request.getHeader(HttpHeaders.ORIGIN);
    return SAFE.contains(request.method().name())
            || origin == null
            || origin.equalsIgnoreCase(request.scheme() + "://" + host)
        ? Optional.empty()
        : Optional.of(
            Problem.of(ProblemType.FORBIDDEN, "A page from elsewhere may not change anything."));
  }

  /** The name under which the service was asked: HTTP/2 sends it as an authority of its own. */
  private static @Nullable String name(HttpServerRequest request) {
    String host = request.getHeader(HttpHeaders.HOST);
    HostAndPort authority = request.authority();
    return host == null && authority != null ? authority.toString() : host;
  }

  private static boolean isLoopback(String authority) {
    Matcher parts = AUTHORITY.matcher(authority);
    return parts.matches() && LOOPBACK.matcher(parts.group(1)).matches();
  }
}
