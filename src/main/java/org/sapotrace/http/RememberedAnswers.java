package org.sapotrace.http;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import org.jspecify.annotations.Nullable;

/** The answers to requests that carried a key, for a day. */
@ApplicationScoped
@Transactional(Transactional.TxType.MANDATORY)
class RememberedAnswers {

  /** For how long a repeat is recognised; later, the same key is a new one. */
  static final Duration KEPT = Duration.ofHours(24);

  private final EntityManager database;
  private final InstantSource clock;

  RememberedAnswers(EntityManager database, InstantSource clock) {
    this.database = database;
    this.clock = clock;
  }

  /**
   * A request that is not to be carried out twice.
   *
   * @param operation its method and address
   * @param fingerprint what its body was
   * @param reused what to say where the key came with another body before
   */
  record Request(String caller, String operation, String key, String fingerprint, String reused) {}

  /**
   * What was answered.
   *
   * @param location the address of what was made; null for none
   * @param body in JSON
   */
  record Answer(int status, @Nullable String location, String body) {

    Response toResponse() {
      Response.ResponseBuilder response =
          Response.status(status).type(MediaType.APPLICATION_JSON_TYPE).entity(body);
      return (location == null ? response : response.location(URI.create(location))).build();
    }
  }

  /**
   * Takes the key for this request, or tells what was answered to the request that had it first.
   * Waits while that one is still being carried out.
   *
   * @return null where this is the first; its answer is then to be remembered in this transaction
   * @throws RuntimeException that becomes a 422 where the key went with another body
   */
  @Nullable Answer claim(Request request) {
    forgetOld(request);
    int claimed =
        database
            .createNativeQuery(
                """
                insert into remembered_answer (caller, operation, key, fingerprint, asked_at)
                values (:caller, :operation, :key, :fingerprint, :now) on conflict do nothing
                """)
            .setParameter("caller", request.caller())
            .setParameter("operation", request.operation())
            .setParameter("key", request.key())
            .setParameter("fingerprint", request.fingerprint())
            .setParameter("now", clock.instant())
            .executeUpdate();
    return claimed == 1 ? null : answered(request);
  }

  private Answer answered(Request request) {
    Object[] row =
        (Object[])
            database
                .createNativeQuery(
                    """
                    select fingerprint, status, location, body from remembered_answer
                    where caller = :caller and operation = :operation and key = :key
                    """)
                .setParameter("caller", request.caller())
                .setParameter("operation", request.operation())
                .setParameter("key", request.key())
                .getSingleResult();
    if (!request.fingerprint().equals(row[0])) {
      throw Problem.of(ProblemType.INVALID_INPUT, request.reused()).asException();
    }
    return new Answer((int) row[1], (String) row[2], (String) row[3]);
  }

  static RuntimeException otherBody() {
    return Problem.of(
            ProblemType.INVALID_INPUT,
            "This Idempotency-Key came with another body before, so nothing was done: take a new"
                + " key for a new request.")
        .asException();
  }

  void remember(Request request, Answer answer) {
    database
        .createNativeQuery(
            """
            update remembered_answer set status = :status, location = :location, body = :body
            where caller = :caller and operation = :operation and key = :key
            """)
        .setParameter("status", answer.status())
        .setParameter("location", answer.location())
        .setParameter("body", answer.body())
        .setParameter("caller", request.caller())
        .setParameter("operation", request.operation())
        .setParameter("key", request.key())
        .executeUpdate();
  }

  /** Forgets this key if it is of yesterday, and some others that are, without waiting for any. */
  private void forgetOld(Request request) {
    Instant before = clock.instant().minus(KEPT);
    database
        .createNativeQuery(
            """
            delete from remembered_answer where caller = :caller and operation = :operation
            and key = :key and asked_at < :before
            """)
        .setParameter("caller", request.caller())
        .setParameter("operation", request.operation())
        .setParameter("key", request.key())
        .setParameter("before", before)
        .executeUpdate();
    database
        .createNativeQuery(
            """
            delete from remembered_answer where ctid in (select ctid from remembered_answer
            where asked_at < :before limit 100 for update skip locked)
            """)
        .setParameter("before", before)
        .executeUpdate();
  }
}
