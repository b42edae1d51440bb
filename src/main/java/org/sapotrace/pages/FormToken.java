package org.sapotrace.pages;

import static java.nio.charset.StandardCharsets.US_ASCII;

import jakarta.inject.Singleton;
import jakarta.ws.rs.core.NewCookie;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.sapotrace.http.Problem;
import org.sapotrace.http.ProblemType;

/**
 * Tells a form of ours from one that a page elsewhere sends in the browser of someone at the bench:
 * ours holds what the browser's cookie holds, which no other page can read.
 *
 * <p>Only who reads a form asks for it. The framework's filter for the same stands before every
 * resource: it would set its cookie with each answer of the interface, and refuse requests there
 * over a cookie or a header.
 */
@Singleton
final class FormToken {

  static final String NAME = "form-token";

  private static final int BYTES = 24;
  private static final Pattern TOKEN = Pattern.compile("[A-Za-z0-9_-]{32}");

  private final SecureRandom random = new SecureRandom();

  /** The token that a browser already has, so that a second form leaves the first one good. */
  String of(@Nullable String cookie) {
    if (cookie != null && TOKEN.matcher(cookie).matches()) {
      return cookie;
    }
    byte[] token = new byte[BYTES];
    random.nextBytes(token);
    return Base64.getUrlEncoder().withoutPadding().encodeToString(token);
  }

  /** The cookie that holds a token until the browser is closed. */
  static NewCookie cookie(String token, boolean secure) {
    return new NewCookie.Builder(NAME)
        .value(token)
        .path("/")
        .httpOnly(true)
        .secure(secure)
        // Strict would leave the cookie out behind a link from a mail, and so spoil open forms.
        .sameSite(NewCookie.SameSite.LAX)
        .build();
  }

  /** Refuses a form that does not hold the token of its browser. */
  static void require(@Nullable String inForm, @Nullable String inCookie) {
    boolean same =
        inForm != null
            && inCookie != null
            && TOKEN.matcher(inCookie).matches()
            && MessageDigest.isEqual(inForm.getBytes(US_ASCII), inCookie.getBytes(US_ASCII));
    if (!same) {
      throw Problem.of(
              ProblemType.FORBIDDEN,
              "This form is no longer valid, or did not come from here. Nothing was recorded. Open"
                  + " the form again and type the readings once more; cookies of this service must"
                  + " be allowed.")
          .asException();
    }
  }
}
