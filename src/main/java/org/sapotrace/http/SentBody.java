package org.sapotrace.http;

import jakarta.enterprise.context.RequestScoped;
import java.io.InputStream;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import org.jspecify.annotations.Nullable;

/** What the body of a request was, byte for byte, once it has been read. */
@RequestScoped
class SentBody {

  private @Nullable MessageDigest digest;

  /** The body, to be read from now on. */
  InputStream watch(InputStream body) {
    digest = sha256();
    return new DigestInputStream(body, digest);
  }

  /** The SHA-256 of what was read. */
  String fingerprint() {
    return HexFormat.of().formatHex((digest == null ? sha256() : digest).digest());
  }

  /** The same of what came by another way. */
  static String fingerprint(byte[] body) {
    return HexFormat.of().formatHex(sha256().digest(body));
  }

  static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException everyJavaHasIt) {
      throw new IllegalStateException(everyJavaHasIt);
    }
  }
}
