package org.sapotrace.http;

/** Carries a problem from where it is found to where it is answered. */
final class ProblemException extends RuntimeException {

  private static final long serialVersionUID = 1L;

  // Never serialised; transient because a problem is not serialisable.
  private final transient Problem problem;

  ProblemException(Problem problem) {
    super(problem.detail());
    this.problem = problem;
  }

  Problem problem() {
    return problem;
  }
}
