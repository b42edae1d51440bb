package org.sapotrace.http;

import jakarta.ws.rs.WebApplicationException;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.ext.Provider;
import jakarta.ws.rs.ext.ReaderInterceptor;
import jakarta.ws.rs.ext.ReaderInterceptorContext;
import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.IllegalCharsetNameException;
import java.util.Locale;

/**
 * Stands around the reading of every body, so that what goes wrong there is known to be the
 * sender's, and the same failure of the service's own JSON elsewhere is not taken for it.
 */
@Provider
public final class BodyReading implements ReaderInterceptor {

  private final SentBody sent;

  BodyReading(SentBody sent) {
    this.sent = sent;
  }

  @Override
  public Object aroundReadFrom(ReaderInterceptorContext context) throws IOException {
    MediaType type = context.getMediaType();
    if (type != null) {
      requireCharset(type);
      if (isJson(type)) {
        context.setInputStream(new BodyLimit(context.getInputStream(), BodyLimit.LONGEST_JSON));
      }
    }
    if (context.getHeaders().containsKey(IdempotencyKey.HEADER)) {
      context.setInputStream(sent.watch(context.getInputStream()));
    }
    try {
      Object body = context.proceed();
      if (body != null) {
        return body;
      }
    } catch (WebApplicationException failure) {
      throw explained(failure);
    } catch (IOException failure) {
      throw explained(failure);
    }
    throw Problem.of(ProblemType.MALFORMED, "The request needs a body, and it is empty or null.")
        .asException();
  }

  /** Refuses what would be read otherwise than it says: JSON is UTF-8 (RFC 8259, section 8.1). */
  private static void requireCharset(MediaType type) {
    String charset = type.getParameters().get(MediaType.CHARSET_PARAMETER);
    boolean utf8Only = isJson(type) || type.getSubtype().equalsIgnoreCase("csv");
    if (charset != null && !(utf8Only ? charset.equalsIgnoreCase("utf-8") : isKnown(charset))) {
      throw Problem.of(ProblemType.UNSUPPORTED_MEDIA_TYPE, "Send the body in UTF-8.").asException();
    }
  }

  private static boolean isKnown(String charset) {
    try {
      return Charset.isSupported(charset);
    } catch (IllegalCharsetNameException noName) {
      return false;
    }
  }

  /** Whether the body is one JSON text: RFC 6839, section 3.1. Rows of JSON are not. */
  private static boolean isJson(MediaType type) {
    String subtype = type.getSubtype().toLowerCase(Locale.ROOT);
    return subtype.equals("json") || subtype.endsWith("+json");
  }

  private static <T extends Exception> RuntimeException explained(T failure) throws T {
    // The framework wraps some failures of the parser, and lets others through as they are.
    Throwable cause = failure.getCause();
    Problem problem =
        Diagnosis.ofReading(
            failure instanceof WebApplicationException && cause != null ? cause : failure);
    if (problem == null) {
      throw failure;
    }
    return problem.asException();
  }
}
