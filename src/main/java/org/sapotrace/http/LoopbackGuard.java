package org.sapotrace.http;

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
 * Where nobody signs in, the service trusts whoever reaches it. A page in the same machine's
 * browser reaches it too, so what comes under a foreign name (DNS rebinding), or is sent by a page
 * from elsewhere, is refused. Where keys are needed this is off: no page from elsewhere has one.
 */
@Singleton
final class LoopbackGuard {

  private static final Pattern AUTHORITY =
      Pattern.compile("(\\[[0-9a-fA-F:]+]|[^:\\[\\]]+)(:\\d+)?");
  private static final Pattern LOOPBACK =
      Pattern.compile("localhost|127(\\.\\d{1,3}){3}|\\[::1]|::1", Pattern.CASE_INSENSITIVE);
  private static final Set<String> SAFE = Set.of("GET", "HEAD", "OPTIONS");

  private final boolean on;

  LoopbackGuard(Access access) {
    this.on = access == Access.BENCH;
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
