package org.sapotrace.http;

import static java.nio.charset.StandardCharsets.UTF_8;

import io.vertx.core.http.HttpHeaders;
import io.vertx.core.http.HttpServerRequest;
import java.util.Base64;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The key that comes with a request: as {@code Bearer} (RFC 6750), or from a browser as the
 * password of {@code Basic} (RFC 7617), whose name is not looked at.
 *
 * <p>A browser sends what it was once given with whatever it is made to send from then on, by a
 * page from elsewhere as well. So {@code Basic} counts where nothing is changed, and for the pages,
 * whose forms hold a token; it never changes anything through the interface.
 */
final class Credentials {

  private static final Pattern SCHEME = Pattern.compile("(\\w+) +(\\S+)");
  private static final List<String> SAFE = List.of("GET", "HEAD", "OPTIONS");

  /** The pages with forms. Written any other way they are not known here, and so not taken. */
  private static final Pattern PAGES = Pattern.compile("/(lines|results)/[a-z0-9/-]+");

  /** A signed token in compact form (RFC 7515, section 7.1); no key of this service has a dot. */
  private static final Pattern TOKEN =
      Pattern.compile("[A-Za-z0-9_-]+\\.[A-Za-z0-9_-]+\\.[A-Za-z0-9_-]*");

  private static final String BEARER = "Bearer realm=\"Sapotrace\"";
  private static final String BASIC = "Basic realm=\"Sapotrace\", charset=\"UTF-8\"";

  private Credentials() {}

  /** The key; empty where there is none, more than one, or none that counts here. */
  static Optional<String> key(HttpServerRequest request) {
    Matcher parts = authorization(request);
    if (!parts.matches()) {
      return Optional.empty();
    }
    if (parts.group(1).equalsIgnoreCase("Bearer")) {
      return Optional.of(parts.group(2));
    }
    return parts.group(1).equalsIgnoreCase("Basic") && takesBasic(request)
        ? password(parts.group(2))
        : Optional.empty();
  }

  /**
   * The token of an account, which comes as {@code Bearer} only: a browser would go on sending one
   * that has expired.
   */
  static Optional<String> token(HttpServerRequest request) {
    Matcher parts = authorization(request);
    return parts.matches() && parts.group(1).equalsIgnoreCase("Bearer")
        ? Optional.of(parts.group(2)).filter(text -> TOKEN.matcher(text).matches())
        : Optional.empty();
  }

  private static Matcher authorization(HttpServerRequest request) {
    List<String> headers = request.headers().getAll(HttpHeaders.AUTHORIZATION);
    return SCHEME.matcher(headers.size() == 1 ? headers.get(0).strip() : "");
  }

  /** What a request without a good key is told to send: {@code WWW-Authenticate}. */
  static List<String> challenges(HttpServerRequest request, boolean hadOne) {
    String bearer = hadOne ? BEARER + ", error=\"invalid_token\"" : BEARER;
    return takesBasic(request) ? List.of(bearer, BASIC) : List.of(bearer);
  }

  private static boolean takesBasic(HttpServerRequest request) {
    return SAFE.contains(request.method().name()) || PAGES.matcher(request.path()).matches();
  }

  private static Optional<String> password(String encoded) {
    try {
      String pair = new String(Base64.getDecoder().decode(encoded), UTF_8);
      int colon = pair.indexOf(':');
      return colon < 0 ? Optional.empty() : Optional.of(pair.substring(colon + 1));
    } catch (IllegalArgumentException notBase64) {
      return Optional.empty();
    }
  }
}
