package org.sapotrace.http;

import jakarta.persistence.OptimisticLockException;
import java.sql.SQLException;
import org.hibernate.StaleStateException;
import org.jspecify.annotations.Nullable;

/**
 * What a failure of the database means to the one who asked. Only what the caller can act on is
 * told: try again later, look again at what is recorded.
 */
final class DatabaseFaults {

  private static final String UNIQUE_VIOLATION = "23505";
  private static final String FOREIGN_KEY_VIOLATION = "23503";
  private static final String EXCLUSION_VIOLATION = "23P01";
  private static final String CHARACTER_NOT_IN_REPERTOIRE = "22021";
  private static final String QUERY_CANCELED = "57014";
  private static final String LOCK_NOT_AVAILABLE = "55P03";
  private static final String READ_ONLY_TRANSACTION = "25006";

  private DatabaseFaults() {}

  /** The problem that a failure is; null where it is none of the database's known ones. */
  static @Nullable Problem problem(Throwable failure) {
    if (failure instanceof OptimisticLockException || failure instanceof StaleStateException) {
      return Problem.of(
          ProblemType.CONFLICT, "It was changed by someone else meanwhile: look again and retry.");
    }
    return failure instanceof SQLException sql ? problem(sql.getSQLState()) : null;
  }

  private static @Nullable Problem problem(@Nullable String state) {
    if (state == null) {
      // The pool's own failures carry no state: no connection could be had in time.
      return unavailable();
    }
    return switch (state) {
      case UNIQUE_VIOLATION, EXCLUSION_VIOLATION ->
          Problem.of(ProblemType.CONFLICT, "The same is already recorded: look again and retry.");
      case FOREIGN_KEY_VIOLATION ->
          Problem.of(
              ProblemType.CONFLICT,
              "What this refers to has gone, or is still referred to: look again and retry.");
      case CHARACTER_NOT_IN_REPERTOIRE ->
          Problem.of(ProblemType.MALFORMED, "A text holds a character that cannot be stored.");
      case QUERY_CANCELED, LOCK_NOT_AVAILABLE, READ_ONLY_TRANSACTION -> unavailable();
      default -> isPassing(state.substring(0, Math.min(2, state.length()))) ? unavailable() : null;
    };
  }

  /**
   * Whether a class of SQLSTATE is one that time heals: connection exceptions, transaction
   * rollbacks (deadlock, serialisation), insufficient resources, operator intervention. Source:
   * PostgreSQL documentation, appendix A.
   */
  private static boolean isPassing(String stateClass) {
    return switch (stateClass) {
      case "08", "40", "53", "57" -> true;
      default -> false;
    };
  }

  private static Problem unavailable() {
    return Problem.of(
        ProblemType.UNAVAILABLE, "The record cannot be reached just now: try again shortly.");
  }
}
