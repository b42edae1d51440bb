package org.sapotrace.http;

import java.util.Arrays;
import java.util.Optional;

/** The kinds of problem that this service answers with; each has a type of its own. */
public enum ProblemType {
  MALFORMED("malformed-request", 400, "The request cannot be read"),
  BAD_PARAMETER("bad-parameter", 400, "A parameter cannot be used"),
  UNAUTHENTICATED("unauthenticated", 401, "The caller is not known"),
  FORBIDDEN("forbidden", 403, "The caller may not do this"),
  NOT_FOUND("not-found", 404, "There is no such thing"),
  METHOD_NOT_ALLOWED("method-not-allowed", 405, "This cannot be done here"),
  NOT_ACCEPTABLE("not-acceptable", 406, "There is no answer in the form that is asked for"),
  CONFLICT("conflict", 409, "This contradicts what is recorded"),
  OUTDATED("outdated", 412, "What is to be changed has changed meanwhile"),
  TOO_LARGE("too-large", 413, "The request is too large"),
  ADDRESS_TOO_LONG("address-too-long", 414, "The address is too long"),
  UNSUPPORTED_MEDIA_TYPE("unsupported-media-type", 415, "The request is in a form not understood"),
  MISDIRECTED("misdirected", 421, "This service does not answer under that name"),
  INVALID_INPUT("invalid-input", 422, "The input is impossible or incomplete"),
  NOT_YET("not-yet", 422, "This version does not do that yet"),
  STOPPED("stopped", 422, "Nothing from here on was carried out"),
  TOO_MANY_REQUESTS("too-many-requests", 429, "Too many requests"),
  HEADERS_TOO_LARGE("headers-too-large", 431, "The headers of the request are too large"),
  DEFECT("internal-error", 500, "The service failed"),
  UNAVAILABLE("unavailable", 503, "The service cannot answer just now");

  private final String id;
  private final int status;
  private final String title;

  ProblemType(String id, int status, String title) {
    this.id = id;
    this.status = status;
    this.title = title;
  }

  /** The type's reference, such as {@code /problems/invalid-input}. */
  public String uri() {
    return "/problems/" + id;
  }

  /** The HTTP status that goes with it. */
  public int status() {
    return status;
  }

  /** The same few words whenever this type occurs. */
  public String title() {
    return title;
  }

  /** The type of a bare HTTP status: the first declared with it; empty for a status without one. */
  static Optional<ProblemType> ofStatus(int status) {
    return Arrays.stream(values()).filter(type -> type.status == status).findFirst();
  }
}
