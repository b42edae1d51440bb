package org.sapotrace.http;

import io.netty.handler.codec.http.HttpResponseStatus;
import java.util.List;

/** Problems for errors of which nothing but the status is known. */
final class BareStatus {

  private BareStatus() {}

  static Problem problem(int status) {
    return ProblemType.ofStatus(status)
        .map(type -> Problem.of(type, detail(type)))
        // RFC 9457, section 4.2.1: a problem that says no more than its status.
        .orElseGet(
            () ->
                new Problem(
                    "about:blank",
                    HttpResponseStatus.valueOf(status).reasonPhrase(),
                    status,
                    "The request is not carried out.",
                    null,
                    List.of()));
  }

  private static String detail(ProblemType type) {
    return switch (type) {
      case MALFORMED -> "A part of the request is not well-formed.";
      case NOT_FOUND -> "Nothing lies under this address.";
      case METHOD_NOT_ALLOWED -> "The address takes other methods; Allow names them.";
      case NOT_ACCEPTABLE -> "None of the media types in Accept can be answered here.";
      case TOO_LARGE -> "Send at most 1 MiB at once, or 256 MiB to an import.";
      case UNSUPPORTED_MEDIA_TYPE -> "Send the body in a media type that is taken here.";
      default -> type.title() + ".";
    };
  }
}
