package org.sapotrace.http;

import jakarta.persistence.OptimisticLockException;
import java.sql.SQLException;
import java.util.List;
import java.util.concurrent.RejectedExecutionException;
import java.util.function.Supplier;
import org.sapotrace.refusal.Refusal;
import org.sapotrace.refusal.Refusal.Fault;

/** What a resource may throw, and the answer that is due. */
public enum ProbeFailure {
  UNKNOWN(404, () -> Refusal.unknown("There is no line wheat.")),
  CONFLICT(409, () -> Refusal.conflict("It is closed.")),
  OUTDATED(412, () -> Refusal.outdated("It has changed.")),
  IMPOSSIBLE(422, () -> Refusal.impossible("#/sizeMl", "sizeMl is too much.")),
  IMPOSSIBLE_TWICE(
      422, () -> Refusal.impossible(List.of(new Fault("One.", "#/a"), new Fault("Two.", "#/b")))),
  NOT_YET(422, () -> Refusal.notYet("#/chart", "Charts are not drawn yet.")),
  WRAPPED(409, () -> new IllegalStateException(Refusal.conflict("It is closed."))),
  DEFECT(500, () -> new IllegalStateException("secret of org.example.Inner")),
  STACK(500, StackOverflowError::new),
  NO_MESSAGE(500, NullPointerException::new),
  STALE(409, () -> new OptimisticLockException("row of table x")),
  DUPLICATE(409, () -> wrapped("23505")),
  REFERRED(409, () -> wrapped("23503")),
  BAD_CHARACTER(400, () -> wrapped("22021")),
  DEADLOCK(503, () -> wrapped("40P01")),
  LOCKED(503, () -> wrapped("55P03")),
  UNREACHABLE(503, () -> wrapped("08006")),
  SHUTDOWN(503, () -> wrapped("57P01")),
  POOL(503, () -> wrapped(null)),
  SYNTAX(500, () -> wrapped("42601")),
  BUSY(503, () -> new RejectedExecutionException("queue of org.example.Pool"));

  private final int status;
  private final Supplier<Throwable> failure;

  ProbeFailure(int status, Supplier<Throwable> failure) {
    this.status = status;
    this.failure = failure;
  }

  public int status() {
    return status;
  }

  Exception make() {
    Throwable made = failure.get();
    if (made instanceof Error error) {
      throw error;
    }
    return (Exception) made;
  }

  private static RuntimeException wrapped(String state) {
    return new IllegalStateException(
        "could not execute statement of org.example.Entity",
        new SQLException("ERROR: relation \"secret_table\"", state));
  }
}
