package org.sapotrace.http;

import jakarta.ws.rs.core.EntityTag;
import jakarta.ws.rs.core.Request;
import jakarta.ws.rs.core.Response;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/** Entity tags, and what {@code If-Match} and {@code If-None-Match} ask (RFC 9110, section 13). */
public final class Preconditions {

  private Preconditions() {}

  /** The strong tag of a version. */
  public static EntityTag tag(long version) {
    return new EntityTag(Long.toString(version));
  }

  /** The strong tag of an answer whose every byte counts, such as a picture. */
  public static EntityTag tag(byte[] bytes) {
    try {
      byte[] digest = MessageDigest.getInstance("SHA-256").digest(bytes);
      return new EntityTag(Base64.getUrlEncoder().withoutPadding().encodeToString(digest));
    } catch (NoSuchAlgorithmException everyJavaHasIt) {
      throw new IllegalStateException(everyJavaHasIt);
    }
  }

  /**
   * Refuses a change whose precondition does not hold, with a 412. To be called where the current
   * version is known and cannot change any more, under its lock.
   *
   * @param current the tag of what is to be replaced; null where nothing is there yet
   */
  public static void require(Request request, @Nullable EntityTag current) {
    Response.ResponseBuilder failed =
        current == null ? request.evaluatePreconditions() : request.evaluatePreconditions(current);
    if (failed != null) {
      throw outdated();
    }
  }

  /**
   * The answer to a GET: 304 where the caller has it, else 200 with the body and its tag.
   *
   * @param body computed only where it is sent
   */
  public static Response answer(Request request, EntityTag current, Supplier<?> body) {
    Response.ResponseBuilder early = request.evaluatePreconditions(current);
    if (early == null) {
      return Response.ok(body.get()).tag(current).build();
    }
    Response answer = early.tag(current).build();
    if (answer.getStatus() == Response.Status.PRECONDITION_FAILED.getStatusCode()) {
      throw outdated();
    }
    return answer;
  }

  private static RuntimeException outdated() {
    return Problem.of(
            ProblemType.OUTDATED,
            "It is not the version that the request names: look again and retry.")
        .asException();
  }
}
