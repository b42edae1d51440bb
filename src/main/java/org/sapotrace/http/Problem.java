package org.sapotrace.http;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.refusal.Refusal;
import org.sapotrace.refusal.Refusal.Fault;

/**
 * What went wrong, as RFC 9457 puts it: the body of every answer that is an error, and of each
 * refused row of an import.
 *
 * <p>Text that cannot be sent as JSON or read on a screen is replaced, and long text shortened,
 * since much of it repeats what a stranger sent.
 *
 * @param type the reference that identifies the kind of problem; a path of this service
 * @param title the kind of problem in a few words
 * @param status the HTTP status, 400 to 599
 * @param detail what is wrong with this request, for a person
 * @param instance the path that was asked for; null where the problem is a part of an answer
 * @param errors what is wrong with the input, field by field; empty where it is not the input
 */
@JsonInclude(JsonInclude.Include.NON_NULL)
public record Problem(
    String type,
    String title,
    int status,
    String detail,
    @Nullable String instance,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<Fault> errors) {

  /** The media type of a problem. */
  public static final String MEDIA_TYPE = "application/problem+json";

  private static final int LONGEST_DETAIL = 2000;
  private static final int LONGEST_POINTER = 500;
  private static final int MOST_ERRORS = 100;

  public Problem {
    if (!(status >= 400 && status <= 599)) {
      throw new IllegalArgumentException("A problem has a status from 400 to 599, not " + status);
    }
    detail = Plain.text(detail, LONGEST_DETAIL);
    instance = instance == null ? null : Plain.text(instance, LONGEST_POINTER);
    // Null where it is read back from JSON, which leaves it out where there are none.
    errors = errors == null ? List.of() : errors;
    errors = errors.stream().limit(MOST_ERRORS).map(Problem::plain).toList();
  }

  /** A problem of the request as a whole. */
  public static Problem of(ProblemType type, String detail) {
    return of(type, detail, List.of());
  }

  /** A problem of single fields. */
  public static Problem of(ProblemType type, List<Fault> faults) {
    return of(type, String.join(" ", faults.stream().map(Fault::detail).toList()), faults);
  }

  private static Problem of(ProblemType type, String detail, List<Fault> errors) {
    return new Problem(type.uri(), type.title(), type.status(), detail, null, errors);
  }

  /** The problem that a refusal is; its faults are listed where they point at fields. */
  public static Problem of(Refusal refusal) {
    ProblemType type =
        switch (refusal.kind()) {
          case UNKNOWN -> ProblemType.NOT_FOUND;
          case FORBIDDEN -> ProblemType.FORBIDDEN;
          case CONFLICT -> ProblemType.CONFLICT;
          case OUTDATED -> ProblemType.OUTDATED;
          case IMPOSSIBLE -> ProblemType.INVALID_INPUT;
          case NOT_YET -> ProblemType.NOT_YET;
        };
    Problem problem = of(type, refusal.faults());
    boolean pointing = refusal.faults().stream().anyMatch(fault -> fault.pointer() != null);
    return pointing ? problem : of(type, problem.detail());
  }

  /** The same problem, met under that path. */
  public Problem at(String path) {
    return new Problem(type, title, status, detail, path, errors);
  }

  /** The same problem with more said about it. */
  public Problem saying(String more) {
    return new Problem(type, title, status, detail + " " + more, instance, errors);
  }

  /** To be thrown where a request is found not to be readable or usable. */
  public RuntimeException asException() {
    return new ProblemException(this);
  }

  private static Fault plain(Fault fault) {
    String pointer = fault.pointer();
    return new Fault(
        Plain.text(fault.detail(), LONGEST_DETAIL),
        pointer == null ? null : Plain.text(pointer, LONGEST_POINTER));
  }
}
